"""Published figures of keeping food: periods, temperatures, salt, vinegar, headspace, power cuts.

``data/storage.csv.gz`` holds them as printed, one figure a row, each with its source.
`storage_power_cut.csv`, `storage_headspace.csv` and `storage_fresh.csv` are charts that it does not
hold.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files

from ledger.items import item_key
from ledger.reference import foods
from ledger.reference._read import rows
from ledger.reference.planting import Source
from ledger.reference.schedules_sources import source

__all__ = [
    "Figure",
    "PowerCut",
    "figures",
    "freezing_headspace",
    "fresh_life",
    "power_cut",
    "raw_life",
]

_RAW_MEAT = ("Beef", "Pork", "Lamb, Veal", "Poultry", "Finfish", "Sausages")
"""How the groups of the food table begin that hold meat, poultry and fish."""
_WHOLE_CUTS = ("Beef", "Pork", "Lamb")
"""How rows begin of what the chart has as steaks, chops and roasts; game is not in it: held to the stricter."""
_IN_PIECES = re.compile(r"\b(ground|stew|variety meats|liver)\b", re.IGNORECASE)


@dataclass(frozen=True)
class Figure:
    """One published figure.

    Attributes
    ----------
    topic, food, item, condition : str
        As in the table: ``shelf_life``, ``home_canned_food``, ``best_quality_period``, ...
    low, high : Fraction
        In `unit`; equal where one figure is printed.
    unit : str
        ``month``, ``week``, ``day``, ``hour``, ``degF``, ``inch``, ``cup``, ``percent``, ...
    source : Source
    confirmed : bool
        Whether it was read in its document, and not recalled.
    note : str
    """

    topic: str
    food: str
    item: str
    condition: str
    low: Fraction
    high: Fraction
    unit: str
    source: Source
    confirmed: bool
    note: str


@dataclass(frozen=True)
class PowerCut:
    """What the chart for a stopped freezer says of one kind of thing.

    Attributes
    ----------
    kind : str
    names : tuple of str
        What belongs to it (our own words).
    cold : str
        ``refreeze`` or ``discard`` while it holds ice crystals and feels as cold as refrigerated.
    warm : str
        The same once thawed and above 40 degrees F for more than `warm_hours`.
    warm_hours : int or None
    remark : str
    source : Source
    """

    kind: str
    names: tuple[str, ...]
    cold: str
    warm: str
    warm_hours: int | None
    remark: str
    source: Source


@cache
def _figures() -> tuple[Figure, ...]:
    return tuple(
        Figure(
            row["topic"],
            row["food"],
            row["item"],
            row["condition"],
            Fraction(row["value_low"]),
            Fraction(row["value_high"]),
            row["unit"],
            source(row["source_id"]),
            row["checked"] == "read",
            row["note"],
        )
        for row in rows("storage")
    )


def figures(
    topic: str | None = None, food: str | None = None, item: str | None = None
) -> tuple[Figure, ...]:
    """Return the figures of a topic, a food and an item, in the order of the table."""
    return tuple(
        one
        for one in _figures()
        if (topic is None or one.topic == topic)
        and (food is None or one.food == food)
        and (item is None or one.item == item)
    )


@cache
def _table(name: str) -> tuple[dict[str, str], ...]:
    text = files("ledger.reference").joinpath(name).read_text("utf-8")
    return tuple(csv.DictReader(text.splitlines()))


@cache
def power_cut() -> tuple[PowerCut, ...]:
    """Return the chart for frozen food after a power cut, one a kind of thing.

    References
    ----------
    FoodSafety.gov, Frozen food and power outages, reviewed 28 January 2021.
    """
    return tuple(
        PowerCut(
            row["kind"],
            tuple(row["names"].split("|")),
            row["cold"],
            row["warm"],
            int(row["warm_hours"]) if row["warm_hours"] else None,
            row["remark"],
            source("FOODSAFETY_FROZEN"),
        )
        for row in _table("storage_power_cut.csv")
    )


@cache
def fresh_life(item: str) -> Figure | None:
    """Return how long a fresh fruit or vegetable may be held at its best temperature and humidity.

    Parameters
    ----------
    item : str
        The household's name for it, in the singular or plural, with or without a variety's kind
        before it ("roma tomato" is a tomato; "dry bean" is no snap bean).

    References
    ----------
    USDA Agriculture Handbook 66, 1954 (vegetables) and 1968 (fruits), both read in copies.
    """
    key = item_key(item)
    if key.split(" ")[0] in ("dry", "dried", "canned", "frozen"):
        return None
    best, row = "", None
    for one in _table("storage_fresh.csv"):
        for name in one["names"].split("|"):
            bare = name.lstrip("=")
            fits = key == bare or (name == bare and key.endswith(f" {bare}"))
            if fits and len(bare) > len(best):
                best, row = bare, one
    if row is None or not row["unit"]:
        return None
    return Figure(
        "fresh", best, "storage_life", "at its best temperature and humidity",
        Fraction(row["low"]), Fraction(row["high"]), row["unit"], source(row["source_id"]),
        True, "",
    )  # fmt: skip


@cache
def raw_life(food: str | None) -> Figure | None:
    """Return how many days raw meat, poultry or fish may stand in the refrigerator; None of anything else.

    Parameters
    ----------
    food : str or None
        The household's row of the food table.

    References
    ----------
    US Food and Drug Administration, Refrigerator and Freezer Storage Chart (at 40 degrees F): ground
    and stew meat, raw sausage, variety meats, poultry and fish 1 to 2 days; steaks, chops and roasts
    of beef, veal, lamb and pork 3 to 5. That game stands with the former: our own choice.
    """
    row = None if food is None else foods.by_id(food)
    if (
        row is None
        or not row.group.startswith(_RAW_MEAT)
        or not re.search(r"\braw\b", row.description)
    ):
        return None
    whole = row.description.startswith(_WHOLE_CUTS) and not _IN_PIECES.search(row.description)
    low, high = (3, 5) if whole else (1, 2)
    return Figure(
        "fridge", "raw_meat", row.description, "at 40 degrees F", Fraction(low), Fraction(high), "day",
        source("FDA_COLD_CHART"), True, "",
    )  # fmt: skip


def freezing_headspace(pack: str, top: str, container: str) -> tuple[Fraction, Source] | None:
    """Return the room to leave at the top of a container for freezing, in inches.

    Parameters
    ----------
    pack : {'liquid', 'dry', 'juice'}
    top : {'wide', 'narrow'}
        Of the container's opening.
    container : {'pint', 'quart'}

    References
    ----------
    National Center for Home Food Preservation, Headspace to allow between packed food and closure.
    """
    for row in _table("storage_headspace.csv"):
        if (row["pack"], row["top"], row["container"]) == (pack, top, container):
            return Fraction(row["headspace_in"]), source("NCHFP_HEADSPACE")
    return None
