"""The food in the house by group of the reserve lists, by cold and by stove.

Which group a food belongs to follows its group in the food table; what a batch made belongs where most
of what went in does. What is eaten without a stove is common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ledger.kinds import METHODS
from ledger.questions.shared.larder import larder_of
from ledger.reference import foods
from ledger.reference.reserves import GROUPS
from ledger.replay import KEPT

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Kept", "group_of", "kept_food"]

_BREAD, _VEGETABLES, _FRUIT, _MILK, _MEAT, _FATS = GROUPS
_GROUP_OF = {
    "Baked Products": _BREAD, "Breakfast Cereals": _BREAD, "Cereal Grains and Pasta": _BREAD,
    "Vegetables and Vegetable Products": _VEGETABLES, "Legumes and Legume Products": _VEGETABLES,
    "Soups, Sauces, and Gravies": _VEGETABLES, "Fruits and Fruit Juices": _FRUIT,
    "Nut and Seed Products": _FRUIT, "Fats and Oils": _FATS, "Poultry Products": _MEAT,
    "Beef Products": _MEAT, "Pork Products": _MEAT, "Sausages and Luncheon Meats": _MEAT,
    "Finfish and Shellfish Products": _MEAT, "Lamb, Veal, and Game Products": _MEAT,
}  # fmt: skip
_COOKED = ("Cereal Grains and Pasta", "Legumes and Legume Products")
_RAW_MEAT = (
    "Poultry Products", "Beef Products", "Pork Products", "Finfish and Shellfish Products",
    "Lamb, Veal, and Game Products",
)  # fmt: skip
_READY = ("canned", "cooked", "roasted", "dried, sulfured", "ready-to-eat", "cured")


@dataclass(frozen=True)
class Kept:
    """Where a lot of food that counts is kept.

    Attributes
    ----------
    row : int
        Its row among what is held (`ledger.questions.food.nutrients.held`).
    group : str or None
        Of the reserve lists; None for what belongs to none (sugar, spice, drink).
    place : str or None
        ``shelf``, ``fridge``, ``freezer``, ``cellar``.
    needs_stove : bool
    """

    row: int
    group: str | None
    place: str | None
    needs_stove: bool

    @property
    def is_cold(self) -> bool:
        """Whether it is kept in the fridge or the freezer."""
        return self.place in ("fridge", "freezer")


def kept_food(state: State) -> list[Kept]:
    """Return the food in the house that counts, with where it is kept, once a state."""
    return state.once(_kept)


def _kept(state: State) -> list[Kept]:
    out = []
    for row, lot in enumerate(larder_of(state).eatable.tolist()):
        code = int(state.lots["kept"][lot])
        place = KEPT[code] if code >= 0 else None
        group, ready = group_of(state, int(state.lots["item"][lot]), lot)
        out.append(Kept(row, group, place, not ready))
    return out


def group_of(state: State, item: int, lot: int = -1) -> tuple[str | None, bool]:
    """Return an item's group of the reserve lists, and whether it is eaten without a stove."""
    said = state.facts.facts[item].food
    food = None if said is None else foods.by_id(said)
    if food is not None:
        return _by_table(food)
    if lot < 0 or not _is_batch(state, lot):
        return None, True
    body = state.body(int(state.lots["ev"][lot]))
    method = body.get("method", "cook")
    ready = METHODS.index(method) != METHODS.index("freeze")
    return _by_inputs(state, body), ready


def _by_table(food: foods.Food) -> tuple[str | None, bool]:
    text = food.description.lower()
    group = _GROUP_OF.get(food.group)
    if food.group == "Dairy and Egg Products":
        is_egg, is_butter = text.startswith("egg"), text.startswith("butter")
        return (_MEAT if is_egg else _FATS if is_butter else _MILK), not is_egg
    if text.startswith(("potato", "sweet potato")):
        return _BREAD, any(word in text for word in _READY)
    is_cooked = food.group in (*_COOKED, *_RAW_MEAT)
    return group, not is_cooked or any(word in text for word in _READY)


def _is_batch(state: State, lot: int) -> bool:
    from ledger.replay import ORIGINS

    return int(state.lots["origin"][lot]) == ORIGINS.index("batch")


def _by_inputs(state: State, body: dict[str, Any]) -> str | None:
    """Return the group of most of what went into a batch, by weight."""
    weights: dict[str, float] = {}
    for line in (*body.get("used", ()), *body.get("ate", ())):
        item = state.facts.find(line.get("item"))
        if item is None or line.get("whole") is None:
            continue
        per, (group, _) = state.facts.grams_per_whole(item), group_of(state, item)
        if per is not None and group is not None:
            weights[group] = weights.get(group, 0.0) + per * float(line["whole"])
    return max(weights, key=lambda name: (weights[name], name)) if weights else None
