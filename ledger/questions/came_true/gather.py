"""What the formulas of came-true begin with: everything that was said, and the things that it is of."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, method, solved
from ledger.methods.scoring import ENDS, losses
from ledger.questions.ahead.graded import KINDS, Graded
from ledger.questions.ahead.widening import lately
from ledger.questions.came_true.came import Happened
from ledger.questions.came_true.scores import CHANCES, EXPECTED, RANGES, side_of
from ledger.questions.came_true.then import Then
from ledger.questions.came_true.words import about, unit_of
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["SLUGS", "Grades"]

SLUGS = {kind: kind.replace(" ", "-") for kind in KINDS}
"""What is said, as addresses have it."""
_USE = "used a week"
_EXACT: Array = np.zeros((), np.int8)
At = tuple[Figure, int]


class Grades:
    """Things said, a row each; and the records that count them, a row each.

    Attributes
    ----------
    every : list of Graded
    keys : list of (str, int or None)
        What is said, and of which item (None: of all), of each record.
    is_known, is_chance, is_scored : ndarray of bool, shape (said,)
        Whether what came is known; whether it is a chance; whether it is scored.
    """

    def __init__(self, state: State, every: Sequence[Graded]) -> None:
        self.state, self.every = state, list(every)
        self.kind = np.array([KINDS.index(one.kind) for one in every], np.int64)
        names = state.facts.names
        each = [(one.kind, one.item) for one in every]
        whole: list[tuple[str, int | None]] = [(kind, None) for kind, _ in each]
        self.keys = sorted(
            dict.fromkeys([*whole, *each]),
            key=lambda key: (KINDS.index(key[0]), key[1] is not None, names[key[1] or 0]),
        )
        place = {key: row for row, key in enumerate(self.keys)}
        self.in_all = np.array([place[key] for key in whole], np.int64)
        """The record of all that is said alike, of each thing said."""
        self._by = np.array([place[key] for key in [*whole, *each]], np.int64)
        self._one = np.tile(np.arange(len(self.every)), 2)
        self.is_known = np.array([one.held is not None for one in every], bool)
        self.is_chance = np.array([one.kind in CHANCES for one in every], bool)
        based = np.array([one.base > 0 and one.came is not None for one in every], bool)
        ranges = np.isin(self.kind, [KINDS.index(kind) for kind in RANGES])
        self._based = based & ranges
        self.is_scored = self.is_known & (self.is_chance | self._based)
        self._lines: dict[int, dict[str, Any]] = {}
        self.then = Then(state)
        self.happened = Happened(state, self.then)

    # -- records ----------------------------------------------------------------------------

    def of(self, where: Array) -> Groups:
        """Return the things said of each record for which something holds."""
        return Groups(np.where(where[self._one], self._by, -1), len(self.keys), shows_nothing=True)

    @cached_property
    def known(self) -> Groups:
        """The things said of each record of which it is known what came."""
        return self.of(self.is_known)

    def each(self, figure: Figure) -> Figure:
        """Return a figure of things said as `of` counts them."""
        return figure.at(self._one)

    def days(self, record: int) -> list[int]:
        """Return the days on which what is known of a record was said."""
        return [self.every[self._one[at]].day for at in self.known.rows(record)]

    def are(self, kinds: Sequence[str]) -> Array:
        """Return which records are of some kinds."""
        return np.array([kind in kinds for kind, _ in self.keys], bool)

    @property
    def kinds(self) -> Array:
        """What is said, of each record."""
        return np.array([KINDS.index(kind) for kind, _ in self.keys], np.int64)

    @property
    def should_hold(self) -> Figure:
        """The share of each record that should hold; NaN of a chance."""
        share = [EXPECTED.get(kind, np.nan) for kind, _ in self.keys]
        return assumed(np.array(share, np.float64), "0 to 1", "ends-of-ranges")

    def widened(self, held: Figure) -> Figure:
        """Return by how much ranges are widened now, of the record of all use; `held`: of things said."""
        now = lately(self.state)
        said = self.of(
            np.array([one.kind == _USE and one.day in now.days for one in self.every], bool)
        )
        of_all = np.array([key == (_USE, None) for key in self.keys], bool)
        return method(
            lambda: np.where(of_all, now.factor, np.nan),
            "times",
            "widened",
            lambda record: [(held, at) for at in said.rows(record)],
        )

    # -- things said ------------------------------------------------------------------------

    def find(self, day: str, slug: str, of: str) -> int | None:
        """Return the row of one thing said on a day; None where there is none."""
        wanted = (day, slug, of)
        for row, one in enumerate(self.every):
            if (day_text(one.day), SLUGS[one.kind], one.of) == wanted:
                return row
        return None

    def line(self, figure: Figure, name: str) -> Figure:
        """Return a figure of things said as lines that tell what was said and came, each with its address."""

        def told(word: str) -> Callable[[int], Any]:
            return lambda row: self._said_of(row)[word]

        named = figure.called(
            "graded", day=told("day"), name=told("name"), said=told("said"), came=told("came")
        )
        return self.folded(named, name)

    def folded(self, figure: Figure, name: str) -> Figure:
        """Return a figure of things said as lines that open by the address of what was said."""

        def address(row: int) -> tuple[str, str]:
            one = self.every[row]
            return f"came-true/@{day_text(one.day)}/{SLUGS[one.kind]}/{one.of}", name

        return figure.folds(address)

    def _said_of(self, row: int) -> dict[str, Any]:
        if row not in self._lines:
            self._lines[row] = about(self.state, self.every[row])
        return self._lines[row]

    @property
    def one(self) -> Figure:
        """One, for each thing said."""
        return assumed(np.ones(len(self.every)), "times", "asked-again")

    def _values(self, of: Callable[[Graded], float | None]) -> Array:
        some = [of(one) for one in self.every]
        return np.array([np.nan if one is None else float(one) for one in some], np.float64)

    def _opened(
        self, values: Array, unit: str | Callable[[int], str], through: Callable[[Graded], At]
    ) -> Figure:
        """Return what is known of each, and the figures that give it where one is opened."""
        return solved(lambda: values, lambda: _EXACT, unit, lambda row: through(self.every[row]))

    def unit(self, row: int) -> str:
        """Return the unit of what was said."""
        one = self.every[row]
        if one.kind in CHANCES:
            return "0 to 1"
        if one.kind in ("runs out", "keeps"):
            return "weeks"
        unit = unit_of(self.state, one)
        return unit if one.kind == "yield" else f"{unit} a week"

    def end(self, end: int) -> Figure:
        """Return the low, likely or high end of what was said; NaN where there is none."""

        def value(one: Graded) -> float | None:
            return one.said[end] if len(one.said) > end and one.kind not in CHANCES else None

        def through(one: Graded) -> At:
            is_kept = one.kind == "keeps"
            return (self.happened.keeps(one), 0) if is_kept else self.then.end(one, end)

        return self._opened(self._values(value), self.unit, through)

    @property
    def chance(self) -> Figure:
        """The chance that was said; NaN of what is none."""
        values = self._values(lambda one: one.said[0] if one.kind in CHANCES else None)
        return self._opened(values, "0 to 1", self.then.chance)

    @property
    def came(self) -> Figure:
        """What came; NaN where that is not known, or nothing spoiled."""
        values = self._values(lambda one: one.came)
        return self._opened(values, self.unit, lambda one: (self.happened.of(one), 0))

    @property
    def base(self) -> Figure:
        """What the plain mean of the year before would have said; NaN where it says nothing."""
        return self._opened(
            self._values(lambda one: one.base if one.base > 0 else None), self.unit, self.then.base
        )

    def judged(self, of: Callable[[Graded], bool], said: Sequence[Figure], came: Figure) -> Figure:
        """Return whether something holds of what was said and came: 1 or 0, NaN while nobody knows."""
        values = self._values(lambda one: None if one.held is None else of(one))

        def parts(row: int) -> list[At]:
            return [*((one, row) for one in said if not np.isnan(one.value(row))), (came, row)]

        def by(row: int) -> str:
            return "kept-or-spoiled" if self.every[row].kind == "keeps" else "past-its-end"

        return method(lambda: values, "times", by, parts)

    def is_side(self, sign: int) -> Callable[[Graded], bool]:
        """Return whether what came lies below (-1) or above (1) what was said."""
        return lambda one: side_of(one) == sign

    # -- scores -----------------------------------------------------------------------------

    def errors(self, ratio: Figure) -> list[Figure]:
        """Return the tenth, fiftieth and ninetieth of what came by the plain mean; a row a kind."""
        of = Groups(np.where(self._based, self.kind, -1), len(KINDS))

        def parts(kind: int) -> list[At]:
            return [(ratio, row) for row in of.rows(kind)]

        def values(end: int) -> Array:
            return np.asarray(self._errors[end])

        return [
            method(partial(values, end), "times", "quantile", parts) for end in range(len(ENDS))
        ]

    @cached_property
    def _errors(self) -> Array:
        out = np.full((len(ENDS), len(KINDS)), np.nan)
        came, base = self.came.values, self.base.values
        for kind in np.unique(self.kind[self._based]).tolist():
            mine = self._based & (self.kind == kind)
            out[:, kind] = np.quantile(came[mine] / base[mine], ENDS)
        return out

    def pinball(self, said: Sequence[Figure], came: Figure, base: Figure) -> Figure:
        """Return how far off low, likely and high are; of use a week as a share of the plain mean."""
        is_mean = self.kind == KINDS.index("used a week")

        def values() -> Array:
            scale = np.where(is_mean, base.values, 1.0)
            ends = np.array([one.values for one in said])
            off = losses(ends / scale, came.values / scale, ENDS)
            return np.where(self.is_scored & ~self.is_chance, off, np.nan)

        def parts(row: int) -> list[At]:
            scale = [(base, row)] if is_mean[row] else []
            return [*((one, row) for one in said), (came, row), *scale]

        return method(values, "", "pinball-loss", parts)
