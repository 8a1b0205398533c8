"""A figure: a column that knows how it is worked out.

Formulas are plain arithmetic on figures and compute nothing. `Figure.values` gives all rows by numpy
when it is asked for; `ledger.figures.tree` walks the same objects for one row.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ledger.figures import units

__all__ = ["EXACT", "LESS", "MORE", "THROUGH", "Array", "Figure", "Opened", "total", "work"]

Array = NDArray[Any]
Unit = str | Callable[[int], str]

EXACT, MORE, LESS = 0, 1, 2
"""What a value is: as it stands, that much or more, that much or less; a bit each, so both may hold."""

ALL_EXACT: Array = np.zeros((), np.int8)
"""The bound of a column whose every row is exact."""

THROUGH = "through"
"""The `how` of a figure that is another table's: a tree passes on to it."""


@dataclass(frozen=True)
class Opened:
    """How one row of a figure is worked out: its parts, or the source of a leaf."""

    how: str = "as written"
    parts: Sequence[tuple[Figure, int]] = ()
    event: int = -1
    source: str = ""
    assumption: str = ""
    label: str = ""
    shows_nothing: bool = False
    """Of a sum: whether parts of 0 are shown as well."""


@dataclass
class _Made:
    """What was worked out of a figure, shared by all names that it is called by."""

    values: Array | None = None
    bound: Array | None = None


@dataclass(frozen=True, eq=False)
class Figure:
    """A lazy column.

    Parameters
    ----------
    work : callable
        Gives the values of all rows, shape (rows,); NaN: cannot be said. Shape () for a constant.
    unit : str or callable
        The unit, or the unit of a row.
    opens : callable
        ``opens(row)`` says how a row is worked out.
    bounds : callable, optional
        Gives `EXACT`, `MORE`, `LESS` or both of all rows; default: exact.
    """

    work: Callable[[], Any]
    unit: Unit
    opens: Callable[[int], Opened]
    bounds: Callable[[], Any] | None = None
    label: str = ""
    about: dict[str, Any] = field(default_factory=dict)
    fold: Callable[[int], tuple[str, str] | None] | None = None
    is_one_of: bool = False
    words: Callable[[int], str | None] | None = None
    """What a row's value stands for, where it only numbers it; None: the value itself."""
    passes: tuple[Figure, Array] | None = None
    """The figure, and which of its rows each row is: nothing is kept of them here."""
    _made: _Made = field(default_factory=_Made)

    # -- as a column --------------------------------------------------------------------

    @property
    def values(self) -> Array:
        """All rows, float64, shape (rows,); NaN where nothing can be said."""
        if self.passes is not None:
            return np.asarray(self.work(), np.float64)
        if self._made.values is None:
            self._made.values = np.asarray(self.work(), np.float64)
        return self._made.values

    @property
    def bound(self) -> Array:
        """What each value is: a bit set of `MORE` and `LESS`, int8, shape (rows,).

        Shape () where every row is exact, as most columns are.
        """
        if self._made.bound is None:
            bound = ALL_EXACT if self.bounds is None else np.asarray(self.bounds(), np.int8)
            if bound.any():
                self._made.bound = np.where(np.isnan(self.values), np.int8(0), bound)
            else:
                self._made.bound = ALL_EXACT
        return self._made.bound

    def cells(self) -> list[float | None]:
        """Return all rows as an answer has them: None where nothing can be said."""
        return [None if math.isnan(value) else value for value in self.values.tolist()]

    def told(self, row: int) -> float | str | None:
        """Return a row as an answer has it: a number, or the words that it stands for; None: cannot be said."""
        value = self.value(row)
        words = None if self.words is None else self.words(row)
        return None if math.isnan(value) else value if words is None else words

    # -- as one row ---------------------------------------------------------------------

    def value(self, row: int) -> float:
        """Return the value of a row."""
        if self.passes is not None:
            figure, index = self.passes
            return figure.value(int(index[row])) if index[row] >= 0 else float("nan")
        values = self.values
        return float(values if values.ndim == 0 else values[row])

    def bound_of(self, row: int) -> int:
        """Return the bound of a row."""
        bound = self.bound
        return int(bound if bound.ndim == 0 else bound[row])

    def unit_of(self, row: int) -> str:
        """Return the unit of a row."""
        return self.unit if isinstance(self.unit, str) else self.unit(row)

    # -- names --------------------------------------------------------------------------

    def called(
        self, label: str, *, unit: Unit | None = None, is_one_of: bool = False, **about: Any
    ) -> Figure:
        """Return the same figure under a label's id.

        Parameters
        ----------
        unit : str or callable of a row, optional
            Another name of its unit.
        is_one_of : bool
            The label tells it from others of one sum: alone in it, it goes by the name of the sum.
        **about
            What the label speaks of; a callable is asked for a row.
        """
        unit = self.unit if unit is None else unit
        return self._again(label=label, about=about, unit=unit, is_one_of=is_one_of)

    def folds(self, address: Callable[[int], tuple[str, str] | None]) -> Figure:
        """Return the same figure as one line of a tree, where `address(row)` gives its address.

        An address is a table with a key, and the figure to ask for: ``("lot/ID:1", "cost.garden")``.
        """
        return self._again(fold=address)

    def in_words(self, words: Callable[[int], str | None]) -> Figure:
        """Return the same figure, whose values stand for words: `words(row)`; None: for nothing else."""
        return self._again(words=words)

    def under(self, address: str, label: str) -> Figure:
        """Return the same figure of another table or moment, with what its tree names behind a prefix.

        Parameters
        ----------
        address, label : str
            What goes before each address, and before the id of each label.
        """

        def opens(row: int) -> Opened:
            said = self.opens(row)
            parts = [(figure.under(address, label), at) for figure, at in said.parts]
            return replace(said, parts=parts, label=said.label and label + said.label)

        def fold(row: int) -> tuple[str, str] | None:
            found = None if self.fold is None else self.fold(row)
            return None if found is None else (address + found[0], found[1])

        return self._again(opens=opens, fold=fold, label=self.label and label + self.label)

    def _again(self, **changed: Any) -> Figure:
        """Return the same figure, called otherwise (`dataclasses.replace` takes ten times as long)."""
        other = object.__new__(Figure)
        vars(other).update(vars(self), **changed)
        return other

    # -- arithmetic ---------------------------------------------------------------------

    def __add__(self, other: Figure) -> Figure:
        return total(self, other)

    def __sub__(self, other: Figure) -> Figure:
        return _two(
            "difference",
            lambda: self.values - other.values,
            self,
            other,
            self.unit_of,
            lambda: self.bound | _turned(other.bound),
        )

    def __mul__(self, other: Figure) -> Figure:
        def bound() -> Array:
            if not self.bound.any() and not other.bound.any():
                return ALL_EXACT
            # Nothing times anything is nothing, however little is known of the other.
            first = (other.values != 0) | (other.bound > 0)
            second = (self.values != 0) | (self.bound > 0)
            return np.where(first, self.bound, 0) | np.where(second, other.bound, 0)

        return _two(
            "product",
            lambda: self.values * other.values,
            self,
            other,
            lambda row: units.times(self.unit_of(row), other.unit_of(row)),
            bound,
        )

    def __truediv__(self, other: Figure) -> Figure:
        def work() -> Array:
            with np.errstate(divide="ignore", invalid="ignore"):
                return np.where(other.values == 0, np.nan, self.values / other.values)

        def bound() -> Array:
            if not other.bound.any():
                return self.bound
            above = (self.values != 0) | (self.bound > 0)
            return self.bound | np.where(above, _turned(other.bound), 0)

        return _two(
            "quotient",
            work,
            self,
            other,
            lambda row: units.over(self.unit_of(row), other.unit_of(row)),
            bound,
        )

    # -- other tables -------------------------------------------------------------------

    def at(self, index: Array) -> Figure:
        """Return the figure of another table's rows, NaN where `index` is below zero.

        Parameters
        ----------
        index : ndarray of int, shape (rows,)
        """

        def work() -> Array:
            if self.values.ndim == 0:
                return np.where(index >= 0, self.values, np.nan)
            if not self.values.size:
                return np.full(index.shape, np.nan)
            found = self.values[index]
            if index.size and index.min() < 0:
                found[index < 0] = np.nan
            return found

        def bound() -> Array:
            if self.bound.ndim == 0:
                return ALL_EXACT if not self.bound else np.full(index.shape, self.bound)
            return np.where(index >= 0, self.bound[index], 0)

        return Figure(
            work,
            lambda row: self.unit_of(int(index[row])),
            lambda row: Opened(THROUGH, ((self, int(index[row])),)),
            bound,
            passes=(self, index),
        )


def _two(
    how: str,
    work: Callable[[], Any],
    first: Figure,
    second: Figure,
    unit: Unit,
    bound: Callable[[], Any],
) -> Figure:
    return Figure(work, unit, lambda row: Opened(how, ((first, row), (second, row))), bound)


def _turned(bound: Array) -> Array:
    """Return the bounds of what is taken away, or divided by: at least becomes at most."""
    return np.asarray(((bound & MORE) << 1) | ((bound & LESS) >> 1), np.int8)


def total(*figures: Figure) -> Figure:
    """Return the sum of figures."""

    def work() -> Array:
        out = figures[0].values
        for figure in figures[1:]:
            out = out + figure.values
        return out

    def bound() -> Array:
        out = figures[0].bound
        for figure in figures[1:]:
            out = out | figure.bound
        return out

    return Figure(
        work,
        figures[0].unit_of,
        lambda row: Opened("sum", tuple((figure, row) for figure in figures)),
        bound,
    )


_NEARLY = 1e-13
"""A float a breath below a whole number is that number, as whole units divide exactly."""


def _rounded_down(value: Array) -> Array:
    """Round down, what is within a thousandth of the next whole number counting as whole (rule 7)."""
    more = value + 0.001
    return np.floor(more + _NEARLY * np.maximum(1.0, np.abs(more)))


def _rounded_up(value: Array) -> Array:
    """Round up, what lies a breath above a whole number counting as that number."""
    return np.ceil(value - 1e-9 * np.abs(value))


_WORK: dict[str, Callable[..., Array]] = {
    "lowest": lambda *values: np.min(np.broadcast_arrays(*values), axis=0),
    "highest": lambda *values: np.max(np.broadcast_arrays(*values), axis=0),
    "rounded down": _rounded_down,
    "rounded up": _rounded_up,
    "middle": lambda *values: np.median(np.broadcast_arrays(*values), axis=0),
    "power": np.power,
}


def work(how: str, *figures: Figure) -> Figure:
    """Return the ``lowest``, ``middle`` or ``highest`` of figures, one ``rounded down`` or ``up``, or a ``power``."""

    def bound() -> Array:
        out = figures[0].bound
        for figure in figures[1:]:
            out = out | figure.bound
        return out

    return Figure(
        lambda: _WORK[how](*(figure.values for figure in figures)),
        figures[0].unit_of,
        lambda row: Opened(how, tuple((figure, row) for figure in figures)),
        bound,
    )
