"""What is to be done, month by month: sowing, canner days, what to eat first, gauge tests, skills?"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Choice, Names, sentence
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.enough.asked import number_of
from ledger.questions.quantities import about
from ledger.questions.shared.common import answer
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "Doing", "build", "doings"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why` of the figure it comes from; null where it comes from a rule."),
    Column("month", "Month", "", "Year and month.", main=True),
    Column("day", "Day", "day", "When, or from when.", main=True),
    Column("until", "Until", "day", "Last day of it; null where it is one day."),
    Column("kind", "Kind", "", "sowing, putting up, eat first, gauge, or skill.", main=True),
    Column("what", "What", "", "What is to be done, in words.", main=True),
    Column("id", "Id", "", "What it is, whatever its day: a calendar keeps it by that."),
    Column("assumptions", "Assumptions", "", "Ids of what it rests on."),
)  # fmt: skip
_MONTHS = 12.0
_EAT_DAYS = 92
_GAUGE_DAYS = 365


@dataclass(frozen=True)
class Doing:
    """One thing to do: its day (days since 1970), its last day, kind, words, id and address."""

    day: int
    until: int | None
    kind: str
    what: str
    id: str
    why: str | None = None


def build(state: State, *, months: str | float | None = None, risk: str | None = None) -> Answer:
    """Return one record a thing to do, by day.

    Parameters
    ----------
    state : State
    months : text or float, optional
        How many months ahead; default 12.
    risk : text, optional
        Of frost, as for when-to-sow.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    ahead = number_of(months, "months", _MONTHS, most=24)
    found = doings(state, ahead, risk)
    records = [_record(one) for one in found]
    totals: dict[str, Any] = {"things": len(records)}
    totals["in_words"] = [
        sentence("months-things-months-writes-them-calendar", n=len(records), n2=about(ahead))
    ]
    left_out = sorted(_not_published(state))
    if left_out:
        totals["missing"] = [sentence("months-no-day-put-up-set", names=Names(tuple(left_out)))]
    if not records:
        totals["missing"] = [sentence("months-nothing-planned-plantings-frost-days")]
    return answer(state, "month-by-month", COLUMNS, records, totals=totals, assumptions=_notes())


def doings(state: State, months: float = _MONTHS, risk: str | None = None) -> list[Doing]:
    """Return what is to be done from today on, by day."""
    end = state.as_of_day + round(months * 365.2425 / 12)
    found = [
        *_sowing(state, risk),
        *_putting_up(state),
        *_eat_first(state),
        *_gauges(state),
        *_skills(state),
    ]
    kept = [one for one in found if state.as_of_day <= (one.until or one.day) and one.day <= end]
    return sorted(kept, key=lambda one: (one.day, one.kind, one.what))


def _record(one: Doing) -> dict[str, Any]:
    day = day_text(one.day)
    return {
        "why": one.why,
        "month": day[:7],
        "day": day,
        "until": None if one.until is None else day_text(one.until),
        "kind": one.kind,
        "what": one.what,
        "id": one.id,
        "assumptions": ["process"] if one.kind == "putting up" else [],
    }


def _notes() -> list[Assumption]:
    return [
        Assumption("process", sentence("months-how-long-how-hot-how")),
        Assumption("eat", sentence("months-eat-first-what-passes-date", n=_EAT_DAYS)),
        Assumption("gauge", sentence("months-dial-gauge-tested-each-year")),
    ]  # fmt: skip


def _sowing(state: State, risk: str | None) -> Iterator[Doing]:
    from ledger.questions.shared.frosts import frosts_of
    from ledger.questions.shared.sown import sown_of
    from ledger.questions.when_to_sow.question import year_of
    from ledger.questions.when_to_sow.risk import risk_of

    chance = risk_of(risk)
    first = year_of(state, frosts_of(state), chance, None)
    for year in range(first - 1, first + 2):
        for one in sown_of(state, chance, year):
            at, why = one.dates, f"when-to-sow/{year}/{chance:g}/{one.name}"

            def on(day: float | None, at: Any = at) -> int | None:
                return None if day is None else day_number(at.iso(day))

            steps = [
                (
                    "indoors",
                    on(at.indoors_from),
                    on(at.indoors_to),
                    sentence("months-start-indoors", crop=one.name),
                ),
                (
                    "out",
                    on(at.out_from),
                    None,
                    sentence(
                        "months-outdoors",
                        how=Choice("out" if one.how == "set out" else "sow"),
                        crop=one.name,
                        soil=about(one.row.soil_min_f) if one.row and one.row.soil_min_f else None,
                    ),
                ),
                (
                    "last",
                    on(at.last),
                    None,
                    sentence(
                        "months-last", crop=one.name, where=Choice("in" if one.raised else "out")
                    ),
                ),
                *(
                    (f"again {n}", on(day), None, sentence("months-sow-again", crop=one.name))
                    for n, day in enumerate(at.again, 1)
                ),
            ]
            for name, day, until, what in steps:
                if day is not None:
                    yield Doing(day, until, "sowing", what, f"{name}/{one.name}/{year}", why)


def _putting_up(state: State) -> Iterator[Doing]:
    from ledger.questions.next_season.question import build as next_season

    number: dict[tuple[str, str], int] = {}
    left_out = _not_published(state)
    for row in next_season(state, preserving=True).rows():
        if row["week"] is None or row["item"] in left_out:
            continue
        day = day_number(row["week"])
        key = row["item"], row["week"][:4]
        number[key] = number.get(key, 0) + 1
        what = sentence(
            "months-put-up",
            name=row["item"],
            makes=row["makes"],
            takes=row["takes"],
            loads=row["loads"] or None,
        )
        yield Doing(
            day,
            day + 6,
            "putting up",
            what,
            f"putup/{row['item']}/{key[1]}/{number[key]}",
            row["why"],
        )


def _not_published(state: State) -> set[str]:
    """Return what is put up of which no batch stands as published: no day is set for it."""
    from ledger.questions.glut.house import published_batch
    from ledger.questions.shared.usual_plan import usual_plan

    made = usual_plan(state).recipes.made
    names = state.facts.names
    return {
        names[item]
        for item, one in made.items()
        if one.method != "cook" and published_batch(state, one) is None
    }


def _eat_first(state: State) -> Iterator[Doing]:
    from ledger.questions.shared.larder import larder_of
    from ledger.questions.shared.use_by import use_by_of

    first: dict[tuple[str, int], int] = {}
    for lot in larder_of(state).there.tolist():
        day, _ = use_by_of(state, lot)
        if day is not None and state.as_of_day <= day <= state.as_of_day + _EAT_DAYS:
            first.setdefault((state.facts.names[int(state.lots["item"][lot])], day), lot)
    for (name, day), lot in first.items():
        yield Doing(
            day,
            None,
            "eat first",
            sentence("months-eat-last-day", name=name),
            f"eat/{state.lot_id(lot)}",
            f"shelf/{state.lot_id(lot)}",
        )


def _gauges(state: State) -> Iterator[Doing]:
    from ledger.questions.shared.gauges import gauge_tests

    last = {test.gauge: test for test in gauge_tests(state)}
    for test in last.values():
        day = max(test.day + _GAUGE_DAYS, state.as_of_day)
        year = (dt.date(1970, 1, 1) + dt.timedelta(days=day)).year
        yield Doing(
            day,
            None,
            "gauge",
            sentence("months-have-gauge-tested", name=test.name),
            f"gauge/{test.gauge}/{year}",
        )


def _skills(state: State) -> Iterator[Doing]:
    from ledger.questions.know_how.question import build as know_how

    for row in know_how(state).rows():
        if row["person"] is not None or row["rusts_on"] is None:
            continue
        day = day_number(row["rusts_on"])
        if day >= state.as_of_day:
            yield Doing(
                day,
                None,
                "skill",
                sentence("months-practise-before-goes-rusty", skill=row["skill"]),
                f"skill/{row['skill']}/{row['last_on']}",
                row["why"],
            )


PROJECTION = Projection(
    name="month-by-month",
    title="Month by month",
    question="What is to be done month by month: sowing, canner days, what to eat first, gauge tests, skills?",
    columns=COLUMNS,
    build=build,
    options=(
        Option("months", "how many months ahead (12 unless said)", "6"),
        Option("risk", "part of years whose frost comes later in spring (0.1 unless said)", "0.2"),
    ),
)
