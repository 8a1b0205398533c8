"""The shelf ahead as the methods have it: what is there of each item, what a week takes, how long it lasts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.questions.ahead.supply import Supply, is_supply, next_supplies
from ledger.questions.shared.best_until import BestUntil, Late, best_until, late_lots
from ledger.questions.shared.common import listed_lots
from ledger.questions.shared.use_past import UsePast, is_use, use_past
from ledger.questions.targets import StockTarget, stock_targets
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["SURELY", "Plain", "gone", "plain_of"]


SURELY = 0.001
"""No chance is told that lies closer to never or always: households change. Our choice."""


@dataclass(frozen=True)
class Plain:
    """What lies ahead for some items, before any widening; amounts are whole units / 1000.

    Attributes
    ----------
    items : ndarray of int, shape (items,)
    lots : list of list of int
        The lots of each that have something left.
    use : UsePast
    supplies : list of Supply
    targets : dict of int to StockTarget
        By item number.
    """

    state: State
    items: Array
    lots: list[list[int]]
    use: UsePast
    supplies: list[Supply]
    targets: dict[int, StockTarget]

    @cached_property
    def stock(self) -> Array:
        """What is left of each, shape (items,)."""
        return np.array([self.state.left[lots].sum() / 1000 if lots else 0.0 for lots in self.lots])

    @cached_property
    def plain_per_week(self) -> Array:
        """Use a week as the method has it, before any widening."""
        return self.use.per_week

    @cached_property
    def plain_weeks_left(self) -> Array:
        """Weeks left (inf: years) and the chance to reach as the method has them, before widening.

        Shape (4, items); NaN where too little is known, and the chance also where nothing is left
        or nobody knows when more comes.
        """
        out = np.full((4, self.items.size), np.nan)
        for row, (one, stock) in enumerate(zip(self.use.ahead, self.stock.tolist(), strict=True)):
            if one is None:
                continue
            found = one.run_out(stock)
            out[:3, row] = found.low, found.likely, found.high
            if stock and self.supplies[row].waits:
                chance = one.reaches(stock, np.array(self.supplies[row].waits) / 7)
                out[3, row] = min(max(chance, SURELY), 1 - SURELY)
        return out

    def late(self, row: int) -> list[Late] | None:
        """Return the lots of which some passes its best; None where use is not known."""
        return late_lots(self.state, self.best[row], self.use, row)

    @cached_property
    def best(self) -> list[list[tuple[int, BestUntil | None]]]:
        """The lots of each item, each with the day until which it is at its best."""
        return [[(lot, best_until(self.state, lot)) for lot in lots] for lots in self.lots]

    def target(self, row: int) -> StockTarget | None:
        """Return the household's target of an item."""
        return self.targets.get(int(self.items[row]))

    def day_after(self, weeks: float) -> int | None:
        """Return the day that lies some weeks ahead; None beyond the horizon."""
        # a hundredth of a day, so that what rounding left of the last pound moves no day
        return self.state.as_of_day + int(weeks * 7 + 0.01) if math.isfinite(weeks) else None


def gone(state: State, ahead: Plain, days: int) -> list[str]:
    """Return the items of which nothing is left and some was used within so many days."""
    draws = state.draws
    recent = np.flatnonzero(state.once(is_use) & (draws["day"] > state.as_of_day - days))
    there = np.flatnonzero(ahead.stock > 0)
    used = np.setdiff1d(np.unique(draws["item"][recent]), ahead.items[there])
    used = np.intersect1d(used, state.lots["item"][state.once(is_supply)])  # no leftovers of a dish
    return sorted(state.facts.names[int(item)] for item in used)


def plain_of(state: State, only: list[int] | None = None) -> Plain:
    """Return what lies ahead of all strands with something left or a target, or of some strands."""
    rows = listed_lots(state)
    of = state.lots["item"][rows]
    targets = state.once(stock_targets)
    items = np.unique(np.concatenate([of, np.array(sorted(targets), np.int64)]).astype(np.int64))
    if only is not None:
        items = np.array(sorted(only), np.int64)
    order = rows[np.argsort(of, kind="stable")]
    bounds = np.searchsorted(np.sort(of), np.r_[items, items + 1]).reshape(2, -1)
    lots = [order[a:b].tolist() for a, b in bounds.T.tolist()]
    return Plain(state, items, lots, use_past(state, items), next_supplies(state, items), targets)
