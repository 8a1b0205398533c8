"""What a language does with numbers, plurals, days, money and lists: Babel, read when one is said."""

from __future__ import annotations

import datetime as dt
import math
import re
from functools import cache, cached_property
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from babel import Locale

__all__ = ["Language", "has_dollar", "language"]

_UNGROUPED = 1000
"""Whole numbers below this are written alike in every language that Babel writes in our digits."""
_PLACES = 3
"""Most decimal places of a number."""
_DIGITS = re.compile(r"\d[\d,]*(?:\.\d+)?|\.\d+")
_ISOLATES = "\u2068{}\u2069"
"""Keeps a name's direction its own in a language that is read from the right (Unicode, UAX 9)."""


class Language:
    """How a language writes what is not text.

    Parameters
    ----------
    code : str
        Two letters, ISO 639-1.
    """

    def __init__(self, code: str) -> None:
        self.code = code

    @cached_property
    def locale(self) -> Locale:
        """Babel's locale; English lists as in Britain, without a comma before the last."""
        from babel import Locale

        return Locale.parse("en_GB" if self.code == "en" else self.code)

    def rounded(self, value: float) -> Any:
        """Return a number as it is shown, so that its plural goes by what is read."""
        from decimal import Decimal

        if isinstance(value, int) or not math.isfinite(value):
            return value
        shown = Decimal(repr(round(value, _PLACES))).normalize()
        return int(shown) if shown == shown.to_integral_value() else shown

    def number(self, value: float) -> str:
        """Return a number: ``1,234.5`` in English."""
        if isinstance(value, int) and -_UNGROUPED < value < _UNGROUPED:
            return str(value)
        if not math.isfinite(value):
            return str(value)
        if self.code == "en":  # as Babel does, without reading it: every command says numbers
            return f"{self.rounded(value):,}"
        from babel.numbers import format_decimal

        shown = self.rounded(value)
        return str(format_decimal(shown, format=f"#,##0.{'#' * _PLACES}", locale=self.locale))

    def digits(self, text: str) -> str:
        """Return an amount written in English, ``1,234.5 kg``, with the language's own signs in its numbers."""
        if self.code == "en":
            return text
        return _DIGITS.sub(lambda found: found[0].translate(self._signs), text)

    @cached_property
    def _signs(self) -> dict[int, str]:
        from babel.numbers import get_decimal_symbol, get_group_symbol

        return str.maketrans(
            {",": get_group_symbol(self.locale), ".": get_decimal_symbol(self.locale)}
        )

    def plural(self, value: float) -> str:
        """Return a number's plural category: one, other, few and so on (CLDR)."""
        shown = self.rounded(value)
        if self.code == "en":
            return "one" if isinstance(shown, int) and shown == 1 else "other"
        return str(self.locale.plural_form(shown)) if math.isfinite(value) else "other"

    def plurals(self) -> frozenset[str]:
        """Return every plural category that the language has."""
        return frozenset({*self.locale.plural_form.tags, "other"})

    def day(self, iso: str, *, short: bool = False) -> str:
        """Return a day: ``2 Sep 2026``, or ``2 Sep`` when short."""
        from babel.dates import format_date, format_skeleton

        day = dt.date.fromisoformat(iso[:10])
        if self.code == "en":  # the day first in every country: 2 September is never 9 February
            return str(format_date(day, "d MMM" if short else "d MMM y", locale="en"))
        return str(format_skeleton("MMMd" if short else "yMMMd", day, locale=self.locale))

    def day_in_digits(self, iso: str) -> str:
        """Return a day for a narrow column: ``02.09.2026`` in German."""
        from babel.dates import format_skeleton

        return str(format_skeleton("yMMdd", dt.date.fromisoformat(iso[:10]), locale=self.locale))

    def money(self, value: float, currency: str) -> str:
        """Return money with its sign."""
        from babel.numbers import format_currency

        return str(format_currency(value, currency, locale=self.locale))

    def listed(self, texts: list[str], style: str = "standard") -> str:
        """Return texts in a row: ``a, b and c``; by the style ``or``: ``a, b or c``; ``commas``: ``a, b, c``."""
        if len(texts) < 2 or style == "commas":
            return ", ".join(texts)
        if self.code == "en" and style in ("standard", "or"):
            last = "or" if style == "or" else "and"
            return f"{', '.join(texts[:-1])} {last} {texts[-1]}"
        from babel.lists import format_list

        try:
            return str(format_list(texts, style=style, locale=self.locale))  # type: ignore[arg-type]
        except ValueError:  # a list style that the language has not
            return ", ".join(texts)

    def isolated(self, name: str) -> str:
        """Return what somebody wrote, kept apart where the language runs the other way."""
        if self.code in ("en", "de"):
            return name
        return _ISOLATES.format(name) if self.locale.text_direction == "rtl" else name


def has_dollar(currency: str) -> bool:
    """Return whether ``$`` is the sign of a currency, by its three letters (ISO 4217)."""
    from babel.numbers import get_currency_symbol

    return currency == "USD" or "$" in str(get_currency_symbol(currency, "en"))


@cache
def language(code: str) -> Language:
    """Return a language by its code."""
    return Language(code)
