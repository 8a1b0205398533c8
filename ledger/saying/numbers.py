"""Numbers as they are said: figures, fractions and number words, exactly.

``31``, ``2.5``, ``2 1/2``, ``½``, ``two and a half``, ``a dozen and a half``, ``zweieinhalb``.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ledger.saying.language import Language
from ledger.saying.tokens import Token, fraction_of

__all__ = ["Number", "figure", "figures", "number_at"]

_HALF = Fraction(1, 2)
_MOST_FIGURES = 15


@dataclass(frozen=True, slots=True)
class Number:
    """A number that was read.

    Attributes
    ----------
    value : Fraction
    length : int
        How many tokens it takes.
    loose : bool
        A bare article: ``a`` is one only where something to count follows.
    cuts : bool
        Two number words that may also be two numbers (``forty two``).
    is_fraction : bool
        Written with a fraction in figures: ``11 1/2``.
    is_words : bool
    """

    value: Fraction
    length: int
    loose: bool = False
    cuts: bool = False
    is_fraction: bool = False
    is_words: bool = False


def figures(text: str, *, comma: bool) -> Fraction | None:
    """Return what figures say: a comma (English) or point (German) before three parts thousands.

    Examples
    --------
    >>> figures("2,500", comma=False), figures("2,5", comma=False), figures("2.500", comma=True)
    (Fraction(2500, 1), Fraction(5, 2), Fraction(2500, 1))
    """
    if len(text) > _MOST_FIGURES:
        return None
    if text.startswith("-"):  # the door refuses it, in the field that it was said of
        above = figures(text[1:], comma=comma)
        return None if above is None else -above
    parts = fraction_of(text)
    if parts is not None:
        return parts
    mark = r"\." if comma else ","
    plain = text
    if re.fullmatch(rf"[1-9]\d{{0,2}}(?:{mark}\d{{3}})+(?:[.,]\d+)?", text):
        whole = re.match(rf"\d+(?:{mark}\d{{3}})+", text)
        assert whole is not None
        plain = re.sub(mark, "", whole[0]) + text[whole.end() :]
    if not re.fullmatch(r"\d*[.,]?\d+", plain):
        return None
    return Fraction(plain.replace(",", "."))


def number_at(words: Language, tokens: Sequence[Token], i: int) -> Number | None:
    """Return the number that begins at a token, or None."""
    if i >= len(tokens):
        return None
    if tokens[i].sort == "num":
        return _in_figures(words, tokens, i)
    couple = words.find("small.couple", tokens, i)
    if couple is not None:
        return _with_sums(words, tokens, i, Number(Fraction(2), couple[1], is_words=True))
    part = _part(words, tokens, i)
    if part is not None:
        return part
    article = words.find("small.article", tokens, i)
    said = _in_words(words, tokens, i)
    if said is None and article is not None:
        return _after_article(words, tokens, i, article[1])
    if said is None:
        total = words.find("sum", tokens, i)
        if total is None:
            return None
        said = Number(total[0], total[1], is_words=True)
        return _and_part(words, tokens, i, said, of=total[0] if total[0] in (12, 144) else None)
    return _with_sums(words, tokens, i, said)


def _in_figures(words: Language, tokens: Sequence[Token], i: int) -> Number | None:
    value = figures(tokens[i].text, comma=words.comma)
    if value is None:
        return None
    is_fraction = fraction_of(tokens[i].text) is not None
    number = Number(value, 1, is_fraction=is_fraction)
    return _with_sums(words, tokens, i, number)


def _part(words: Language, tokens: Sequence[Token], i: int) -> Number | None:
    """Read ``half a``, ``half``, ``three quarters of a``, ``ein halbes``, ``anderthalb``."""
    start, many = i, Fraction(1)
    article = words.find("small.article", tokens, i)
    if article is not None:
        i += article[1]
    else:
        said = words.numbers.get(tokens[i].low)
        if said is not None and words.find("part", tokens, i + 1) and said < 10:
            many, i = said, i + 1
    part = words.find("part", tokens, i)
    if part is None or (part[0] == _HALF and many != 1):
        return None
    i += part[1]
    of = words.find("small.of", tokens, i)
    after = i + of[1] if of else i
    more = words.find("small.article", tokens, after)
    if more is not None:
        i = after + more[1]
    value = many * Fraction(part[0])
    total = words.find("sum", tokens, i)
    if total is not None:
        value, i = value * total[0], i + total[1]
    return Number(value, i - start, is_words=True)


def _in_words(words: Language, tokens: Sequence[Token], i: int) -> Number | None:
    token = tokens[i] if i < len(tokens) else None
    value = words.numbers.get(token.low) if token and token.sort == "word" else None
    if token is None or value is None or (words.code == "de" and token.low == "ein"):
        return None
    length, cuts = 1, False
    if value >= 20 and value % 10 == 0 and value < 100 and i + 1 < len(tokens):
        one = words.numbers.get(tokens[i + 1].low)
        if one is not None and one < 10:
            value, length, cuts = value + one, 2, not tokens[i + 1].tight
    return Number(value, length, cuts=cuts, is_words=True)


def _after_article(words: Language, tokens: Sequence[Token], i: int, length: int) -> Number:
    total = words.find("sum", tokens, i + length)
    if total is not None:
        said = Number(total[0], length + total[1], is_words=True)
        return _and_part(words, tokens, i, said, of=total[0] if total[0] in (12, 144) else None)
    return Number(Fraction(1), length, loose=True, is_words=True)


def _with_sums(words: Language, tokens: Sequence[Token], i: int, said: Number) -> Number:
    """Read on: ``two hundred``, ``three dozen and a half``, ``three point five``."""
    value, at, of = said.value, i + said.length, None
    while (total := words.find("sum", tokens, at)) is not None:
        value, at = value * total[0], at + total[1]
        of = total[0] if total[0] in (12, 144) else None
        joined = words.find("small.and", tokens, at)
        more = _in_words(words, tokens, at + (joined[1] if joined else 0))
        if of is None and more is not None and more.value < 100:
            value += more.value
            at += more.length + (joined[1] if joined else 0)
    point = words.find("small.point", tokens, at)
    if point is not None and said.is_words:
        digits, k = "", at + point[1]
        while k < len(tokens) and words.numbers.get(tokens[k].low, Fraction(10)) < 10:
            digits += str(words.numbers[tokens[k].low])
            k += 1
        if digits:
            value, at = value + Fraction(int(digits), 10 ** len(digits)), k
    number = Number(
        value, at - i, cuts=said.cuts, is_fraction=said.is_fraction, is_words=said.is_words
    )
    return _and_part(words, tokens, i, number, of=of)


def _and_part(
    words: Language, tokens: Sequence[Token], i: int, said: Number, of: Fraction | None
) -> Number:
    """Read ``and a half`` behind a number; behind ``a dozen`` it is half of a dozen."""
    at = i + said.length
    joined = words.find("small.and", tokens, at)
    if joined is None:
        return said
    at += joined[1]
    many = Fraction(1)
    article = words.find("small.article", tokens, at)
    if article is not None:
        at += article[1]
    elif tokens[at : at + 1] and tokens[at].low in words.numbers:
        many, at = words.numbers[tokens[at].low], at + 1
    part = words.find("part", tokens, at)
    if part is None:
        return said
    at += part[1]
    after = words.find("small.article", tokens, at)
    if after is not None or words.find("small.of", tokens, at) is not None:
        return said  # "a pound and half a head": another amount
    value = said.value + many * Fraction(part[0]) * (of or 1)
    return Number(value, at - i, is_words=True)


def figure(value: Fraction) -> str:
    """Return a number in plain figures: ``31``, ``2.5``, ``1 1/3``.

    Examples
    --------
    >>> figure(Fraction(5, 2)), figure(Fraction(4, 3)), figure(Fraction(24))
    ('2.5', '1 1/3', '24')
    """
    if value < 0:
        return f"-{figure(-value)}"
    if value.denominator == 1:
        return str(value.numerator)
    rest = value.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest == 1 and value.denominator <= 10**6:
        text = f"{value.numerator * 10**12 // value.denominator:013d}"
        return f"{text[:-12]}.{text[-12:]}".rstrip("0")
    whole, part = divmod(value, 1)
    said = f"{part.numerator}/{part.denominator}"
    return f"{int(whole)} {said}" if whole else said
