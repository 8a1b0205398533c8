"""The shop price of a day (the reckoning, rule 8), for many items and days at once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.replay.columns import Array
from ledger.replay.facts import Facts

if TYPE_CHECKING:
    from ledger.replay.flows import Moment
    from ledger.replay.journal import Journal

__all__ = ["Prices"]

_DAYS = 1 << 24
_SHIFT = 1 << 23


class Prices:
    """Prices per whole unit, by strand and day; `item` is a strand's number.

    Points are what was paid or seen, in the order of rule 2; `ev` is the event of each.
    """

    def __init__(self, journal: Journal, facts: Facts, moment: Moment) -> None:
        self._facts = facts
        parts = []
        for table, is_price in (
            (journal.tables["supplies"], False),
            (journal.tables["prices"], True),
        ):
            rows = moment.rows(journal, "prices" if is_price else "supplies")
            if not is_price:
                kind = journal.tables["events"]["kind"][table["ev"][rows]]
                rows = rows[kind == _bought()]
            item, whole = facts.lines(table, rows)
            ev = table["ev"][rows].astype(np.int64)
            keep = (whole > 0) & ~np.isnan(table["money"][rows])
            parts.append(
                np.stack([item, moment.on[ev], moment.rank[ev], table["n"][rows], ev])[:, keep]
            )
            parts.append(np.stack([table["money"][rows], whole.astype(np.float64)])[:, keep])
        keys = np.concatenate([parts[0], parts[2]], axis=1)
        money = np.concatenate([parts[1], parts[3]], axis=1)
        order = np.lexsort((keys[3], keys[0] << 32 | keys[2]))
        self.item, self.day, self.ev = keys[0][order], keys[1][order], keys[4][order]
        self.price = money[0][order] / money[1][order]
        self._key = self.item * _DAYS + self.day + _SHIFT

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
        price, ev = self._before(item, day)
        self._fill(price, ev, item, day, self._before)
        later = np.flatnonzero(ev < 0)
        is_later = np.zeros(item.size, bool)
        if later.size:
            item, day = item[later], day[later]
            first, at = self._after(item, day)
            self._fill(first, at, item, day, self._after)
            price[later], ev[later], is_later[later] = first, at, at >= 0
        return price, ev, is_later

    def _fill(
        self, price: Array, ev: Array, item: Array, day: Array, ask: Callable[..., Any]
    ) -> None:
        """Ask for the shop equivalents where an item itself gave no answer, the likeliest first."""
        rows = np.flatnonzero(ev < 0)
        for other, factor in self._facts.equivalents:
            some = rows[(ev[rows] < 0) & (other[item[rows]] >= 0)]
            if some.size:
                price[some], ev[some] = ask(other[item[some]], day[some])
                price[some] *= factor[item[some]]

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
    from ledger.kinds import KINDS

    return list(KINDS).index("bought")
