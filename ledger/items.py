"""Items: names that mean the same thing, near misses, and what is known of one."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

import msgspec

__all__ = ["ItemFacts", "item_key", "merge", "near_misses"]

_SAME = frozenset(
    {
        "asparagus", "molasses", "hummus", "couscous", "citrus", "swiss", "bass", "lens", "gas",
        "grass", "glass", "cress", "watercress", "haggis", "octopus", "hibiscus", "series", "species",
    }
)  # fmt: skip
_IRREGULAR = {
    "leaves": "leaf", "loaves": "loaf", "halves": "half", "knives": "knife", "calves": "calf",
    "geese": "goose", "mice": "mouse", "teeth": "tooth", "feet": "foot",
    "tomatoes": "tomato", "potatoes": "potato", "mangoes": "mango", "cookies": "cookie",
    "brownies": "brownie", "pies": "pie", "chives": "chive", "olives": "olive",
    "smoothies": "smoothie", "veggies": "veggie", "sheaves": "sheaf", "shelves": "shelf",
    "chilies": "chili", "chillies": "chilli", "quiches": "quiche", "brioches": "brioche",
    "citruses": "citrus", "gases": "gas", "lenses": "lens", "shoes": "shoe", "sloes": "sloe",
    "canoes": "canoe", "aloes": "aloe",
}  # fmt: skip

_NOUN = 3
"""Letters of the shortest noun that makes a German compound: Mus."""
_APOSTROPHES = re.compile("['’‘`]")


@lru_cache(maxsize=65536)
def item_key(name: str) -> str:
    """Return the key under which a name is kept: case, plural and spacing do not matter.

    Nor do hyphens, apostrophes and the way an accent is encoded. A key is for comparing only,
    never shown: ``molasses`` keeps its s, but a made-up singular does no harm.

    Examples
    --------
    >>> item_key("  Green  Tomatoes ") == item_key("green tomato")
    True
    """
    name = unicodedata.normalize("NFKC", name).casefold()
    words = _APOSTROPHES.sub("", name).replace("-", " ").split()
    return " ".join(_singular(word) for word in words)


def _singular(word: str) -> str:
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if (
        len(word) < 4
        or word in _SAME
        or not word.endswith("s")
        or word.endswith(("ss", "us", "is"))
    ):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith("oes") and len(word) > 5:
        return word[:-2]
    if re.search(r"(ch|sh|x|ss|zz)es$", word):
        return word[:-2]
    return word[:-1]


def near_misses(name: str, known: Iterable[str], limit: int = 3) -> list[str]:
    """Return known names that `name` may be a slip of, the likeliest first.

    Names that differ only in their digits are not slips of each other, nor is a name that adds a
    word (``plum`` and ``plum butter``).
    """
    from rapidfuzz import fuzz, process

    key = item_key(name)
    bare = re.sub(r"\d+", "#", key)
    if len(key) < 4:
        return []
    found = process.extract(
        key, {k: item_key(k) for k in known}, scorer=fuzz.ratio, score_cutoff=84, limit=limit
    )
    return [
        str(original)
        for match, _, original in found
        if re.sub(r"\d+", "#", match) != bare
        and len(match.split()) == len(key.split())
        and not _is_compound(key, match)
    ]


def _is_compound(one: str, other: str) -> bool:
    """Return whether one name is the other with a noun behind or before it: ``Pflaumenmus`` and Pflaumen."""
    short, long = sorted((one, other), key=len)
    is_part = long.startswith(short) or long.endswith(short)
    return is_part and len(long) - len(short) >= _NOUN


class ItemFacts(msgspec.Struct, frozen=True, omit_defaults=True):
    """What the household says of an item; None is not known."""

    sort: str | None = None
    measure: str | None = None
    food: str | None = None
    kcal_per_100g: str | None = None
    g_per: dict[str, str] | None = None
    pieces_per: dict[str, str] | None = None
    g_per_ml: str | None = None
    holds: str | None = None
    shop_equivalent: str | None = None
    keeps: dict[str, str] | None = None
    also: list[str] | None = None
    uses: str | None = None
    years: str | None = None
    feeds: str | None = None


def merge(facts: ItemFacts, body: dict[str, Any]) -> ItemFacts:
    """Return facts with what a description says: field by field, `g_per` unit by unit."""
    said = {name: value for name, value in body.items() if name in ItemFacts.__struct_fields__}
    if "g_per" in said:
        said["g_per"] = {**(facts.g_per or {}), **said["g_per"]}
    return msgspec.structs.replace(facts, **said)
