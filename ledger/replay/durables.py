"""Jars and equipment: what one use of them costs, by the book's purchases (rules 7 and 9)."""

from __future__ import annotations

import datetime as dt
import math
from bisect import bisect_left, bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ledger.replay.columns import Array
from ledger.replay.facts import SORTS, Facts
from ledger.replay.prices import _bought

if TYPE_CHECKING:
    from ledger.replay.columns import Table
    from ledger.replay.flows import Moment
    from ledger.replay.journal import Journal

__all__ = ["Durables", "year_of"]

DEFAULT_YEARS = 10.0
"""Life of jars and screw bands when nobody says (Colorado State University Extension 8.704)."""


_NONE = slice(0, 0)
_LENT = [SORTS.index(sort) for sort in ("jar", "equipment")]


def _saying(column: Array) -> tuple[list[int], list[float]]:
    """Return where a column says something, rising, and what."""
    at = np.flatnonzero(~np.isnan(column))
    return at.tolist(), column[at].tolist()


def year_of(day: int) -> int:
    """Return the calendar year of a day (days since 1970)."""
    return (dt.date(1970, 1, 1) + dt.timedelta(days=day)).year


class Durables:
    """Purchases of the unmatched items and what each use of them costs on a day."""

    def __init__(self, journal: Journal, facts: Facts, moment: Moment) -> None:
        self._facts = facts
        table = journal.tables["supplies"]
        rows = moment.rows(journal, "supplies")
        rows = rows[journal.tables["events"]["kind"][table["ev"][rows]] == _bought()]
        rows = rows[~np.isnan(table["money"][rows])]  # a price that was not said waits
        item = facts.canon[table["item"][rows]]
        ev = table["ev"][rows]
        order = np.lexsort((table["n"][rows], item.astype(np.int64) << 32 | moment.rank[ev]))
        rows, item, ev = rows[order], item[order], ev[order]
        self.ev = ev
        self.day = moment.on[ev]
        pieces, counts = _pieces(facts, table, rows, item)
        self.paid = np.where(counts, table["money"][rows], 0.0)
        self.pieces = np.where(counts, pieces, 0) / 1000.0
        self._key = item * np.int64(1 << 24) + self.day
        self._paid_by, self._pieces_by = (
            np.r_[0.0, np.cumsum(column)] for column in (self.paid, self.pieces)
        )
        self._root = moment.root[ev]
        # Few purchases say how long a thing lasts: those alone are looked through.
        self._said = {name: _saying(table[name][rows]) for name in ("uses", "years")}
        self._telling = {name: set(item[at].tolist()) for name, (at, _) in self._said.items()}
        bounds = (
            np.searchsorted(item, np.arange(len(facts) + 1)) if len(facts) else np.zeros(1, int)
        )
        self._days: list[int] = self.day.tolist()
        self._facts_by_rows: dict[tuple[int, str, int], tuple[float | None, int]] = {}
        self._bought: dict[tuple[int, int], tuple[float, float]] = {}
        self._bounds = bounds
        self._of = [slice(int(a), int(b)) for a, b in pairwise(bounds)]

    def rows(self, item: int, day: int) -> slice:
        """Return the purchases of an item up to a day."""
        of = self._of[item]
        return slice(of.start, bisect_right(self._days, day, of.start, of.stop))

    def bought(self, item: int, day: int) -> tuple[float, float]:
        """Return what was paid for an item up to a day, and how many pieces that bought."""
        rows = self.rows(item, day)
        key = rows.start, rows.stop
        if key not in self._bought:
            self._bought[key] = float(self.paid[rows].sum()), float(self.pieces[rows].sum())
        return self._bought[key]

    def fact(self, item: int, name: str, day: int) -> float | None:
        """Return `uses` or `years` of an item on a day: the newest by `seq` of what was said.

        A description holds for all days; what a purchase says holds from its day on.
        """
        told = item in self._telling[name]
        return self._fact(item, name, self.rows(item, day) if told else _NONE)

    def fact_from(self, item: int, name: str, day: int) -> int:
        """Return the entry (place of its first event) that says `uses` or `years`; -1: none."""
        return self._told(item, name, self.rows(item, day))[1]

    def _fact(self, item: int, name: str, rows: slice) -> float | None:
        return self._told(item, name, rows)[0]

    def _told(self, item: int, name: str, rows: slice) -> tuple[float | None, int]:
        key = (item, name, rows.stop)
        if key not in self._facts_by_rows:
            best = self._facts.said[item].get(name, (-1, math.nan))
            at, values = self._said[name]
            for n in range(bisect_left(at, rows.start), bisect_left(at, rows.stop)):
                if self._root[at[n]] >= best[0]:
                    best = (int(self._root[at[n]]), values[n])
            known = not math.isnan(best[1]) and best[1] > 0
            self._facts_by_rows[key] = (best[1], best[0]) if known else (None, -1)
        return self._facts_by_rows[key]

    def per_use(self, item: int, day: int, used_that_year: float) -> float | None:
        """Return the cost of one use on a day, or None where the item was never bought.

        Average price paid per piece / `uses`; given `years` only, / (years x max(1, uses in
        that calendar year per piece)).
        """
        paid, pieces = self.bought(item, day)
        if pieces <= 0:
            return None
        price = paid / pieces
        uses = self.fact(item, "uses", day)
        if uses is not None:
            return price / uses
        years = self.fact(item, "years", day) or DEFAULT_YEARS
        return price / (years * max(1.0, used_that_year / pieces))

    def per_uses(self, item: Array, day: Array, uses: Array) -> Array:
        """Return the cost of one use for many uses at once, NaN where never bought by that day.

        Parameters
        ----------
        item, day : ndarray of int64, shape (uses,)
        uses : ndarray of float, shape (uses,)
            How many uses each stands for; their sum by calendar year counts where only `years`
            is known.

        Returns
        -------
        ndarray of float, shape (uses,)
        """
        if not item.size:
            return np.zeros(0)
        stop = np.searchsorted(self._key, item * np.int64(1 << 24) + day, side="right")
        start = self._bounds[item]
        bought = np.flatnonzero(stop > start)
        pieces = self._pieces_by[stop] - self._pieces_by[start]
        price = np.full(item.size, np.nan)
        bought = bought[pieces[bought] > 0]
        price[bought] = (self._paid_by[stop] - self._paid_by[start])[bought] / pieces[bought]
        known, which = np.unique(item << 32 | stop, return_inverse=True)
        said = np.array([self._life(k >> 32, k & 0xFFFFFFFF) for k in known.tolist()])[which]
        year, in_year = np.unique(item << 16 | year_numbers(day), return_inverse=True)
        that_year = np.bincount(in_year, uses, year.size)[in_year]
        yearly = np.maximum(1.0, np.divide(that_year, pieces, out=price.copy(), where=pieces > 0))
        return np.asarray(price / np.where(np.isnan(said[:, 0]), said[:, 1] * yearly, said[:, 0]))

    def _life(self, item: int, stop: int) -> tuple[float, float]:
        """Return `uses` (NaN: not said) and `years` after the purchases up to a row."""
        rows = slice(self._of[item].start, stop)
        uses, years = (self._fact(item, name, rows) for name in ("uses", "years"))
        return math.nan if uses is None else uses, years or DEFAULT_YEARS


def _pieces(facts: Facts, table: Table, rows: Array, item: Array) -> tuple[Array, Array]:
    """Return how much each purchase brought, and whether it counts for wear.

    Jars and equipment count in pieces; what was said of them otherwise is not counted (rule 13).
    Of other things it is the amount in the item's own measure.
    """
    strand, whole = facts.lines(table, rows)
    if not rows.size:
        return whole, np.zeros(0, bool)
    pieces = facts.strands.pieces(table, rows)
    lent = np.isin(facts.sort[item], _LENT)
    return np.where(lent, pieces, np.where(strand == item, whole, 0)), ~lent | (pieces >= 0)


def year_numbers(days: Array) -> Array:
    """Return the calendar year of each day (days since 1970)."""
    return np.asarray(days).astype("datetime64[D]").astype("datetime64[Y]").astype(np.int64) + 1970


def by_year(items: Array, days: Array, amounts: Array) -> dict[tuple[int, int], float]:
    """Return the sum of `amounts` by item and calendar year."""
    years = year_numbers(days)
    out: dict[tuple[int, int], float] = {}
    for item, year, amount in zip(items.tolist(), years.tolist(), amounts.tolist(), strict=True):
        out[item, year] = out.get((item, year), 0.0) + amount
    return out
