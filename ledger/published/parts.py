"""What went into a batch, line by line: read, weighed, and by the part it plays."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ledger.amounts import parse_amount, unit_factor
from ledger.errors import LedgerError
from ledger.messages import Sentence, measured, sentence
from ledger.published.batch import Used
from ledger.published.names import stems
from ledger.published.reading import Reading, read

__all__ = ["Part", "how_much", "part_said", "parts_of", "same_food"]

_ACIDS = ("vinegar", "lemon", "citric", "ascorbic")
_FIRST = (
    "no_salt", "soak", "ice", *_ACIDS, "starch", "pectin_low", "pectin", "gelling_sugar", "sweetener",
    "firming",
)  # fmt: skip
_LAST = ("sugar", "salt", "spice", "water")
_STRAINED = re.compile(r"strain|bag removed|taken out|sieved|abgeseiht|ausgesiebt|herausgenommen")

_LB_G = Fraction("453.59237")
_CUP_G = {
    "tomato": 180, "green tomato": 180, "cucumber": 104, "onion": 160, "bell pepper": 149, "hot pepper": 150,
    "pepper": 149, "celery": 101, "carrot": 128, "cauliflower": 107, "corn": 145, "cabbage": 89, "mushroom": 70,
    "tomatillo": 132, "beet": 136, "green bean": 100, "apple": 125, "sugar": 200, "peach": 154, "strawberry": 166,
    "blackberry": 144, "raspberry": 123, "blueberry": 148, "berry": 144, "zucchini": 124, "okra": 100, "garlic": 136,
    "kidney bean": 184, "navy bean": 208, "pinto bean": 193, "bean": 184, "dry bean": 184, "flour": 125,
    "brussels sprout": 88, "asparagus": 134,
}  # fmt: skip
"""Grams a cup, raw and cut as recipes measure it (USDA SR28, household measures)."""

_PIECE_G = {
    "garlic": 3, "onion": 110, "hot pepper": 14, "bell pepper": 119, "pepper": 119, "tomato": 123,
    "cucumber": 201, "beet": 82, "celery": 40, "carrot": 61,
}  # fmt: skip
"""Grams a piece, of middle size (USDA SR28: 11215, 11282, 11979, 11333, 11529, 11205, 11080, ...)."""

_PACKETS = ("package", "packet", "pouch", "box", "bag", "sachet")
_PECTIN_G = 49
"""Grams of powdered pectin in a package of the recipes (1 3/4 oz; from memory)."""

_MASS = {"lb": _LB_G, "oz": _LB_G / 16, "g": Fraction(1)}


@dataclass(frozen=True)
class Part:
    """One line of what was used.

    Attributes
    ----------
    used : Used
    reading : Reading
    role : str
        ``food``, ``water``, ``soak``, ``salt``, ``no_salt``, ``vinegar``, ``lemon``, ``citric``,
        ``sugar``, ``spice``, ..., or ``unknown``.
    strained : bool
        Taken out again before the jar was closed: it is shown, and counts for nothing.
    """

    used: Used
    reading: Reading
    role: str
    strained: bool

    @property
    def text(self) -> str:
        """Its name, as written down."""
        return self.used.item


def part_said(id_: str, part: Part, **more: str) -> Sentence:
    """Return what is said of a line: ``item (amount) is …``, as the household wrote both."""
    return sentence(id_, item=part.text, amount=measured(part.used.amount), **more)


@lru_cache(8192)
def _role(item: str) -> str:
    found = read(item)
    roles = found.roles
    for role in _FIRST:
        if role in roles:
            return role
    if found.foods:
        herbs = all(one.group == "herb" for one in found.foods)
        dried = "dried" in found.forms or "powder" in item.casefold()
        return "spice" if dried and herbs else "food"
    for role in _LAST:
        if role in roles:
            return role
    return "unknown"


def parts_of(used: Sequence[Used]) -> list[Part]:
    """Return what was used as parts, in the order written down."""
    return [
        Part(
            one,
            read(one.item),
            _role(one.item),
            one.strained or bool(_STRAINED.search(one.item.casefold())),
        )
        for one in used
    ]


@lru_cache(8192)
def same_food(item: str, name: str) -> bool:
    """Return whether an item is what a name of a recipe says: the same foods, or the same words."""
    mine, theirs = read(item), read(name)
    if stems(item) == stems(name):
        return True
    if theirs.foods:
        named = {one.name for one in theirs.foods}
        return bool(mine.foods) and {one.name for one in mine.foods} <= named
    return bool(theirs.roles) and (
        _role(item) in theirs.roles or (not mine.foods and set(theirs.roles) <= set(mine.roles))
    )


def _food_of(part: Part) -> str | None:
    if part.role in ("sugar", "gelling_sugar"):
        return "sugar"
    return part.reading.foods[0].name if part.reading.foods else None


def _exact(text: str) -> tuple[str, Fraction, str] | None:
    try:
        amount = parse_amount(text)
    except LedgerError:
        return None
    return amount.measure, amount.exact, amount.unit


def how_much(part: Part, unit: str) -> Fraction | None:
    """Return how much a part is in ``lb``, ``oz``, ``cup``, ``tbsp``, ``clove`` or ``piece``.

    Parameters
    ----------
    part : Part
    unit : str

    Returns
    -------
    Fraction or None
        None where neither what was typed nor a weight leads there.
    """
    found = _exact(part.used.amount)
    food = _food_of(part)
    if unit in _MASS:
        grams = _grams(part, found, food)
        return None if grams is None else grams / _MASS[unit]
    factor = unit_factor(unit)
    if factor is not None and factor[0] == "volume":
        if found is not None and found[0] == "volume":
            return found[1] / factor[1]
        grams = _grams(part, found, food)
        cup = (unit_factor("cup") or ("", Fraction(1)))[1]
        if grams is None or food not in _CUP_G:
            return None
        return grams / _CUP_G[food] * cup / factor[1]
    if found is not None and found[0] == "count" and found[2] in ("piece", unit, *_PACKETS):
        return found[1] / 1000
    if unit == "package" and found is not None and found[0] == "mass":
        return found[1] / 1000 / _PECTIN_G
    grams = _grams(part, found, food)
    return None if grams is None or food not in _PIECE_G else grams / _PIECE_G[food]


def _grams(
    part: Part, found: tuple[str, Fraction, str] | None, food: str | None
) -> Fraction | None:
    if found is not None and found[0] == "mass":
        return found[1] / 1000
    cup = (unit_factor("cup") or ("", Fraction(1)))[1]
    if found is not None and found[0] == "volume" and food in _CUP_G:
        return found[1] / cup * _CUP_G[food]
    own = ("piece", "clove") if food == "garlic" else ("piece",)
    if found is not None and found[0] == "count" and food in _PIECE_G and found[2] in own:
        return found[1] / 1000 * _PIECE_G[food]
    if part.used.grams is not None:
        return Fraction(part.used.grams).limit_denominator(1000)
    return None
