"""Jars: a count and a volume at once."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from ledger.errors import NeedsAnswer
from ledger.messages import Typed, measured, sentence

__all__ = ["JAR", "MAYBE_JAR", "canonical_jar", "doubt_jar", "jar_volume_ul"]

_GALLON_UL = Fraction(3_785_411_784, 1000)
_SIZES = {
    "half-pint": _GALLON_UL / 16,
    "pint": _GALLON_UL / 8,
    "1.5-pint": _GALLON_UL * 3 / 16,
    "quart": _GALLON_UL / 4,
    "half-gallon": _GALLON_UL / 2,
    "gallon": _GALLON_UL,
}
_HALF = r"(?:1/2|½|half)[-\s]*"
_MORE = r"(?:1\.5|1[-\s]*(?:½|1/2)|one-and-a-half)[-\s]*"
_SIZE = (
    rf"{_HALF}(?:pint|pt)s?|{_MORE}(?:pint|pt)s?|(?:pint|pt|quart|qt)s?"
    rf"|{_HALF}(?:gallon|gal)s?|(?:gallon|gal)s?"
    r"|\d+(?:\.\d+)?[-\s]*(?:ml|millilit(?:er|re)s?|l|lit(?:er|re)s?)"
)
JAR = re.compile(rf"(?P<size>{_SIZE})[-\s]*(?P<jar>jars?)\b", re.IGNORECASE)
"""A jar's name, singular or plural, as people write it."""

MAYBE_JAR = re.compile(r"half[-\s]*(?P<what>pint|pt|gallon|gal)s?\b(?![-\s]*jar)", re.IGNORECASE)
"""``half-pint`` with the word jar left out: a volume, or a jar where the item is kept in such."""


@cache
def canonical_jar(name: str) -> str | None:
    """Return the canonical name of a jar (``half-pint jar``), or None where it has no known size.

    Metric jars of a litre and more are named in litres, smaller ones in millilitres, however
    they were written.

    Examples
    --------
    >>> canonical_jar("Half Pint Jars"), canonical_jar("0.5 l jar"), canonical_jar("jam jar")
    ('half-pint jar', '500 ml jar', None)
    """
    match = JAR.fullmatch(" ".join(name.split()))
    if not match:
        return None
    size = match["size"].lower()
    what = "gallon" if re.search(r"gal", size) else "pint" if re.search(r"pint|pt", size) else ""
    if what and re.match(_MORE, size):
        return f"1.5-{what} jar"
    if what and re.match(_HALF, size):
        return f"half-{what} jar"
    if what or size[0] == "q":
        return f"{what or 'quart'} jar"
    return _metric(size)


def _metric(size: str) -> str | None:
    number = re.match(r"[\d.]+", size)
    assert number is not None
    ml = Fraction(number[0]) * (1 if "m" in size[number.end() :] else 1000)
    if ml <= 0:
        return None
    many, unit = (ml / 1000, "l") if ml >= 1000 else (ml, "ml")
    text = f"{many.numerator}" if many.denominator == 1 else f"{float(many):.12g}"
    return f"{text} {unit} jar"


@cache
def jar_volume_ul(name: str) -> int | None:
    """Return what a jar holds in whole microlitres, rounded once half to even, or None.

    Examples
    --------
    >>> jar_volume_ul("quart jar")
    946353
    """
    jar = canonical_jar(name)
    if jar is None:
        return None
    size = jar.removesuffix(" jar")
    if size in _SIZES:
        return round(_SIZES[size])
    number, unit = size.split(" ")
    return round(Fraction(number) * (1_000_000 if unit == "l" else 1000))


def doubt_jar(text: str, number: Fraction | None, fraction: Fraction, jar: str) -> NeedsAnswer:
    """Return the question that a fraction straight before a jar size raises.

    Parameters
    ----------
    text : str
        As typed.
    number : Fraction or None
        The whole number before the fraction, if any: 11 of ``11 1/2 pint jars``.
    fraction : Fraction
    jar : str
        Canonical name of the jar that the words after the fraction name.
    """
    size = jar.removesuffix(" jar")
    together = measured(f"{float((number or 0) + fraction):g} {size} jars")
    if fraction == Fraction(1, 2) and size in ("pint", "gallon"):
        apart = measured(f"{number or 1} half-{size} jar" + ("s" if (number or 1) != 1 else ""))
        question = sentence("doubt-means-either", text=Typed(text), apart=apart, together=together)
        return NeedsAnswer("jar-fraction", "amount", question, apart)
    return NeedsAnswer(
        "jar-fraction",
        "amount",
        sentence("doubt-means-one", text=Typed(text), jars=together),
        together,
    )
