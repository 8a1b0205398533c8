"""Every text of the pages, by language, and numbers as that language writes them.

A language is one file beside this one, ``en.toml``: a second one is a copy with the texts said anew.
"""

from __future__ import annotations

import datetime as dt
import math
import tomllib
from functools import cache
from importlib import resources
from typing import Any

from babel import Locale
from babel.dates import format_date, format_skeleton
from babel.numbers import format_currency, format_decimal, format_percent, get_decimal_symbol

from ledger.amounts import format_figure, format_whole
from ledger.projections import Column

__all__ = ["LANGUAGES", "Words", "catalogue"]

LANGUAGES = ("en", "de")
_LEAST_SHARE = 0.001
_DASH = "–"
_PLACES = 6
"""Most decimal places of a number."""


@cache
def catalogue(language: str) -> dict[str, str]:
    """Return a language's texts by dotted key, ``nav.shelf``."""
    text = resources.files(__package__).joinpath(f"{language}.toml").read_text("utf-8")
    out: dict[str, str] = {}

    def walk(prefix: str, part: dict[str, Any]) -> None:
        for key, value in part.items():
            if isinstance(value, dict):
                walk(f"{prefix}{key}.", value)
            else:
                out[f"{prefix}{key}"] = value

    walk("", tomllib.loads(text))
    return out


class Words:
    """Texts and numbers in a language, measures and currency.

    Parameters
    ----------
    language : str
        ``en``, ``de`` or with a country behind it; an unknown one falls back to English.
    measures : {'us', 'uk', 'metric'}
    currency : str
        Three letters, ISO 4217.
    """

    def __init__(self, language: str = "en", measures: str = "us", currency: str = "USD") -> None:
        short = language.split("-", maxsplit=1)[0].split("_", maxsplit=1)[0]
        self.language = short if short in LANGUAGES else "en"
        self.measures, self.currency = measures, currency
        country = {"en": "US" if measures == "us" else "GB"}.get(self.language, "")
        self.locale = Locale.parse(f"{self.language}_{country}" if country else self.language)
        self._texts = catalogue(self.language)

    def __call__(self, key: str, **values: Any) -> str:
        """Return a text with its values set in.

        Raises
        ------
        KeyError
            When no language knows the key.
        """
        text = self._texts.get(key) or catalogue("en")[key]
        return text.format(**values) if values else text

    def has(self, key: str) -> bool:
        """Return whether there is a text of that key."""
        return key in self._texts

    def label(self, question: str, column: Column) -> str:
        """Return a column's heading: the language's, else the one described with the column."""
        for key in (f"columns.{question}.{column.name}", f"columns.any.{column.name}"):
            if key in self._texts:
                return self._texts[key]
        return column.label

    def word(self, group: str, value: str, of: str = "") -> str:
        """Return a fixed word of an answer (``answers.shelf``) in the language; else as it is.

        One that means something of its own in a column or field `of` stands under that name.
        """
        key = value.replace(" ", "_")
        own = self._texts.get(f"{group}.{of}.{key}") if of else None
        return own or self._texts.get(f"{group}.{key}", value)

    def money(self, value: float | None) -> str:
        """Return an amount of money."""
        if value is None or not math.isfinite(value):
            return _DASH
        return format_currency(value, self.currency, locale=self.locale)

    def number(self, value: float | None, digits: int = 3) -> str:
        """Return a number to about so many figures; never with an exponent."""
        if value is None or not math.isfinite(value):
            return _DASH
        whole = math.floor(math.log10(abs(value))) + 1 if value else 0
        places = min(max(0, digits - whole), _PLACES)
        return format_decimal(
            round(value, places), format=f"#,##0.{'#' * places}", locale=self.locale
        )

    def percent(self, value: float | None) -> str:
        """Return a share as a percentage."""
        if value is None or not math.isfinite(value):
            return _DASH
        if 0 < value < _LEAST_SHARE:
            return f"<{self.percent(_LEAST_SHARE)}"
        pattern = self.locale.percent_formats[None].pattern
        if abs(value) < 0.1:
            pattern = pattern.replace("##0", "##0.#")
        return format_percent(value, format=pattern, locale=self.locale)

    def day(self, value: str | dt.date | None, *, short: bool = False) -> str:
        """Return a day: ``2 Sep 2026``, or ``2 Sep`` when short; in other languages as they write it."""
        if value is None:
            return _DASH
        day = dt.date.fromisoformat(value[:10]) if isinstance(value, str) else value
        if self.language == "en":  # the day first in every country: 2 September is never 9 February
            return format_date(day, "d MMM" if short else "d MMM y", locale=self.locale)
        return format_skeleton("MMMd" if short else "yMMMd", day, locale=self.locale)

    def month(self, number: int) -> str:
        """Return a month's short name, 1 to 12."""
        return self.locale.months["stand-alone"]["abbreviated"][number]

    def grams(self, value: float | None) -> str:
        """Return a weight in the household's measures."""
        return self._amount(value, "mass")

    def ml(self, value: float | None) -> str:
        """Return a volume in the household's measures."""
        return self._amount(value, "volume")

    def _amount(self, value: float | None, measure: str) -> str:
        if value is None or not math.isfinite(value):
            return _DASH
        text = format_whole(round(value * 1000), measure, measures=self.measures)
        return text.replace(".", get_decimal_symbol(self.locale))

    def cell(self, column: Column, value: Any) -> str:
        """Return a value of an answer as its column's unit asks for."""
        if value is None or (isinstance(value, float) and math.isnan(value)):
            return _DASH
        if isinstance(value, bool):
            return self("word.yes") if value else self("word.no")
        if isinstance(value, (list, tuple)):
            return ", ".join(str(one) for one in value) or _DASH
        if isinstance(value, str):
            return self.day(value) if column.unit == "day" else value
        return self.quantity(value, column.unit)

    def quantity(self, value: float, unit: str) -> str:
        """Return a number with its unit, as a Column's or a Node's unit names it."""
        said = format_figure(value, unit, measures=self.measures)
        if said is not None:
            text = said.replace(".", get_decimal_symbol(self.locale))
            return f"{self.currency} {text}" if unit.startswith("money") else text
        if unit.startswith("money"):
            return self.money(value)
        if unit == "g":
            return self.grams(value)
        if unit == "ml":
            return self.ml(value)
        if unit == "chance":  # drawn from so many futures: none is not never, all is not surely
            near = min(max(value, 0.01), 0.99)
            return ("<" if value < near else ">" if value > near else "") + self.percent(near)
        if unit.startswith(("share", "0 to 1", "chance")):
            return self.percent(value)
        return self.number(value)
