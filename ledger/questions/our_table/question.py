"""What share of what we ate was our own, by energy, by weight and by shop value?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.answers import Assumption
from ledger.errors import InputError
from ledger.figures import Array, Figure
from ledger.methods.ratios import ratio
from ledger.projections.base import Answer, Column, Compared, Option, Projection
from ledger.questions.answering import answer
from ledger.questions.food import BASES, SIX, FoodFigures
from ledger.questions.our_table.balance import Accounts
from ledger.questions.our_table.ends import Ends
from ledger.questions.our_table.figures import figures, needed
from ledger.questions.our_table.gather import Need, Table
from ledger.questions.our_table.marks import Mark, Marks, is_lacking, rests_on
from ledger.questions.our_table.paths import PATH_COLUMNS, path_records, path_totals
from ledger.questions.our_table.why import why
from ledger.questions.our_table.words import FORTNIGHT, in_words, missing_of
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
    food = state.once(FoodFigures)
    asked = _asked(state, food, first, to, by)
    if paths:
        return _paths(state, asked)
    records_of = _Answered(state, food, asked)
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
    return f"Eaten from {first} to {last}." if last else f"Eaten in {first}."


def _paths(state: State, asked: _Asked) -> Answer:
    records: list[dict[str, Any]] = []
    totals: dict[str, Any] = {}
    if asked.whole is not None:
        records = path_records(Ends(state, asked.whole))
        totals = path_totals(state, asked.whole, records)
    if not records and asked.says:
        totals["missing"] = [asked.says]
    return answer(state, "our-table", PATH_COLUMNS, records, totals=totals)


def _asked(state: State, food: FoodFigures, first: Any, last: Any, by: str | None) -> _Asked:
    """Return the periods asked for; days still to come are left out."""
    start, end = day_of(first, "from"), day_of(last, "to")
    if start is not None and end is not None and end < start:
        raise InputError(
            "to", f"{day_text(end)} is before {day_text(start)}", "Give the earlier day as from"
        )
    today = state.as_of_day
    days = food.eaten.days()
    if start is None:
        start = min(days[0] if days else today, end if end is not None else today)
    if start > today:
        says = f"{day_text(start)} is after {day_text(today)}, the day of this answer: nothing has happened yet."
        return _Asked([], None, says)
    end = today if end is None else min(end, today)
    periods = periods_of(start, end, by)
    place = places_of(periods, food.eaten.day)
    held = np.bincount(place[place >= 0], minlength=len(periods)) > 0
    kept = [one for one, some in zip(periods, held.tolist(), strict=True) if some]
    whole = periods_of(start, end, None)[0]
    if not kept:
        says = f"Nothing eaten is written down between {day_text(start)} and {day_text(end)}: `croftbook meal` takes what was on the table."
        return _Asked([], whole, says)
    return _Asked(kept, whole)


class _Answered:
    """Records and totals of one question: the figures as cells, and the names beside them."""

    def __init__(self, state: State, food: FoodFigures, asked: _Asked) -> None:
        self.state, self.food, self.asked = state, food, asked
        self.currency = state.settings.newest("currency") or "USD"
        self.measures = state.settings.newest("measures", "us") or "us"
        self.table = Table(state, asked.periods)
        self.marks = self.table.marks
        self.figures = {basis: figures(self.table, basis) for basis in BASES}
        self.amounts = np.stack([self._of(basis, "amount") for basis in BASES], axis=1)
        self.used: set[str] = set()

    def _of(self, basis: str, column: str) -> Array:
        """Return a figure of all origins, shape (periods, 6); what cannot be said is 0."""
        known = self.figures[basis]
        several = [known[one][column].values for one in SIX]
        return np.asarray(np.nan_to_num(np.stack(several, axis=1)))

    @property
    def off(self) -> Array:
        """What feed from elsewhere made of the grown, shape (periods, 3)."""
        if not self.table.has_fed:
            return np.zeros((len(self.asked.periods), len(BASES)))
        of_grown = [self.figures[basis]["grown"]["bought_feed"].values for basis in BASES]
        return np.stack(of_grown, axis=1)

    def records(self, bases: tuple[str, ...]) -> list[dict[str, Any]]:
        """Return the records, flat."""
        cells = {
            (basis, origin): {
                name: _cells(one) for name, one in columns.items() if name != "bought_feed"
            }
            for basis in bases
            for origin, columns in self.figures[basis].items()
        }
        out = []
        for number, period in enumerate(self.asked.periods):
            shown = self._origins(number)
            for basis in bases:
                for i in shown:
                    known = {name: one[number] for name, one in cells[basis, SIX[i]].items()}
                    out.append(self._record(number, period, basis, i, known))
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
        self, number: int, period: Period, basis: str, i: int, known: dict[str, float | None]
    ) -> dict[str, Any]:
        ids = sorted(f"{kind}:{name}" for kind, name, _ in rests_on(self.marks[number], basis, i))
        self.used.update(ids)
        amount = self.figures[basis][SIX[i]]["amount"]
        return {
            "why": f"our-table/{period.address}/{basis}/{SIX[i]}",
            "period": period.label,
            "basis": basis,
            "origin": SIX[i],
            "unit": {"energy": "kcal", "weight": "g"}.get(basis, self.currency),
            "text": self._said(known["amount"], basis),
            "share_of_need": None,
            **known,
            "at_least": known["amount"] is None or amount.bound_of(number) > 0,
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
        accounts = self.state.once(Accounts)
        missing = [] if self.asked.says is None else [self.asked.says]
        out: dict[str, Any] = {}
        if whole is not None and periods:
            # Periods in which nothing was eaten are left out: the others are the whole.
            amounts, off = self.amounts.sum(axis=0), self.off.sum(axis=0)
            need = self._need(whole)
            out = self._ratios(amounts, off, set().union(*self.marks))
            out["eaten"] = dict(zip(BASES, amounts.sum(axis=1).tolist(), strict=True))
            out["of_need"] = {"grown": ratio(float(amounts[0, 0]), need), "all eaten": ratio(float(amounts[0].sum()), need)}  # fmt: skip
            out["need_kcal"] = need
            out["days"], out["days_eaten"] = whole.days, self.days_eaten(whole)
            missing += missing_of(self.food, accounts, whole, out["days_eaten"], need)
        if whole is not None:
            balances = accounts.of(whole)
            out["production_based"] = {basis: one.ratio for basis, one in balances.items()}
            out["accounts"] = {basis: one.to_dict() for basis, one in balances.items()}
        if len(periods) > 1:
            needs = _cells(needed(self.table.need))
            out["periods"] = [self._of_period(n, need) for n, need in enumerate(needs)]
        return {**out, "in_words": in_words(out), "missing": missing}

    def days_eaten(self, whole: Period) -> int:
        """Return on how many days of a period something eaten is written down."""
        day = self.food.eaten.day - whole.start
        inside = day[(day >= 0) & (day < whole.days)]
        return int(np.count_nonzero(np.bincount(inside)))

    def _need(self, whole: Period) -> float | None:
        return _cells(needed(Need(self.state, [whole])))[0]

    def _of_period(self, number: int, need: float | None) -> dict[str, Any]:
        """Return the ratios of one period of several."""
        period = self.asked.periods[number]
        accounts = self.state.once(Accounts).of(period)
        return {
            "period": period.label,
            **self._ratios(self.amounts[number], self.off[number], self.marks[number]),
            "production_based": {basis: one.ratio for basis, one in accounts.items()},
            "need_kcal": need,
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
        return [self.state.once(Marks).assumption(one) for one in sorted(self.used)]


def _cells(figure: Figure) -> list[float | None]:
    """Return a figure as cells: None where nothing can be said."""
    return [None if math.isnan(value) else value for value in figure.values.tolist()]


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
    why=why,
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
