"""What is in the house, as the household would know it by looking.

Kept in ounces, tablespoons and pieces, so that what the demo draws was there; the few draws that
were never bought are made on purpose (`seed_demo.mess`).
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from seed_demo.items import measure_of

__all__ = ["CUP", "GALLON", "JARS", "PINT", "QUART", "Pantry", "jars_of", "say"]

_WHOLE = {"mass": 28349.523125, "volume": 14786.76478125, "count": 1000}
"""Milligrams of an ounce, microlitres of a tablespoon (unit_factors.csv), thousandths of a piece."""

CUP, PINT, QUART, GALLON = 16, 32, 64, 256
JARS = {"quart jar": QUART, "pint jar": PINT, "half-pint jar": CUP}


def say(item: str, amount: int) -> str:
    """Return an amount in the pantry's units as people write it: ``12 lb 6 oz``, ``2 qt``."""
    measure = measure_of(item)
    if measure == "count":
        return str(amount)
    if measure == "mass":
        pounds, rest = divmod(amount, 16)
        parts = [f"{pounds} lb"] * bool(pounds) + [f"{rest} oz"] * bool(rest or not pounds)
        return " ".join(parts)
    for size, unit in ((QUART, "qt"), (PINT, "pt"), (CUP, "cup")):
        if amount >= size and amount % (size // 2) == 0:
            return f"{amount / size:g} {unit}"
    return f"{amount} tbsp"


def jars_of(jar: str, count: int) -> str:
    """Return so many jars as people write them: ``7 quart jars``."""
    return f"{count} {jar}" + ("s" if count != 1 else "")


@dataclass
class _Lot:
    day: dt.date
    amount: int


class Pantry:
    """Lots of each item: the day each came in and what is left of it, oldest first."""

    def __init__(self) -> None:
        self._lots: dict[str, list[_Lot]] = {}
        self._total: dict[str, int] = {}
        self._wholes: dict[str, int] = {}  # what the book has, in its whole units

    def put(self, item: str, amount: int, day: dt.date, trimmed: int = 0) -> None:
        """Bring something in, after so much of it was trimmed off."""
        self._lots.setdefault(item, []).append(_Lot(day, amount))
        self._total[item] = self._total.get(item, 0) + amount
        whole = self._whole(item, amount + trimmed) - self._whole(item, trimmed)
        self._wholes[item] = self._wholes.get(item, 0) + whole

    def has(self, item: str) -> int:
        """Return how much of an item is there."""
        return self._total.get(item, 0)

    def take(self, item: str, amount: int) -> str:
        """Take an amount, oldest first, if that much is there; return it in words, else nothing.

        Every line is rounded to the book's whole units, so the last of something may be a
        milligram less than the ounces say: that is written as the scale's whole grams.
        """
        if self.has(item) < amount:
            return ""
        there, whole, words = self._wholes[item], self._whole(item, amount), say(item, amount)
        if whole > there:
            unit = "g" if measure_of(item) == "mass" else "ml"
            whole, words = there // 1000 * 1000, f"{there // 1000} {unit}"
        self._wholes[item] = there - whole
        self._total[item] -= amount
        for lot in self._lots[item]:
            part = min(lot.amount, amount)
            lot.amount -= part
            amount -= part
        self._lots[item] = [lot for lot in self._lots[item] if lot.amount]
        return words

    def older(self, item: str, before: dt.date) -> int:
        """Return how much of an item came in before a day."""
        return sum(lot.amount for lot in self._lots.get(item, ()) if lot.day < before)

    def counted(self, item: str) -> None:
        """Let the book have what a count said: what is there, to the ounce."""
        self._wholes[item] = self._whole(item, self.has(item))

    @staticmethod
    def _whole(item: str, amount: int) -> int:
        return round(amount * _WHOLE[measure_of(item)])

    def items(self) -> list[str]:
        """Return what there is, by name."""
        return sorted(item for item, lots in self._lots.items() if lots)
