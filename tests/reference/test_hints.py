"""The row that is offered for a new item by itself: none rather than a misleading one."""

from __future__ import annotations

import pytest

from ledger.reference import foods


@pytest.mark.parametrize(
    "made", ["plum butter", "store plum spread", "winter soup", "sourdough starter", "water"]
)
def test_what_is_made_of_something_is_not_that(made):
    assert foods.hint(made) is None


@pytest.mark.parametrize(
    ("name", "row"),
    [
        ("plum", "Plums, raw"),
        ("red onion", "Onions, raw"),
        ("tomato sauce", "Tomato sauce, canned, no salt added"),
        ("apple butter", "Fruit butters, apple"),
        ("cheddar cheese", "Cheese, cheddar"),
        ("bacon", "Pork, cured, bacon, unprepared"),
    ],
)
def test_what_the_table_holds_is_offered(name, row):
    assert foods.hint(name).description == row
