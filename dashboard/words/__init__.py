"""Every text of the pages, by language, and numbers as that language writes them.

A language is one file beside this one, ``en.toml``: a second one is a copy with the texts said anew. What
the ledger says, fixed words and headings are in `ledger.messages`, where the command says them, too.
"""

from __future__ import annotations

import datetime as dt
import math
import re
import tomllib
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib import resources
from typing import Any

from babel import Locale
from babel.dates import format_date, format_skeleton
from babel.lists import format_list
from babel.numbers import (
    format_currency,
    format_decimal,
    format_percent,
    get_currency_symbol,
    get_decimal_symbol,
)

from ledger.amounts import format_figure, format_whole
from ledger.errors import BookUnreachable, InputError, LedgerError, NeedsAnswer
from ledger.figures.units import one_of
from ledger.kinds import KINDS
from ledger.messages import LANGUAGES as SAID
from ledger.messages import units
from ledger.messages import words as fixed
from ledger.messages.texts import Sentence, priced, worded
from ledger.projections import Column

__all__ = ["LANGUAGES", "Words", "catalogue"]

LANGUAGES = tuple(
    code for code in SAID if resources.files(__package__).joinpath(f"{code}.toml").is_file()
)
"""Those that the pages have words of."""
_LEAST_SHARE = 0.001
_WHOLE_FROM = 100
"""Money from here on is said without its small coins."""
_DASH = "–"
_GROUND = re.compile(r"(\d[\d.,]*) (m2|sq ft)\b")
_MONEY = re.compile(r"-?\d+(?:\.\d+)?")
_IN_DAYS = 2
"""Weeks below which days are said."""
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


@lru_cache(1024)
def _unit(code: str, language: str) -> str:
    return worded(units.unit(code), language)


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
        """Return a text with its values set in; that of one, ``key_one``, where `n` shows 1.

        Raises
        ------
        KeyError
            When no language knows the key.
        """
        key = self.counted(key, values.get("n"))
        text = self._texts.get(key) or catalogue("en")[key]
        return text.format(**values) if values else text

    def counted(self, key: str, n: Any) -> str:
        """Return the key of a text of so many, as they are shown: of one, where it has its own."""
        return f"{key}_one" if str(n) == "1" and f"{key}_one" in self._texts else key

    def kind(self, name: str, part: str = "title") -> str:
        """Return a kind's ``title``, or what it ``says``; as the kind itself says it where no text does."""
        key = f"kinds.{name}.{part}"
        text = self._texts.get(key) or catalogue("en").get(key)
        if text is None:
            kind = KINDS[name]
            text = kind.title if part == "title" else kind.summary[:1].upper() + kind.summary[1:]
        return text

    def has(self, key: str) -> bool:
        """Return whether there is a text of that key."""
        return key in self._texts

    def label(self, question: str, column: Column) -> str:
        """Return a column's heading: the language's, else the one described with the column."""
        own = self._texts.get(f"columns.{question}.{column.name}")
        if own is None and self.language != "en":  # the ledger's own labels are English
            own = fixed.column(self.language, question, column.name)
        return column.label if own is None else own

    def word(self, group: str, value: str, of: str = "") -> str:
        """Return a fixed word of an answer (``shelf``) in the language; else as it is.

        One that means something of its own in a column or field `of` stands under that name.
        """
        if group == "answers":
            return fixed.word(self.language, value, of)
        key = value.replace(" ", "_")
        own = self._texts.get(f"{group}.{of}.{key}") if of else None
        return own or self._texts.get(f"{group}.{key}", value)

    def said(self, text: str) -> str:
        """Return what the ledger says, in the language; a name as it is."""
        said = worded(text, self.language)
        return _GROUND.sub(self._ground, said) if " m2" in said or " sq ft" in said else said

    def line(self, text: str) -> str:
        """Return an entry told in a line, in the language, its prices with the household's currency."""
        return self.said(priced(text, self.paid))

    def paid(self, text: str) -> str:
        """Return money as it was written down, ``7.90``, with its currency; a question mark as it is."""
        return self.money(float(text)) if _MONEY.fullmatch(text) else text

    def fixed(self, value: str, of: str = "") -> str:
        """Return a fixed word of an answer, or what the ledger says, in the language; a name as it is."""
        said = self.said(value) if isinstance(value, Sentence) else value
        return said if said != value else self.word("answers", value, of)

    def _ground(self, found: re.Match[str]) -> str:
        return self("season.m2" if found[2] == "m2" else "season.sq_ft", n=found[1])

    def refusal(self, error: LedgerError, *, named: bool = True) -> str:
        """Return why something was refused, and what would be right.

        Parameters
        ----------
        error : LedgerError
        named : bool
            Say which field it is, where it does not stand beside its box.
        """
        if isinstance(error, NeedsAnswer):
            return self.said(error.question)
        if isinstance(error, BookUnreachable):  # what its driver says helps nobody at the counter
            return self("failing.away_text")
        if not isinstance(error, InputError):
            return self.said(str(error))
        text, wanted = error.parts(self.language, self.said)
        field = self._field(error.field) if named and error.field else ""
        text = f"{field}: {text}" if field else text[:1].upper() + text[1:]
        return f"{text}. {wanted}" if wanted else text

    def _field(self, name: str) -> str:
        """Return a field as the forms call it; in English as it is typed, so that a message can be searched for."""
        return name if self.language == "en" else self._texts.get(f"fields.any.{name}", name)

    def money(self, value: float | None) -> str:
        """Return an amount of money."""
        if value is None or not math.isfinite(value):
            return _DASH
        return format_currency(value, self.currency, locale=self.locale)

    def round_money(self, value: float | None) -> str:
        """Return money as it is said in a sentence: whole above 100, with its small coins below."""
        if value is None or not math.isfinite(value) or abs(value) < _WHOLE_FROM:
            return self.money(value)
        text = format_currency(
            round(value), self.currency, locale=self.locale, currency_digits=False,
            format=self._no_coins(),
        )  # fmt: skip
        return str(text).replace("-", "−")

    def _no_coins(self) -> str:
        """Return the locale's way of writing money, without small coins."""
        pattern = self.locale.currency_formats["standard"].pattern
        return str(pattern).replace(".00", "")

    def coins(self, value: float | None) -> str:
        """Return money without the currency's sign, for a table whose head says it."""
        if value is None or not math.isfinite(value):
            return _DASH
        return format_decimal(value, format="#,##0.00", locale=self.locale).replace("-", "−")

    def coin_sign(self) -> str:
        """Return the currency's sign, else its code."""
        return str(get_currency_symbol(self.currency, locale=self.locale))

    def around_money(self) -> tuple[str, str]:
        """Return what stands before and behind an amount of money: ``$`` and nothing, nothing and `` €``."""
        before, _, behind = self.money(1.0).partition(self.coins(1.0))
        return before, behind

    def whole(self, value: float | None) -> str:
        """Return a number rounded to whole ones, below 0 with a minus sign as type sets it."""
        if value is None or not math.isfinite(value):
            return _DASH
        return format_decimal(round(value), format="#,##0", locale=self.locale).replace("-", "−")

    def number(self, value: float | None, digits: int = 3) -> str:
        """Return a number to about so many figures; never with an exponent."""
        if value is None or not math.isfinite(value):
            return _DASH
        whole = math.floor(math.log10(abs(value))) + 1 if value else 0
        places = min(max(0, digits - whole), _PLACES)
        return format_decimal(
            round(value, places), format=f"#,##0.{'#' * places}", locale=self.locale
        )

    def typed(self, value: float) -> str:
        """Return a number to a tenth as it is typed into a box: with the language's point, in no groups."""
        text = f"{value:.1f}".removesuffix(".0")
        return text.replace(".", str(get_decimal_symbol(self.locale)))

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

    def weekday(self, value: str) -> str:
        """Return a near day, ``Wed 2 Dec``."""
        day = dt.date.fromisoformat(value)
        if self.language == "en":
            return format_date(day, "EEE d MMM", locale=self.locale)
        return format_skeleton("MMMEd", day, locale=self.locale)

    def month_of(self, value: str) -> str:
        """Return the month of a far day, ``Nov 2027``."""
        return format_skeleton("yMMM", dt.date.fromisoformat(value), locale=self.locale)

    def listed(self, texts: Iterable[str]) -> str:
        """Return texts as one says them in a row: ``a, b and c``."""
        return format_list(list(texts), locale=self.locale)

    def jars(self, n: int, jar: str) -> str:
        """Return a count of jars as spoken: ``13 pints``, ``1 quart``; jars of other sizes by their size."""
        key = f"jars.{jar.replace(' ', '_')}"
        if self.has(f"{key}.many"):
            return self(f"{key}.one" if n == 1 else f"{key}.many", n=self.number(n, 6))
        holds = jar.removesuffix(" jar")
        if holds.endswith((" l", " ml")):
            key = "jars.metric.one" if n == 1 else "jars.metric.many"
            return self(key, n=self.number(n, 6), holds=self.said(units.amount(holds)))
        return self("jars.other", n=self.number(n, 6), jar=self.said(jar))

    def long_day(self, day: dt.date) -> str:
        """Return a day of the running page: ``Sunday 29 November``."""
        if self.language == "en":
            return format_date(day, "EEEE d MMMM", locale=self.locale)
        weekday = format_date(day, "EEEE", locale=self.locale)
        return f"{weekday}, {format_skeleton('MMMMd', day, locale=self.locale)}"

    def month(self, number: int) -> str:
        """Return a month's short name, 1 to 12."""
        return self.locale.months["stand-alone"]["abbreviated"][number]

    def month_name(self, number: int) -> str:
        """Return a month's whole name, 1 to 12."""
        return str(self.locale.months["stand-alone"]["wide"][number])

    def days(self, value: int) -> str:
        """Return a number of days with its word."""
        return self("days.one") if value == 1 else self("days.several", n=self.number(value, 6))

    def weeks(self, value: float) -> str:
        """Return how long something lasts, in days where it is not many weeks."""
        if value >= _IN_DAYS:
            return self("today.weeks", n=self.number(value, 2))
        days = round(value * 7)
        return self("today.days", n=days) if days > 1 else self("today.one_day")

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
            texts = (one if isinstance(one, str) else str(one) for one in value)
            return ", ".join(map(self.fixed, texts)) or _DASH
        if isinstance(value, str):
            return self.day(value) if column.unit == "day" else value
        return self.quantity(value, column.unit)

    def quantity(self, value: float, unit: str) -> str:
        """Return a number as a Column's unit asks for: money, weights and shares say their unit."""
        said = self._with_unit(value, unit)
        return self.number(value) if said is None else said

    def figure(self, value: float, unit: str) -> str:
        """Return a number that stands by itself, as a Node's: it always says its unit."""
        said = self._with_unit(value, unit)
        if said is not None:
            return said
        number = self.number(value)
        return f"{number} {self.unit(one_of(unit) if number == '1' else unit)}".rstrip()

    def unit(self, code: str) -> str:
        """Return a unit of a figure in the language."""
        return _unit(code, self.language)

    def _with_unit(self, value: float, unit: str) -> str | None:
        """Return a number whose unit is written with it; None where a heading or a word says it."""
        said = format_figure(value, unit, measures=self.measures)
        if said is not None:
            text = worded(units.amount(said), self.language)
            text = _GROUND.sub(self._ground, text)
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
        return None
