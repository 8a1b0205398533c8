"""The shelf's page on a book without keeping times: fresh food first, and no word of a day it has not."""

from __future__ import annotations

import pytest
from page_tools import Drawn, text_of, walk

from dashboard.data import Data
from dashboard.drawing import ask_of
from ledger import Answers

YES = Answers(yes=True)


@pytest.fixture
def pantry(book, fixed_day):
    for at, names in (
        ("2026-10-19", ("sugar",)),
        ("2026-10-20", ("flour",)),
        ("2026-10-30", ("fish", "strawberry")),
    ):
        lines = [{"item": one, "amount": "2 lb", "paid": "1"} for one in names]
        book.write("bought", {"lines": lines}, on=at, answers=YES)
    return Data(book)


def goods(drawn):
    (phone,) = [one for one in walk(drawn.parts) if "places" in str(getattr(one, "className", ""))]
    return phone, [
        text_of(line)
        for one in walk(phone)
        if getattr(one, "className", "") == "goods"
        for line in one.children
    ]


def test_fresh_food_without_a_day_stands_first_and_says_so(pantry):
    drawn = Drawn(ask_of(pantry, "/shelf", ""))
    phone, lines = goods(drawn)
    assert [line.split()[0] for line in lines] == ["Fish", "Strawberries", "Sugar", "Flour"]
    assert lines[0].endswith("no keeping time known")
    assert lines[1].endswith("no keeping time set")
    assert lines[2].endswith("no day")
    assert "4 things; fish first" in text_of(phone)
    says = text_of(drawn.parts)
    assert "No jar is full." in says
    assert "Fish first, then strawberries." in says


def test_the_only_place_stands_open(pantry):
    phone, _ = goods(Drawn(ask_of(pantry, "/shelf", "")))
    folds = [one for one in walk(phone) if one._type == "Details"]
    assert [one.open for one in folds] == [True]
