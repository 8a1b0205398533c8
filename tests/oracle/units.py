"""Units as exact fractions, and the few texts that the oracle has to read.

Factors: NIST Handbook 44, appendix C (exact by definition); therm and BTU: International Table.
"""

from __future__ import annotations

import datetime as dt
import re
from fractions import Fraction as F

GRAMS = {
    "mg": F("0.001"),
    "g": F(1),
    "kg": F(1000),
    "oz": F("28.349523125"),
    "lb": F("453.59237"),
    "stone": F("6350.29318"),
    "cwt": F("45359.237"),
    "ton": F("907184.74"),
    "t": F(1_000_000),
}
ML = {
    "ml": F(1),
    "cl": F(10),
    "l": F(1000),
    "tsp": F("4.92892159375"),
    "tbsp": F("14.78676478125"),
    "fl oz": F("29.5735295625"),
    "cup": F("236.5882365"),
    "pt": F("473.176473"),
    "qt": F("946.352946"),
    "gal": F("3785.411784"),
    "peck": F("8809.76754172"),
    "bushel": F("35239.07016688"),
    "metric cup": F(250),
    # a jar holds whole microlitres: it is rounded once
    "half-pint jar": F("236.588"),
    "pint jar": F("473.176"),
    "1.5-pint jar": F("709.765"),
    "quart jar": F("946.353"),
    "half-gallon jar": F("1892.706"),
    "500 ml jar": F(500),
    "1 l jar": F(1000),
}
POUND_G = F("453.59237")
CONTAINERS = {
    ("plum", "bushel"): "53",
    ("plum", "peck"): "14",
    ("tomato", "bushel"): "53",
    ("tomato", "peck"): "13.25",
    ("tomato", "crate"): "60",
    ("tomato", "lug"): "32",
    ("bean", "bushel"): "30",
    ("bean", "peck"): "7.5",
}
"""Pounds in a container of a crop. Plum: retail containers, University of Georgia (B5); bushel and
peck of tomatoes and beans: marketing weights, the same (B6); crate and lug: USDA AH 697, table 6 (B1).
"""
PIECES = {"piece": 1, "dozen": 12, "gross": 144}
JOULES = {
    "J": F(1),
    "kwh": F(3_600_000),
    "mj": F(1_000_000),
    "btu": F("1055.05585262"),
    "therm": F("105505585.262"),
}
QUART_UL = F("946352.946")
LITER_UL = 1_000_000
LISTED_FROM = {"mass": 1000, "volume": 1000, "count": 10, "energy": 1}
"""Least amount in whole units that the shelf lists: 1 g, 1 ml, 0.01 piece (formats, section 1)."""

MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")


def measure_of_text(amount):
    """Return the measure that an amount's text is in: the unit after its first number."""
    unit = re.sub(r"^[\d\s.,/½¼¾]+", "", amount).strip()
    for table, measure in ((ML, "volume"), (GRAMS, "mass"), (JOULES, "energy")):
        if any(unit == name or unit.startswith(name + " ") for name in table):
            return measure
    return "count"


def unit_of_text(amount):
    """Return the unit after an amount's first number, in the singular."""
    words = re.sub(r"^[\d\s.,/½¼¾]+", "", amount).split()
    return words[0].removesuffix("s") if words else "piece"


def day(text):
    return dt.date.fromisoformat(text)


def moment(text):
    """Return an aware moment; a text without an offset is UTC."""
    if isinstance(text, str):
        text = dt.datetime.fromisoformat(text)
    return text if text.tzinfo else text.replace(tzinfo=dt.UTC)


def first_number(text):
    """Return the number that a setting's text starts with, as in ``0.17 per kWh``."""
    return F(re.search(r"\d+(\.\d+)?", text)[0])


def price_per_joule(text):
    """Return money per joule of ``0.17 per kWh``."""
    unit = text.split("per")[-1].strip().casefold()
    return first_number(text) / JOULES[unit]


def season_day(text):
    """Return (month, day) of ``1 October``."""
    number = int(re.search(r"\d+", text)[0])
    name = re.search(r"[A-Za-z]+", text)[0].casefold()
    return MONTHS.index(name[:3]) + 1, number
