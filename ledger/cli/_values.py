"""Numbers, days, amounts and fixed words, as the language that is spoken writes them.

In English they are what they are in ``--json``: ``2026-09-02``, ``1,234.5``.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from ledger.cli._speech import language, say, told
from ledger.kinds.telling import jar_said
from ledger.messages import LANGUAGES, priced

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = ["amount", "day", "entry", "fixed", "heading", "jars", "number", "unit", "word"]


def amount(text: str) -> str:
    """Return an amount as the household's measures write it: its numbers and units in the language."""
    if _is_english():
        return text
    from ledger.messages.units import amount as said

    return told(said(text))


def unit(code: str) -> str:
    """Return a unit of a column or figure."""
    if _is_english():
        return code
    from ledger.messages.units import unit as said

    return told(said(code))


def number(text: str) -> str:
    """Return a number that is written in the English way."""
    return text if _is_english() else text.translate(_signs(language()))


def day(iso: str) -> str:
    """Return a day, in digits."""
    if _is_english():
        return iso
    from ledger.messages.language import language as spoken

    return spoken(language()).day_in_digits(iso)


def word(value: str, of: str = "") -> str:
    """Return a fixed word of the ledger; anything else as it is."""
    if _is_english():
        return value
    from ledger.messages.words import word as fixed

    return fixed(language(), value, of)


def entry(line: str, book: Book) -> str:
    """Return an entry told in a line, its prices with the book's currency."""
    currency = book.setting("currency") or "USD"
    return told(priced(line, lambda text: text if text == "?" else f"{number(text)} {currency}"))


def fixed(value: str, of: str = "") -> str:
    """Return a fixed word, or else a sentence of the ledger."""
    said = unit(value) if of == "unit" else word(value, of)
    return said if said != value else told(value)


def heading(question: str, column: str, label: str) -> str:
    """Return a column's heading; `label` is the English one."""
    if _is_english():
        return label
    from ledger.messages.words import column as said

    return said(language(), question, column) or told(label)


def jars(n: int, jar: str, *, several: bool = False) -> str:
    """Return so many jars of a sort: ``11 half-pint jars``.

    Parameters
    ----------
    several : bool
        Say them in the plural, even one.
    """
    plural = n != 1 or several
    if _is_english():
        return f"{n} {jar}{'s' if plural else ''}"
    if jar[:1].isdigit() or word(jar) == jar:  # 500 ml jar: a size, and no word
        return say(jar_said(jar, n))
    name = word(f"{jar}s") if plural else word(jar)
    return f"{n} {word(jar) if name == f'{jar}s' else name}"


def _is_english() -> bool:
    return language() == LANGUAGES[0]


@cache
def _signs(code: str) -> dict[int, str]:
    from babel.numbers import get_decimal_symbol, get_group_symbol

    from ledger.messages.language import language as spoken

    locale = spoken(code).locale
    return str.maketrans({",": get_group_symbol(locale), ".": get_decimal_symbol(locale)})
