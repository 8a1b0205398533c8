"""Units and amounts as they are said: one amount, its unit, and what kind of unit that is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ledger.amounts import unit_factor
from ledger.saying.language import Language
from ledger.saying.numbers import figure
from ledger.saying.tokens import Token

__all__ = ["JAR_OF", "Quantity", "base_unit", "unit_at"]

JAR_OF = {
    "pt": "pint jar", "qt": "quart jar", "gal": "gallon jar", "half-pint": "half-pint jar",
    "half-gallon": "half-gallon jar",
}  # fmt: skip
"""The jar that a bare unit means, where jars are meant."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """An amount that was said.

    Attributes
    ----------
    many : Fraction
    unit : str or None
        The unit as an amount has it (``lb``, ``bunch``, ``quart jar``); None counts pieces.
    sort : str
        ``measure``, ``count``, ``counted`` (a bunch), ``unknown`` (a bucket), ``jar``.
    length : int
        How many tokens it takes.
    packs : Fraction or None
        How many containers were said, for a price of each.
    loose : bool
        A bare article and no unit.
    doubt : str
        Why it is no amount yet: ``vague``, ``range``, ``cuts``, ``jar-fraction``; else "".
    options : tuple of str
        What may be meant.
    is_about : bool
    """

    many: Fraction
    unit: str | None
    sort: str
    length: int
    packs: Fraction | None = None
    loose: bool = False
    doubt: str = ""
    options: tuple[str, ...] = field(default=())
    is_about: bool = False

    @property
    def dimension(self) -> str:
        """Return what it measures: ``mass``, ``volume``, ``count``, or the unit's own name."""
        known = unit_factor(self.unit) if self.unit and self.sort in ("measure", "jar") else None
        if known is not None:
            return known[0]
        return "count" if self.unit is None else self.unit

    def text(self) -> str:
        """Return it in plain figures: ``31 lb``, ``24``, ``11 half-pint jars``."""
        if self.unit is None:
            return figure(self.many)
        if self.unit == "half-pint":
            return f"{figure(self.many / 2)} pt"
        if self.unit == "half-gallon":
            return f"{figure(self.many / 2)} gal"
        many = "s" if self.sort == "jar" and self.many != 1 else ""
        return f"{figure(self.many)} {self.unit}{many}"

    def jar(self) -> str | None:
        """Return the jar that this amount is so many of, or would be: ``quart jar``."""
        return self.unit if self.sort == "jar" else JAR_OF.get(self.unit or "")

    def in_jars(self, jar: str | None = None) -> Quantity:
        """Return the same number of jars of a size (default: the one its unit names)."""
        return replace(self, unit=jar or self.jar() or "jar", sort="jar")


def unit_at(words: Language, tokens: Sequence[Token], i: int) -> tuple[str, str, int] | None:
    """Return the unit at a place, its sort and how many tokens it takes."""
    best: tuple[str, str, int] | None = None
    for tag, sort in (
        ("units", "measure"),
        ("jars", "jar"),
        ("counted", "counted"),
        ("unknown", "unknown"),
    ):
        found = words.find(tag, tokens, i)
        if found is not None and (best is None or found[1] > best[2]):
            best = (found[0], sort, found[1])
    return None if best is None else (best[0], best[1], best[2] + _dot(tokens, i + best[2]))


def _dot(tokens: Sequence[Token], i: int) -> int:
    """Return 1 where the point of a short form follows (``lb. of``), not a sentence's end."""
    if i >= len(tokens) or tokens[i].low != "." or not tokens[i].tight:
        return 0
    if i + 1 >= len(tokens) or len(tokens[i - 1].low) > 4:
        return 0
    after = tokens[i + 1]
    return int((after.sort == "word" and after.text[:1].islower()) or after.low in "(,;")


def base_unit(unit: str, value: Fraction) -> tuple[str, Fraction]:
    """Return a unit that is so many of another (a German pound) in that other."""
    head, _, rest = unit.partition(" ")
    return (rest, value * int(head)) if head.isdigit() else (unit, value)
