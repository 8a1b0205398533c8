"""How a recipe differs in kind from the published product, whatever it is called.

A recipe with added oil, low-acid vegetables, meat, dairy or thickening is not the published
product even where its name is: its process was tested without them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache

from ledger.items import item_key
from ledger.published.batch import Used
from ledger.published.words import label
from ledger.reference.schedules import products

__all__ = [
    "Departure",
    "departures",
    "ingredient_kind",
    "kinds_named",
    "main_grams",
    "nearest_by_used",
]

_KINDS = {
    "oil or fat": "oil|butter|margarine|lard|fat|shortening|ghee|dripping",
    "thickening": "flour|cornstarch|cornflour|starch|clearjel|roux|rice|pasta|noodle|barley|bread|oat|"
    "tapioca|arrowroot|gelatin|gelatine|couscous|dumpling|thickener",
    "dairy or egg": "milk|cream|cheese|yogurt|yoghurt|egg|buttermilk",
    "meat or fish": "beef|pork|lamb|veal|venison|chicken|turkey|rabbit|meat|mince|sausage|bacon|ham|fish|"
    "shrimp|clam|crab|salmon|tuna|lard|broth|stock",
    "a low-acid vegetable": "onion|garlic|shallot|leek|pepper|chili|chilli|jalapeno|celery|carrot|bean|"
    "pea|corn|sweetcorn|mushroom|squash|pumpkin|zucchini|courgette|potato|beet|beetroot|cabbage|"
    "aubergine|eggplant|okra|spinach|kale|chard|parsnip|turnip|lentil|chickpea|asparagus|cucumber|"
    "broccoli|cauliflower|artichoke|fennel",
    "a fresh herb": "basil|parsley|dill|cilantro|mint|chive|sage|herb",
    "a food of little acid": "banana|melon|watermelon|fig|papaya|mango|coconut|avocado|pumpkin|date|nut|"
    "almond|walnut|peanut|chocolate|persimmon",
}  # fmt: skip
_ALWAYS = "salt|canning salt|pickling salt|sea salt|water|ice"
_SEASONING = (
    "dried|dry|powder|spice|seasoning|bay leaf|peppercorn|black pepper|white pepper|cinnamon|clove spice|"
    "whole clove|ground clove|nutmeg|allspice|ginger|mustard|cumin|coriander|oregano|thyme|rosemary|vanilla|"
    "cardamom|star anise|anise|caraway|dill seed|celery seed|turmeric|paprika|cayenne|juniper"
)  # fmt: skip
_LB_G = Fraction("453.59237")
_SLACK = Fraction(98, 100)


@dataclass(frozen=True)
class Departure:
    """One thing in a recipe that the published product does not hold, or lacks.

    Attributes
    ----------
    item : str
    kind : str
        ``oil or fat``, ``thickening``, ``a low-acid vegetable``, ..., ``another ingredient``,
        ``seasoning`` (to be asked about) or ``missing``.
    text : str
    """

    item: str
    kind: str
    text: str


def departures(product: str, used: Sequence[Used]) -> list[Departure]:
    """Return how what was used differs in kind from a published product.

    Parameters
    ----------
    product : str
        Key of the product.
    used : sequence of Used
        Empty (a question, not a batch): nothing differs.
    """
    if not used:
        return []
    known = products()[product]
    out = []
    for one in used:
        kind = ingredient_kind(one.item, known.ingredients)
        if kind is not None:
            out.append(Departure(one.item, kind, _departure_text(product, one, kind, used)))
    if known.needs and not any(
        _covers(need, item_key(u.item)) for u in used for need in known.needs
    ):
        what = " or ".join(known.needs)
        text = f"The published product holds {what}; none was written down among what was used."
        out.append(Departure(what, "missing", text))
    return out


@lru_cache(8192)
def ingredient_kind(item: str, allowed: tuple[str, ...] = ()) -> str | None:
    """Return the kind of an ingredient that a product does not hold; None where it does."""
    key = item_key(re.sub(r"[^\w\s]", " ", item))
    rest = key
    for name in sorted((*allowed, *_ALWAYS.split("|")), key=len, reverse=True):
        rest = re.sub(rf"\b{re.escape(item_key(name))}\b", " ", rest)
    held = rest != key
    if any(_covers(word, rest) for word in _SEASONING.split("|")) and not held:
        return "seasoning"
    return next(iter(kinds_named(rest)), None if held else "another ingredient")


def kinds_named(text: str) -> tuple[str, ...]:
    """Return every kind that words of a name stand for: pumpkin butter is a vegetable too."""
    key = item_key(re.sub(r"[^\w\s]", " ", text))
    return tuple(
        kind
        for kind, words in _KINDS.items()
        if any(_covers(word, key) for word in words.split("|"))
    )


@cache
def _pattern(word: str) -> re.Pattern[str]:
    return re.compile(rf"\b{re.escape(item_key(word))}\b")


def _covers(word: str, text: str) -> bool:
    return bool(_pattern(word).search(text))


def main_grams(product: str, used: Sequence[Used]) -> float | None:
    """Return the weight of the main ingredient in grams (what the published product is made of)."""
    main = products()[product].ingredients[0]
    group = products()[product].group
    total, known = 0.0, False
    for one in used:
        key = item_key(one.item)
        names = (
            products()[product].ingredients if group in ("fruit", "meat") else (main, "cucumber")
        )
        is_main = any(_covers(n, key) for n in names if n not in ("sugar", "syrup", "vinegar"))
        if is_main and one.grams is not None and not _covers("juice", key):
            total, known = total + one.grams, True
    return total if known else None


def _departure_text(product: str, one: Used, kind: str, used: Sequence[Used]) -> str:
    named = label(product)
    if kind == "seasoning":
        return (
            f"{one.item} ({one.amount}) is not named in the published product ({named}): "
            "ask an extension adviser whether it may be added."
        )
    text = f"{one.item} ({one.amount}) is {kind}, and the published product ({named}) holds none"
    if kind == "another ingredient":
        text = f"{one.item} ({one.amount}) is not part of the published product ({named})"
    main = main_grams(product, used)
    if main and one.grams:
        share = one.grams / main
        text += (
            f"; here it is {share:.2f} lb for each pound of {products()[product].ingredients[0]}"
        )
    return text + "."


def nearest_by_used(used: Sequence[Used]) -> tuple[str, ...]:
    """Return products that hold everything that was used, but may hold it in other proportions."""
    out = []
    names = [u.item for u in used if ingredient_kind(u.item) is not None]
    for product in products().values():
        if len(names) > 1 and not departures(product.key, used):
            out.append(product.key)
    return tuple(out[:3])
