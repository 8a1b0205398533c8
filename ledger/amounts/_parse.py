"""Amounts as people write them, to whole units; every text is read once and remembered."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from ledger.amounts._jars import JAR, MAYBE_JAR, canonical_jar
from ledger.amounts._units import NAMED_PIECES, canonical, factor, known_units
from ledger.errors import InputError, NeedsAnswer, UnknownUnit

__all__ = ["Amount", "parse_amount", "parse_measure", "split_line"]

_VULGAR = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_NUMBER = re.compile(
    r"(?P<whole>\d+)\s+(?P<mixed>\d+/\d+)|(?P<fraction>\d+/\d+)|(?P<decimal>\d*[.,]?\d+)"
)
_MOST = 1 << 60
_LONGEST = 3


@dataclass(frozen=True)
class Amount:
    """An amount as understood.

    Attributes
    ----------
    measure : str
        ``mass``, ``volume``, ``count`` or ``energy``.
    whole : int
        In mg, ul, thousandths of a piece or J, rounded half to even once.
    unit : str
        Canonical unit of the first pair.
    times : int
        The whole amount in thousandths of that unit.
    exact : Fraction
        In whole units, before rounding.
    jars : Fraction or None
        How many jars, when it is an amount of jars; `jar` says which.
    maybe_jar : str or None
        The jar that was meant if the word was left out (``1 half-pint plum butter``).
    text : str
        As typed.
    """

    measure: str
    whole: int
    unit: str
    times: int
    exact: Fraction
    text: str
    jars: Fraction | None = None
    jar: str | None = None
    maybe_jar: str | None = None


@lru_cache(maxsize=65536)
def parse_amount(
    text: str, *, measures: str = "us", comma: bool = False, zero: bool = False
) -> Amount:
    """Return a pure amount: ``12 lb 6 oz``, ``1 1/2 cups``, ``11 half-pint jars``, ``6``.

    Parameters
    ----------
    text : str
    measures : {'us', 'uk', 'metric'}
        What the bare words cup, pint, quart and the like mean.
    comma : bool
        Whether ``12,5`` is twelve and a half.
    zero : bool
        Whether nothing at all is an amount (it is for a count of the shelf).

    Raises
    ------
    InputError, UnknownUnit
        Naming what was wrong and what would be right.
    NeedsAnswer
        For a fraction straight before a jar size: ``11 1/2 pint jars``.
    """
    amount, rest = _read(text, measures, comma, None, zero)
    if rest:
        raise UnknownUnit("amount", f"{rest!r} is not a unit that is known", _near(rest))
    return amount


def split_line(
    text: str,
    *,
    measures: str = "us",
    comma: bool = False,
    is_item: Callable[[str], bool] | None = None,
) -> tuple[Amount, str]:
    """Return the amount and the item's words of a line: ``31 lb 8 oz plum``.

    A unit word counts as one when something follows it, or when it weighs or measures by itself;
    ``2 cans`` alone is two of the item "cans". `is_item` says whether words are a known item,
    which settles ``1 can opener``.
    """
    return _read(text, measures, comma, is_item or (lambda _words: False), zero=False)


def _read(
    text: str, measures: str, comma: bool, is_item: Callable[[str], bool] | None, zero: bool
) -> tuple[Amount, str]:
    rest = _plain(text)
    exact, first, jars, jar, maybe = Fraction(0), None, None, None, None
    measure = ""
    while first is None or is_item is None or not is_item(rest):
        found = _pair(rest, measures, comma, is_item, start=first is None)
        if found is None:
            break
        number, unit, after, this_jar, this_maybe = found
        known = factor(unit)
        this_measure = known[0] if known else "count"
        if first is None:
            first, measure, jar, maybe = unit, this_measure, this_jar, this_maybe
            jars = number if this_jar else None
        elif this_measure != measure or (known is None) != (factor(first) is None):
            break
        else:
            jars = maybe = None
        exact += number * (known[1] if known else 1000)
        rest = after
    if first is None:
        raise InputError(
            "amount", f"{text!r} does not begin with a number", "Write it like 12 lb 6 oz"
        )
    if exact == 0 and not zero:
        raise InputError("amount", f"{text!r} is nothing", "Write an amount above zero")
    if exact > _MOST:
        raise InputError(
            "amount", f"{text!r} is more than a book can hold", "Check the number and the unit"
        )
    per_unit = factor(first)
    times = round(exact / (per_unit[1] if per_unit else 1000) * 1000)
    whole = round(exact)
    words = re.sub(r"^of\s+", "", rest.strip(), flags=re.IGNORECASE)
    return Amount(
        measure, whole, first, times, exact, text, jars, jar if jars is not None else None, maybe
    ), words


def _plain(text: str) -> str:
    if not isinstance(text, str) or not text.strip():
        raise InputError("amount", "is empty", "Write it like 12 lb 6 oz")
    if re.match(r"\s*[-−–]\s*[\d.]", text):
        raise InputError("amount", f"{text.strip()!r} is below zero", "Write an amount above zero")
    for sign, digits in _VULGAR.items():
        text = re.sub(rf"(?<=\d)\s*{sign}", f" {digits}", text).replace(sign, digits)
    return text.strip()


def _pair(
    text: str, measures: str, comma: bool, is_item: Callable[[str], bool] | None, *, start: bool
) -> tuple[Fraction, str, str, str | None, str | None] | None:
    """Read one number with its unit; None where `text` does not begin with one."""
    bare = JAR.match(text)
    if bare and start:  # "500 ml jar" or "1/2 pint jar": the number belongs to the jar
        _doubt_fraction(text, bare)
        jar = canonical_jar(bare[0])
        assert jar is not None
        return Fraction(1), jar, text[bare.end() :].strip(), jar, None
    match = _NUMBER.match(text)
    if not match:
        return None
    number = _number(match, comma)
    rest = text[match.end() :].lstrip(" -" if JAR.match(text[match.end() :].lstrip(" -")) else " ")
    named = JAR.match(rest)
    if named:
        if match["mixed"] or match["fraction"]:
            raise _fraction_doubt(text, match, named[0])
        jar = canonical_jar(named[0])
        assert jar is not None
        return number, jar, rest[named.end() :].strip(), jar, None
    half = MAYBE_JAR.match(rest)
    if half:
        is_pint = half["what"].lower().startswith("p")
        unit = canonical("pt" if is_pint else "gal", measures) or "pt"
        jar = "half-pint jar" if is_pint else "half-gallon jar"
        return number / 2, unit, rest[half.end() :].strip(), None, jar
    return _with_unit(number, rest, measures, is_item, start=start)


def _with_unit(
    number: Fraction,
    rest: str,
    measures: str,
    is_item: Callable[[str], bool] | None,
    *,
    start: bool,
) -> tuple[Fraction, str, str, str | None, str | None] | None:
    if is_item is not None and rest and is_item(rest):
        return (number, "piece", rest, None, None) if start else None
    words = rest.split()
    if words and words[0] in ("T", "C"):
        raise UnknownUnit(
            "amount", f"{words[0]!r} is not a unit that is known", "Write tbsp or cup"
        )
    for length in range(min(_LONGEST, len(words)), 0, -1):
        spelled = " ".join(words[:length]).rstrip(",")
        unit = canonical(spelled, measures)
        if unit is None:
            continue
        after = " ".join(words[length:])
        if unit in NAMED_PIECES and is_item is not None and not after:
            break
        maybe = f"{ {'pt': 'pint', 'qt': 'quart'}[unit] } jar" if unit in ("pt", "qt") else None
        return number, unit, after, None, maybe
    return (number, "piece", rest, None, None) if start else None


def _number(match: re.Match[str], comma: bool) -> Fraction:
    try:
        if match["mixed"]:
            return Fraction(match["whole"]) + Fraction(match["mixed"])
        if match["fraction"]:
            return Fraction(match["fraction"])
    except ZeroDivisionError:
        raise InputError("amount", f"{match[0]!r} divides by zero", "Write it like 1 1/2") from None
    text = match["decimal"]
    if "," in text and not comma:
        raise InputError(
            "amount",
            f"{text!r} has a comma",
            f"Write {text.replace(',', '.')} or {text.replace(',', '')}",
        )
    return Fraction(text.replace(",", "."))


def _doubt_fraction(text: str, jar: re.Match[str]) -> None:
    if jar["size"].startswith("1/2"):
        raise NeedsAnswer(
            "jar-fraction",
            "amount",
            f"does {text!r} mean one half-pint jar, or half of a pint jar?",
            text.replace("1/2 ", "1 half-").replace("1/2-", "1 half-"),
        )


def _fraction_doubt(text: str, number: re.Match[str], jar: str) -> NeedsAnswer:
    size = jar.split(maxsplit=1)[0].rsplit("-", maxsplit=1)[-1]
    count = number["whole"] or "1"
    fraction = number["mixed"] or number["fraction"]
    decimal = float(Fraction(fraction)) + (int(count) if number["whole"] else 0)
    if fraction == "1/2" and size in ("pint", "pt", "gallon", "gal"):
        halves = f"{count} half-{size} jars"
        question = f"does {text!r} mean {halves}, or {decimal:g} {size} jars?"
        return NeedsAnswer("jar-fraction", "amount", question, halves)
    offered = f"{decimal:g} {jar}"
    return NeedsAnswer("jar-fraction", "amount", f"does {text!r} mean {offered}?", offered)


def _near(rest: str) -> str:
    from rapidfuzz import process

    if rest.strip() in ("T", "C"):
        return "Write tbsp or cup"
    near = process.extractOne(rest.lower(), known_units(), score_cutoff=70)
    return (
        f"Did you mean {near[0]!r}?"
        if near
        else "Write it like 12 lb 6 oz, 2 cups, 3 heads or 7 quart jars"
    )


@lru_cache(maxsize=4096)
def parse_measure(text: str, wanted: str, field: str = "amount") -> Fraction:
    """Return a length in m or an area in m2: ``25 ft``, ``40 sq ft``, ``2600 ft``, ``1/4 in``.

    Parameters
    ----------
    wanted : {'length', 'area'}

    Raises
    ------
    InputError
        Naming `field`.
    """
    example = "25 ft or 7.5 m" if wanted == "length" else "40 sq ft or 4 m2"
    match = _NUMBER.match(_plain(text))
    unit = canonical(_plain(text)[match.end() :].strip()) if match else None
    known = factor(unit) if unit else None
    if match is None or known is None or known[0] != wanted:
        raise InputError(
            field,
            f"{text!r} is not {'a length' if wanted == 'length' else 'an area'}",
            f"Write it like {example}",
        )
    return _number(match, comma=False) * known[1]
