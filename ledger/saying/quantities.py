"""Amounts as they are said: a number and its unit, ranges, halves, and what is no amount yet."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from ledger.amounts import unit_factor
from ledger.saying.containers import clings, packed, size_behind, two_ways, with_holder
from ledger.saying.language import Language
from ledger.saying.numbers import Number, figure, number_at
from ledger.saying.tokens import Token
from ledger.saying.units import Quantity, base_unit, unit_at

__all__ = ["Quantity", "quantity_at", "unit_at"]

_GO_TOGETHER = {
    ("lb", "oz"), ("stone", "lb"), ("cwt", "lb"), ("ton", "lb"), ("t", "kg"), ("kg", "g"), ("l", "ml"),
    ("l", "cl"),
}  # fmt: skip
"""A larger and a smaller unit that are said as one amount: ``12 lb 6 oz``."""


def quantity_at(words: Language, tokens: Sequence[Token], i: int) -> Quantity | None:
    """Return the amount that begins at a token, or None."""
    vague = words.find("small.vague", tokens, i)
    about = words.find("small.about", tokens, i)
    number = number_at(words, tokens, i)
    if vague is not None and (number is None or vague[1] >= number.length):
        unit = unit_at(words, tokens, i + vague[1])
        more = unit[2] if unit else 0
        return Quantity(Fraction(1), None, "count", vague[1] + more, doubt="vague")
    if about is not None and number is None:
        said = quantity_at(words, tokens, i + about[1])
        if said is None or said.loose or said.doubt == "vague":
            return None
        return replace(said, length=said.length + about[1], is_about=True)
    last = words.find("small.last", tokens, i)
    if last is not None and number is None and unit_at(words, tokens, i + last[1]) is not None:
        unit = unit_at(words, tokens, i + last[1])
        assert unit is not None
        return _of_unit(words, tokens, i, Number(Fraction(1), last[1], is_words=True), unit)
    half = _half_size(words, tokens, i)
    if half is not None:
        return half
    if number is None:
        return None
    number = _of_halves(words, tokens, i, number)
    return _range(words, tokens, i, number) or _measured(words, tokens, i, number)


def _of_halves(words: Language, tokens: Sequence[Token], i: int, number: Number) -> Number:
    """Read ``seven half pounds``, ``7 halbe Liter``: so many of a part of the unit."""
    at = i + number.length
    if number.loose or number.value.denominator != 1 or number.value <= 1:
        return number
    if unit_at(words, tokens, at) is not None:
        return number  # half-pints have a name of their own
    part = number_at(words, tokens, at)
    if part is None or part.loose or not 0 < part.value < 1 or not part.is_words:
        return number
    if unit_at(words, tokens, at + part.length) is None:
        return number
    return replace(number, value=number.value * part.value, length=number.length + part.length)


def _half_size(words: Language, tokens: Sequence[Token], i: int) -> Quantity | None:
    """Read ``a half-pint``: one of a size, not half of one."""
    article = words.find("small.article", tokens, i)
    at = i + (article[1] if article else 0)
    found = words.find("units", tokens, at)
    if found is None or found[1] < 2 or not found[0].startswith("half-"):
        return None
    if not tokens[at + 1].tight:
        return None
    return _of_unit(words, tokens, i, Number(Fraction(1), at - i), (found[0], "measure", found[1]))


def _range(words: Language, tokens: Sequence[Token], i: int, first: Number) -> Quantity | None:
    """Read ``8-9 lb``, ``8 to 9 lb``, ``3 oder 4 kg``: two numbers, and no one knows which."""
    at = i + first.length
    if at + 1 >= len(tokens) or tokens[at].low not in ("-", "–", "—", "to", "or", "bis", "oder"):
        return None
    if tokens[at].low in ("to", "or", "oder") and first.loose:
        return None
    second = number_at(words, tokens, at + 1)
    if second is None or second.loose or second.value <= first.value:
        return None
    unit = unit_at(words, tokens, at + 1 + second.length)
    if tokens[at].low == "to" and unit is None:
        return None
    name = f" {unit[0]}" if unit else ""
    options = tuple(f"{figure(one)}{name}" for one in (first.value, second.value))
    length = first.length + 1 + second.length + (unit[2] if unit else 0)
    kind, sort = (unit[0], unit[1]) if unit else (None, "count")
    return Quantity(first.value, kind, sort, length, doubt="range", options=options)


def _measured(words: Language, tokens: Sequence[Token], i: int, number: Number) -> Quantity:
    at = i + number.length
    own = unit_at(words, tokens, at)
    if own is not None and own[0].startswith("half-"):
        return _of_unit(words, tokens, i, number, own)
    times = words.find("small.times", tokens, at)
    inner = number_at(words, tokens, at + (times[1] if times else 0))
    if (
        inner is not None
        and not inner.loose
        and not number.loose
        | (times is None and number.is_words and inner.is_words and not clings(tokens, at, inner))
    ):
        found = packed(
            words, tokens, i, number, (at + (times[1] if times else 0), inner, times is not None)
        )
        if found is not None:
            return found
    if inner is not None and not inner.loose and number.loose:
        found = packed(words, tokens, i, number, (at, inner, False))
        if found is not None:
            return found
    unit = unit_at(words, tokens, at)
    if unit is None:
        return Quantity(number.value, None, "count", number.length, loose=number.loose)
    return _of_unit(words, tokens, i, number, unit)


def _of_unit(
    words: Language, tokens: Sequence[Token], i: int, number: Number, unit: tuple[str, str, int]
) -> Quantity:
    name, sort, length = unit
    at = i + number.length + length
    if sort == "measure":
        held = with_holder(words, tokens, (i, at), number, name)
        if held is not None:
            return held
        base, many = base_unit(name, number.value)
        said = Quantity(
            many,
            None if base == "piece" else base,
            "count" if base == "piece" else "measure",
            at - i,
        )
        if number.is_fraction and number.value > 1 and name in ("pt", "gal"):
            said = replace(said, options=two_ways(number.value, name))
        return _more_of_it(words, tokens, i, said)
    said = Quantity(number.value, name, sort, at - i, packs=number.value)
    sized = size_behind(words, tokens, at, said)
    return sized or _more_of_it(words, tokens, i, said)


def _more_of_it(words: Language, tokens: Sequence[Token], i: int, said: Quantity) -> Quantity:
    """Read on: ``12 lb 6 oz``, ``a pound and a half``; one dimension only."""
    at = i + said.length
    joined = words.find("small.and", tokens, at)
    if joined is not None:
        article = words.find("small.article", tokens, at + joined[1])
        k = at + joined[1] + (article[1] if article else 0)
        part = words.find("part", tokens, k)
        if article is not None and part is not None and not _is_new(words, tokens, k + part[1]):
            return replace(said, many=said.many + Fraction(part[0]), length=k + part[1] - i)
        return said
    more = number_at(words, tokens, at)
    if more is None or more.loose or said.sort != "measure" or said.unit is None:
        return said
    unit = unit_at(words, tokens, at + more.length)
    if unit is None or unit[1] != "measure":
        return said
    base, many = base_unit(unit[0], more.value)
    one, other = unit_factor(said.unit), unit_factor(base)
    if one is None or other is None or (said.unit, base) not in _GO_TOGETHER:
        return said  # sizes of jars are one each, until the verb says otherwise
    total = said.many + many * other[1] / one[1]
    return replace(said, many=total, length=at + more.length + unit[2] - i)


def _is_new(words: Language, tokens: Sequence[Token], i: int) -> bool:
    """Return whether ``a half`` behind `and` begins another amount: ``and a half bushel of``."""
    if words.find("small.article", tokens, i) or words.find("small.of", tokens, i):
        return words.find("small.article", tokens, i) is not None
    return unit_at(words, tokens, i) is not None
