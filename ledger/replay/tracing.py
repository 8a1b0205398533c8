"""Cost, energy, weight and origin carried from lots through batches to meals, in one solve.

Every batch is two rows (pot and what its jars share) and one row for each made entry with jars
(its lids and jar wear); a meal that left something is one row. A row takes shares of lots, and
the lots of earlier rows only, so that the system is strictly lower triangular: (I - P) F = b.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ledger.replay._columns import Array

__all__ = ["COMPONENTS", "WIDTH", "Traced", "carry_marks", "solve"]

COMPONENTS = (
    "bought_ingredients",
    "garden",
    "given",
    "lids",
    "jar_wear",
    "fuel",
    "equipment",
    "labour",
)
"""The components of cost (rule 10), in the order of the first eight columns."""

WIDTH = 8 + 3 * 6
"""Columns of figures: eight components, then grams, kcal and shop value by six origins."""


@dataclass
class Traced:
    """Figures of the rows and of the lots they made.

    Attributes
    ----------
    rows : ndarray of float, shape (rows, WIDTH)
    lots : ndarray of float, shape (made lots, WIDTH)
    """

    rows: Array
    lots: Array


def solve(
    own: Array, takes: tuple[Array, Array, Array], gives: tuple[Array, Array, Array], lots: int
) -> Traced:
    """Carry figures through rows and lots.

    Parameters
    ----------
    own : ndarray of float, shape (rows, WIDTH)
        What each row has of its own and from raw lots.
    takes : row, lot, share
        Which share of a made lot each row takes.
    gives : lot, row, share
        Which share of each row a made lot carries.
    lots : int
        How many made lots there are.
    """
    from scipy.sparse import csr_array, eye_array
    from scipy.sparse.linalg import spsolve_triangular

    rows = own.shape[0]
    carry = csr_array((gives[2], (gives[0], gives[1])), shape=(lots, rows))
    solved = own.copy(order="K")
    # Most rows take raw lots only, and most columns of a small book are empty: neither is solved.
    into, which = np.unique(takes[0], return_inverse=True)
    some = np.flatnonzero(own.any(axis=0))
    if into.size and some.size:
        take = csr_array((takes[2], (which, takes[1])), shape=(into.size, lots))
        shares = take @ carry
        known = own[:, some]
        known[into] = 0
        system = (eye_array(into.size, format="csr") - shares[:, into]).tocsr()
        solved[np.ix_(into, some)] = spsolve_triangular(
            system, own[np.ix_(into, some)] + shares @ known, lower=True, unit_diagonal=True
        )
    return Traced(solved, np.asarray(carry @ solved))


def carry_marks(
    rows: int,
    marks: dict[int, int],
    takes: tuple[Array, Array],
    gives: tuple[Array, Array],
    lots: int,
) -> tuple[list[int], list[int]]:
    """Carry marks (bit sets) along the same ways; a mark is kept at any depth.

    Returns
    -------
    row_marks, lot_marks : list of int
    """
    row_marks, lot_marks = [0] * rows, [0] * lots
    for row, mark in marks.items():
        row_marks[row] = mark
    if not marks:
        return row_marks, lot_marks
    made: list[list[int]] = [[] for _ in range(rows)]
    for lot, row in zip(gives[0].tolist(), gives[1].tolist(), strict=True):
        made[row].append(lot)
    taken: list[list[int]] = [[] for _ in range(rows)]
    for row, lot in zip(takes[0].tolist(), takes[1].tolist(), strict=True):
        taken[row].append(lot)
    for row in range(rows):
        mark = row_marks[row]
        for lot in taken[row]:
            mark |= lot_marks[lot]
        row_marks[row] = mark
        if mark:
            for lot in made[row]:
                lot_marks[lot] |= mark
    return row_marks, lot_marks
