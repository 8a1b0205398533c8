"""What is in the house, as the household would know it by looking.

Kept in ounces, tablespoons and pieces, so that what the demo draws was there; the few draws that
were never bought are made on purpose (`seed_demo.mess`).
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from seed_demo.items import measure_of

__all__ = ["CUP", "GALLON", "JARS", "PINT", "QUART", "Pantry", "jars_of", "say"]

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

    def put(self, item: str, amount: int, day: dt.date) -> None:
        """Bring something in."""
        self._lots.setdefault(item, []).append(_Lot(day, amount))

    def has(self, item: str) -> int:
        """Return how much of an item is there."""
        return sum(lot.amount for lot in self._lots.get(item, ()))

    def take(self, item: str, amount: int) -> bool:
        """Take an amount, oldest first, if that much is there; return whether it was."""
        if self.has(item) < amount:
            return False
        for lot in self._lots[item]:
            part = min(lot.amount, amount)
            lot.amount -= part
            amount -= part
        self._lots[item] = [lot for lot in self._lots[item] if lot.amount]
        return True

    def older(self, item: str, before: dt.date) -> int:
        """Return how much of an item came in before a day."""
        return sum(lot.amount for lot in self._lots.get(item, ()) if lot.day < before)

    def items(self) -> list[str]:
        """Return what there is, by name."""
        return sorted(item for item, lots in self._lots.items() if lots)
