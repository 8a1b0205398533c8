"""Cans of what the book knows fresh are asked about at every command and form, and kept apart."""

from __future__ import annotations

import pytest

from ledger import Answers, Book, NeedsAnswer
from ledger.door import Entry


@pytest.fixture
def book(tmp_path, fixed_day):
    with Book.open(tmp_path / "book.sqlite") as opened:
        opened.write("harvested", item="tomato", amount="5 lb", on="2026-08-01")
        yield opened


def bought(item, amount):
    return Entry("bought", {"lines": [{"item": item, "amount": amount, "paid": "8"}]})


def test_cans_of_a_fresh_food_become_a_ware_of_their_own(book):
    entry = bought("tomato", "6 cans")
    with pytest.raises(NeedsAnswer, match="kept apart as canned tomato") as asked:
        book.ask(entry, Answers())
    assert (asked.value.code, asked.value.field) == ("cans", "lines[0].item")
    book.ask(entry, Answers(yes=True))
    assert entry.body["lines"][0]["item"] == "canned tomato"


def test_no_keeps_the_name_and_a_meal_asks_the_same(book):
    entry = bought("tomato", "6 cans")
    book.ask(entry, Answers(ask=lambda doubt: doubt.code != "cans"))
    assert entry.body["lines"][0]["item"] == "tomato"
    with pytest.raises(NeedsAnswer, match="canned tomato"):
        book.ask(Entry("eaten", {"ate": [{"item": "tomato", "amount": "2 cans"}]}), Answers())


@pytest.mark.parametrize(
    ("item", "amount"),
    [
        ("tomato soup", "4 cans"),
        ("canned tomato", "6 cans"),
        ("tomato", "3 lb"),
        ("cat food", "9 cans"),
    ],
)
def test_what_is_not_fresh_or_not_in_cans_is_not_asked(book, item, amount):
    entry = bought(item, amount)
    book.ask(entry, Answers())
    assert entry.body["lines"][0]["item"] == item
