"""Cost, energy, weight and origin carried from lots through batches to meals, in one solve.

Every batch is two rows (pot and what its jars share) and one row for each made entry with jars
(its lids and jar wear); a meal that left something is one row. A row takes shares of lots, and
the lots of earlier rows only, so that the system is strictly lower triangular: (I - P) F = b.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ledger.replay.columns import Array

__all__ = [
    "COMPONENTS",
    "COST",
    "GRAMS",
    "KCAL",
    "LABOUR",
    "VALUE",
    "WIDTH",
    "Traced",
    "carried_by",
    "carry_marks",
    "solve",
    "solve_some",
]

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

COST, GRAMS, KCAL, VALUE = slice(0, 8), slice(8, 14), slice(14, 20), slice(20, 26)
"""Columns of figures: eight components of cost, then grams, kcal and shop value by six origins."""

LABOUR = COMPONENTS.index("labour")

WIDTH = VALUE.stop
"""How many columns of figures there are."""

_FEW = 4096
"""Rows up to which they are solved here: loading SciPy takes longer, 0.25 s."""


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
    solved = own.copy(order="K")
    # Most rows take raw lots only, and most columns of a small book are empty: neither is solved.
    into = np.unique(takes[0])
    some = np.flatnonzero(own.any(axis=0))
    if into.size and some.size:
        row, source, share = _through(takes, gives, lots)
        at = np.full(own.shape[0], -1, np.int64)
        at[into] = np.arange(into.size)
        is_early = at[source] < 0
        early, late = np.flatnonzero(is_early), np.flatnonzero(~is_early)
        known = own[np.ix_(into, some)]
        known += _summed(at[row[early]], source[early], share[early], own[:, some], into.size)
        edges = at[row[late]], at[source[late]], share[late]
        finish = _by_depth if into.size <= _FEW else _at_once
        solved[np.ix_(into, some)] = finish(edges, known)
    carried = np.zeros((own.shape[1], lots)).T
    carried[:, some] = _summed(*gives, solved[:, some], lots)
    return Traced(solved, carried)


def solve_some(
    own: Array,
    known: Array,
    some: Array,
    takes: tuple[Array, Array, Array],
    gives: tuple[Array, Array, Array],
    lots: int,
) -> Array:
    """Return the figures of some rows, those of all others being known.

    Parameters
    ----------
    own : ndarray of float, shape (rows asked for, WIDTH)
        As for `solve`.
    known : ndarray of float, shape (rows, WIDTH)
        What holds for the rows that are not asked for.
    some : ndarray of int64, shape (rows asked for,)
        Rising.
    takes, gives, lots
        As for `solve`.

    Returns
    -------
    ndarray of float, shape (rows asked for, WIDTH)
    """
    at = np.full(known.shape[0], -1, np.int64)
    at[some] = np.arange(some.size)
    mine = np.flatnonzero(at[takes[0]] >= 0)
    row, source, share = _through((takes[0][mine], takes[1][mine], takes[2][mine]), gives, lots)
    is_known = at[source] < 0
    early, late = np.flatnonzero(is_known), np.flatnonzero(~is_known)
    out = own.copy()
    if early.size:
        out += _summed(at[row[early]], source[early], share[early], known, some.size)
    if late.size:
        finish = _by_depth if some.size <= _FEW else _at_once
        out = finish((at[row[late]], at[source[late]], share[late]), out)
    return out


def carried_by(gives: tuple[Array, Array, Array], rows: Array, lots: int) -> Array:
    """Return what lots carry of rows, shape (lots, columns)."""
    return _summed(*gives, rows, lots)


def _through(
    takes: tuple[Array, Array, Array], gives: tuple[Array, Array, Array], lots: int
) -> tuple[Array, Array, Array]:
    """Return which share of which row each row takes, through the lots between them."""
    row, lot, share = takes
    order = np.argsort(gives[0], kind="stable")
    start = np.searchsorted(gives[0][order], np.arange(lots + 1))
    many = (start[1:] - start[:-1])[lot]
    behind = np.repeat(start[lot] - np.r_[0, np.cumsum(many)[:-1]], many)
    edge = order[behind + np.arange(behind.size)]
    return np.repeat(row, many), gives[1][edge], np.repeat(share, many) * gives[2][edge]


def _summed(to: Array, source: Array, share: Array, figures: Array, count: int) -> Array:
    """Return shares of figures, summed where they go, shape (count, columns)."""
    out = np.empty((figures.shape[1], count))
    for column in range(out.shape[0]):
        out[column] = np.bincount(to, share * figures[source, column], count)
    return out.T


def _by_depth(edges: tuple[Array, Array, Array], known: Array) -> Array:
    """Return the solution, rows that take of solved rows only together: rows take of earlier ones."""
    order = np.argsort(edges[0], kind="stable")
    row, source, share = (one[order] for one in edges)
    depth = [0] * len(known)
    for to, of in zip(row.tolist(), source.tolist(), strict=True):
        if depth[to] <= depth[of]:
            depth[to] = depth[of] + 1
    out, level = np.ascontiguousarray(known), np.array(depth)[row]
    order = np.argsort(level, kind="stable")
    bounds = np.searchsorted(level[order], np.arange(1, max(depth, default=0) + 2))
    for start, end in pairwise(bounds.tolist()):
        some = order[start:end]
        to = row[some]
        first = np.flatnonzero(np.r_[True, to[1:] != to[:-1]])
        out[to[first]] += np.add.reduceat(share[some, None] * out[source[some]], first)
    return out


def _at_once(edges: tuple[Array, Array, Array], known: Array) -> Array:
    """Return the same by SciPy."""
    from scipy.sparse import csr_array, eye_array
    from scipy.sparse.linalg import spsolve_triangular

    row, source, share = edges
    count = len(known)
    system = eye_array(count, format="csr") - csr_array((share, (row, source)), (count, count))
    return np.asarray(spsolve_triangular(system.tocsr(), known, lower=True, unit_diagonal=True))


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
