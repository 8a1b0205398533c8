"""What is set against the need: portions of the pantry, of meals, or of next season's crops."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import sentence
from ledger.questions.shared.larder import Larder, Portion, larder_of
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.questions.enough.asked import Asked
    from ledger.replay import State

__all__ = ["Supply", "supply_of"]

_N = len(NUTRIENTS)


@dataclass
class Supply:
    """Portions, and what of them is known.

    Attributes
    ----------
    state : State
    portions : list of Portion
    no_weight : list of str
        Items of which no weight is known.
    shares : dict of int to float
        Of what was eaten: the household's part of each draw, by its place among the portions.
    """

    state: State
    portions: list[Portion]
    no_weight: list[str] = field(default_factory=list)

    @cached_property
    def _table(self) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
        rows = [p.nutrients for p in self.portions]
        return np.array(rows) if rows else np.zeros((0, _N))

    @cached_property
    def grams(self) -> float:
        """The weight of all, in grams."""
        return math.fsum(p.grams for p in self.portions)

    def total(self, n: int) -> float:
        """Return the amount of a nutrient."""
        return math.fsum(self._table[:, n])

    def own(self, n: int) -> float:
        """Return the part of a nutrient that was grown here."""
        return math.fsum(p.own[n] for p in self.portions)

    def known(self, n: int) -> float:
        """Return the part by weight of which a nutrient is known; 0 of nothing."""
        if not self.grams:
            return 0.0
        return math.fsum(p.grams * p.known[n] for p in self.portions) / self.grams

    @cached_property
    def share_known(self) -> float:
        """The part by weight of which anything but energy is known."""
        return self.known(NUTRIENTS.index("protein_g"))

    @cached_property
    def not_known(self) -> list[str]:
        """Items of which nothing but energy is known, the heaviest first."""
        grams: dict[str, float] = {}
        for p in self.portions:
            if p.known[NUTRIENTS.index("protein_g")] == 0:
                name = self.state.facts.names[p.item]
                grams[name] = grams.get(name, 0.0) + p.grams
        return sorted(grams, key=lambda name: (-grams[name], name))

    def by_item(self, n: int) -> dict[int, float]:
        """Return the amount of a nutrient by item, the most first."""
        out: dict[int, float] = {}
        for p in self.portions:
            out[p.item] = out.get(p.item, 0.0) + float(p.nutrients[n])
        return dict(sorted(out.items(), key=lambda one: -one[1]))

    def brought_by(self, n: int) -> list[str]:
        """Return the three items that bring most of a nutrient, with their part."""
        total = self.total(n)
        if not total:
            return []
        names = self.state.facts.names
        most = list(self.by_item(n).items())[:3]
        return [
            sentence("enough-part-from", name=names[item], n=round(100 * value / total))
            for item, value in most
            if value > 0
        ]


def supply_of(state: State, asked: Asked) -> Supply:
    """Return what is asked for as portions."""
    larder = larder_of(state)
    if asked.of == "pantry":
        return _weighed(state, larder.portions)
    if asked.of == "eaten":
        return _weighed(state, _eaten(state, larder, asked))
    return _weighed(state, _planned(state, larder))


def _weighed(state: State, portions: list[Portion]) -> Supply:
    known = [p for p in portions if not math.isnan(p.grams)]
    lacking = {state.facts.names[p.item] for p in portions if math.isnan(p.grams)}
    return Supply(state, known, sorted(lacking))


def _eaten(state: State, larder: Larder, asked: Asked) -> list[Portion]:
    """Return what the household ate in a period: guests and leftovers taken off."""
    from ledger.questions.food.eaten import Eaten

    eaten = state.once(Eaten)
    rows = np.flatnonzero((eaten.day >= asked.start) & (eaten.day <= asked.end))
    whole = eaten.web.amount[eaten.at[rows]] * eaten.factor[rows]
    lots = eaten.web.lot[eaten.at[rows]]
    summed = np.bincount(lots, whole, state.left.size) if rows.size else np.zeros(0)
    items = state.lots["item"]
    return [
        larder.portion(int(lot), float(summed[lot]))
        for lot in np.flatnonzero(summed)
        if larder.is_food[items[lot]]
    ]


def _planned(state: State, larder: Larder) -> list[Portion]:
    """Return what next season's plan would likely bring, a portion a crop."""
    from ledger.questions.shared.usual_plan import usual_plan

    out = []
    for crop in usual_plan(state).crops:
        whole, per = crop.brings, state.facts.grams_per_whole(crop.item)
        grams = whole
        if grams is None or per is None or not larder.is_direct[crop.item]:
            continue
        values = np.nan_to_num(larder.per_whole[crop.item]) * grams / per
        known = (~np.isnan(larder.per_whole[crop.item])).astype(float)
        out.append(Portion(crop.item, -1, grams, values, values, known))
    return out
