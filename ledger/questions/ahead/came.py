"""What came: use, draws and supplies of every item day by day, to set beside what was said."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.questions.ahead.kept import Ranges, Said
from ledger.questions.ahead.supply import is_supply
from ledger.questions.shared.common import LISTED_FROM
from ledger.questions.shared.use_past import is_use

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["WEEKS", "Came"]

WEEKS = 12
"""Weeks over which use a week is said."""
_LEAST_THERE = 0.75
"""Part of those days on which there must have been some, for use to be scored. Our choice."""


class Came:
    """What happened from a day on, as it is known now; amounts are whole units / 1000.

    Parameters
    ----------
    state : State
    first : int
        Days since 1970; days before it are not looked at.

    Attributes
    ----------
    used, drawn : ndarray of float, shape (items, days + 1)
        Sums from `first` to before each day: what was used; and all that went, for whatever reason.
    there : ndarray of int, shape (items, days + 1)
        Days on which there was some, at their beginning or by a supply.
    """

    def __init__(self, state: State, first: int) -> None:
        self.state, self.first, self.last = state, first, state.as_of_day
        self._numbers: dict[str, int | None] = {}
        lots, draws, facts = state.lots, state.draws, state.facts
        shape = (max(len(facts), 1), max(self.last - first + 1, 1))
        came, used, drawn = (np.zeros(shape) for _ in range(3))
        opening = np.zeros(shape[0])
        for flow, table, keep in (
            (lots, came, None), (draws, drawn, None), (draws, used, state.once(is_use)),
        ):  # fmt: skip
            inside = flow["day"] >= first
            at = np.flatnonzero(inside if keep is None else inside & keep)
            cells = flow["item"][at] * shape[1] + flow["day"][at] - first
            whole = flow["whole"][at] / 1000
            table[:] = np.bincount(cells, whole, table.size).reshape(shape)
        for flow, sign in ((lots, 1), (draws, -1)):
            at = np.flatnonzero(flow["day"] < first)
            whole = sign * flow["whole"][at] / 1000
            opening += np.bincount(flow["item"][at], whole, opening.size)
        least = np.array([LISTED_FROM[m] for m in facts.measure] or [1])[:, None] / 1000
        stock = opening[:, None] + np.cumsum(came - drawn, axis=1)
        before = np.concatenate([opening[:, None], stock[:, :-1]], axis=1)
        there = (before >= least / 2) | (came > 0)
        zero = np.zeros((shape[0], 1))
        self.used, self.drawn = (
            np.concatenate([zero, np.cumsum(x, axis=1)], axis=1) for x in (used, drawn)
        )
        self.there = np.concatenate([zero, np.cumsum(there, axis=1)], axis=1)
        rows = np.flatnonzero(state.once(is_supply) & (lots["day"] >= first))
        order = rows[np.lexsort((lots["day"][rows], lots["item"][rows]))]
        self._supply_item, self._supply_day = lots["item"][order], lots["day"][order]

    def item(self, said: Ranges) -> int | None:
        """Return the number of an item that something was said of, if it is counted as then."""
        if said.item not in self._numbers:
            self._numbers[said.item] = self.state.facts.find(said.item)
        number = self._numbers[said.item]
        if number is None or self.state.facts.measure[number] != said.measure:
            return None
        return number

    def gone_on(self, item: int, day: int, stock: float) -> int | None:
        """Return the day on which what was there at the end of a day was gone; None: not yet."""
        at = day + 1 - self.first
        taken = self.drawn[item]
        target = taken[at] + stock * (1 - 1e-9)
        found = int(taken.searchsorted(target, "left"))
        return self.first + found - 1 if found < taken.size else None

    def used_a_week(self, item: int, day: int) -> float | None:
        """Return use a week over the twelve weeks after a day; None: not over yet, or seldom there.

        By the days on which there was some, as the range is of what is used while there is.
        """
        a, b = day + 1 - self.first, day + 1 + 7 * WEEKS - self.first
        if b >= self.used.shape[1]:
            return None
        days = self.days_there(item, day)
        if days < _LEAST_THERE * 7 * WEEKS:
            return None
        return float(self.used[item, b] - self.used[item, a]) / days * 7

    def days_there(self, item: int, day: int) -> float:
        """Return on how many days of the twelve weeks after a day, which must be over, there was some."""
        a = day + 1 - self.first
        return float(self.there[item, a + 7 * WEEKS] - self.there[item, a])

    def next_supply(self, item: int, day: int) -> int | None:
        """Return the first day after a day on which more of an item came in; None: not yet."""
        a, b = self._supply_item.searchsorted([item, item + 1]).tolist()
        at = a + int(self._supply_day[a:b].searchsorted(day, "right"))
        return int(self._supply_day[at]) if at < b else None

    def uses(self, said: Said) -> list[tuple[Ranges, int, float]]:
        """Return each range of use a week said at a moment whose twelve weeks are known now."""
        out = []
        for one in said.ranges:
            item = self.item(one)
            if item is None or one.use[1] is None:
                continue
            came = self.used_a_week(item, said.day)
            if came is not None:
                out.append((one, item, came))
        return out
