"""Sentences: English texts that carry their message through everything that is done to an answer."""

from __future__ import annotations

import copy
import json
import pickle

import pytest

from ledger.errors import InputError
from ledger.messages import (
    Code,
    Measured,
    Message,
    Names,
    Row,
    Sentence,
    joined,
    measured,
    opening,
    sentence,
    worded,
)

MISSING = sentence("refusal-missing")


def test_a_sentence_is_its_english_text_and_says_itself_in_another_language():
    assert MISSING == "is missing"
    assert json.dumps([MISSING]) == '["is missing"]'
    assert worded(MISSING, "en") == "is missing"
    assert worded(MISSING, "de") == "fehlt"


def test_turned_to_text_it_still_says_itself_and_within_a_text_it_does_not():
    assert isinstance(str(MISSING), Sentence)
    assert str(ValueError(MISSING)).says == MISSING.says
    assert type(f"{MISSING}.") is str
    assert type(MISSING[:]) is str


def test_a_name_stays_as_it_was_written_in_every_language():
    assert worded("is missing", "de") == "is missing"


def test_a_sentence_within_another_is_said_in_the_same_language():
    said = sentence("refusal-one-of", known=Names((MISSING, Code("plum"))))
    assert said == "Write one of: is missing, plum"
    assert "fehlt, plum" in worded(said, "de")
    assert isinstance(said.says, Message)


def test_texts_in_a_row_and_with_a_capital_keep_what_they_say():
    row = joined("; ", [MISSING, "plum"])
    assert row == "is missing; plum"
    assert worded(row, "de") == "fehlt; plum"
    assert worded(opening(row), "de") == "Fehlt; plum"
    assert opening(row) == "Is missing; plum"


def test_names_in_a_row_are_plain():
    assert not isinstance(joined(", ", ["a", "b"]), Sentence)
    assert not isinstance(opening("plum"), Sentence)


@pytest.mark.parametrize(
    ("written", "german"),
    [("1,234.5 kg", "1.234,5 kg"), ("7 lb 3 oz", "7 lb 3 oz"), (".5 cup", ",5 cup")],
)
def test_an_amount_keeps_its_measures_and_gets_the_language_s_digits(written, german):
    said = measured(written)
    assert said == written
    assert said.says == Measured(written)
    assert worded(said, "de") == german


def test_copies_and_other_processes_keep_what_a_text_says():
    for again in (pickle.loads(pickle.dumps(MISSING)), copy.deepcopy(MISSING)):
        assert again == MISSING
        assert again.says == MISSING.says


def test_a_refusal_knows_the_message_of_a_sentence():
    error = InputError("jar", MISSING, "Write which")
    assert error.says("refusal-missing")
    assert error.parts("de")[0] == "fehlt"
    assert error.parts("de", lambda text: worded(text, "de"))[0] == "fehlt"


def test_a_row_goes_through_json_and_back():
    import msgspec

    row = Row((Code("a"), Measured("1.5 l"), 3), ", ")
    assert msgspec.json.decode(msgspec.json.encode(row), type=Row) == row
