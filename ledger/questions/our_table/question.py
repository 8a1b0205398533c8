"""What share of what we ate was our own, by energy, by weight and by shop value?"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Code, Day, Message, Names, Typed, sentence
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.questions.answering import answer
from ledger.questions.food import BASES, FoodFigures
from ledger.questions.our_table.ends import Ends
from ledger.questions.our_table.paths import PATH_COLUMNS, path_records, path_totals
from ledger.questions.our_table.records import Answered, Asked
from ledger.questions.our_table.why import why
from ledger.questions.our_table.words import FORTNIGHT
from ledger.questions.periods import Period, day_of, periods_of, places_of
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("period", "Period", "", "Days (first/last, both included), month or year.", main=True),
    Column("basis", "By", "", "energy, weight (of the raw things as they came in) or value (at the shop's price of the day of use).", main=True),
    Column("origin", "Origin", "", "grown, foraged, given, bought, found by a count, or unrecorded: eaten but never written down as coming in.", main=True),
    Column("amount", "Amount", "kcal, g or money", "What the household ate of it, guests and leftovers taken off; null where no figure of it is known."),
    Column("unit", "Unit", "", "kcal, g, or the book's currency."),
    Column("text", "Amount", "", "The same in words.", main=True),
    Column("share_of_eaten", "Share", "0 to 1", "Part of all that was eaten in the period, by that basis; null where nothing is known to have been eaten.", main=True),
    Column("share_of_need", "Of need", "0 to 1, or more", "Part of what the people at the table need in those days (energy only); null where people or kcal_per_person_day is not set.", main=True),
    Column("feed_adjusted_share", "Own feed only", "0 to 1", "Grown: with each animal product times the grown share, by weight, of what the animals were given that season; the others: as eaten. Null where a season's feed is not known.", main=True),
    Column("at_least", "At least", "yes or no", "Something in it has no known price, weight or energy, so it is more."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_SHARES = ("share_of_eaten", "share_of_need", "feed_adjusted_share")


def build(
    state: State,
    *,
    from_: str | None = None,
    to: str | None = None,
    by: str | None = None,
    basis: str | None = None,
    paths: bool = False,
    **more: Any,
) -> Answer:
    """Return one record a period, basis and origin.

    Parameters
    ----------
    state : State
    from_, to : date or ISO text, optional
        First and last day, both included; default: the first day on which something was eaten,
        and the answer's own day. ``from`` is taken as well.
    by : {'month', 'year'}, optional
        One set of records for each; those in which nothing eaten is written down are left out.
    basis : {'energy', 'weight', 'value'}, optional
        Only that one.
    paths : bool
        Instead, one record a path of the food through the whole time asked for: columns as in
        `PATH_COLUMNS`. Their weights and energies are what was there before and what came in.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`. Of the whole time asked for, by basis, `totals` has:
        ``eaten_based`` (grown / eaten, the share of the Japanese calorie ratio), ``feed_adjusted``
        (the same with animal products adjusted), ``production_based`` (grown / (grown + came in -
        given away - stock change), FAO's self-sufficiency ratio with stocks), ``eaten``,
        ``need_kcal``, the accounts behind the second ratio, ``periods`` with the ratios of each
        where there are several, ``in_words`` and ``missing``: sentences.

    Raises
    ------
    InputError
        When a day is no day, or the period ends before it begins.
    """
    first = more.pop("from", from_)
    if more:
        raise TypeError(f"our-table has no option {next(iter(more))!r}")
    if basis is not None and basis not in BASES:
        raise InputError(
            "basis", Message.of("refusal-no-basis", text=Typed(basis), names=Names(tuple(BASES)))
        )
    food = state.once(FoodFigures)
    asked = _asked(state, food, first, to, by)
    if paths:
        return _paths(state, asked)
    records_of = Answered(state, food, asked)
    records = records_of.records(BASES if basis is None else (basis,))
    columns: tuple[Column, ...] = COLUMNS
    totals = records_of.totals()
    if totals.get("days_eaten", FORTNIGHT) < FORTNIGHT:  # too few to show, not to reckon
        columns = tuple(replace(c, main=c.main and c.name not in _SHARES) for c in columns)
    if len(asked.periods) == 1:  # said once, not in every row
        columns = tuple(replace(c, main=c.main and c.name != "period") for c in columns)
        totals["in_words"] = [_eaten_in(asked.periods[0]), *totals["in_words"]]
    return answer(
        state, "our-table", columns, records, totals=totals, assumptions=records_of.assumptions()
    )


def _eaten_in(period: Period) -> str:
    first, _, last = period.label.partition("/")
    if last:
        return sentence("eaten-from-to", day=Day(first), day2=Day(last))
    return sentence("eaten-in", period=Code(first))


def _paths(state: State, asked: Asked) -> Answer:
    records: list[dict[str, Any]] = []
    totals: dict[str, Any] = {}
    if asked.whole is not None:
        records = path_records(Ends(state, asked.whole))
        totals = path_totals(state, asked.whole, records)
    if not records and asked.says:
        totals["missing"] = [asked.says]
    return answer(state, "our-table", PATH_COLUMNS, records, totals=totals)


def _asked(state: State, food: FoodFigures, first: Any, last: Any, by: str | None) -> Asked:
    """Return the periods asked for; days still to come are left out."""
    start, end = day_of(first, "from"), day_of(last, "to")
    if start is not None and end is not None and end < start:
        raise InputError(
            "to",
            Message.of(
                "refusal-period-backwards", last=Day(day_text(end)), first=Day(day_text(start))
            ),
        )
    today = state.as_of_day
    days = food.eaten.days()
    if start is None:
        start = min(days[0] if days else today, end if end is not None else today)
    if start > today:
        says = sentence("eaten-day-ahead", day=Day(day_text(start)), day2=Day(day_text(today)))
        return Asked([], None, says)
    end = today if end is None else min(end, today)
    periods = periods_of(start, end, by)
    place = places_of(periods, food.eaten.day)
    held = np.bincount(place[place >= 0], minlength=len(periods)) > 0
    kept = [one for one, some in zip(periods, held.tolist(), strict=True) if some]
    whole = periods_of(start, end, None)[0]
    if not kept:
        between = {"day": Day(day_text(start)), "day2": Day(day_text(end))}
        says = sentence("eaten-nothing", **between)
        return Asked([], whole, says)
    return Asked(kept, whole)


_COMPARED = {"value": "value", "weight": "g"}
"""What is compared, by the basis whose amount it is."""


def _by_origin(found: Answer) -> list[dict[str, Any]]:
    """Return weight and shop value side by side, one record a period and origin."""
    rows: dict[tuple[str, str], dict[str, Any]] = {}
    for r in found.records():
        row = rows.setdefault(
            (r["period"], r["origin"]),
            {"origin": r["origin"], "assumptions": [], "addresses": {}, "bounds": {}},
        )
        row["assumptions"] += r["assumptions"]
        name = _COMPARED.get(r["basis"])
        if name is not None:
            row |= {name: r["amount"]}
            row["addresses"][name] = (r["why"], "amount")
            row["bounds"][name] = "≥" if r["at_least"] else ""
    return list(rows.values())


PROJECTION = Projection(
    name="our-table",
    title="Our table",
    question="What share of what we ate was our own, by energy, by weight and by shop value?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("from", "first day, that day included", "2026-01-01", kind="day"),
        Option("to", "last day, that day included", "2026-12-31", kind="day"),
        Option("by", "one answer for each month or year", "month", choices=("month", "year")),
        Option("paths", "where all food came from, what it was made into and where it ended", "--paths", kind="flag"),
        Option("basis", "only this one", "energy", choices=BASES),
    ),
    variants={"paths": PATH_COLUMNS},
    compared=Compared("origin", ("g",), "value", "compare-eaten-value", rows=_by_origin),
)  # fmt: skip
