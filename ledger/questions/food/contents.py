"""What one whole unit of each item weighs and holds, as figures: 0 or more where nobody knows."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import MORE, Array, Figure, Opened, assumed, choose, published
from ledger.questions.costs.sources import Sources
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["FOOD", "FOOD_TABLE", "Contents"]

FOOD = SORTS.index("food")
FOOD_TABLE = "A1"
"""Source of energies and refuse (docs/sources.md): USDA SR28."""


class Contents:
    """Weight and energy of items, a row an item.

    Attributes
    ----------
    is_food : ndarray of bool, shape (items,)
    has_weight, has_energy : ndarray of bool, shape (items,)
        Whether a weight is known; whether weight and energy are.
    """

    def __init__(self, state: State) -> None:
        self.state, self.sources = state, state.once(Sources)
        facts = state.facts
        self.items = np.arange(len(facts))
        kcal = [facts.kcal_per_gram(item) for item in range(len(facts))]
        self._kcal = np.array([np.nan if one is None else one for one in kcal], np.float64)
        self.is_food = facts.sort == FOOD
        self.has_weight = ~np.isnan(facts.grams)
        self.has_energy = self.has_weight & ~np.isnan(self._kcal)

    @cached_property
    def grams(self) -> Figure:
        """Grams in one whole unit."""
        known = self.sources.weight(self.items)
        none = self._nothing("no weight", known.unit_of)
        return choose(self.has_weight, known, none)

    @cached_property
    def no_energy(self) -> Figure:
        """Nothing, or more, in kcal: what counts where no energy is known."""
        return choose(
            self.has_weight, self._nothing("no energy", "kcal"), self._nothing("no weight", "kcal")
        )

    @cached_property
    def kcal(self) -> Figure:
        """Energy of the edible part of one gram, in kcal; NaN where it is not known."""
        weighed = (self._of_edible * self._edible_part).called("kcal-as-weighed")
        return choose(self._edible != 1, weighed, self._of_edible)

    def _nothing(self, kind: str, unit: str | Callable[[int], str]) -> Figure:
        name = self.sources.name_of(self.items)
        none = assumed(
            np.zeros(self.items.size),
            unit,
            lambda row: f"{kind}:{name(row)}",
            np.where(self.is_food, MORE, 0),
        )
        return none.called(kind.replace(" ", "-") + "-of", item=name)

    @cached_property
    def _of_edible(self) -> Figure:
        """Energy of a gram that is edible, in kcal: as somebody said it, else of the food table."""
        facts = self.state.facts

        def opens(row: int) -> Opened:
            if facts.facts[row].kcal_per_100g is None:
                return Opened(source=FOOD_TABLE)
            return Opened(
                event=self.sources.described.get((int(facts.item_of[row]), "kcal_per_100g"), -1)
            )

        return Figure(lambda: self._kcal / self._edible, lambda _row: "kcal per g", opens).called(
            "kcal-in-one"
        )

    @property
    def _edible_part(self) -> Figure:
        return published(lambda: self._edible, "0 to 1", FOOD_TABLE).called("edible")

    @cached_property
    def _edible(self) -> Array:
        """The edible part of what is weighed, shape (items,); 1 where nothing is thrown away."""
        from ledger.reference import foods

        out = np.ones(self.items.size)
        for row, one in enumerate(self.state.facts.facts):
            table = None if one.food is None else foods.kcal_per_100g(one.food)
            own = float(one.kcal_per_100g or table or 0)
            if own and not np.isnan(self._kcal[row]):
                out[row] = self._kcal[row] / (own / 100)
        out[np.isclose(out, 1.0, rtol=1e-12)] = 1.0
        return out
