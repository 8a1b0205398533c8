"""A count without a unit, of what stands in jars: it is jars, and of two sizes it is asked."""

from __future__ import annotations

import json

import pytest

from ledger.book import Book
from ledger.door import Answers
from ledger.errors import NeedsAnswer

USED = [{"item": "tomato", "amount": "9 lb"}]


def _batch(book, jar):
    made = [{"jars": 13, "jar": jar}]
    body = {"makes": "canned bean", "method": "pressure", "used": USED, "made": made}
    book.write("put_up", body, on="2026-08-01", answers=Answers(yes=True))


def _count(book, **answers):
    body = {"lines": [{"item": "canned bean", "amount": "11"}]}
    return book.write("counted", body, on="2026-08-02", answers=Answers(**answers))


def test_a_bare_count_is_in_the_jars_that_it_stands_in(tmp_path):
    book = Book.open(tmp_path / "book.sqlite")
    _batch(book, "pint jar")
    line = json.loads(_count(book).event.body)["lines"][0]
    assert (line["amount"], line["measure"], line["per"]) == ("11 pint jars", "volume", "pint jar")
    _batch(book, "quart jar")
    with pytest.raises(NeedsAnswer, match="pint jar or quart jar"):
        _count(book)
