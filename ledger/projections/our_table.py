"""What share of what we ate was our own, by energy, by weight and by shop value?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.methods.ratios import ratio
from ledger.projections import _table_why
from ledger.projections._common import answer
from ledger.projections._table_eaten import BASES, SIX, Eaten, eaten_of
from ledger.projections._table_flow import PATH_COLUMNS, path_records, path_totals
from ledger.projections._table_marks import Mark, is_lacking, rests_on
from ledger.projections._table_paths import Paths
from ledger.projections._table_periods import Period, day_of, need_of, periods_of
from ledger.projections._table_words import FORTNIGHT, in_words, missing_of
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.replay.columns import Array
from ledger.replay.state import day_text

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
_NOTHING = 1e-12
"""Share of a period's total below which an origin is what rounding leaves, and not listed."""


@dataclass(frozen=True)
class _Asked:
    """What is asked: periods, and what stands in their way."""

    periods: list[Period]
    whole: Period | None
    says: str | None = None


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
        raise InputError("basis", f"{basis!r} is no basis", f"Write one of: {', '.join(BASES)}")
    eaten = eaten_of(state)
    asked = _asked(state, eaten, first, to, by)
    if paths:
        return _paths(state, eaten, asked)
    table = _Table(state, eaten, asked)
    records = table.records(BASES if basis is None else (basis,))
    columns: tuple[Column, ...] = COLUMNS
    totals = table.totals()
    if totals.get("days_eaten", FORTNIGHT) < FORTNIGHT:  # too few to show, not to reckon
        columns = tuple(replace(c, main=c.main and c.name not in _SHARES) for c in columns)
    if len(asked.periods) == 1:  # said once, not in every row
        columns = tuple(replace(c, main=c.main and c.name != "period") for c in columns)
        totals["in_words"] = [_eaten_in(asked.periods[0]), *totals["in_words"]]
    return answer(
        state, "our-table", columns, records, totals=totals, assumptions=table.assumptions()
    )


def _eaten_in(period: Period) -> str:
    first, _, last = period.label.partition("/")
    return f"Eaten from {first} to {last}." if last else f"Eaten in {first}."


def _paths(state: State, eaten: Eaten, asked: _Asked) -> Answer:
    records: list[dict[str, Any]] = []
    totals: dict[str, Any] = {}
    if asked.whole is not None:
        records = path_records(Paths(eaten, asked.whole))
        totals = path_totals(eaten, asked.whole, records)
    if not records and asked.says:
        totals["missing"] = [asked.says]
    return answer(state, "our-table", PATH_COLUMNS, records, totals=totals)


def _asked(state: State, eaten: Eaten, first: Any, last: Any, by: str | None) -> _Asked:
    """Return the periods asked for; days still to come are left out."""
    start, end = day_of(first, "from"), day_of(last, "to")
    if start is not None and end is not None and end < start:
        raise InputError(
            "to", f"{day_text(end)} is before {day_text(start)}", "Give the earlier day as from"
        )
    today = state.as_of_day
    days = eaten.days()
    if start is None:
        start = min(days[0] if days else today, end if end is not None else today)
    if start > today:
        says = f"{day_text(start)} is after {day_text(today)}, the day of this answer: nothing has happened yet."
        return _Asked([], None, says)
    end = today if end is None else min(end, today)
    periods = periods_of(start, end, by)
    place = eaten.places(periods)
    held = set(place[place >= 0].tolist())
    kept = [one for number, one in enumerate(periods) if number in held]
    whole = periods_of(start, end, None)[0]
    if not kept:
        says = f"Nothing eaten is written down between {day_text(start)} and {day_text(end)}: `croftbook meal` takes what was on the table."
        return _Asked([], whole, says)
    return _Asked(kept, whole)


class _Table:
    """Records and totals of one question."""

    def __init__(self, state: State, eaten: Eaten, asked: _Asked) -> None:
        self.state, self.eaten, self.asked = state, eaten, asked
        self.currency = state.settings.newest("currency") or "USD"
        self.measures = state.settings.newest("measures", "us") or "us"
        periods = asked.periods
        self.amounts = eaten.amounts(periods)
        self.off = eaten.taken_off(periods)
        self.marks = eaten.marks.of(periods)
        self.used: set[str] = set()

    def records(self, bases: tuple[str, ...]) -> list[dict[str, Any]]:
        """Return the records, flat."""
        out = []
        for number, period in enumerate(self.asked.periods):
            need = need_of(self.state, period)
            shown = self._origins(number)
            for basis in bases:
                out += [self._record(number, period, basis, i, need) for i in shown]
        return out

    def _origins(self, number: int) -> list[int]:
        """Return the origins to list: grown, bought, and those of which anything was eaten."""
        row = self.amounts[number]
        some = (row > row.sum(axis=1, keepdims=True) * _NOTHING).any(axis=0).tolist()
        marked = {mark[2] for mark in self.marks[number] if mark[0].startswith("no ")}
        return [
            i
            for i, name in enumerate(SIX)
            if name in ("grown", "bought") or some[i] or (i in marked and not row[:, i].any())
        ]

    def _record(
        self, number: int, period: Period, basis: str, i: int, need: float | None
    ) -> dict[str, Any]:
        b = BASES.index(basis)
        row = self.amounts[number, b]
        rests = rests_on(self.marks[number], basis, i)
        lacking = is_lacking(rests)
        amount = None if lacking and not row[i] else float(row[i])
        feedless = any(mark[0] == "feed" for mark in rests)
        adjusted = (
            None
            if feedless or amount is None
            else amount - (float(self.off[number, b]) if SIX[i] == "grown" else 0.0)
        )
        total = float(row.sum())
        ids = sorted(f"{kind}:{name}" for kind, name, _ in rests)
        self.used.update(ids)
        return {
            "why": f"our-table/{period.address}/{basis}/{SIX[i]}",
            "period": period.label,
            "basis": basis,
            "origin": SIX[i],
            "amount": amount,
            "unit": {"energy": "kcal", "weight": "g"}.get(basis, self.currency),
            "text": self._said(amount, basis),
            "share_of_eaten": ratio(amount, total),
            "share_of_need": ratio(amount, need) if basis == "energy" else None,
            "feed_adjusted_share": ratio(adjusted, total),
            "at_least": lacking,
            "assumptions": ids,
        }

    def _said(self, amount: float | None, basis: str) -> str | None:
        if amount is None:
            return None
        if basis == "weight":
            return format_whole(round(amount * 1000), "mass", measures=self.measures)
        return f"{amount:,.0f} kcal" if basis == "energy" else f"{amount:,.2f} {self.currency}"

    def totals(self) -> dict[str, Any]:
        """Return the two ratios of the whole time, what they are made of, and what is missing."""
        whole, periods = self.asked.whole, self.asked.periods
        missing = [] if self.asked.says is None else [self.asked.says]
        out: dict[str, Any] = {}
        if whole is not None and periods:
            # Periods in which nothing was eaten are left out: the others are the whole.
            amounts, off = self.amounts.sum(axis=0), self.off.sum(axis=0)
            need = need_of(self.state, whole)
            out = self._ratios(amounts, off, set().union(*self.marks))
            out["eaten"] = dict(zip(BASES, amounts.sum(axis=1).tolist(), strict=True))
            out["of_need"] = {"grown": ratio(float(amounts[0, 0]), need), "all eaten": ratio(float(amounts[0].sum()), need)}  # fmt: skip
            out["need_kcal"] = need
            out["days"], out["days_eaten"] = whole.days, self.days_eaten(whole)
            missing += missing_of(self.eaten, whole, need)
        if whole is not None:
            accounts = self.eaten.accounts.of(whole)
            out["production_based"] = {basis: one.ratio for basis, one in accounts.items()}
            out["accounts"] = {basis: one.to_dict() for basis, one in accounts.items()}
        if len(periods) > 1:
            out["periods"] = [self._of_period(number) for number in range(len(periods))]
        return {**out, "in_words": in_words(out), "missing": missing}

    def days_eaten(self, whole: Period) -> int:
        """Return on how many days of a period something eaten is written down."""
        day = self.eaten.day
        return int(np.unique(day[(day >= whole.start) & (day <= whole.end)]).size)

    def _of_period(self, number: int) -> dict[str, Any]:
        """Return the ratios of one period of several."""
        period = self.asked.periods[number]
        accounts = self.eaten.accounts.of(period)
        return {
            "period": period.label,
            **self._ratios(self.amounts[number], self.off[number], self.marks[number]),
            "production_based": {basis: one.ratio for basis, one in accounts.items()},
            "need_kcal": need_of(self.state, period),
        }

    def _ratios(self, amounts: Array, off: Array, marks: set[Mark]) -> dict[str, Any]:
        """Return the eaten-based shares by basis, and the same adjusted for feed."""
        own, adjusted = {}, {}
        is_open = any(mark[0] == "feed" for mark in marks)
        for i, basis in enumerate(BASES):
            grown, total = float(amounts[i, 0]), float(amounts[i].sum())
            blind = not grown and is_lacking(rests_on(marks, basis, 0))
            own[basis] = None if blind else ratio(grown, total)
            adjusted[basis] = None if blind or is_open else ratio(grown - float(off[i]), total)
        return {"eaten_based": own, "feed_adjusted": adjusted}

    def assumptions(self) -> list[Assumption]:
        """Return what the records rest on, in words."""
        return [self.eaten.marks.assumption(one) for one in sorted(self.used)]


def _by_origin(found: Answer) -> list[dict[str, Any]]:
    """Return weight and shop value side by side, one record a period and origin."""
    rows: dict[tuple[str, str], dict[str, Any]] = {}
    for r in found.records():
        row = rows.setdefault(
            (r["period"], r["origin"]), {"origin": r["origin"], "assumptions": []}
        )
        row["assumptions"] += r["assumptions"]
        if r["basis"] == "value":
            row |= {"value": r["amount"], "why": r["why"]}
        elif r["basis"] == "weight":
            row["g"] = r["amount"]
    return list(rows.values())


PROJECTION = Projection(
    name="our-table",
    title="Our table",
    question="What share of what we ate was our own, by energy, by weight and by shop value?",
    columns=COLUMNS,
    build=build,
    why=_table_why.why,
    options=(
        Option("from", "first day, that day included", "2026-01-01", kind="day"),
        Option("to", "last day, that day included", "2026-12-31", kind="day"),
        Option("by", "one answer for each month or year", "month", choices=("month", "year")),
        Option("paths", "where all food came from, what it was made into and where it ended", "--paths", kind="flag"),
        Option("basis", "only this one", "energy", choices=BASES),
    ),
    variants={"paths": PATH_COLUMNS},
    compared=Compared("origin", ("g",), "value", "Shop value of what we ate", rows=_by_origin),
)  # fmt: skip
