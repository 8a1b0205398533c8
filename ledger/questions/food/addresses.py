"""What of food has an address of its own: what a lot holds, by origin, and a season's feed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Node
from ledger.questions.addressed import open_one
from ledger.questions.food.amounts import FoodFigures
from ledger.questions.food.bases import BASES, SIX
from ledger.questions.food.labels import LABELS
from ledger.questions.food.nutrients import Nutrients
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["TABLES", "why"]

_Found = tuple[Mapping[str, Callable[[], Figure]], int]


def why(state: State, address: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of food as a tree.

    Parameters
    ----------
    address : str
        ``food/LOT`` or ``feed/SEASON``.
    field : str, optional
        Which figure of it: of a lot ``weight.grown`` and so on; default: the first.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such thing, or no such figure of it.
    """
    return open_one(state, TABLES, state.once(FoodFigures), LABELS, address, field, deep)


def _lot(food: FoodFigures, key: str) -> _Found | None:
    lot = food.state.lot_ids.get(key)
    if lot is None:
        return None
    number = int(food.web.rows.number_of_lot[lot])
    if number < 0:
        came = SIX[int(food.state.lots["came"][lot])]
        return {f"{basis}.{came}": partial(_raw, food, basis) for basis in food.of_raw}, lot
    figures: dict[str, Callable[[], Figure]] = {}
    for basis in BASES:
        for origin in SIX:
            figures[f"{basis}.{origin}"] = partial(_of, food, basis, origin)
        figures[f"{basis}.bought_feed"] = partial(_by_feed, food, basis)
        for at, place in enumerate(food.places.every):
            name = f"{basis}.{place.origin}.{place.name}"
            figures[name] = partial(_from_place, food, basis, at)
    kinds = food.state.once(Nutrients)
    for n, name in enumerate(NUTRIENTS):
        figures[name] = partial(kinds.made, n)
        figures[f"{name}.own"] = partial(kinds.made, n, own=True)
    return figures, number


def _raw(food: FoodFigures, basis: str) -> Figure:
    whole = food.of_raw[basis]
    return food.named(whole, np.arange(whole.values.size), basis)


def _of(food: FoodFigures, basis: str, origin: str) -> Figure:
    return food.made.of(basis, origin).column


def _by_feed(food: FoodFigures, basis: str) -> Figure:
    return food.made.bought_feed[basis].column


def _from_place(food: FoodFigures, basis: str, place: int) -> Figure:
    return food.made.from_place(basis, place).column


def _feed(food: FoodFigures, key: str) -> _Found | None:
    feed = food.feed
    rows = (feed.seasons == int(key)).nonzero()[0].tolist() if key.isdecimal() else []
    figures = {
        "from_elsewhere": lambda: feed.from_elsewhere,
        "total": lambda: feed.total,
        "grown": lambda: feed.grown,
    }
    return (figures, int(rows[0])) if rows else None


TABLES: Mapping[str, Callable[[FoodFigures, str], _Found | None]] = {"food": _lot, "feed": _feed}
"""By the first word of an address, how the rest of it is found."""
