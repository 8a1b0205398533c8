"""The sort that a new item gets by its name: feed is no food, and that of hens goes into eggs."""

from __future__ import annotations

import pytest

from ledger import Answers


@pytest.mark.parametrize(
    ("name", "sort", "feeds"),
    [("layer feed", "garden input", "egg"), ("Hühnerfutter", "garden input", "egg"),
     ("goat feed", "supply", None), ("carrot seed", "supply", None), ("lid", "lid", None),
     ("linseed", "food", None), ("feed", "supply", None)],
)  # fmt: skip
def test_sort_of_a_new_item(book, name, sort, feeds):
    line = {"item": name, "amount": "50 lb" if sort != "lid" else "12", "paid": "9"}
    book.write("bought", {"lines": [line]}, on="2026-05-01", answers=Answers(yes=True))
    facts = book.catalogue().facts(name)
    assert (facts.sort, facts.feeds) == (sort, feeds)
