"""Why a figure of enough says so: the tree of its formula at one nutrient."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Node, tree
from ledger.questions.enough.asked import Asked, asked_of
from ledger.questions.enough.figures import figures
from ledger.questions.food.labels import LABELS as FOOD_LABELS
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.telling import StateTeller
from ledger.questions.who_eats.needed import LABELS as NEED_LABELS
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **FOOD_LABELS,
    **NEED_LABELS,
    "supply": "enough-what-food-holds",
    "grown-here": "enough-grown-here",
    "item": "why-item",
    "eaten": "enough-eaten",
    "likely-picked": "enough-likely-picked",
    "weight-all": "enough-weight-all",
    "part-known-of-all": "enough-part-known",
    "days-asked": "enough-days-asked",
    "energy-lasts": "enough-days-energy-lasts",
    "need-these-days": "enough-need-these-days",
    "too-little-known": "enough-too-little-known",
    "no-days": "enough-no-days",
    "own_share": "enough-part-grown-here",
    "days": "enough-days",
    "share_of_need": "enough-part-need",
    "gap": "enough-gap",
    "no-gap": "enough-no-gap",
    "shop": "enough-why-shop",
    "in-one-whole": "enough-why-one-whole",
    "so-much": "enough-why-so-much",
    "price-of-one": "enough-why-price-of-one",
    "from-shop": "enough-why-name-from-shop",
    "bed": "enough-why-bed",
    "yields": "enough-why-yields",
    "in-one-gram": "enough-why-one-gram",
    "a-square-metre": "enough-why-square-metre",
    "ground": "enough-ground",
}
"""Ids of messages by the id of a label."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of enough as a tree.

    Parameters
    ----------
    key : str
        ``pantry/30/iron_mg``, ``eaten/2026-10-01/2026-10-31/iron_mg``, ``next-season/30/iron_mg``.
    field : str, optional
        A column of the answer; default the days, of what was eaten the share of the need.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    *path, name = key.split("/")
    asked = _asked(state, path)
    if asked is None or name not in NUTRIENTS:
        raise no_record("enough", key)
    _, known = figures(state, asked)
    plain = "days" if asked.of != "eaten" and name != "sodium_mg" else "share_of_need"
    check_figure("enough", field or plain, known)
    return tree(known[field or plain], NUTRIENTS.index(name), StateTeller(state, LABELS), deep)


def _asked(state: State, path: list[str]) -> Asked | None:
    if len(path) == 3 and path[0] == "eaten":
        return asked_of(state, "eaten", None, path[1], path[2])
    if len(path) == 2 and path[0] in ("pantry", "next-season"):
        return asked_of(state, path[0].replace("-", " "), path[1], None, None)
    return None
