"""A season is provisional until its last day is past (rule 8)."""

from __future__ import annotations

import pytest


@pytest.mark.parametrize(
    ("as_of", "provisional"), [("2026-12-30", True), ("2026-12-31", True), ("2027-01-01", False)]
)
def test_harvest_is_provisional_until_the_last_day_is_past(book, fixed_day, as_of, provisional):
    book.write("harvested", item="plum", amount="31 lb", on="2026-09-02")
    assert book.show("shelf", as_of=as_of).frame["provisional"].tolist() == [provisional]
