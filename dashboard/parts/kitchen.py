"""Amounts as a kitchen says them: ½ and ¼ as signs, and the measure that gives ½ to 100 of it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from dashboard.words import Words
from ledger.messages import worded
from ledger.messages.units import amount

__all__ = ["kitchen", "measured", "spooned"]

_SIGNS = {
    "5": "½", "25": "¼", "75": "¾", "1/2": "½", "1/4": "¼", "3/4": "¾", "1/8": "⅛", "3/8": "⅜",
}  # fmt: skip
_MEASURES = r"(?:tsp|tbsp|fl oz|cups?|pt|qt|gal|lb|oz|in|inch|EL|TL)"
_DECIMAL = re.compile(rf"(?<![\d.,])(\d+)[.,](5|25|75)(?= {_MEASURES}\b)")
_PARTS = re.compile(r"(?<![\d/.,])(?:(\d+) )?(1/2|1/4|3/4|1/8|3/8)(?![\d/])")
_ML = {
    "gal": 3785.411784, "qt": 946.352946, "pt": 473.176473, "cup": 236.5882365,
    "fl oz": 29.5735295625, "tbsp": 14.78676478125, "tsp": 4.92892159375,
}  # fmt: skip
"""US customary measures of volume in ml (NIST Handbook 44, appendix C)."""
_STEPS = (("qt", 0.5), ("cup", 0.25), ("tbsp", 0.5), ("tsp", 0.25))
"""Measures that are said, largest first, and to what part of each."""
_SPOONS = 8
"""So many spoons of something are said in a larger measure."""
_LEAST = {"qt": 1.0, "cup": 0.5, "tbsp": 1.0, "tsp": 0.0}
_ONE = {
    "qt": "kitchen.qt_one",
    "cup": "kitchen.cup_one",
    "tbsp": "kitchen.tbsp_one",
    "tsp": "kitchen.tsp_one",
}
_MANY = {
    "qt": "kitchen.qt_many",
    "cup": "kitchen.cup_many",
    "tbsp": "kitchen.tbsp_many",
    "tsp": "kitchen.tsp_many",
}
_HALF = {0.0: "", 0.25: "¼", 0.5: "½", 0.75: "¾"}


def kitchen(text: str) -> str:
    """Return a text with halves and quarters of a measure as signs; other numbers, as money, stay as they are.

    Examples
    --------
    >>> kitchen("10.5 qt tomato puree, 1 1/2 cup sugar, 1.35 lb")
    '10½ qt tomato puree, 1½ cup sugar, 1.35 lb'
    """
    signed = _PARTS.sub(lambda part: (part[1] or "") + _SIGNS[part[2]], text)
    return _DECIMAL.sub(lambda part: part[1].lstrip("0") + _SIGNS[part[2]], signed)


def measured(words: Words, left: Mapping[str, Any]) -> str:
    """Return what is left of something as it is said; the page behind it has it to the last gram.

    Parameters
    ----------
    words : Words
    left : mapping
        ``text``, and ``whole`` in the whole units of its ``measure``.
    """
    text, measure, whole = words.said(left["text"]), left.get("measure"), left.get("whole")
    if "jar" in left["text"] or measure not in ("volume", "mass") or whole is None:
        return kitchen(text)
    if words.measures == "metric":
        return _metric(words, float(whole) / 1000, "g" if measure == "mass" else "ml")
    if measure == "mass":
        return kitchen(re.sub(r"^([1-9]\d*)[.,]\d+ oz$", r"\1 oz", text))
    return _volume(words, float(whole) / 1000)


def spooned(words: Words, text: str) -> str:
    """Return a text with each odd US volume in it as it is said: ``107 tbsp milk`` in quarts or litres."""
    units = _volumes(words.language)

    def said(part: re.Match[str]) -> str:
        number, unit = float(part[1].replace(",", ".")), units[part[2]]
        if (number * 4).is_integer() and not (unit in ("tsp", "tbsp") and number >= _SPOONS):
            is_typed = part[2] == unit and words.language != "en"
            return worded(amount(f"{part[1]} {unit}"), words.language) if is_typed else part[0]
        ml = number * _ML[unit]
        return _metric(words, ml, "ml") if words.measures == "metric" else _volume(words, ml)

    names = "|".join(sorted(map(re.escape, units), key=len, reverse=True))
    return kitchen(re.sub(rf"(?<![\d.,])(\d+(?:[.,]\d+)?) ({names})\b", said, text))


@cache
def _volumes(language: str) -> dict[str, str]:
    """Return the US measures of volume by what a language calls them, one and several."""
    said = {
        worded(amount(f"{number} {unit}"), language).partition(" ")[2]: unit
        for unit in _ML
        for number in (1, 2)
    }
    return {unit: unit for unit in _ML} | said


def _volume(words: Words, ml: float) -> str:
    unit, step = next((one, by) for one, by in _STEPS if ml / _ML[one] >= _LEAST[one])
    number = max(step, round(ml / _ML[unit] / step) * step)
    key = (_ONE if number <= 1 else _MANY)[unit]
    return words(key, n=(f"{int(number)}" if number >= 1 else "") + _HALF[number % 1])


def _metric(words: Words, number: float, unit: str) -> str:
    """Return grams or millilitres as they are said: whole ones, from a thousand on by the tenth of the larger."""
    if number < 1000:
        return (
            f"{words.number(float(f'{number:.2g}') if number >= 100 else round(number), 6)} {unit}"
        )
    return f"{words.number(round(number / 1000, 1), 6)} {'kg' if unit == 'g' else 'l'}"
