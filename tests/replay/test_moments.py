"""A season is provisional until its last day is past (rule 8)."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("as_of", "provisional"), [("2026-12-30", True), ("2026-12-31", True), ("2027-01-01", False)]
)
def test_harvest_is_provisional_until_the_last_day_is_past(book, fixed_day, as_of, provisional):
    book.write("harvested", item="plum", amount="31 lb", on="2026-09-02")
    assert book.show("shelf", as_of=as_of).frame["provisional"].tolist() == [provisional]


def test_answer_of_an_earlier_moment_stands_while_the_book_grows(book, fixed_day):
    book.write("harvested", item="plum", amount="31 lb", on="2026-09-02")
    before = book.state(as_of="2026-10-01")
    book.write("bought", item="sugar", amount="10 lb", paid="7.90", on="2026-09-03")
    book.replay()
    assert before.costs.lot.shape[0] == 1
    assert before.bodies("item_described")[0][1]["item"] == "plum"
