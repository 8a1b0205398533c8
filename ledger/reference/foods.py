"""The food table: energy, refuse and household measures.

USDA National Nutrient Database for Standard Reference, Release 28 (2015): 906 foods and their
household measures. Figures are per 100 g of the edible portion; a household measure's grams
leave the refuse out (SR28 documentation, section on weights), so that the weight of what was
brought home is grams / (1 - refuse / 100).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from ledger.items import item_key
from ledger.reference._read import rows

__all__ = [
    "SOURCE",
    "Food",
    "HouseholdMeasure",
    "Proposal",
    "by_description",
    "by_id",
    "household_measure",
    "is_named",
    "kcal_per_100g",
    "portions",
    "propose",
    "refuse_pct",
]

SOURCE = "USDA SR28 (2015)"


@dataclass(frozen=True)
class Food:
    """A row of the food table."""

    id: str
    description: str
    group: str
    kcal_per_100g: Fraction | None
    refuse_pct: Fraction


@dataclass(frozen=True)
class HouseholdMeasure:
    """What one of a unit of a food weighs, in grams of the edible portion."""

    grams: Fraction
    label: str
    source: str


@dataclass(frozen=True)
class Proposal:
    """A row that may be meant by a name; `score` runs from 0 to 100."""

    food_id: str
    description: str
    score: float


@cache
def _table() -> dict[str, Food]:
    return {
        row["ndb_id"]: Food(
            row["ndb_id"],
            row["description"],
            row["food_group"],
            Fraction(row["kcal_per_100g"]) if row["kcal_per_100g"] else None,
            Fraction(row["refuse_pct"] or 0),
        )
        for row in rows("foods")
    }


@cache
def _portions(food_id: str) -> list[tuple[str, Fraction]]:
    return [
        (row["measure"], Fraction(row["grams"]) / Fraction(row["amount"] or 1))
        for row in _portion_rows().get(food_id, ())
    ]


@cache
def _portion_rows() -> dict[str, list[dict[str, str]]]:
    """Return the rows by food: a command asks for few, and a fraction costs more than its row."""
    out: dict[str, list[dict[str, str]]] = {}
    for row in rows("portions"):
        out.setdefault(row["ndb_id"], []).append(row)
    return out


def by_id(food_id: str) -> Food | None:
    """Return a row by its id (a five-digit number), or None."""
    return _table().get(food_id.zfill(5))


@cache
def by_description(description: str) -> Food | None:
    """Return the row of just this description, whatever its case, or None."""
    said = " ".join(description.casefold().split())
    return next((food for food in _table().values() if food.description.casefold() == said), None)


def portions(food_id: str) -> list[tuple[str, Fraction]]:
    """Return every household measure of a row: its label and the grams of one, refuse left out."""
    return list(_portions(food_id.zfill(5)))


def kcal_per_100g(food_id: str) -> Fraction | None:
    """Return kcal in 100 g of the edible portion, or None."""
    food = by_id(food_id)
    return None if food is None else food.kcal_per_100g


def refuse_pct(food_id: str) -> Fraction | None:
    """Return the inedible part in per cent of the weight as bought, or None for no such food."""
    food = by_id(food_id)
    return None if food is None else food.refuse_pct


@cache
def household_measure(food_id: str, unit: str) -> HouseholdMeasure | None:
    """Return what one of a unit of a food weighs, or None where the table does not say.

    Parameters
    ----------
    food_id : str
    unit : str
        A canonical unit: ``cup``, ``tbsp``, ``head``, ``clove``, ``piece``. A plain measure
        (``cup``) is taken before a described one (``cup, chopped``); for ``piece`` the medium or
        the plain whole one is taken.
    """
    portions = _portions(food_id.zfill(5))
    best = None
    for label, grams in portions:
        rank = _fits(label, unit, by_id(food_id))
        if rank is not None and (best is None or rank < best[0]):
            best = (rank, label, grams)
    return None if best is None else HouseholdMeasure(best[2], best[1], SOURCE)


def _fits(label: str, unit: str, food: Food | None) -> int | None:
    """Return how well a measure's label fits a unit: 0 best, None not at all."""
    words = re.split(r"[,(]", label.lower())
    first = words[0].strip()
    described = len(words) > 1
    if unit == "piece":
        if first.startswith("medium"):
            return 0
        if first in ("whole", "fruit", "piece"):
            return 1
        noun = item_key(food.description.split(",")[0]) if food else ""
        if first and item_key(first) == noun:
            return 2
        return 3 if first in ("large", "small") and not described else None
    heads = {"tablespoon": "tbsp", "teaspoon": "tsp", "quart": "qt", "pint": "pt"}
    head = first.split()[0] if first else ""
    if item_key(heads.get(first, first)) == unit:
        return 1 if described else 0
    if item_key(heads.get(head, head)) == unit:
        return 2
    return None


@cache
def is_named(name: str) -> bool:
    """Return whether one row has every word of a name, and begins with one of them."""
    words = set(item_key(name).split())
    return any(
        words <= set(item_key(food.description.replace(",", " ")).split())
        and item_key(food.description.split(",")[0]).split()[0] in words
        for food in _table().values()
    )


_PLAIN = {
    "ripe", "granulated", "all-purpose", "white", "wheat", "whole", "brewed", "table", "salted",
    "regular", "average",
}  # fmt: skip
"""Words of the ordinary kind of a food, where a name says no kind (common practice, no source)."""

_SPECIAL = {
    "green", "brown", "yellow", "orange", "sheep", "goat", "human", "buffalo", "soy", "instant", "diet",
    "imitation", "dehydrated", "dried", "dry", "powder", "powdered", "baby", "canned", "mix", "chocolate",
    "buttermilk", "lowfat", "nonfat", "reduced", "cream", "fried", "frozen", "self-rising", "herb",
    "decaffeinated", "chicory", "substitute", "sweetened", "dessert", "grain", "cake",
}  # fmt: skip
"""Words of a special kind: another kind than was meant, unless the name says so (the same)."""


_MADE = {
    "butter", "sauce", "soup", "spread", "jam", "jelly", "stock", "pickle",
    "relish", "salsa", "chutney", "pie", "cake", "bread", "starter", "puree",
    "syrup", "juice", "salad", "stew", "wine", "cider", "vinegar", "paste",
    "leather", "powder",
}  # fmt: skip
"""What is made of something is that only as a whole: plum butter is no butter."""

_BESIDE = re.compile(r"\b(with|without|in)\b[^,]*")
"""What a row is cooked or packed in is not the row: water is no grits cooked with water."""


def hint(name: str) -> Proposal | None:
    """Return the row to offer for a new item by itself; None where that would mislead.

    Its last word must stand in the row's own name; of something made, all its words.
    """
    found = next(iter(propose(name, 1)), None)
    words = item_key(name).split()
    if found is None or not words:
        return None
    said = found.description
    if len(words) == 1:
        said = _BESIDE.sub("", said)
    described = set(item_key(said.replace(",", " ")).split())
    head = set(item_key(found.description.partition(",")[0]).split())
    if words[-1] in _MADE or words[-1] not in head:
        return found if set(words) <= described else None
    return found


@cache
def _in_words() -> tuple[tuple[Food, str, bool, frozenset[str]], ...]:
    """Return each row, what its description begins with, whether that is all, and its words."""
    out = []
    for food in _table().values():
        parts = [item_key(part) for part in food.description.split(",")]
        described = frozenset(" ".join(parts).replace("(", "").replace(")", "").split())
        out.append((food, parts[0], len(parts) == 1, described))
    return tuple(out)


def propose(name: str, limit: int = 5) -> tuple[Proposal, ...]:
    """Return the rows that may be meant by a name, the likeliest first. Nothing is taken silently.

    Words of the name that stand at the beginning of a description count most; raw food comes
    before the same food canned, cooked or sweetened, unless the name says so.
    """
    from rapidfuzz import fuzz

    key = item_key(name)
    words = set(key.split())
    scored = []
    for food, head_words, is_bare, described in _in_words():
        if words.isdisjoint(described):
            continue
        covered = len(words & described) / len(words)
        head = fuzz.ratio(key, head_words)
        raw = 8 if "raw" in described or is_bare else 0
        extra = len(described - words)
        plain = min(6 * len(described & _PLAIN), 18) - 9 * len((described & _SPECIAL) - words)
        score = 60 * covered + 0.3 * head + raw + plain - min(extra, 12)
        scored.append(Proposal(food.id, food.description, score))
    scored.sort(key=lambda one: (-one.score, one.food_id))
    return tuple(one for one in scored[:limit] if one.score > 30)
