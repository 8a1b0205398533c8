"""Where food came in: the bed it grew in, the shop it was bought in, else its origin alone."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.questions.food.web import BATCH, ROLE
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.questions.food.amounts import FoodFigures

__all__ = ["Place", "Places"]


@dataclass(frozen=True)
class Place:
    """Where food came in."""

    name: str
    origin: str


class Places:
    """The places of all food of one state.

    Attributes
    ----------
    food : ndarray of bool, shape (lots,)
        Which raw lots are food, or went into food all the same.
    """

    def __init__(self, food: FoodFigures) -> None:
        self.state = food.state
        self.food = self._food(food)

    @property
    def every(self) -> list[Place]:
        """Every place, in the order in which food first came from it."""
        return self._known[0]

    @property
    def of_lot(self) -> Array:
        """Place in `every` of each raw lot of food, shape (lots,); -1 for others."""
        return self._known[1]

    def _food(self, food: FoodFigures) -> Array:
        lots, web = self.state.lots, food.web
        out = (lots["origin"] != BATCH) & food.contents.is_food[lots["item"]]
        inner = web.role == ROLE["used"]
        inner[food.eaten.at] = True
        out[web.lot[inner & ~web.made]] = True
        return np.asarray(out)

    @cached_property
    def _known(self) -> tuple[list[Place], Array]:
        state, lots = self.state, self.state.lots
        journal = state.journal
        out = np.full(lots["ev"].size, -1, np.int64)
        picked = journal.tables["picked"]
        beds = dict(zip(picked["row"].tolist(), picked["bed"].tolist(), strict=True))
        whom = journal.tables["events"]["whom"]
        known: dict[Place, int] = {}
        for lot in np.flatnonzero(self.food).tolist():
            origin = ORIGINS[int(lots["origin"][lot])]
            name = origin
            if origin == "grown":
                bed = beds.get(int(lots["row"][lot]), -1)
                name = journal.garden.texts[bed] if bed >= 0 else "garden"
            elif origin == "bought":
                shop = int(whom[lots["ev"][lot]])
                name = journal.whom.texts[shop] if shop >= 0 else "shop"
            out[lot] = known.setdefault(Place(name, origin), len(known))
        return list(known), out
