"""Which batch took what of which lot, and what its lots carry on: lids and fuel left out."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.questions.costs.sources import Sources
from ledger.replay import CAUSES, ORIGINS, ROLES
from ledger.replay.tracing import solve

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["BATCH", "CAUSE", "ROLE", "Web"]

ROLE = {name: code for code, name in enumerate((*ROLES, "missing"))}
CAUSE = {name: code for code, name in enumerate(CAUSES)}
BATCH = ORIGINS.index("batch")


class Web:
    """The linear system of a state, for what is eaten alone.

    Attributes
    ----------
    draw, lot, amount : ndarray, shape (allocations,)
        Which draw took how much of which lot.
    share : ndarray of float, shape (allocations,)
        The part of the lot that this is.
    made : ndarray of bool, shape (allocations,)
        Whether a batch or a meal made that lot.
    row : ndarray of int64, shape (allocations,)
        The row of the system it goes into; -1: none.
    raw_in, made_in : ndarray of int64
        Allocations by which raw lots, and made ones, go into batches and meals.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        rows = state.costs.rows
        self.rows, self.count = rows, rows.count
        self.draw, self.lot, self.amount = state.allocations
        self.share = state.once(Sources).share_taken.values
        self.origin = state.lots["came"][self.lot]
        self.made = self.origin == BATCH
        self.role = state.draws["role"][self.draw]
        self.day = state.draws["day"][self.draw]
        is_food = (self.role != ROLE["lids"]) & (self.role != ROLE["fuel"])
        self.row = np.where(is_food, rows.of_draw[self.draw], -1)
        self.raw_in = np.flatnonzero((self.row >= 0) & ~self.made)
        self.made_in = take = np.flatnonzero((self.row >= 0) & self.made)
        self._takes = (self.row[take], rows.number_of_lot[self.lot[take]], self.share[take])

    @cached_property
    def ev(self) -> Array:
        """The event of each allocation."""
        return np.asarray(self.state.draws["ev"][self.draw])

    def carried(self, own: Array) -> tuple[Array, Array]:
        """Return what rows, and the lots they made, carry of figures that the rows have of their own.

        Parameters
        ----------
        own : ndarray of float, shape (rows, figures)

        Returns
        -------
        rows : ndarray of float, shape (rows, figures)
        made : ndarray of float, shape (made lots, figures)
            In the order of `rows.made_lots`.
        """
        traced = solve(own, self._takes, self.rows.gives, self.rows.made_lots.size)
        return traced.rows, traced.lots
