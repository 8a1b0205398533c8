"""The unit by which a skill is timed: what its batches made, and never two measures added up."""

from __future__ import annotations

import pytest

TODAY = "2026-11-01"


@pytest.fixture
def put_up(book, yes):
    """Return a function that writes down an hour's batch of pie filling, frozen in these amounts."""

    def one(day, *amounts):
        body = {
            "makes": "pie filling",
            "method": "freeze",
            "used": [{"item": "apple", "amount": "2 lb"}],
            "made": [{"amount": amount, "kept": "freezer"} for amount in amounts],
            "work": [{"person": "Ada", "minutes": "60"}],
        }
        book.write("put_up", body, on=f"2026-07-{day:02d}", answers=yes)

    return one


def household(book):
    records = book.show("know-how", as_of=TODAY, skill="pie filling").to_dict()["records"]
    return next(record for record in records if record["person"] is None)


def test_quarts_and_pieces_are_not_added_up(book, put_up):
    """Most batches are told by the quart: one told by the piece has no minutes for one."""
    for day, amounts in enumerate((["3 quarts"], ["2 quarts"], ["4 pieces"]), 1):
        put_up(day, *amounts)
    put_up(4, "1 quart", "1 piece")
    assert household(book)["unit"] == "quart"
    points = book.show("know-how", as_of=TODAY, curve="pie filling").to_dict()["records"]
    found = [point["minutes_per_unit"] for point in points]
    assert found == [pytest.approx(20), pytest.approx(30), None, None]


def test_what_is_weighed_but_was_made_by_the_quart_is_told_by_the_quart(book, yes, put_up):
    described = {"item": "pie filling", "sort": "food", "measure": "mass"}
    book.write("item_described", described, on="2026-01-01", answers=yes)
    put_up(1, "3 quarts")
    found = household(book)
    assert (found["unit"], found["minutes_per_unit_lately"]) == ("quart", pytest.approx(20))
