"""Ways of putting up as figures: what one jar or kilogram takes of the crop and of hours, and from where."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, assumed, choose, method, published
from ledger.questions.costs.sources import Sources, unit_factor

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "LB_G", "MadeAs", "Recipe"]

LB_G = 453.59237
LABELS = {
    "fresh-for-one": "year-fresh-one",
    "by-loads": "glut-fresh-by-loads",
    "kilograms-a-pound": "why-kilograms-a-pound",
    "own-hours": "year-one-own-batches",
    "guessed-hours": "year-one-guess-without-source",
}


@dataclass(frozen=True)
class Recipe:
    """What one jar or kilogram takes: fresh kilograms and hours.

    `ev` is the batch of one's own that it is made as, and `batches` those whose minutes count; a way out of
    the published tables alone has neither: its weight is then by `lb_from`, its hours are a guess.
    """

    kg: float
    hours: float
    ev: int | None = None
    batches: tuple[int, ...] = ()
    lb_from: str = ""


class MadeAs:
    """Figures of recipes, a row each."""

    def __init__(self, state: State, recipes: Sequence[Recipe]) -> None:
        self.state, self.recipes = state, recipes
        self._sources = state.once(Sources)

    @cached_property
    def fresh(self) -> Figure:
        """Fresh kilograms for one: as in the batch of one's own, by printed canner loads, or a kilogram."""
        kg = self._each("kg")
        own = method(lambda: kg, "kg", "as-put-up", self._went_in)
        pounds = published(kg * 1000 / LB_G, "lb", lambda row: self.recipes[row].lb_from)
        a_pound = unit_factor(LB_G / 1000, "kg per lb", "kilograms-a-pound")
        printed = pounds.called("by-loads", source=lambda row: self.recipes[row].lb_from) * a_pound
        by_loads = np.array([bool(one.lb_from) for one in self.recipes], bool)
        plain = choose(by_loads, printed, assumed(kg, "kg", "kilogram-for-kilogram"))
        is_own = np.array([one.ev is not None for one in self.recipes], bool)
        return choose(is_own, own, plain).called("fresh-for-one")

    @cached_property
    def hours(self) -> Figure:
        """Hours of hands for one: by the minutes of own batches, or guessed."""
        hours, minutes = self._each("hours"), self._sources.minutes
        own = method(
            lambda: hours, "hours", "own-minutes",
            lambda row: [(minutes, ev) for ev in self.recipes[row].batches],
        )  # fmt: skip
        guess = assumed(hours, "hours", "hours").called("guessed-hours")
        known = np.array([bool(one.batches) for one in self.recipes], bool)
        return choose(known, own.called("own-hours"), guess)

    def _each(self, name: str) -> Array:
        return np.array([getattr(one, name) for one in self.recipes], np.float64)

    def _went_in(self, row: int) -> list[tuple[Figure, int]]:
        """Return what the batch took, and what it made."""
        state, ev = self.state, self.recipes[row].ev
        took = np.flatnonzero(state.draws["ev"][state.allocations[0]] == ev).tolist()
        made = np.flatnonzero(state.lots["ev"] == ev).tolist()
        return [(self._sources.taken, at) for at in took] + [
            (self._sources.amount, m) for m in made
        ]
