"""From one table to another: rows that belong to one, the one of two that holds, what is carried."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property
from typing import Any

import numpy as np

from ledger.figures.figure import ALL_EXACT, LESS, MORE, THROUGH, Array, Figure, Opened, Unit
from ledger.figures.leaves import unknown

__all__ = [
    "Groups",
    "Spans",
    "choose",
    "if_known",
    "in_part",
    "known_where",
    "solved",
    "some_known",
    "stacked",
]

_REDUCED = {"lowest": np.minimum, "highest": np.maximum, "product": np.multiply}


class Groups:
    """Rows of one table that belong to rows of another.

    Parameters
    ----------
    by : ndarray of int, shape (inner rows,)
        The row that each belongs to; below zero: none.
    count : int
        How many rows the other table has.
    largest_first : bool
        Whether a tree shows the largest first; else in the order of their table.
    shows_nothing : bool
        Whether the tree of a sum shows rows of 0 as well.
    """

    def __init__(
        self, by: Array, count: int, *, largest_first: bool = False, shows_nothing: bool = False
    ) -> None:
        self.by, self.count = np.asarray(by, np.int64), count
        self._largest_first, self._shows_nothing = largest_first, shows_nothing

    @cached_property
    def _some(self) -> Array:
        return np.flatnonzero(self.by >= 0)

    @cached_property
    def _rows(self) -> tuple[Array, Array]:
        order = np.argsort(self.by, kind="stable")
        return np.searchsorted(self.by[order], np.arange(self.count + 1)), order

    @cached_property
    def first(self) -> Array:
        """The first row that belongs to each, -1 where none does; shape (count,)."""
        ends, order = self._rows
        some = ends[1:] > ends[:-1]
        out = np.full(self.count, -1, np.int64)
        out[some] = order[ends[:-1][some]]
        return out

    def rows(self, one: int) -> list[int]:
        """Return the rows that belong to one, in order."""
        ends, order = self._rows
        found: list[int] = order[ends[one] : ends[one + 1]].tolist()
        return found

    def sum(self, figure: Figure, unit: Unit | None = None) -> Figure:
        """Return the sum of a figure over the rows of each; 0 where there are none.

        Parameters
        ----------
        unit : str or callable of a row, optional
            The unit of each sum, where some have no rows to take it from.
        """

        def work() -> Array:
            values = np.broadcast_to(figure.values, self.by.shape)
            if self._some.size == self.by.size:
                return np.bincount(self.by, values, self.count)
            return np.bincount(self.by[self._some], values[self._some], self.count)

        def bound() -> Array:
            if not figure.bound.any():
                return ALL_EXACT
            out = np.zeros(self.count, np.int8)
            marks = np.broadcast_to(figure.bound, self.by.shape)
            marked = np.flatnonzero((marks > 0) & (self.by >= 0))
            np.bitwise_or.at(out, self.by[marked], marks[marked])
            return out

        return Figure(work, unit or self._unit(figure), self._opens("sum", figure), bound)

    def among(self, how: str, figure: Figure, unit: Unit | None = None) -> Figure:
        """Return the ``lowest``, ``middle``, ``highest`` or ``product`` of each's rows; NaN without any."""

        def work() -> Array:
            values = np.broadcast_to(figure.values, self.by.shape)
            out = np.full(self.count, np.nan)
            ends, order = self._rows
            some = np.flatnonzero(ends[1:] > ends[:-1])
            if how in _REDUCED:
                out[some] = (
                    _REDUCED[how].reduceat(values[order], ends[some]) if some.size else out[some]
                )
                return out
            for one in some.tolist():
                out[one] = np.median(values[order[ends[one] : ends[one + 1]]])
            return out

        def bound() -> Array:
            return self.sum(figure).bound

        return Figure(work, unit or self._unit(figure), self._opens(how, figure), bound)

    def mean(self, figure: Figure) -> Figure:
        """Return the mean of the rows of each; NaN where there are none."""

        def work() -> Array:
            many = np.bincount(self.by[self._some], minlength=self.count)
            with np.errstate(invalid="ignore"):
                return np.asarray(self.sum(figure).values / many)

        return Figure(
            work,
            self._unit(figure),
            self._opens("mean", figure),
            lambda: self.sum(figure).bound,
        )

    def _unit(self, figure: Figure) -> Unit:
        return lambda one: figure.unit_of(max(int(self.first[one]), 0)) if self.by.size else ""

    def _opens(self, how: str, figure: Figure) -> Callable[[int], Opened]:
        def opens(one: int) -> Opened:
            rows = self.rows(one)
            if self._largest_first:
                rows.sort(key=lambda row: -figure.value(row))
            parts = [(figure, row) for row in rows]
            return Opened(how, parts, shows_nothing=self._shows_nothing)

        return opens


class _Each(Sequence[tuple[Figure, int]]):
    """Rows of a figure as parts, made as they are read: a line that is folded reads none."""

    def __init__(self, figure: Figure, rows: range) -> None:
        self._figure, self._rows = figure, rows

    def __len__(self) -> int:
        return len(self._rows)

    def __getitem__(self, at: Any) -> Any:
        return self._figure, self._rows[at]


class Spans:
    """Rows of one table that stand one behind the other, for each row of another.

    Parameters
    ----------
    start, stop : ndarray of int, shape (rows,)
    """

    def __init__(self, start: Array, stop: Array) -> None:
        self.start, self.stop = np.asarray(start, np.int64), np.asarray(stop, np.int64)

    def sum(self, figure: Figure) -> Figure:
        """Return the sum of a figure over each span."""

        def work() -> Array:
            upto = np.r_[0.0, np.cumsum(figure.values)]
            return np.asarray(upto[self.stop] - upto[self.start])

        def bound() -> Array:
            if not figure.bound.any():
                return ALL_EXACT
            out = np.zeros(self.start.size, np.int8)
            for bit in (MORE, LESS):
                upto = np.r_[0, np.cumsum((figure.bound & bit) > 0)]
                out |= np.where(upto[self.stop] > upto[self.start], bit, 0).astype(np.int8)
            return out

        def opens(row: int) -> Opened:
            return Opened("sum", _Each(figure, range(int(self.start[row]), int(self.stop[row]))))

        def unit(row: int) -> str:
            return figure.unit_of(int(self.start[row]))

        return Figure(work, unit, opens, bound)


def stacked(figures: Sequence[Figure], rows: Sequence[int]) -> Figure:
    """Return figures one below the other.

    Parameters
    ----------
    figures : sequence of Figure
    rows : sequence of int
        How many rows each has.
    """
    ends = np.cumsum([0, *rows])

    def place(row: int) -> tuple[Figure, int]:
        which = int(np.searchsorted(ends, row, "right")) - 1
        return figures[which], row - int(ends[which])

    def work() -> Array:
        values = [np.broadcast_to(f.values, n) for f, n in zip(figures, rows, strict=True)]
        return np.concatenate([np.zeros(0), *values])

    def bound() -> Array:
        if not any(figure.bound.any() for figure in figures):
            return ALL_EXACT
        bounds = [np.broadcast_to(f.bound, n) for f, n in zip(figures, rows, strict=True)]
        return np.concatenate(bounds)

    def unit(row: int) -> str:
        figure, one = place(row)
        return figure.unit_of(one)

    return Figure(work, unit, lambda row: Opened(THROUGH, (place(row),)), bound)


def choose(where: Array, a: Figure, b: Figure) -> Figure:
    """Return `a` where `where` holds, else `b`.

    Parameters
    ----------
    where : ndarray of bool, shape (rows,)
    """
    where = np.asarray(where, bool)
    return Figure(
        lambda: np.where(where, a.values, b.values),
        lambda row: (a if where[row] else b).unit_of(row),
        lambda row: Opened(THROUGH, ((a if where[row] else b, row),)),
        lambda: np.where(where, a.bound, b.bound) if a.bound.any() or b.bound.any() else ALL_EXACT,
    )


def known_where(where: Array, figure: Figure, reason: str, unit: str | None = None) -> Figure:
    """Return a figure where it can be said, else a leaf that says why not.

    Parameters
    ----------
    where : ndarray of bool, shape (rows,)
    reason : str
        Id of the label that says why not.
    unit : str, optional
        The unit of what cannot be said, where the figure's own is another there.
    """
    return choose(where, figure, unknown(unit or figure.unit, reason))


def if_known(figure: Figure, reason: str, unit: str | None = None) -> Figure:
    """Return a figure where it can be said, as its values show, else a leaf that says why not.

    Parameters
    ----------
    reason, unit
        As for `known_where`.
    """
    none = unknown(unit or figure.unit, reason)

    def at(row: int) -> Figure:
        return none if np.isnan(figure.value(row)) else figure

    return Figure(
        lambda: figure.values,
        lambda row: at(row).unit_of(row),
        lambda row: Opened(THROUGH, ((at(row), row),)),
        lambda: figure.bound,
    )


def in_part(figure: Figure, part: Figure, label: str) -> Figure:
    """Return a part of a figure: a product, but the figure itself where the part is all of it.

    Parameters
    ----------
    part : Figure
        0 to 1.
    label : str
        Id of the label of the products.
    """
    product = (figure * part).called(label)

    def opens(row: int) -> Opened:
        return Opened(THROUGH, ((figure if part.value(row) == 1 else product, row),))

    return Figure(lambda: product.values, figure.unit, opens, lambda: product.bound)


def some_known(figure: Figure, reason: str) -> Figure:
    """Return a figure where anything is known of it: 0 or more cannot be said.

    Parameters
    ----------
    reason : str
        Id of the label that says why not.
    """
    none = unknown(figure.unit, reason)

    def is_blank() -> Array:
        return np.asarray((figure.values == 0) & (figure.bound > 0))

    def opens(row: int) -> Opened:
        blank = not figure.value(row) and figure.bound_of(row)
        return Opened(THROUGH, ((none if blank else figure, row),))

    return Figure(
        lambda: np.where(is_blank(), np.nan, figure.values),
        figure.unit,
        opens,
        lambda: figure.bound,
    )


def solved(
    values: Callable[[], Any],
    bounds: Callable[[], Any],
    unit: Unit,
    through: Callable[[int], tuple[Figure, int]],
) -> Figure:
    """Return what an algorithm gives for all rows, and a formula for one.

    What is carried through rows that draw on each other is solved at once; the tree follows the
    formula, and the test that works out every node anew holds the two together.
    """
    return Figure(values, unit, lambda row: Opened(THROUGH, (through(row),)), bounds)
