"""Jars and equipment: what one use of them costs, by the book's purchases (rules 7 and 9)."""

from __future__ import annotations

import datetime as dt
import math
from bisect import bisect_right
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ledger.replay._columns import Array
from ledger.replay.facts import Facts
from ledger.replay.prices import _bought

if TYPE_CHECKING:
    from ledger.replay.flows import Moment
    from ledger.replay.journal import Journal

__all__ = ["Durables", "year_of"]

DEFAULT_YEARS = 10.0
"""Life of jars and screw bands when nobody says (Colorado State University Extension 8.704)."""


def year_of(day: int) -> int:
    """Return the calendar year of a day (days since 1970)."""
    return (dt.date(1970, 1, 1) + dt.timedelta(days=day)).year


class Durables:
    """Purchases of the unmatched items and what each use of them costs on a day."""

    def __init__(self, journal: Journal, facts: Facts, moment: Moment) -> None:
        self._facts = facts
        table = journal.tables["supplies"]
        rows = moment.of(table["ev"])
        rows = rows[journal.tables["events"]["kind"][table["ev"][rows]] == _bought()]
        item = facts.canon[table["item"][rows]]
        ev = table["ev"][rows]
        order = np.lexsort((table["n"][rows], moment.rank[ev], item))
        rows, item, ev = rows[order], item[order], ev[order]
        self.ev = ev
        whole = facts.wholes(item, table["whole"][rows], table["per"][rows], table["times"][rows])
        self.day = moment.on[ev]
        self.paid = table["money"][rows]
        self.pieces = whole / 1000.0
        self._root = moment.root[ev]
        self._uses, self._years = table["uses"][rows], table["years"][rows]
        bounds = (
            np.searchsorted(item, np.arange(len(facts) + 1)) if len(facts) else np.zeros(1, int)
        )
        self._days: list[int] = self.day.tolist()
        self._facts_by_rows: dict[tuple[int, str, int], float | None] = {}
        self._of = [slice(int(a), int(b)) for a, b in pairwise(bounds)]

    def rows(self, item: int, day: int) -> slice:
        """Return the purchases of an item up to a day."""
        of = self._of[item]
        return slice(of.start, bisect_right(self._days, day, of.start, of.stop))

    def bought(self, item: int, day: int) -> tuple[float, float]:
        """Return what was paid for an item up to a day, and how many pieces that bought."""
        rows = self.rows(item, day)
        return float(self.paid[rows].sum()), float(self.pieces[rows].sum())

    def fact(self, item: int, name: str, day: int) -> float | None:
        """Return `uses` or `years` of an item on a day: the newest by `seq` of what was said.

        A description holds for all days; what a purchase says holds from its day on.
        """
        rows = self.rows(item, day)
        key = (item, name, rows.stop)
        if key not in self._facts_by_rows:
            best = self._facts.said[item].get(name, (-1, math.nan))
            values = (self._uses if name == "uses" else self._years)[rows]
            for root, value in zip(self._root[rows].tolist(), values.tolist(), strict=True):
                if not math.isnan(value) and root >= best[0]:
                    best = (root, value)
            known = not math.isnan(best[1]) and best[1] > 0
            self._facts_by_rows[key] = best[1] if known else None
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


def by_year(items: Array, days: Array, amounts: Array) -> dict[tuple[int, int], float]:
    """Return the sum of `amounts` by item and calendar year."""
    years = days.astype("datetime64[D]").astype("datetime64[Y]").astype(np.int64) + 1970
    out: dict[tuple[int, int], float] = {}
    for item, year, amount in zip(items.tolist(), years.tolist(), amounts.tolist(), strict=True):
        out[item, year] = out.get((item, year), 0.0) + amount
    return out
