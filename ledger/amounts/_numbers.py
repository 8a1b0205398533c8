"""Numbers as people write them: ``12``, ``12.5``, ``12,5``, ``1/2``, ``1 1/2``, ``1-1/2``, ``½``, ``1½``.

A text is never rewritten before it is read, so that what follows a number is handed on as typed.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from ledger.errors import InputError
from ledger.messages import Code, Message, Typed

__all__ = [
    "NUMBER",
    "SIGNS",
    "begins_again",
    "has_decimal_comma",
    "is_fraction",
    "number",
    "parts_thousands",
    "refuse_sign",
]

SIGNS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
NUMBER = re.compile(
    rf"(?P<whole>\d+)(?:(?:\s+|\s*-\s*)(?P<mixed>\d+\s?[/⁄]\s?\d+)|\s*(?P<mixed_sign>[{SIGNS}]))"
    rf"|(?P<fraction>\d+\s?[/⁄]\s?\d+)|(?P<sign>[{SIGNS}])|(?P<decimal>\d*[.,]?\d+)"
)
"""A number, and which way it is written."""

_AGAIN = re.compile(rf"(?:[x×*]\s*)?[-−–.,]?(?:\d+(?:[.,/⁄]\d+)*|[{SIGNS}])(?:\s|$)", re.IGNORECASE)
_EXPONENT = re.compile(r"[eE][+-]?\d")
_LONGEST = 40
_THOUSANDS = re.compile(r"[1-9]\d{0,2}(?:\.\d{3})+(?![\d.,])")


_WITH_COMMA = frozenset(
    "bg cs da de el es fi fr hr hu it nb nl pl pt ro ru sk sl sv tr uk".split()  # noqa: SIM905
)
"""Languages whose countries mostly write 12,5 (Unicode CLDR, number symbols)."""


def has_decimal_comma(language: str | None) -> bool:
    """Return whether ``12,5`` is twelve and a half in a language (``de``, ``pt-BR``)."""
    return (language or "en")[:2].lower() in _WITH_COMMA


def is_fraction(match: re.Match[str]) -> bool:
    """Return whether a number is written with a fraction: ``1/2``, ``11½``."""
    return match["decimal"] is None


def begins_again(text: str) -> bool:
    """Return whether what follows an amount is one more number, and not an item's name.

    A name may begin with a number that something clings to: ``2% milk``, ``7-grain bread``.
    """
    return _AGAIN.match(text) is not None


def parts_thousands(text: str, *, comma: bool) -> str | None:
    """Return the number at the start whose points may part thousands: ``1.500`` where ``1,5`` is a fraction."""
    match = _THOUSANDS.match(text) if comma else None
    return match[0] if match else None


def refuse_sign(text: str, field: str = "amount") -> None:
    """Refuse a text that begins with a negative number, or with none that could be meant.

    Raises
    ------
    InputError
    """
    start = text.lstrip()
    if re.match(r"[-−–]\s*[\d.]", start):
        raise InputError(field, Message.of("refusal-below-zero", text=Typed(text.strip())))
    if re.match(r"[+-]?(?:nan|inf|infinity)\b", start, re.IGNORECASE):
        raise InputError(
            field,
            Message.of("refusal-not-a-number", text=Typed(text.strip())),
            Message.of("refusal-like-number"),
        )


def number(match: re.Match[str], *, comma: bool, field: str = "amount") -> Fraction:
    """Return what a match of `NUMBER` says, exactly.

    Raises
    ------
    InputError
        When it divides by zero, is written with an exponent or a comma, or is endless.
    """
    said, after = match[0], match.string[match.end() :]
    if len(said) > _LONGEST:
        raise InputError(field, Message.of("refusal-number-too-large", said=said[:12]))
    if _EXPONENT.match(after) and match["decimal"]:
        whole = said + after.split()[0]
        raise InputError(field, Message.of("refusal-number-not-plain", text=Typed(whole)))
    try:
        return _exact(match, comma, field)
    except ZeroDivisionError:
        raise InputError(field, Message.of("refusal-divides-by-zero", text=Typed(said))) from None


def _exact(match: re.Match[str], comma: bool, field: str) -> Fraction:
    if not match["decimal"]:
        part = match["mixed"] or match["mixed_sign"] or match["fraction"] or match["sign"]
        plain = unicodedata.normalize("NFKC", part).replace("⁄", "/")
        return Fraction(match["whole"] or 0) + Fraction(re.sub(r"\s", "", plain))
    text = match["decimal"]
    if "," in text and not comma:
        point, none = text.replace(",", "."), text.replace(",", "")
        raise InputError(
            field,
            Message.of(
                "refusal-number-comma", text=Typed(text), point=Code(point), plain=Code(none)
            ),
        )
    return Fraction(text.replace(",", "."))
