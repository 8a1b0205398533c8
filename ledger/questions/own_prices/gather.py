"""The household's own basket in two periods: what was used of what was bought, and at what prices."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.errors import InputError
from ledger.figures import Array, Figure, Groups, assumed, said
from ledger.kinds import KINDS
from ledger.messages import Code, Message
from ledger.questions.costs.sources import Sources
from ledger.questions.shared.use_past import is_use
from ledger.replay import ORIGINS
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["HUNDRED", "ROOT", "Basket", "Period", "periods_of"]

HUNDRED = assumed(100.0, "index", "prices").called("hundred")
"""What an index is where nothing changed."""
ROOT = assumed(0.5, "", "fisher").called("root")
"""The power of the geometric mean."""
_YEAR = 365
_BOUGHT = list(KINDS).index("bought")


@dataclass(frozen=True)
class Period:
    """Days from start to end, both included."""

    start: int
    end: int

    def holds(self, day: Array) -> Array:
        """Return which days lie in it."""
        return np.asarray((day >= self.start) & (day <= self.end))


class Basket:
    """What was bought and used in two periods; a row is an item, of an array of two the later comes second.

    Attributes
    ----------
    names : list of str
        As addresses have them.
    items, rows : ndarray of int
        Numbers of all items, and which rows are priced in both periods and used in either.
    money, whole, used : list of Figure
        What was paid, else what was seen to be asked, for how much; and what was used of what was bought.
    """

    def __init__(self, state: State, before: Period, now: Period) -> None:
        self.state, sources = state, state.once(Sources)
        draw, lot, _ = state.allocations
        use = state.once(is_use)[draw] & (state.lots["origin"][lot] == ORIGINS.index("bought"))
        went = [np.flatnonzero(use & at.holds(state.draws["day"][draw])) for at in (before, now)]
        of_use = [state.lots["item"][lot[rows]] for rows in went]
        points = [_points(state, period) for period in (before, now)]
        self.items = np.unique(np.concatenate([*of_use, *(some.item for some in points)])).astype(
            int
        )
        self.names = [state.facts.strand_name(item) for item in self.items.tolist()]
        unit = sources.whole_of(self.items)
        by_price, by_use = (
            [self._by(of) for of in each] for each in ([p.item for p in points], of_use)
        )
        self.money = [
            by.sum(said(some.money, "money", some.ev), "money")
            for by, some in zip(by_price, points, strict=True)
        ]
        self.whole = [
            by.sum(said(some.whole, sources.whole_of(some.item), some.ev), unit)
            for by, some in zip(by_price, points, strict=True)
        ]
        self.used = [
            by.sum(sources.taken.at(rows), unit) for by, rows in zip(by_use, went, strict=True)
        ]
        self.is_priced = [by.first >= 0 for by in by_price]
        is_used = (by_use[0].first >= 0) | (by_use[1].first >= 0)
        self.rows = np.flatnonzero(self.is_priced[0] & self.is_priced[1] & is_used)

    def _by(self, item: Array) -> Groups:
        return Groups(np.searchsorted(self.items, item), self.items.size)

    @property
    def together(self) -> Groups:
        """The items priced in both periods as one."""
        return Groups(np.where(np.isin(np.arange(self.items.size), self.rows), 0, -1), 1)

    @property
    def all_used(self) -> Groups:
        """The items of which any price is known as one."""
        return Groups(np.where(self.is_priced[0] | self.is_priced[1], 0, -1), 1)

    def for_each(self, figure: Figure) -> Figure:
        """Return a figure of them together for each item."""
        return figure.at(np.zeros(self.items.size, np.int64))


def periods_of(
    state: State, year: str | int | None, base: str | int | None
) -> tuple[Period, Period, str]:
    """Return the year asked about, the one it is set against, and why where that is another."""
    if year is None and base is None:
        end = state.as_of_day
        return Period(end - 2 * _YEAR + 1, end - _YEAR), Period(end - _YEAR + 1, end), "last-year"
    later = _year(year if year is not None else day_text(state.as_of_day)[:4], "year")
    earlier = _year(base if base is not None else later - 1, "base")
    if earlier >= later:
        raise InputError(
            "base", Message.of("refusal-year-not-before", earlier=earlier, later=later)
        )
    return _of(earlier, state), _of(later, state), f"{earlier}-{later}"


def _year(text: str | int, field: str) -> int:
    if not str(text).isdigit() or not 1900 <= int(text) <= 9000:
        raise InputError(
            field,
            Message.of("refusal-not-a-year", text=Code(repr(text))),
            Message.of("refusal-like-year"),
        )
    return int(text)


def _of(year: int, state: State) -> Period:
    return Period(day_number(f"{year}-01-01"), min(day_number(f"{year}-12-31"), state.as_of_day))


class _Points(NamedTuple):
    """What was paid or seen: items, money, whole units and events."""

    item: Array
    money: Array
    whole: Array
    ev: Array


def _points(state: State, period: Period) -> _Points:
    """Return what was paid in a period, and of items that were not bought what was seen to be asked."""
    lots, kinds = state.lots, state.journal.tables["events"]["kind"]
    bought = (lots["origin"] == ORIGINS.index("bought")) & (kinds[lots["ev"]] == _BOUGHT)
    rows = np.flatnonzero(
        bought
        & period.holds(lots["day"])
        & (lots["whole"] > 0)
        & (np.nan_to_num(lots["money"]) > 0)
    )
    paid = set(lots["item"][rows].tolist())
    seen = [(0, 0.0, 0.0, 0)][:0]
    for ev in state.events("price_seen").tolist():
        if period.start <= int(state.moment.on[ev]) <= period.end:
            body = state.body(ev)
            item = state.facts.find(body["item"])
            if item is not None and item not in paid and body.get("whole"):
                seen.append((item, float(body["price"]), float(body["whole"]), ev))
    more = zip(*seen, strict=True) if seen else [[]] * 4
    mine = [lots[name][rows] for name in ("item", "money", "whole", "ev")]
    return _Points(*(np.r_[column, list(extra)] for column, extra in zip(mine, more, strict=True)))
