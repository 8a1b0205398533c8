"""What one use of a jar or of equipment costs, as figures (the reckoning, rules 7 and 9)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    Spans,
    assumed,
    choose,
    published,
    said,
    unpriced,
    work,
)
from ledger.replay import day_text
from ledger.replay.durables import DEFAULT_YEARS, year_numbers

if TYPE_CHECKING:
    from ledger.questions.costs.sources import Sources
    from ledger.replay import State

__all__ = ["DurableFigures", "PerUse"]

JARS_LAST = "CSU 8.704"
"""Source of the life of jars when nobody says (docs/sources.md)."""


class DurableFigures:
    """Purchases of what is lent, and what each use of it costs."""

    def __init__(self, state: State, sources: Sources) -> None:
        self.state, self.sources = state, sources
        self.known = state.costs.durables
        ev = np.asarray(self.known.ev, np.int64)
        self.paid = said(self.known.paid, "money", ev)
        self.pieces = said(self.known.pieces, "pieces", ev)

    @cached_property
    def tables(self) -> tuple[PerUse, PerUse]:
        """What one use costs in each charge of jar wear, and of equipment."""
        _, _, equipment, wear = self.state.costs.own.parts
        return (
            PerUse(self, wear.said["item"], wear.said["day"], wear.said["jars"], wear.ev, "use"),
            PerUse(
                self,
                equipment.said["item"],
                equipment.said["day"],
                equipment.said["loads"],
                equipment.ev,
                "load",
            ),
        )

    def bought(self, column: Figure, items: list[int], day: int) -> Figure:
        """Return a column of purchases, summed over those of each of some items up to a day."""
        spans = [self.known.rows(item, day) for item in items]
        rows = [np.arange(one.start, one.stop) for one in spans]
        by = np.repeat(np.arange(len(items)), [one.size for one in rows])
        every = np.concatenate([np.zeros(0, np.int64), *rows])
        return Groups(by, len(items)).sum(column.at(every), column.unit_of(0))


class PerUse:
    """What one use costs, a row a charge.

    Parameters
    ----------
    item, day, uses, ev : ndarray of int, shape (charges,)
        What is used, when, how often, and by which event.
    use : str
        What a use is called: ``use`` or ``load``.

    Attributes
    ----------
    uses, cost, paid : Figure
        Uses of the charge, the cost of one, and what was paid for the item by then.
    """

    def __init__(
        self, of: DurableFigures, item: Array, day: Array, uses: Array, ev: Array, use: str
    ) -> None:
        self.of, self.item, self.day = of, np.asarray(item, np.int64), day
        self.use = use
        known = of.known
        spans = [known.rows(i, d) for i, d in zip(item.tolist(), day.tolist(), strict=True)]
        span = Spans(
            np.array([one.start for one in spans], np.int64),
            np.array([one.stop for one in spans], np.int64),
        )
        self.uses = said(uses, f"{use}s", ev)
        self.paid = span.sum(of.paid).called("paid")
        pieces = span.sum(of.pieces).called("bought")
        price = (self.paid / pieces).called("price-of-one")
        cost = choose(
            np.array([known.fact(*one) is not None for one in self._asked("uses")], bool),
            price / self._life("uses", f"{use}s per piece").called("uses"),
            price / (self._years() * self._yearly(pieces)).called("uses"),
        )
        name = of.sources.name_of(self.item)
        none = unpriced(f"money per {use}", name, item.size).called("unpriced", item=name)
        bought = np.array([known.bought(i, d)[1] > 0 for i, d in self._pairs()], bool)
        self.cost = choose(bought, cost, none).called("per-use", item=name).folds(self._address)

    def _pairs(self) -> list[tuple[int, int]]:
        return list(zip(self.item.tolist(), self.day.tolist(), strict=True))

    def _asked(self, name: str) -> list[tuple[int, str, int]]:
        return [(item, name, day) for item, day in self._pairs()]

    def _life(self, name: str, unit: str) -> Figure:
        """Return `uses` or `years` as somebody said them; NaN where nobody did."""
        known, newest = self.of.known, self.of.sources.newest_of
        asked = self._asked(name)
        values = [known.fact(*one) for one in asked]
        ev = [newest.get(known.fact_from(*one), -1) for one in asked]
        numbers = np.array([np.nan if v is None else v for v in values], np.float64)
        return said(numbers, unit, np.array(ev, np.int64))

    def _years(self) -> Figure:
        own = self._life("years", "years")
        if self.use == "use":
            default = published(np.full(self.item.size, DEFAULT_YEARS), "years", JARS_LAST)
        else:
            default = assumed(np.full(self.item.size, DEFAULT_YEARS), "years", "lasts-ten-years")
        return choose(~np.isnan(own.values), own, default).called("years")

    def _yearly(self, pieces: Figure) -> Figure:
        """Return the uses of one piece in the calendar year of each charge, at least one."""
        unit = f"{self.use}s per year"
        year = self.item << 16 | year_numbers(self.day)
        keys, which = np.unique(year, return_inverse=True)
        that_year = Groups(which, keys.size).sum(self.uses).at(which)
        that_year = that_year.called("uses-that-year", unit=unit)
        once = assumed(1.0, f"{unit} per piece", "once-a-year").called("once-a-year")
        return work("highest", once, (that_year / pieces).called("uses-of-one-year")).called(
            "uses-of-one-year"
        )

    def _address(self, row: int) -> tuple[str, str]:
        name = self.of.state.facts.names[int(self.item[row])]
        return f"durable/{name}/{day_text(int(self.day[row]))}", "per_use"

    def find(self, item: int, day: int) -> int | None:
        """Return a charge of an item on a day, or None."""
        rows = np.flatnonzero((self.item == item) & (self.day == day))
        return int(rows[0]) if rows.size else None

    def charge(self) -> Figure:
        """Return what each charge costs: uses times the cost of one."""
        return self.uses * self.cost

    def charged_until_paid(self, money: Array, ev: Array) -> Figure:
        """Return what each charge costs until the price is used up.

        Parameters
        ----------
        money : ndarray of float, shape (charges,)
            What each was charged, by the running rest that only a loop in time gives.
        ev : ndarray of int, shape (charges,)
        """
        order = np.argsort(self.item, kind="stable")
        item = self.item[order]
        start = np.searchsorted(item, item)
        place = np.empty(order.size, np.int64)
        place[order] = np.arange(order.size)
        each = said(money[order], "money", ev[order])
        before = Spans(start, np.arange(order.size)).sum(each).at(place).called("charged")
        full = self.charge()
        left = (self.paid - before).called("left-of-price")
        binds = full.values > left.values
        return choose(binds, work("lowest", full.called("full-charge"), left), full)
