"""A purchase whose price was not said: it waits, and no figure is made up or lost for it."""

from __future__ import annotations

import math

import pytest

from ledger import Answers
from ledger.errors import InputError
from ledger.projections import PROJECTIONS

SPOKEN = Answers(spoken=True, yes=True)


def buy(book, item, amount, paid=None, on="2026-05-01", **more):
    line = {"item": item, "amount": amount, **({"paid": paid} if paid else {}), **more}
    return book.write("bought", {"lines": [line]}, on=on, answers=SPOKEN)


def eat(book, item, amount):
    book.write(
        "eaten", {"ate": [{"item": item, "amount": amount}]}, on="2026-06-01", answers=SPOKEN
    )


def test_it_costs_the_shop_price_of_its_day_as_an_assumption(book, fixed_day):
    buy(book, "sugar", "10 lb", "5", on="2026-04-01")
    buy(book, "sugar", "10 lb")
    shelf = book.show("shelf").frame
    assert shelf["cost_left"].tolist() == pytest.approx([5.0, 5.0])


def test_it_is_no_price_itself(book, fixed_day):
    buy(book, "rice", "10 lb")
    assert book.show("shelf").frame["cost_left"].tolist() == [0.0]
    assert book.show("shelf").frame["unpriced"].tolist() == [["rice"]]


def test_every_question_has_an_answer(book, fixed_day):
    buy(book, "rice", "10 lb")
    buy(book, "compost", "20 lb", for_crop="tomato")
    buy(book, "canner", "1", years="10")
    buy(book, "quart jar", "12")
    book.write(
        "harvested",
        {"lines": [{"item": "tomato", "amount": "9 lb"}]},
        on="2026-07-01",
        answers=SPOKEN,
    )
    eat(book, "rice", "1 lb")
    for name in PROJECTIONS:
        if name == "touched":
            continue
        for record in book.show(name).rows():
            bad = [
                k for k, value in record.items() if isinstance(value, float) and math.isnan(value)
            ]
            assert not bad, (name, bad)


def test_a_command_and_a_file_still_need_the_price(book):
    with pytest.raises(InputError, match="paid: is missing"):
        book.write("bought", {"item": "rice", "amount": "10 lb"})
