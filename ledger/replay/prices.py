"""The shop price of a day (the reckoning, rule 8), for many items and days at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.replay._columns import Array
from ledger.replay.facts import Facts

if TYPE_CHECKING:
    from ledger.replay.flows import Moment
    from ledger.replay.journal import Journal

__all__ = ["Prices"]

_DAYS = 1 << 24
_SHIFT = 1 << 23


class Prices:
    """Prices per whole unit, by item and day.

    Points are what was paid or seen, in the order of rule 2; `ev` is the event of each.
    """

    def __init__(self, journal: Journal, facts: Facts, moment: Moment) -> None:
        self._facts = facts
        parts = []
        for table, is_price in (
            (journal.tables["supplies"], False),
            (journal.tables["prices"], True),
        ):
            rows = moment.of(table["ev"])
            if not is_price:
                kind = journal.tables["events"]["kind"][table["ev"][rows]]
                rows = rows[kind == _bought()]
            item = facts.canon[table["item"][rows]].astype(np.int64)
            whole = facts.wholes(
                item, table["whole"][rows], table["per"][rows], table["times"][rows]
            )
            ev = table["ev"][rows].astype(np.int64)
            keep = whole > 0
            parts.append(
                np.stack([item, moment.on[ev], moment.rank[ev], table["n"][rows], ev])[:, keep]
            )
            parts.append(np.stack([table["money"][rows], whole.astype(np.float64)])[:, keep])
        keys = np.concatenate([parts[0], parts[2]], axis=1)
        money = np.concatenate([parts[1], parts[3]], axis=1)
        order = np.lexsort((keys[3], keys[2], keys[0]))
        self.item, self.day, self.ev = keys[0][order], keys[1][order], keys[4][order]
        self.price = money[0][order] / money[1][order]
        self._key = self.item * _DAYS + self.day + _SHIFT
        self._equivalent = [facts.find(f.shop_equivalent) for f in facts.facts]

    def of(self, item: Array, day: Array) -> tuple[Array, Array, Array]:
        """Return price, event and whether it was first seen later, for each item and day.

        Parameters
        ----------
        item, day : ndarray of int64, shape (questions,)

        Returns
        -------
        price : ndarray of float, shape (questions,)
            Money per whole unit of the item; NaN where no price is known.
        ev : ndarray of int64, shape (questions,)
            Place of the event that the price comes from; -1 where none.
        later : ndarray of bool, shape (questions,)
            True where the first price after that day had to serve.
        """
        item, day = np.asarray(item, np.int64), np.asarray(day, np.int64)
        other, factor = self._others(item)
        price, ev = self._before(item, day)
        self._fill(price, ev, self._before(other, day), factor)
        seen = ev >= 0
        self._fill(price, ev, self._after(item, day), np.ones(item.size))
        self._fill(price, ev, self._after(other, day), factor)
        return price, ev, ~seen & (ev >= 0)

    def _others(self, item: Array) -> tuple[Array, Array]:
        """Return each item's shop equivalent (-1: none) and what one whole unit of it is worth in it."""
        other = np.full(item.size, -1, np.int64)
        factor = np.full(item.size, np.nan)
        for number in np.unique(item).tolist():
            equivalent = self._equivalent[number]
            if equivalent is None or equivalent == number:
                continue
            scale = self._scale(number, equivalent)
            if scale is not None:
                rows = item == number
                other[rows], factor[rows] = equivalent, scale
        return other, factor

    def _scale(self, number: int, equivalent: int) -> float | None:
        facts = self._facts
        if facts.measure[number] == facts.measure[equivalent]:
            return 1.0
        own, its = facts.grams_per_whole(number), facts.grams_per_whole(equivalent)
        if own is None or its is None:
            return None
        return own / its

    @staticmethod
    def _fill(price: Array, ev: Array, answer: tuple[Array, Array], factor: Array) -> None:
        more, more_ev = answer
        rows = (ev < 0) & (more_ev >= 0)
        price[rows] = more[rows] * factor[rows]
        ev[rows] = more_ev[rows]

    def _before(self, item: Array, day: Array) -> tuple[Array, Array]:
        at = np.searchsorted(self._key, item * _DAYS + day + _SHIFT, side="right") - 1
        return self._pick(at, item)

    def _after(self, item: Array, day: Array) -> tuple[Array, Array]:
        if not self._key.size:
            return self._pick(np.full(item.size, -1), item)
        at = np.searchsorted(self._key, item * _DAYS + day + _SHIFT, side="right")
        first = self._key[np.minimum(at, self._key.size - 1)]
        # Of two on one day the later one in the order of the book.
        last = np.searchsorted(self._key, first, side="right") - 1
        return self._pick(np.where(at < self._key.size, last, -1), item)

    def _pick(self, at: Array, item: Array) -> tuple[Array, Array]:
        price, ev = np.full(item.size, np.nan), np.full(item.size, -1, np.int64)
        good = np.flatnonzero(at >= 0)
        good = good[self.item[at[good]] == item[good]]
        price[good], ev[good] = self.price[at[good]], self.ev[at[good]]
        return price, ev


def _bought() -> int:
    from ledger.events import KINDS

    return list(KINDS).index("bought")
