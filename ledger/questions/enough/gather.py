"""What the formulas of enough begin with: food together, needs, days asked for, shop and bed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, published, said
from ledger.questions.enough.gap import bed_of, shop_of
from ledger.questions.food.nutrients import UNITS, Nutrients
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.questions.enough.asked import Asked
    from ledger.questions.enough.supply import Supply
    from ledger.replay import State

__all__ = ["SODIUM", "Given"]

SODIUM = NUTRIENTS.index("sodium_mg")


class Given:
    """What is given of one asking; each figure has one row.

    Attributes
    ----------
    days : Figure
        How many are asked for.
    grams : Figure
        The weight of all the food.
    """

    def __init__(self, state: State, asked: Asked, supply: Supply) -> None:
        self.state, self.supply = state, supply
        days = assumed(np.full(1, asked.days), "days", "days-asked")
        self.days = days.called("days-asked")
        self.grams = _sum(supply.food.grams, "g").called("weight-all")

    def there(self, n: int, *, own: bool = False) -> Figure:
        """Return what the food holds of a nutrient, or what was grown of it: by item, the most first."""
        names, by = self.supply.items
        each = self.supply.food.of(n, own=own)
        items = Groups(by, len(names), largest_first=True).sum(each, UNITS[n])
        items = items.called("item", item=lambda row: names[row], is_one_of=True)
        return _sum(items, UNITS[n]).called("grown-here" if own else "supply")

    def weight_known(self, n: int) -> Figure:
        """Return the weight of which a nutrient is known."""
        return _sum(self.supply.food.weight_known(n), "g").called("weight-known")

    def need(self, n: int) -> Figure:
        """Return what the household needs in a day; of sodium its level."""
        needs = eaters_of(self.state).figures
        return needs.level if n == SODIUM else needs.of(NUTRIENTS[n])

    def shop(self, n: int) -> tuple[dict[str, Any], Figure, Figure] | None:
        """Return what of the shop gives a nutrient for least: its name, what is in one, its price."""
        found = shop_of(self.state, n)
        if found is None:
            return None
        about, at = self._named(found.item)
        price = said(np.array([found.price]), "money", np.array([found.ev]))
        each = self.state.once(Nutrients).in_one(n).at(at)
        return about, each.called("in-one-whole", **about), price.called("price-of-one", **about)

    def bed(self, n: int) -> tuple[dict[str, Any], Figure, Figure] | None:
        """Return what crop gives a nutrient on the least ground: its name, its yield, what is in a gram."""
        found = bed_of(self.state, n)
        if found is None:
            return None
        about, at = self._named(found.item)
        yields = published(np.array([found.grams_per_m2]), "g a m2", found.source)
        each = self.state.once(Nutrients).in_gram(n).at(at).called("in-one-gram", **about)
        return about, yields.called("yields", note=found.note, **about), each

    def _named(self, item: int) -> tuple[dict[str, Any], Array]:
        return {"name": self.state.facts.names[item]}, np.array([item])


def _sum(figure: Figure, unit: str) -> Figure:
    by = np.zeros(figure.values.size, np.int64)
    return Groups(by, 1, largest_first=True).sum(figure, unit)
