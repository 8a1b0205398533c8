"""Numbers, money and days as each language writes them.

How numbers, money, shares and days are written is checked against the Unicode Common Locale Data
Repository (CLDR), https://cldr.unicode.org, read by hand for en-US, en-GB and de: decimal and grouping
signs, the currency's place, the space before the per cent sign, the point after a day's number.
"""

from __future__ import annotations

import datetime as dt
import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dashboard.words import Words
from ledger.projections import Column

US, METRIC, DE = (
    Words("en", "us", "USD"), Words("en", "metric", "GBP"), Words("de", "metric", "EUR"),
)  # fmt: skip
EVERY = pytest.mark.parametrize("words", [US, METRIC, DE], ids=["en/us", "en/metric", "de"])
NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("value", "en", "de"),
    [
        (0, "0", "0"), (1234.56, "1,235", "1.235"), (12.3456, "12.3", "12,3"), (0.12345, "0.123", "0,123"),
        (0.0123456, "0.0123", "0,0123"), (-12.345, "-12.3", "-12,3"), (1e9, "1,000,000,000", "1.000.000.000"),
        (999.6, "1,000", "1.000"), (2.0, "2", "2"), (0.0000001, "0", "0"),
    ],
)  # fmt: skip
def test_numbers_have_about_three_figures(value, en, de):
    assert US.number(value) == METRIC.number(value) == en
    assert DE.number(value) == de


def test_a_box_holds_a_number_as_it_is_typed():
    assert [US.typed(one) for one in (27.43, 1234.0)] == ["27.4", "1234"]
    assert [DE.typed(one) for one in (27.43, 1234.0)] == ["27,4", "1234"]


def test_money_is_written_as_the_language_does():
    assert US.money(1234.5) == "$1,234.50"
    assert US.money(-0.5) == "-$0.50"
    assert METRIC.money(1234.5) == "£1,234.50"
    assert DE.money(1234.5) == f"1.234,50{NBSP}€"
    assert Words("en", "us", "JPY").money(1234) == "¥1,234"  # ISO 4217: no minor unit


def test_shares_are_per_cents():
    assert [US.percent(v) for v in (0, 0.0456, 0.4567, 1, 1.5)] == [
        "0%",
        "4.6%",
        "46%",
        "100%",
        "150%",
    ]
    assert [DE.percent(v) for v in (0.0456, 0.4567)] == [f"4,6{NBSP}%", f"46{NBSP}%"]


def test_days_and_months():
    assert US.day("2026-09-02") == "2 Sep 2026"
    assert US.day("2026-09-02T10:00:00Z", short=True) == "2 Sep"
    assert US.day(dt.date(2026, 5, 1)) == METRIC.day("2026-05-01") == "1 May 2026"
    assert DE.day("2026-05-01") == "1. Mai 2026"
    assert DE.day("2026-05-01", short=True) == "1. Mai"
    assert [DE.month(m) for m in (3, 5, 12)] == ["Mär", "Mai", "Dez"]


def test_weights_and_volumes_are_in_the_households_measures():
    assert US.grams(14_288.16) == "31 lb 8 oz"
    assert METRIC.grams(14_288.16) == "14.3 kg"
    assert DE.grams(14_288.16) == "14,3 kg"
    assert (US.ml(946.353), METRIC.ml(1500), DE.ml(1500)) == ("1 qt", "1.5 l", "1,5 l")


@EVERY
@pytest.mark.parametrize("name", ["money", "number", "percent", "grams", "ml"])
@pytest.mark.parametrize("value", [None, math.nan, math.inf, -math.inf])
def test_what_is_not_known_is_a_dash(words, name, value):
    assert getattr(words, name)(value) == "–"
    assert words.day(None) == "–"


@EVERY
@given(st.floats(-1e12, 1e12))
def test_number_reads_back_and_has_no_exponent(words, value):
    text = words.number(value)
    assert re.fullmatch(r"-?[\d.,]+", text)
    plain = text.replace("." if words.language == "de" else ",", "").replace(",", ".")
    assert float(plain) == pytest.approx(value, rel=5.1e-3, abs=5.1e-7)


@EVERY
@pytest.mark.parametrize(
    ("unit", "value"),
    [
        ("money per quart", 2.5), ("g", 500.0), ("ml", 250.0), ("share", 0.5), ("0 to 1", 0.5), ("chance", 0.5),
        ("jars", 7.0),
    ],
)  # fmt: skip
def test_cell_follows_its_columns_unit(words, unit, value):
    own = {
        "money per quart": words.money(2.5), "g": words.grams(500), "ml": words.ml(250), "share": words.percent(0.5),
        "0 to 1": words.percent(0.5), "chance": words.percent(0.5), "jars": "7",
    }  # fmt: skip
    column = Column("x", "X", unit, "What it is.")
    assert words.cell(column, value) == own[unit]
    assert words.cell(column, None) == words.cell(column, math.nan) == "–"


@EVERY
def test_cells_of_words(words):
    column = Column("x", "X", "", "What it is.")
    assert words.cell(column, True) == words("word.yes")
    assert words.cell(column, ["plum", "pear"]) == "plum, pear"
    assert words.cell(column, []) == "–"
    assert words.cell(Column("x", "X", "day", ""), "2026-05-01") == words.day("2026-05-01")


def test_language_falls_back_and_a_countrys_is_the_languages():
    assert Words("fr", "metric").language == "en"
    assert Words("de-AT", "metric").language == Words("de_CH", "metric").language == "de"
    assert str(Words("en", "uk").locale) == "en_GB"
    with pytest.raises(KeyError):
        US("no.such.key")


def test_text_missing_in_a_language_is_said_in_english(monkeypatch):
    words = Words("de", "metric", "EUR")
    monkeypatch.setattr(words, "_texts", {})
    assert words("word.yes") == "yes"


@pytest.mark.parametrize(
    ("language", "key", "n", "said"),
    [
        ("en", "winter.n_things", 1, "1 thing"),
        ("en", "winter.n_things", "2", "2 things"),
        ("de", "winter.n_months", "1", "1 Monat"),
        ("de", "today.n_weeks", 1, "1 Woche"),
        ("en", "season.plants", "1", "1 plant"),
    ],
)
def test_one_thing_is_no_several(language, key, n, said):
    assert Words(language)(key, n=n) == said
