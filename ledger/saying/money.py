"""Money as it is said: ``$7.90``, ``for 7.90``, ``at 2.50 a pound``, ``je 1,20``, ``3 for 5``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_EVEN, Decimal
from fractions import Fraction

from ledger.saying.language import Language
from ledger.saying.numbers import Number, number_at
from ledger.saying.quantities import quantity_at, unit_at
from ledger.saying.tokens import Token

__all__ = ["Money", "money_at", "money_text"]


@dataclass(frozen=True, slots=True)
class Money:
    """A sum that was said.

    Attributes
    ----------
    value : Fraction
    length : int
    led : str
        ``for``, ``at`` or "": the word before it, where there was one.
    per : str or None
        The unit that it is the price of.
    count : Fraction
        Of how many of that unit (or pieces) it is the price: 3 for ``3 for 5``; 0: of the whole.
    each : bool
        Of each piece or container.
    is_bare : bool
        No sign or word of money was said.
    """

    value: Fraction
    length: int
    led: str = ""
    per: str | None = None
    count: Fraction = Fraction(0)
    each: bool = False
    is_bare: bool = False


def money_text(value: Fraction) -> str:
    """Return a sum as text: whole, or with two decimals; with more only where it has more."""
    if value.denominator == 1:
        return str(value.numerator)
    exact = Decimal(value.numerator) / Decimal(value.denominator)
    return str(exact.quantize(Decimal("0.01"), ROUND_HALF_EVEN))


def money_at(words: Language, tokens: Sequence[Token], i: int) -> Money | None:
    """Return the sum that begins at a token, with the word that leads it, or None."""
    at = words.find("money.at", tokens, i)
    lead = words.find("money.for", tokens, i)
    if at is not None:
        made = words.all_of("prep", tokens, i)
        jars = quantity_at(words, tokens, i + at[1]) if made and "made" in made[0] else None
        if jars is not None and jars.sort == "jar":
            return None  # "zu 7 500-ml-Gläsern" is what was made, and no price
        several = _several_for(words, tokens, i, at[1])
        if several is not None:
            return several
    for led, found in (("at", at), ("for", lead)):
        if found is None:
            continue
        said = _sum(words, tokens, i + found[1])
        is_price = said is not None and (
            not said.is_bare or _is_free(words, tokens, i + found[1] + said.length)
        )
        if said is None or not is_price:
            continue
        if led == "at" and lead is not None and not (said.per or said.each):
            continue  # "for" is both: alone it leads the whole price
        return Money(
            said.value, said.length + found[1], led, said.per, said.count, said.each, said.is_bare
        )
    each = words.find("small.each", tokens, i)
    if each is not None:
        said = _sum(words, tokens, i + each[1])
        if said is not None and (
            not said.is_bare or _is_free(words, tokens, i + each[1] + said.length)
        ):
            return Money(said.value, said.length + each[1], "at", each=True)
    said = _sum(words, tokens, i)
    if said is None or (said.is_bare and not (said.per or said.each)):
        return None
    return said


def _several_for(words: Language, tokens: Sequence[Token], i: int, length: int) -> Money | None:
    """Read ``at 3 for 5``."""
    many = number_at(words, tokens, i + length)
    if many is None or many.loose:
        return None
    k = i + length + many.length
    lead = words.find("money.for", tokens, k)
    said = _sum(words, tokens, k + lead[1]) if lead else None
    if lead is None or said is None:
        return None
    return Money(said.value, k + lead[1] + said.length - i, "at", count=many.value)


def _sum(words: Language, tokens: Sequence[Token], i: int) -> Money | None:
    """Read a sum and what it is the price of; bare figures are one, too, until a unit follows."""
    sign = words.find("currency", tokens, i)
    number: Number | None = number_at(words, tokens, i + (sign[1] if sign else 0))
    if number is None or number.loose:
        return None
    at = i + (sign[1] if sign else 0) + number.length
    value, is_bare = number.value, sign is None
    if sign is None:
        cents = words.find("money.cents", tokens, at)
        behind = words.find("currency", tokens, at)
        if cents is not None:
            value, at, is_bare = value / 100, at + cents[1], False
        elif behind is not None:
            at, is_bare = at + behind[1], False
    if is_bare and number.is_words and number.length > 2:
        is_bare = True
    per, length, each = _price_of(words, tokens, at)
    if is_bare and unit_at(words, tokens, at) is not None and not length:
        return None
    return Money(value, at + length - i, "", per, Fraction(1 if per else 0), each, is_bare)


def _price_of(words: Language, tokens: Sequence[Token], at: int) -> tuple[str | None, int, bool]:
    """Return the unit that a price is of, how many tokens that takes, and whether it is of each."""
    each = words.find("small.each", tokens, at)
    if each is not None:
        return None, each[1], True
    per = words.find("small.per", tokens, at)
    slash = at < len(tokens) and tokens[at].low == "/"
    if per is None and not slash:
        return None, 0, False
    k = at + (1 if slash or per is None else per[1])
    total = words.find("sum", tokens, k)
    if total is not None and total[0] == 12:
        return "dozen", k + total[1] - at, False
    unit = unit_at(words, tokens, k)
    if unit is None or unit[0] == "piece":
        return (None, k + unit[2] - at, True) if unit else (None, 0, False)
    return unit[0], k + unit[2] - at, False


def _is_free(words: Language, tokens: Sequence[Token], i: int) -> bool:
    """Return whether bare figures are a price: nothing to count or to measure follows them."""
    if i >= len(tokens) or tokens[i].sort in ("nl", "sym", "num", "date"):
        return not (i < len(tokens) and tokens[i].low in ("x", "×", "*", "%", "-", "/", "#"))
    if any(
        words.find(tag, tokens, i)
        for tag in (
            "small.then",
            "small.and",
            "prep",
            "verb",
            "weekday",
            "small.article",
            "small.filler",
        )
    ):
        return words.find("small.each_of", tokens, i) is None
    days = ("days.0", "days.-1", "days.-2", "days.vague", "month", "weekdays.last", "small.each")
    return any(words.find(tag, tokens, i) for tag in days) and quantity_at(words, tokens, i) is None
