"""What is set against the need: food of the pantry, of meals, or of next season's crops."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Groups, assumed, in_part
from ledger.messages import sentence
from ledger.questions.food.amounts import FoodFigures
from ledger.questions.food.nutrients import Held, held
from ledger.questions.shared.larder import larder_of
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.questions.enough.asked import Asked
    from ledger.replay import State

__all__ = ["Supply", "supply_of"]

_PROTEIN = NUTRIENTS.index("protein_g")


@dataclass
class Supply:
    """Food, and what of it is known.

    Attributes
    ----------
    food : Held
        Of which a weight is known.
    no_weight : list of str
        Items of which none is.
    """

    food: Held
    no_weight: list[str]

    @cached_property
    def grams(self) -> float:
        """The weight of all, in grams."""
        return math.fsum(self.food.grams.values)

    @cached_property
    def share_known(self) -> float:
        """The part by weight of which anything but energy is known; 0 of nothing."""
        known = math.fsum(self.food.grams.values * self.food.known[:, _PROTEIN])
        return known / self.grams if self.grams else 0.0

    @cached_property
    def not_known(self) -> list[str]:
        """Items of which nothing but energy is known, the heaviest first."""
        grams: dict[str, float] = {}
        known = self.food.known[:, _PROTEIN].tolist()
        for name, part, weight in zip(self.food.names, known, self.food.grams.values, strict=True):
            if part == 0:
                grams[name] = grams.get(name, 0.0) + float(weight)
        return sorted(grams, key=lambda name: (-grams[name], name))

    @cached_property
    def items(self) -> tuple[list[str], np.ndarray[tuple[int], np.dtype[np.int64]]]:
        """The names of the items, as they first come, and which of them each row is."""
        names = list(dict.fromkeys(self.food.names))
        place = {name: at for at, name in enumerate(names)}
        return names, np.array([place[name] for name in self.food.names], np.int64)

    def brought_by(self, n: int) -> list[str]:
        """Return the three items that bring most of a nutrient, with their part."""
        names, by = self.items
        each = Groups(by, len(names)).sum(self.food.of(n)).values
        total = math.fsum(each)
        most = np.argsort(-each, kind="stable")[:3].tolist() if total else []
        return [
            sentence("enough-part-from", name=names[at], n=round(100 * each[at] / total))
            for at in most
            if each[at] > 0
        ]


def supply_of(state: State, asked: Asked) -> Supply:
    """Return what is asked for."""
    if asked.of == "pantry":
        food = state.once(held)
    else:
        food = _eaten(state, asked) if asked.of == "eaten" else _planned(state)
    weighed = ~np.isnan(food.grams.values)
    lacking = {name for name, known in zip(food.names, weighed.tolist(), strict=True) if not known}
    return Supply(food.some(np.flatnonzero(weighed)), sorted(lacking))


def _eaten(state: State, asked: Asked) -> Held:
    """Return what the household ate in a period, a row a lot: guests and leftovers taken off."""
    figures, is_food = state.once(FoodFigures), larder_of(state).is_food
    eaten, web, items = figures.eaten, figures.web, state.lots["item"]
    rows = np.flatnonzero((eaten.day >= asked.start) & (eaten.day <= asked.end))
    rows = rows[is_food[items[web.lot[eaten.at[rows]]]]]
    at, ev = eaten.at[rows], eaten.ev[rows]
    own = in_part(figures.sources.taken.at(at), eaten.home.at(ev), "part-of-it")
    lots, by = np.unique(web.lot[at], return_inverse=True)
    whole = Groups(by, lots.size).sum(own, figures.sources.whole_of(items[lots])).called("eaten")
    some = np.flatnonzero(whole.values)
    return Held(state, items[lots[some]], lots[some], whole.at(some))


def _planned(state: State) -> Held:
    """Return what next season's plan would likely bring, a row a crop."""
    from ledger.questions.shared.usual_plan import usual_plan

    sources, is_direct = state.once(FoodFigures).sources, larder_of(state).is_direct
    crops = [
        (crop.item, crop.brings)
        for crop in usual_plan(state).crops
        if crop.brings is not None and is_direct[crop.item]
    ]
    items = np.array([item for item, _ in crops], np.int64)
    grams = assumed(np.array([g for _, g in crops], np.float64), "g", "plan").called(
        "likely-picked"
    )
    whole = grams / sources.weight(items).called("grams-in-one")
    return Held(state, items, np.full(items.size, -1), whole.called("likely-picked"))
