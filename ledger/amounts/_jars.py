"""Jars: a count and a volume at once."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

__all__ = ["JAR", "MAYBE_JAR", "canonical_jar", "jar_volume_ul"]

_GALLON_UL = Fraction(3_785_411_784, 1000)
_SIZES = {
    "half-pint": _GALLON_UL / 16,
    "pint": _GALLON_UL / 8,
    "1.5-pint": _GALLON_UL * 3 / 16,
    "quart": _GALLON_UL / 4,
    "half-gallon": _GALLON_UL / 2,
}
_SIZE = (
    r"(?:1/2|½|half)[- ]?(?:pint|pt)|(?:1\.5|1 ?½|one-and-a-half)[- ]?(?:pint|pt)|pint|pt|quart|qt"
    r"|(?:1/2|½|half)[- ]?(?:gallon|gal)|\d+(?:\.\d+)? ?(?:ml|millilit(?:er|re)|l|lit(?:er|re))"
)
JAR = re.compile(rf"(?P<size>{_SIZE})[- ]?jars?\b", re.IGNORECASE)
"""A jar's name, singular or plural, as people write it."""

MAYBE_JAR = re.compile(r"half[- ]?(?P<what>pint|pt|gallon|gal)s?\b(?![- ]?jar)", re.IGNORECASE)
"""``half-pint`` with the word jar left out: a volume, or a jar where the item is kept in such."""


@cache
def canonical_jar(name: str) -> str | None:
    """Return the canonical name of a jar (``half-pint jar``), or None where it has no known size."""
    match = JAR.fullmatch(" ".join(name.split()))
    if not match:
        return None
    size = match["size"].lower().replace("½", "1/2")
    if re.match(r"(1/2|half)[- ]?p", size):
        return "half-pint jar"
    if re.match(r"(1\.5|1 ?1/2|one)", size):
        return "1.5-pint jar"
    if re.match(r"(1/2|half)[- ]?g", size):
        return "half-gallon jar"
    if size[0] in "pq":
        return "pint jar" if size[0] == "p" else "quart jar"
    number, unit = re.match(
        r"([\d.]+) ?(m?l)", size.replace("millilit", "ml").replace("lit", "l")
    ).groups()  # type: ignore[union-attr]
    return f"{number} {unit} jar"


@cache
def jar_volume_ul(name: str) -> int | None:
    """Return what a jar holds in whole microlitres, rounded once half to even, or None."""
    jar = canonical_jar(name)
    if jar is None:
        return None
    size = jar.removesuffix(" jar")
    if size in _SIZES:
        return round(_SIZES[size])
    number, unit = size.split(" ")
    return round(Fraction(number) * (1_000_000 if unit == "l" else 1000))
