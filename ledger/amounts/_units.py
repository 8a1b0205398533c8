"""Units: spellings to canonical names, and their exact factors, read out of Pint once.

A canonical name is how a stored line calls its unit: ``lb``, ``cup``, ``fl oz``, ``uk qt``. Named
pieces (``clove``, ``head``, ``can``) are units without a factor of their own.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

__all__ = ["NAMED_PIECES", "WHOLES", "canonical", "factor", "is_counted", "known_units", "plural"]

WHOLES = {"mass": 1000, "volume": 1000, "count": 1000, "energy": 1}
"""Whole units in one g, ml, piece and J."""

_DIMENSIONS = {
    ("[mass]", 1): "mass",
    ("[volume]", 1): "volume",
    ("[count]", 1): "count",
    ("[energy]", 1): "energy",
    ("[length]", 1): "length",
    ("[length]", 2): "area",
}

NAMED_PIECES = {
    name: one
    for one, names in {
        "armful": "armfuls",
        "bag": "bags",
        "bale": "bales",
        "bar": "bars",
        "barrel": "barrels",
        "basket": "baskets",
        "bin": "bins",
        "block": "blocks",
        "bottle": "bottles",
        "bowl": "bowls",
        "box": "boxes",
        "braid": "braids",
        "bucket": "buckets",
        "bulb": "bulbs",
        "bunch": "bunches",
        "bundle": "bundles",
        "can": "cans",
        "carton": "cartons",
        "case": "cases",
        "clove": "cloves",
        "cob": "cobs",
        "colander": "colanders",
        "crate": "crates",
        "ear": "ears",
        "flat": "flats",
        "handful": "handfuls",
        "head": "heads",
        "jar": "jars",
        "jug": "jugs",
        "leaf": "leaves",
        "link": "links",
        "load": "loads",
        "loaf": "loaves",
        "lug": "lugs",
        "pack": "packs",
        "package": "packages",
        "packet": "packets",
        "pail": "pails",
        "pan": "pans",
        "pinch": "pinches",
        "pot": "pots",
        "punnet": "punnets",
        "roll": "rolls",
        "round": "rounds",
        "sack": "sacks",
        "scoop": "scoops",
        "serving": "servings",
        "sheaf": "sheaves",
        "side": "sides",
        "slice": "slices",
        "sprig": "sprigs",
        "stalk": "stalks",
        "stick": "sticks",
        "tin": "tins",
        "tray": "trays",
        "trug": "trugs",
        "tub": "tubs",
        "wedge": "wedges",
        "wheel": "wheels",
        "wheelbarrow": "wheelbarrows",
    }.items()
    for name in (one, names)
}
"""Spellings of the counted units that an item may come in, to their canonical names."""

_KITCHEN = {
    "us": {},
    "uk": {
        "gal": "uk gal", "qt": "uk qt", "pt": "uk pt", "cup": "uk cup", "gill": "uk gill",
        "fl oz": "uk fl oz", "peck": "uk peck", "bushel": "uk bushel", "cwt": "uk cwt",
        "ton": "uk ton", "tbsp": "metric tbsp", "tsp": "metric tsp",
    },
    "metric": {"cup": "metric cup", "tbsp": "metric tbsp", "tsp": "metric tsp"},
}  # fmt: skip
"""What the bare words mean under each setting of `measures`."""

_COMMON = {
    "mg": ("mass", "1"), "g": ("mass", "1000"), "kg": ("mass", "1000000"),
    "oz": ("mass", "28349.523125"), "lb": ("mass", "453592.37"),
    "ml": ("volume", "1000"), "l": ("volume", "1000000"),
    "tsp": ("volume", "4928.92159375"), "tbsp": ("volume", "14786.76478125"),
    "fl oz": ("volume", "29573.5295625"), "cup": ("volume", "236588.2365"),
    "pt": ("volume", "473176.473"), "qt": ("volume", "946352.946"),
    "gal": ("volume", "3785411.784"), "metric tsp": ("volume", "5000"),
    "uk fl oz": ("volume", "28413.0625"), "uk cup": ("volume", "284130.625"),
    "uk pt": ("volume", "568261.25"), "uk qt": ("volume", "1136522.5"),
    "peck": ("volume", "8809767.54172"), "bushel": ("volume", "35239070.16688"),
    "stone": ("mass", "6350293.18"), "cwt": ("mass", "45359237"), "t": ("mass", "1000000000"),
    "piece": ("count", "1000"), "dozen": ("count", "12000"),
    "kWh": ("energy", "3600000"), "inch": ("length", "0.0254"),
    "ft": ("length", "0.3048"), "cm": ("length", "0.01"), "m": ("length", "1"),
    "sq ft": ("area", "0.09290304"), "m2": ("area", "1"),
}  # fmt: skip
"""What everyday reading and printing needs, so that it need not wait for Pint to load.

Source: NIST SP 811 (2008), appendix B, and the Units of Measurement Regulations 1995; tests hold
each to what Pint makes of our definitions.
"""


@cache
def _registry() -> Any:
    from pint import UnitRegistry

    lines = files("ledger.amounts").joinpath("definitions.txt").read_text("utf-8").splitlines()
    registry: Any = UnitRegistry(None, non_int_type=Fraction, cache_folder=None)
    registry.load_definitions(lines)
    return registry


@cache
def _spellings() -> dict[str, str]:
    """Return every accepted spelling, in lower case with spaces, to its canonical name."""
    out = dict(NAMED_PIECES)
    for line in files("ledger.amounts").joinpath("definitions.txt").read_text("utf-8").splitlines():
        text = line.split("#")[0].strip()
        if not text:
            continue
        name, _, *aliases = (part.strip().replace("_", " ") for part in text.split("="))
        for spelling in (name, *aliases[1:]):
            out[spelling.lower()] = name
    return out


def known_units() -> list[str]:
    """Return every accepted spelling."""
    return sorted(_spellings())


@cache
def canonical(spelling: str, measures: str = "us") -> str | None:
    """Return the canonical name of a unit as spelled, or None where it is not one.

    Case does not matter, except that a lone ``T`` or ``C`` is not read as a unit: cooks mean
    tablespoon and cup by them, and others mean something else.
    """
    text = " ".join(spelling.split()).rstrip(".")
    if text in ("T", "C", "M", "G", "L") and text != "L":
        return None
    text = text.lower().replace("fl. oz", "fl oz").replace("fl.oz", "fl oz").replace("sq. ", "sq ")
    name = _spellings().get(text)
    if name is None or text.startswith("us "):
        return name
    return _KITCHEN.get(measures, {}).get(name, name)


_SEVERAL = {one: several for several, one in NAMED_PIECES.items() if several != one}


def plural(unit: str) -> str:
    """Return the name of several of a counted unit: ``heads``, ``leaves``."""
    return _SEVERAL.get(unit, f"{unit}s")


def is_counted(unit: str) -> bool:
    """Return whether a canonical unit is counted for itself: a head, a bucket; no piece, no volume."""
    return factor(unit) is None


@cache
def factor(unit: str) -> tuple[str, Fraction] | None:
    """Return the measure of a canonical unit and its whole units, exactly.

    Parameters
    ----------
    unit : str
        A canonical name; a jar's name (``quart jar``) counts as a volume.

    Returns
    -------
    tuple of (str, Fraction) or None
        ``("mass", 453592.37)`` for lb, in mg; ul for volume, thousandths for count, J for
        energy; for length and area the factor is to m and m2. None: a named piece, or no unit.
    """
    from ledger.amounts._jars import jar_volume_ul

    volume = jar_volume_ul(unit) if unit.endswith("jar") else None
    if volume is not None:
        return "volume", Fraction(volume)
    if unit in NAMED_PIECES or _spellings().get(unit.lower()) is None:
        return None
    if unit in _COMMON:
        return _COMMON[unit][0], Fraction(_COMMON[unit][1])
    return _by_pint(unit)


def _by_pint(unit: str) -> tuple[str, Fraction]:
    base = _registry().Quantity(Fraction(1), unit.replace(" ", "_")).to_base_units()
    ((dimension, power),) = base.dimensionality.items()
    measure = _DIMENSIONS[dimension, int(power)]
    return measure, Fraction(base.magnitude) * WHOLES.get(measure, 1)
