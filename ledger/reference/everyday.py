"""Everyday names of foods: which row of the food table a name plainly means.

The list ``everyday_names.csv`` was made and read over by hand, name by name; nothing is searched
for. A name that is not on it is proposed at most (`foods.hint`). A row's weights are those of the
food as it is brought home: the table's measures leave the refuse out (SR28 documentation, section
on weights), so that a piece, a head or an ear weighs grams / (1 - refuse / 100). A dozen large eggs
come to 682 g so; USDA's least weight of a dozen large shell eggs is 24 oz, 680 g (7 CFR 56.218).
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files

from ledger.items import item_key
from ledger.reference import containers, foods

__all__ = ["Everyday", "everyday", "names", "pairs", "spoken"]

_UNITS = ("head", "bunch", "ear", "stalk", "clove", "bulb")
_HEAVY_G = 500.0
"""A piece that weighs more is eaten by parts."""
_NEVER_COUNTED = ("sugar",)
"""What the food table has in the plural for its sorts, and no kitchen counts."""
_CONTAINERS = ("bushel", "peck", "lug", "crate", "barrel", "sack")


@dataclass(frozen=True)
class Everyday:
    """What a plain name stands for.

    Attributes
    ----------
    food : str
        Id of its row in the food table.
    description : str
        The row's own name.
    measure : {'mass', 'volume', 'count'}
        What it is mostly spoken of in.
    kcal_per_100g : Fraction or None
        Of the edible part.
    g_per : dict of str to str
        Grams of one of a unit as brought home: pieces, heads, bushels.
    pieces_per : dict of str to str
        How many pieces one of a unit is.
    """

    food: str
    description: str
    measure: str
    kcal_per_100g: Fraction | None
    g_per: dict[str, str] = field(default_factory=dict)
    pieces_per: dict[str, str] = field(default_factory=dict)


@cache
def _rows() -> tuple[dict[str, str], ...]:
    text = files("ledger.reference").joinpath("everyday_names.csv").read_text("utf-8")
    return tuple(csv.DictReader(io.StringIO(text)))


@cache
def _keys(column: str) -> dict[str, dict[str, str]]:
    several = ((name, row) for row in _rows() for name in row[column].split("|") if name)
    return {item_key(name): row for name, row in several}


def names(language: str | None = None) -> dict[str, str]:
    """Return every name on the list with the id of its row.

    Parameters
    ----------
    language : {'en', 'de'}, optional
        Only the names of one language; plurals of English names go without saying (`item_key`).
    """
    column = {"en": ("english",), "de": ("german",), None: ("english", "german")}[language]
    return {
        name: row["food"]
        for row in _rows()
        for one in column
        for name in row[one].split("|")
        if name
    }


def pairs() -> Iterator[tuple[list[str], list[str]]]:
    """Yield the German and the English names of each row that has both."""
    for row in _rows():
        if row["german"] and row["english"]:
            yield row["german"].split("|"), row["english"].split("|")


@cache
def everyday(name: str, language: str = "en") -> Everyday | None:
    """Return what a plain name stands for, in either number; None where it is not listed.

    A name of both languages (paprika) is read in the one that is given: ``en`` or ``de``.

    Examples
    --------
    >>> everyday("Eggs").description
    'Egg, whole, raw, fresh'
    >>> everyday("Zwetschgen").food
    '09279'
    """
    key, columns = item_key(name), ("english", "german")
    first, second = columns[::-1] if language.startswith("de") else columns
    row = _keys(first).get(key) or _keys(second).get(key)
    food = foods.by_id(row["food"]) if row is not None else None
    if row is None or food is None:
        return None
    whole = 1 / (1 - food.refuse_pct / 100)
    g_per = {
        unit: _grams(measure.grams * whole)
        for unit in _UNITS
        if (measure := foods.household_measure(food.id, unit)) is not None
    }
    piece = _piece(food.id, row["piece"])
    if piece is not None:
        g_per["piece"] = _grams(piece * whole)
    pieces_per = {row["pieces"]: "1"} if row["pieces"] and piece is not None else {}
    g_per = {unit: grams for unit, grams in g_per.items() if unit not in pieces_per}
    for unit in _CONTAINERS if row["container"] else ():
        published = containers.weight(row["container"], unit)
        if published is not None:
            g_per[unit] = _grams(published.grams)
    return Everyday(
        food.id, food.description, row["measure"], food.kcal_per_100g, g_per, pieces_per
    )


def _piece(food_id: str, said: str) -> Fraction | None:
    """Return the edible grams of one: by the measure that is named, else the table's medium one."""
    if not said:
        return None
    if said == "=":
        measure = foods.household_measure(food_id, "piece")
        return None if measure is None else measure.grams
    for label, grams in foods.portions(food_id):
        if label.lower().split(",")[0].split("(")[0].strip() == said:
            return grams
    measure = foods.household_measure(food_id, said)
    return None if measure is None else measure.grams


def _grams(grams: Fraction) -> str:
    return f"{float(grams):.2f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=4096)
def spoken(item: str) -> str:
    """Return an item as it is spoken of in a list: ``plum`` as plums, where the food table names it so.

    Examples
    --------
    >>> spoken("frozen green bean"), spoken("plum"), spoken("tomatoes"), spoken("butter")
    ('frozen green beans', 'plums', 'tomatoes', 'butter')
    """
    words = item.split()
    if words and words[-1] in _NEVER_COUNTED:
        return item
    for n in range(len(words)):
        plain = everyday(" ".join(words[n:]), "en")
        if plain is None:
            continue
        head = plain.description.split(",")[0].split()[-1].lower()
        if head != words[-1] and head.endswith("s") and item_key(head) == item_key(words[-1]):
            return " ".join([*words[:-1], head])
        if (
            head == words[-1]
            and not head.endswith("s")
            and float(plain.g_per.get("piece", _HEAVY_G)) < _HEAVY_G
        ):
            return f"{item}s"  # what is counted, as eggs are; of a cabbage one eats a part
        return item
    return item
