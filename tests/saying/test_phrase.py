"""The words of every command are read as `say` reads them."""

from __future__ import annotations

import pytest

from ledger.door import Texts
from ledger.saying.phrase import split_price


@pytest.mark.parametrize(
    ("said", "amount", "item"),
    [
        ("a dozen and a half eggs", "18", "eggs"),
        ("two and a half pounds plums", "2.5 lb", "plums"),
        ("2 5-lb bags sugar", "10 lb", "sugar"),
        ("3 x 500 g pasta", "1500 g", "pasta"),
        ("half a bushel of potatoes", "0.5 bushel", "potatoes"),
        ("31 lb 8 oz plum", "31 lb 8 oz", "plum"),
        ("zweieinhalb Kilo Pflaumen", "2.5 kg", "Pflaumen"),
    ],
)
def test_an_amount_in_words_is_read_in_every_command(book, said, amount, item):
    line = Texts(book.catalogue()).line(said)
    assert (line["amount"], line["item"]) == (amount, item)


@pytest.mark.parametrize(
    ("said", "line", "paid"),
    [
        ("10 lb sugar 7.90", "10 lb sugar", "7.90"),
        ("5 lb salt for $2.10", "5 lb salt", "$2.10"),
        ("3 kg Zucker 3,60", "3 kg Zucker", "3,60"),
        ("24 lids 6", "24 lids", "6"),
        ("10 lb sugar", "10 lb sugar", None),
        ("24", "24", None),
    ],
)
def test_a_price_stands_on_the_line(said, line, paid):
    assert split_price(said) == (line, paid)
