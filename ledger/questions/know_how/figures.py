"""The formulas of know-how: each gives the column for all records, and the tree for one."""

from __future__ import annotations

from collections.abc import Callable

from ledger.figures import Figure, if_known, known_where, total, unknown
from ledger.messages import Code, sentence
from ledger.methods.learning import LEAST_REPETITIONS, LearningCurve
from ledger.questions.know_how.curves import Curve, Curves
from ledger.questions.know_how.gather import Records, Standings
from ledger.questions.know_how.labels import LABELS
from ledger.questions.know_how.targets import Targets
from ledger.questions.shelf.gather import answers_day
from ledger.questions.telling import label_day
from ledger.replay import State

__all__ = ["MONTHS", "KnowHow", "curve_figures", "month_figures"]

MONTHS = tuple(f"m{n:02d}" for n in range(1, 13))


class KnowHow:
    """Every figure of skills and who practises them; a row is a record.

    Attributes
    ----------
    of : dict of str to Figure
        By the name of its column.
    """

    def __init__(self, state: State) -> None:
        self.records, self.standings = state.once(Records), Standings(state)
        self.curves, self.targets = Curves(state), Targets(state)
        self.of = {
            **_standings(self.records, self.standings, self.targets),
            **_times(self.records),
            **_means(self.records, self.curves),
            **_learning(self.curves),
            **_target(self.records, self.targets),
        }


def _times(records: Records) -> dict[str, Figure]:
    skills = records.skills
    this_year = records.times(skills.day >= skills.year_from)
    gap, middle, many = records.gaps
    rhythm = middle.mean(gap).called("rhythm_days", n=lambda row: int(many[row]))
    return {
        "times": records.times(records.of >= 0).called("times"),
        "times_this_year": this_year.called("times_this_year", year=skills.year),
        "rhythm_days": if_known(rhythm, "too-seldom", "days"),
    }


def _standings(records: Records, standings: Standings, targets: Targets) -> dict[str, Figure]:
    today = answers_day(records.state)
    since = (today - records.day.at(records.last)).called("days_since", unit="days")
    days_since = if_known(since, "never-practised", "days")
    keeps = if_known(standings.keeps().called("keeps_days"), "by-seasons")
    rusts_on = standings.rusts_on(keeps)
    rusts_in = (rusts_on.called("rusts_on") - today).called(
        "rusts_in_days", unit="days", day=lambda row: label_day(int(rusts_on.value(row)))
    )
    return {
        "standing": standings.word(days_since, keeps, targets.wanted).called(
            "standing", text=lambda row: standings.of[row].because
        ),
        "days_since": days_since,
        "keeps_days": keeps,
        "rusts_in_days": if_known(rusts_in, "not-in-hand", "days"),
    }


def _means(records: Records, curves: Curves) -> dict[str, Figure]:
    """Return the means of the latest three that tell, and of those before them."""
    out: dict[str, Figure] = {}
    each = {
        "went": (records.went, "1 to 5"),
        "minutes": (records.minutes, "minutes"),
        "minutes_per_unit": (curves.each, "minutes per unit"),
    }
    for name, (figure, unit) in each.items():
        for end, which in zip(("lately", "before"), records.latest(figure), strict=True):
            label = f"{name}_{end}"
            mean = if_known(which.mean(figure), "nobody-said", unit)
            out[label] = mean.called(label, what=lambda _, of=label: sentence(LABELS[of]))
    return out


def _learning(curves: Curves) -> dict[str, Figure]:
    each = {
        "learning_rate": curves.fitted("rate"),
        "learning_rate_low": curves.fitted("rate_low"),
        "learning_rate_high": curves.fitted("rate_high"),
        "learning_repetitions": curves.batches(),
    }
    return {name: _fitted(one, name, curves.have) for name, one in each.items()}


def _fitted(figure: Figure, name: str, have: int | Callable[[int], int]) -> Figure:
    return if_known(figure, "few-batches").called(name, n=have, n2=LEAST_REPETITIONS)


def _target(records: Records, targets: Targets) -> dict[str, Figure]:
    done = records.times(targets.counts).called("done", period=lambda row: targets.period[row])
    needed = targets.needed()
    each = {
        "target_times": targets.wanted,
        "target_done": done,
        "target_met": targets.met(done, needed).called("target_met"),
    }
    return {name: known_where(targets.has, one, "no-target") for name, one in each.items()}


def month_figures(records: Records, year: int) -> dict[str, Figure]:
    """Return how often each skill was practised in a year and its months; a row is a record."""
    months, begun = records.months(year)
    to_come = unknown("times", "month-to-come", records.count)
    out = {"times": total(*months).called("times_this_year", year=year)}
    for at, (name, times) in enumerate(zip(MONTHS, months, strict=True)):
        month = times if at < begun else to_come
        out[name] = month.called("times-in-month", month=Code(f"{year}-{at + 1:02d}"))
    return out


def curve_figures(curve: Curve) -> dict[str, Figure]:
    """Return minutes of one record's practices, and the curve along them; a row is a practice."""
    likely = curve.along(LearningCurve.minutes, curve.unit).called("fitted_likely")
    factor = curve.along(LearningCurve.range_factor, "").called("range-of-curve")
    have = curve.have(curve.record)
    line = curve.folded(likely, "fitted_likely")
    fitted = {
        "fitted_low": (line / factor).called("fitted_low"),
        "fitted_likely": likely,
        "fitted_high": (line * factor).called("fitted_high"),
    }
    return {
        "minutes_per_unit": curve.each,
        "minutes": curve.spent,
        "made": curve.made,
        "repetition": curve.repetition,
        **{name: _fitted(one, name, have) for name, one in fitted.items()},
    }
