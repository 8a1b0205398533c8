"""Amounts as a kitchen says them, and entries read aloud."""

from __future__ import annotations

import pytest

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.parts.aloud import aloud
from dashboard.parts.kitchen import kitchen, measured, spooned
from dashboard.words import Words

US, METRIC = Words("en", "us", "USD"), Words("de", "metric", "EUR")


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("10.5 qt tomato puree", "10½ qt tomato puree"),
        ("1/4 in", "¼ in"),
        ("1 1/2 cup sugar", "1½ cup sugar"),
        ("0.5 tsp salt", "½ tsp salt"),
        ("1.35 lb", "1.35 lb"),
        ("2026-11-25", "2026-11-25"),
        ("12.5 lb and 112.25 oz and 1.255 lb", "12½ lb and 112¼ oz and 1.255 lb"),
        ("bought 2.5 lb flour for 13.25, 8.5", "bought 2½ lb flour for 13.25, 8.5"),
    ],
)
def test_halves_and_quarters_are_signs(text, said):
    assert kitchen(text) == said


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("107 tbsp milk", "1½ quarts milk"),  # 64 tbsp a quart (NIST Handbook 44, appendix C)
        ("3.57 cup milk", "3½ cups milk"),
        ("74 tbsp milk", "1 quart milk"),
        ("2 tbsp milk", "2 tbsp milk"),
        ("7.5 cup milk", "7½ cup milk"),
        ("1.06 qt olive oil", "1 quart olive oil"),
    ],
)
def test_an_odd_volume_is_said_in_the_measure_that_gives_few_of_it(text, said):
    assert spooned(US, text) == said


def test_what_was_typed_in_english_measures_is_said_in_german():
    assert spooned(METRIC, "107 tbsp milk") == "1,6 l milk"
    assert spooned(METRIC, "2 tbsp milk") == "2 EL milk"


@pytest.mark.parametrize(
    ("words", "amount", "said"),
    [
        (US, {"text": "3.02 fl oz", "whole": 89203, "measure": "volume"}, "6 tbsp"),
        (US, {"text": "12 qt", "whole": 11356235, "measure": "volume"}, "12 quarts"),
        (US, {"text": "8.02 oz", "whole": 227280, "measure": "mass"}, "8 oz"),
        (US, {"text": "5 pint jars", "whole": 2365880, "measure": "volume"}, "5 pint jars"),
        (US, {"text": "47", "whole": 47000, "measure": "count"}, "47"),
        (METRIC, {"text": "89.2 ml", "whole": 89203, "measure": "volume"}, "89 ml"),
        (METRIC, {"text": "992 g", "whole": 992428, "measure": "mass"}, "990 g"),
        (METRIC, {"text": "11.4 l", "whole": 11356235, "measure": "volume"}, "11,4 l"),
    ],
)
def test_what_is_left_is_said_as_one_has_it(words, amount, said):
    assert measured(words, amount) == said


def said_of_last(book, words=US):
    ask = Ask(Data(book), words, path="/")
    return aloud(ask, ask.data.history()[0])


def test_what_is_counted_stands_in_the_plural(book, yes):
    book.write("harvested", {"lines": [{"item": "egg", "amount": "43"}]}, answers=yes)
    assert said_of_last(book) == "Picked 43 eggs"
    book.write("harvested", {"lines": [{"item": "egg", "amount": "1"}]}, answers=yes)
    assert said_of_last(book) == "Picked 1 egg"


def test_a_setting_and_a_frost_are_said_as_a_person_would(book):
    book.write("setting_changed", {"name": "price_of_electricity", "value": "0.17 per kWh"})
    assert said_of_last(book) == "Set the price of electricity to 0.17 per kWh"
    book.write("frost_seen", {"frost": "first of fall", "seen": "2026-10-01"}, on="2026-10-01")
    assert said_of_last(book) == "First frost of fall on 1 Oct 2026"
    assert said_of_last(book, METRIC) == "Erster Frost im Herbst am 1. Okt. 2026"


@pytest.mark.parametrize(
    ("text", "whole", "says"),
    [("0.5 oz", 14175, "½ oz"), ("0.85 oz", 24097, "0.85 oz"), ("3.4 oz", 96388, "3 oz")],
)
def test_what_is_there_is_never_said_as_nothing(text, whole, says):
    assert measured(US, {"text": text, "measure": "mass", "whole": whole}) == says


def test_jars_of_litres_are_said_by_what_they_hold():
    assert METRIC.jars(12, "1 l jar") == "12 Gläser zu 1 l"
    assert METRIC.jars(1, "1.5 l jar") == "1 Glas zu 1,5 l"
    assert US.jars(8, "500 ml jar") == "8 jars of 500 ml"
    assert US.jars(8, "pint jar") == "8 pints"
