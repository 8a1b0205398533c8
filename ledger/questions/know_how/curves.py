"""Minutes for one of what practices made, and the learning curve that is fitted to them."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Spans, known_where, method
from ledger.messages.units import unit as unit_name
from ledger.methods.learning import LearningCurve, fit_curve
from ledger.questions.know_how.gather import Records
from ledger.questions.know_how.units import Units
from ledger.questions.know_how.words import address

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Curves"]


class Curves:
    """Practices with their minutes for one, and a curve for each of their records.

    Parameters
    ----------
    state : State
    only : int, optional
        The practices of this record alone, a row each; else all.

    Attributes
    ----------
    rows : ndarray of int, shape (rows,)
        The practices.
    spent, made, each : Figure
        All minutes of work of each, what it made in the unit of its skill, and minutes for one.
    repetition : Figure
        Which of its record each is, from 1.
    """

    def __init__(self, state: State, only: int | None = None) -> None:
        self.records, self.units = state.once(Records), state.once(Units)
        records, skills = self.records, self.records.skills
        span = (0, skills.ev.size) if only is None else records.spans[only]
        self.rows = np.arange(*span)
        self.spent = self.units.spent.at(skills.ev[self.rows])
        self.made = self.units.amounts(self.rows)
        each = (self.spent / self.made).called(
            "minutes_per_unit",
            name=lambda at: unit_name(self.units.name(self._key(at)[0]) or ""),
            n=self._number,
        )
        self.each = known_where(
            ~np.isnan(each.values), each, "no-work-or-amount", "minutes per unit"
        )
        start = np.array([start for start, _ in records.spans], np.int64)
        self._first = start[records.of[self.rows]] if self.rows.size else self.rows
        upto = Spans(self._first, self.rows + 1).sum(records.one)
        self.repetition = upto.called("repetition", n=self._number)
        self._fits: dict[int, LearningCurve | None] = {}

    def _number(self, at: int) -> int:
        return int(self.rows[at] - self._first[at]) + 1

    def _key(self, at: int) -> tuple[int, int]:
        return self.records.keys[int(self.records.of[self.rows[at]])]

    def fit(self, record: int) -> LearningCurve | None:
        """Return the curve of a record whose practices are among these; None from too few."""
        if record not in self._fits:
            is_timed = self.units.name(self.records.keys[record][0]) is not None
            each = self.each.values[slice(*self._span(record))].tolist() if is_timed else []
            self._fits[record] = fit_curve(each)
        return self._fits[record]

    def _span(self, record: int) -> tuple[int, int]:
        start, end = self.records.spans[record]
        first = int(self.rows[0]) if self.rows.size else 0
        return max(start - first, 0), max(end - first, 0)

    @cached_property
    def _is_told(self) -> Array:
        """Which practices a curve can be fitted to: with minutes above zero."""
        return np.asarray(np.nan_to_num(self.each.values) > 0)

    def have(self, record: int) -> int:
        """Return how many practices of a record tell minutes for one."""
        return int(np.count_nonzero(self._is_told[slice(*self._span(record))]))

    # -- of all records ------------------------------------------------------------------------

    def fitted(self, name: str) -> Figure:
        """Return a rate, 0 to 1, by its name in the curve of every record."""

        def values() -> Array:
            fits = [self.fit(record) for record in range(self.records.count)]
            return np.array([np.nan if fit is None else getattr(fit, name) for fit in fits])

        return method(values, "0 to 1", "curve", self._given)

    @cached_property
    def has(self) -> Array:
        """Which records have a curve, shape (records,)."""
        return np.array([self.fit(row) is not None for row in range(self.records.count)], bool)

    def batches(self) -> Figure:
        """Return how many batches there are to fit a curve of every record to."""
        one = self.records.one.called("", unit="batches")
        return self.records.among(self._is_told).sum(one, "batches")

    def _given(self, record: int) -> list[tuple[Figure, int]]:
        """Return what the curve of a record is fitted to: each by its own address."""
        start, end = self._span(record)
        told = (np.flatnonzero(self._is_told[start:end]) + start).tolist()
        folded = [
            self.folded(figure, name)
            for name, figure in (("repetition", self.repetition), ("minutes_per_unit", self.each))
        ]
        return [(figure, at) for at in told for figure in folded]

    def folded(self, figure: Figure, name: str) -> Figure:
        """Return a figure of practices as a line with the address of each on its curve."""
        skills = self.records.skills

        def opened(at: int) -> tuple[str, str]:
            return address(skills, *self._key(at), "@curve", str(self._number(at))), name

        return figure.folds(opened)

    def unit(self, record: int) -> str:
        """Return the unit of minutes for one of a record."""
        return f"minutes per {self.units.name(self.records.keys[record][0]) or 'unit'}"

    # -- of one record -------------------------------------------------------------------------

    def fits(self, record: int) -> Array:
        """Return whether there is a curve along its practices, shape (rows,)."""
        return np.full(self.rows.size, self.fit(record) is not None)

    def along(self, record: int, what: Callable[[LearningCurve, int], float], unit: str) -> Figure:
        """Return what the curve of the one record gives at each of its practices."""
        fit = self.fit(record)
        numbers = range(1, self.rows.size + 1)
        values = [np.nan if fit is None else what(fit, n) for n in numbers]
        given = self._given(record)
        repetition = self.folded(self.repetition, "repetition")
        return method(
            lambda: np.array(values, np.float64),
            unit,
            "curve",
            lambda at: [(repetition, at), *given],
        )
