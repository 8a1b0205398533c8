"""An amount that a command or a form read is carried to the door, and is what the door would read."""

from __future__ import annotations

import copy
import pickle
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

import ledger.door.lines
from ledger import Answers
from ledger.amounts import Said, parse_amount, split_line
from ledger.door.texts import Texts
from ledger.errors import LedgerError

NUMBERS = ("12", "12.5", "12,5", "1/2", "1 1/2", "½", "1½", "0", "11")
UNITS = (
    "", "lb", "oz", "kg", "g", "cup", "pt", "uk qt", "half-pint jars", "pint jar", "500 ml jar", "dozen",
    "heads", "bunch", "can", "bushel", "kWh", "half-pint",
)  # fmt: skip
ITEMS = ("plum", "plum butter", "can opener", "jar lids", "heads of lettuce", "7-up", "of sugar")
pairs = st.lists(
    st.tuples(st.sampled_from(NUMBERS), st.sampled_from(UNITS)), min_size=1, max_size=2
)


@given(pairs, st.sampled_from(ITEMS), st.sampled_from(["us", "uk", "metric"]), st.booleans())
def test_what_is_carried_is_what_would_be_read(several, item, measures, comma):
    text = " ".join(f"{number} {unit}".strip() for number, unit in several) + f" {item}"
    how = {"measures": measures, "comma": comma, "zero": True}
    try:
        amount, rest = split_line(text, **how)
    except LedgerError:
        assume(False)
    assume(rest)
    said = re.sub(r"\s+of$", "", text[: len(text) - len(rest)].strip())
    assert Said(said, amount, measures, comma).read_so(measures, comma, zero=True) == parse_amount(
        said, **how
    )


@pytest.mark.parametrize(
    "again", [copy.copy, copy.deepcopy, lambda s: pickle.loads(pickle.dumps(s))]
)
def test_it_is_a_text_like_any_other(again):
    said = again(Said("3 lb", parse_amount("3 lb")))
    assert said == "3 lb"
    assert said.read_so("us", comma=False) == parse_amount("3 lb")
    assert said.read_so("uk", comma=False) is None
    assert Said("0 lb", parse_amount("0 lb", zero=True)).read_so("us", comma=False) is None


def test_the_door_reads_no_typed_amount_again(book, monkeypatch):
    """What a command read is read once; another language's comma, or another day's pint, is read anew."""
    read = []

    def counting(text, **how):
        read.append(text)
        return parse_amount(text, **how)

    monkeypatch.setattr(ledger.door.lines, "parse_amount", counting)
    texts = Texts(book.catalogue(), Answers())
    book.write("harvested", {"lines": [texts.line("31 lb 8 oz plum")]}, on="2026-09-02")
    assert read == []
    assert book.write("harvested", {"item": "plum", "amount": "3 lb"}, on="2026-09-02").is_new
    assert read == ["3 lb"]
    line = texts.line("2 pt plum juice")
    book.write("setting_changed", {"name": "measures", "value": "uk"}, on="2026-09-01")
    written = book.write("harvested", {"lines": [line]}, on="2026-09-02")
    assert read == ["3 lb", "2 pt"]
    assert written.body["lines"][0]["whole"] == 2 * 568_261  # 568.26125 ml in an imperial pint
