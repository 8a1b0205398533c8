"""Containers and jars with a size: ``2 5-lb bags``, ``7 quart jars``, ``6 Gläser à 500 ml``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ledger.saying.language import Language
from ledger.saying.numbers import Number, figure, number_at
from ledger.saying.tokens import Token
from ledger.saying.units import JAR_OF, Quantity, base_unit, unit_at

__all__ = ["clings", "of_size", "packed", "size_behind", "sized_jar", "two_ways", "with_holder"]

_JAR_OF_OUNCES = {
    8: "half-pint jar",
    16: "pint jar",
    24: "1.5-pint jar",
    32: "quart jar",
    64: "half-gallon jar",
}
"""Jars that are called by their fluid ounces (the pint is 16 of them: NIST Handbook 44, appendix C)."""


def packed(
    words: Language,
    tokens: Sequence[Token],
    i: int,
    number: Number,
    second: tuple[int, Number, bool],
) -> Quantity | None:
    """Read so many containers of a size: ``2 5-lb bags``, ``3 x 500 g``, ``a 500 ml jar``."""
    at, inner, is_times = second
    unit = unit_at(words, tokens, at + inner.length)
    if unit is None or unit[1] not in ("measure",):
        return None
    after = at + inner.length + unit[2]
    holder = unit_at(words, tokens, after)
    is_holder = holder is not None and holder[1] in ("unknown", "jar", "counted")
    if not is_times and not is_holder and not clings(tokens, at, inner):
        return None
    end = after + (holder[2] if holder and is_holder else 0)
    if holder is not None and holder[1] == "jar":
        jar = sized_jar(inner.value, unit[0])
        if jar is not None:
            return Quantity(number.value, jar, "jar", end - i, packs=number.value)
    base, many = base_unit(unit[0], inner.value)
    said = Quantity(number.value * many, base, "measure", end - i, packs=number.value)
    if is_times or is_holder or number.loose or number.value == 1:
        return said
    options = (said.text(), f"{figure(inner.value)} {unit[0]}")
    return replace(said, doubt="cuts", options=options)


def clings(tokens: Sequence[Token], at: int, inner: Number) -> bool:
    """Return whether a number clings to its unit: ``five-pound``."""
    after = at + inner.length
    return after < len(tokens) and tokens[after].tight


def sized_jar(value: Fraction, unit: str) -> str | None:
    """Return the jar of a size: ``500 ml jar``, ``half-pint jar`` for 8 oz."""
    if unit in ("oz", "fl oz"):
        return _JAR_OF_OUNCES.get(int(value)) if value.denominator == 1 else None
    if unit in JAR_OF and value == 1:
        return JAR_OF[unit]
    if unit in ("pt", "gal") and value == Fraction(1, 2):
        return JAR_OF["half-pint" if unit == "pt" else "half-gallon"]
    if unit not in ("ml", "l", "cl"):
        return None
    ml = value * {"ml": 1, "cl": 10, "l": 1000}[unit]
    return f"{figure(ml / 1000)} l jar" if ml >= 1000 else f"{figure(ml)} ml jar"


def two_ways(value: Fraction, unit: str) -> tuple[str, ...]:
    """Return what ``11 1/2 pint jars`` may be, where the fraction is a half."""
    size = {"pt": "pint", "gal": "gallon"}[unit]
    whole, part = divmod(value, 1)
    if part != Fraction(1, 2):
        return ()
    return (f"{int(whole)} half-{size} jars", f"{figure(value)} {size} jars")


def with_holder(
    words: Language, tokens: Sequence[Token], place: tuple[int, int], number: Number, unit: str
) -> Quantity | None:
    """Read ``6 quart bags``, ``7 quart jars``, ``25 lb bag``, ``forty two ounce packets``."""
    i, at = place
    holder = unit_at(words, tokens, at)
    if holder is None or holder[1] not in ("unknown", "jar", "counted") or holder[0] == "cake":
        return None
    if holder[1] == "counted" and holder[0] in ("head", "leaf", "ear", "clove", "bulb", "slice"):
        return None
    end = at + holder[2]
    is_many = tokens[at + holder[2] - 1].low != _singular(words, holder, tokens, at)
    if number.cuts:
        tens = number.value - number.value % 10
        options = (
            f"{figure(number.value)} {unit}",
            f"{figure(tens)} x {figure(number.value % 10)} {unit}",
        )
        return Quantity(number.value, unit, "measure", end - i, doubt="cuts", options=options)
    if holder[1] == "jar" and unit in JAR_OF:
        ways = two_ways(number.value, unit) if number.is_fraction and unit in ("pt", "gal") else ()
        said = Quantity(number.value, JAR_OF[unit], "jar", end - i, packs=number.value)
        return replace(said, doubt="jar-fraction", options=ways) if ways else said
    if holder[1] == "jar":
        is_one = not is_many or number.value.denominator > 1 or clings(tokens, i, number)
        if unit == "l" and number.value > 1 and not is_one:  # nobody has a jar of twelve litres
            return Quantity(number.value, "1 l jar", "jar", end - i, packs=number.value)
        jar = sized_jar(number.value, unit)
        return (
            None if jar is None else Quantity(Fraction(1), jar, "jar", end - i, packs=Fraction(1))
        )
    base, many = base_unit(unit, number.value)
    packs = number.value if is_many else Fraction(1)
    return Quantity(many, base, "measure", end - i, packs=packs)


def _singular(
    words: Language, holder: tuple[str, str, int], tokens: Sequence[Token], at: int
) -> str:
    """Return the last word of a container's singular, as the language's file gives it first."""
    section = {"unknown": "unknown", "jar": "jars", "counted": "counted"}[holder[1]]
    said = tokens[at + holder[2] - 1].low
    several: list[str] = [one.split()[-1] for one in words.data[section][holder[0]].split("|")]
    place = several.index(said) if said in several else 0
    return several[place - place % 2]


_SEALED = frozenset({"can", "tin", "bottle", "packet", "pack", "package", "carton", "jug", "jar"})
"""Containers that are sold in one size: what stands behind them is what each holds."""


def of_size(was: Quantity, size: Quantity) -> Quantity | None:
    """Return so many containers of a size that is said behind what they hold: ``2 bottles juice 32 oz``.

    Of what is sold in any size (``2 bags apples 6 lb``) it is asked whether that is one or all of it.
    """
    if was.doubt or size.doubt or size.sort != "measure" or size.packs is not None:
        return None
    if was.unit in _SEALED or (was.many == 1 and was.sort == "unknown"):
        return replace(size, many=size.many * was.many, packs=was.many, length=was.length)
    if was.sort not in ("unknown", "counted", "count"):
        return None
    every = replace(size, many=size.many * was.many)
    return replace(size, doubt="cuts", options=(every.text(), size.text()), packs=was.many)


def size_behind(
    words: Language, tokens: Sequence[Token], at: int, said: Quantity
) -> Quantity | None:
    """Read the size of a container behind it: ``6 Gläser à 500 ml``, ``2 bags of 5 lb``."""
    joins = ("à", "a", "zu", "je", "of", "at", "mit", "@", "x", "(")
    if at >= len(tokens) or tokens[at].low not in joins:
        return None
    k = at + 1
    if k < len(tokens) and tokens[k].low == "je":
        k += 1
    size = number_at(words, tokens, k)
    if size is None or size.loose:
        return None
    unit = unit_at(words, tokens, k + size.length)
    if unit is None or unit[1] != "measure":
        return None
    end = k + size.length + unit[2]
    each = words.find("small.each", tokens, end)
    end += each[1] if each else 0
    if tokens[at].low == "(":
        if end >= len(tokens) or tokens[end].low != ")" or not each:
            return None
        end += 1
    length = end - (at - said.length)
    if said.sort == "jar":
        jar = sized_jar(size.value, unit[0])
        return None if jar is None else replace(said, unit=jar, length=length)
    base, many = base_unit(unit[0], size.value)
    return Quantity(said.many * many, base, "measure", length, packs=said.many)
