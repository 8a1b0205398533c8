"""Minutes for one of what practices made, and the learning curve that is fitted to them."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Spans, if_known, known_where, method
from ledger.messages.units import unit as unit_name
from ledger.methods.learning import LearningCurve, fit_curve
from ledger.questions.know_how.gather import Records
from ledger.questions.know_how.units import Units
from ledger.questions.know_how.words import address

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Curve", "Curves"]


class Curves:
    """Practices with their minutes for one, a row each, and a curve for each of their records.

    Attributes
    ----------
    rows : ndarray of int, shape (rows,)
        The practices, one behind the other.
    spent, made, each : Figure
        All minutes of work of each, what it made in the unit of its skill, and minutes for one.
    repetition : Figure
        Which of its record each is, from 1.
    """

    def __init__(self, state: State, span: tuple[int, int] | None = None) -> None:
        self.records, self.units = state.once(Records), state.once(Units)
        records, skills = self.records, self.records.skills
        self.rows = np.arange(*(span or (0, skills.ev.size)))
        self.spent = self.units.spent.at(skills.ev[self.rows])
        self.made = self.units.amounts(self.rows)
        each = (self.spent / self.made).called(
            "minutes_per_unit",
            name=lambda at: unit_name(self.units.name(self._key(at)[0]) or ""),
            n=self._number,
        )
        self.each = if_known(each, "no-work-or-amount", "minutes per unit")
        start = np.array([start for start, _ in records.spans], np.int64)
        self._start = start[records.of[self.rows]]
        upto = Spans(self._start, self.rows + 1).sum(records.one)
        self.repetition = upto.called("repetition")
        self._fits: dict[int, LearningCurve | None] = {}

    def _number(self, at: int) -> int:
        return int(self.rows[at] - self._start[at]) + 1

    def _key(self, at: int) -> tuple[int, int]:
        return self.records.keys[int(self.records.of[self.rows[at]])]

    def _own(self, record: int) -> slice:
        """Return which rows are those of a record."""
        start, end = self.records.spans[record]
        first = int(self.rows[0]) if self.rows.size else 0
        return slice(start - first, end - first)

    def fit(self, record: int) -> LearningCurve | None:
        """Return the curve of a record; None from too few batches."""
        if record not in self._fits:
            is_timed = self.units.name(self.records.keys[record][0]) is not None
            each = self.each.values[self._own(record)].tolist() if is_timed else []
            self._fits[record] = fit_curve(each)
        return self._fits[record]

    @cached_property
    def _told(self) -> Array:
        """To which practices a curve can be fitted: those with minutes above zero."""
        return np.asarray(np.nan_to_num(self.each.values) > 0)

    def have(self, record: int) -> int:
        """Return how many practices of a record tell minutes for one."""
        return int(np.count_nonzero(self._told[self._own(record)]))

    def fitted(self, name: str) -> Figure:
        """Return a rate, 0 to 1, by its name in the curve of every record."""

        def values() -> Array:
            fits = [self.fit(record) for record in range(self.records.count)]
            return np.array([np.nan if fit is None else getattr(fit, name) for fit in fits])

        return method(values, "0 to 1", "curve", self.given)

    def batches(self) -> Figure:
        """Return how many batches the curve of every record is fitted to."""
        has = [self.fit(record) is not None for record in range(self.records.count)]
        one = self.records.one.called("", unit="batches")
        told = self.records.among(self._told).sum(one, "batches")
        return known_where(np.array(has, bool), told, "few-batches")

    def given(self, record: int) -> list[tuple[Figure, int]]:
        """Return what the curve of a record is fitted to: each by its own address."""
        own = self._own(record)
        told = (np.flatnonzero(self._told[own]) + own.start).tolist()
        number = self.folded(self.repetition, "repetition")
        each = self.folded(self.each, "minutes_per_unit")
        return [(figure, at) for at in told for figure in (number, each)]

    def folded(self, figure: Figure, name: str) -> Figure:
        """Return a figure of practices as a line with the address of each on its curve."""

        def opened(at: int) -> tuple[str, str]:
            key, number = self._key(at), str(self._number(at))
            return address(self.records.skills, *key, "@curve", number), name

        return figure.folds(opened)


class Curve(Curves):
    """The practices of one record, and the curve along them.

    Attributes
    ----------
    fit_of : LearningCurve or None
    unit : str
        Of minutes for one.
    """

    def __init__(self, state: State, record: int) -> None:
        super().__init__(state, state.once(Records).spans[record])
        self.record, self.fit_of = record, self.fit(record)
        self.unit = f"minutes per {self.units.name(self.records.keys[record][0]) or 'unit'}"

    def along(self, what: Callable[[LearningCurve, int], float], unit: str) -> Figure:
        """Return what the curve gives at each of the practices."""
        fit, numbers = self.fit_of, range(1, self.rows.size + 1)
        values = [np.nan if fit is None else what(fit, n) for n in numbers]
        number = self.folded(self.repetition, "repetition")
        given = self.given(self.record)
        return method(
            lambda: np.array(values, np.float64), unit, "curve", lambda at: [(number, at), *given]
        )
