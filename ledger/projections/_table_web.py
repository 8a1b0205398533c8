"""Which batch took what of which lot: figures carried forward, and what was eaten carried back."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.replay import ORIGINS, tables
from ledger.replay.columns import Array
from ledger.replay.tracing import carry_marks, solve

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["BATCH", "CAUSE", "ROLE", "Web"]

ROLE = {name: code for code, name in enumerate((*tables.ROLES, "missing"))}
CAUSE = {name: code for code, name in enumerate(tables.CAUSES)}
BATCH = ORIGINS.index("batch")


class Web:
    """The linear system of a state, for what is eaten alone (lids and fuel left out).

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
    raw_in : ndarray of int64
        Allocations by which raw lots go into batches and meals.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        rows = state.costs.rows
        self.rows, self.count = rows, rows.count
        self.draw, self.lot, self.amount = state.allocations
        self.share = self.amount / state.lots["whole"][self.lot]
        self.origin = state.lots["came"][self.lot]
        self.made = self.origin == BATCH
        self.role = state.draws["role"][self.draw]
        self.day = state.draws["day"][self.draw]
        is_food = (self.role != ROLE["lids"]) & (self.role != ROLE["fuel"])
        self.row = np.where(is_food, rows.of_draw[self.draw], -1)
        self.raw_in = np.flatnonzero((self.row >= 0) & ~self.made)
        take = np.flatnonzero((self.row >= 0) & self.made)
        self._takes = (self.row[take], rows.number_of_lot[self.lot[take]], self.share[take])

    def forward(self, own: Array) -> tuple[Array, Array]:
        """Return what rows, and the lots they made, carry of figures that the rows have of their own.

        Parameters
        ----------
        own : ndarray of float, shape (rows, figures)

        Returns
        -------
        rows : ndarray of float, shape (rows, figures)
        lots : ndarray of float, shape (lots, figures)
            Raw lots carry 0 here.
        """
        rows, made = self.forward_made(own)
        lots = np.zeros((self.state.lots["ev"].size, own.shape[1]))
        lots[self.rows.made_lots] = made
        return rows, lots

    def forward_made(self, own: Array) -> tuple[Array, Array]:
        """Return the same for made lots alone, in the order of `rows.made_lots`."""
        traced = solve(own, self._takes, self.rows.gives, self.rows.made_lots.size)
        return traced.rows, traced.lots

    def back(self, wanted: Array, of_rows: Array | None = None) -> Array:
        """Return which part of each row ended in what is wanted of the lots it made.

        Parameters
        ----------
        wanted : ndarray of float, shape (lots, ends)
            The part of each made lot that went to each end (raw lots are passed over).
        of_rows : ndarray of float, shape (rows, ends), optional
            The part of each row that went to each end without a lot between.

        Returns
        -------
        ndarray of float, shape (rows, ends)
        """
        from scipy.sparse import csr_array, eye_array
        from scipy.sparse.linalg import spsolve_triangular

        made = self.rows.made_lots.size
        if not self.count:
            return np.zeros((0, wanted.shape[1]))
        lot, row, part = self.rows.gives
        carry = csr_array((part, (lot, row)), shape=(made, self.count))
        ends = np.asarray(carry.T @ wanted[self.rows.made_lots])
        if of_rows is not None:
            ends = ends + of_rows
        row, number, share = self._takes
        if not row.size:
            return ends
        take = csr_array((share, (row, number)), shape=(self.count, made))
        system = (eye_array(self.count, format="csr") - take @ carry).T.tocsr()
        return np.asarray(spsolve_triangular(system, ends, lower=False, unit_diagonal=True))

    def marks(self, marks: dict[int, int]) -> list[int]:
        """Return, for each made lot in the order of `rows.made_lots`, the marks that rows carry."""
        takes = self._takes[:2]
        return carry_marks(self.count, marks, takes, self.rows.gives[:2], self.rows.made_lots.size)[
            1
        ]
