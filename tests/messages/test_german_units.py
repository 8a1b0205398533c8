"""Jars and counted units, which have English names in a book, are said in German by what they are."""

from __future__ import annotations

import pytest

from ledger.amounts import known_units
from ledger.messages import fixed, sentence, speaker, worded
from ledger.messages.units import amount, unit
from ledger.messages.words import word


@pytest.mark.parametrize(
    ("text", "german"),
    [
        ("7 500 ml jars", "7 Gläser zu 500 ml"), ("1 1.5 l jar", "1 Glas zu 1,5 l"), ("1 can", "1 Dose"),
        ("3 cans", "3 Dosen"), ("2 box", "2 Schachteln"), ("3 loaf", "3 Laibe"), ("3 bucket", "3 Eimer"),
    ],
)  # fmt: skip
def test_an_amount_is_said_in_german_and_stays_english_for_scripts(text, german):
    said = amount(text.removesuffix("s") if text.endswith("cans") else text)
    assert worded(said, "de") == german
    assert not worded(said, "en").startswith(german)


@pytest.mark.parametrize(
    ("name", "german"),
    [("500 ml jar", "Glas zu 500 ml"), ("1.5 l jar", "Glas zu 1,5 l"), ("quart jar", "Quart-Glas")],
)
def test_a_jar_is_said_by_its_size_wherever_it_is_named(name, german):
    assert word("de", name) == german
    assert worded(fixed(name), "de") == german
    assert speaker("de").value(name) == german
    assert speaker("en").value(name) == name


@pytest.mark.parametrize("name", ["jam jar", "Glas", "250 ml jar / 500 ml jar", "none"])
def test_what_the_household_wrote_stays_as_it_is(name):
    assert speaker("de").value(name) == name


def test_a_can_is_no_verb():
    assert worded(unit("can"), "de") == "Dose"
    assert {"can", "bucket", "loaf"} <= set(known_units())
    assert worded(sentence("asked-weight", unit=unit("bucket"), name="Apfel"), "de") == (
        "Was wiegt 1 Eimer Apfel?"
    )
