"""What is less than a household measures is reckoned, but nobody is told to use it up, no pack is bought for it, and tells no age."""

from __future__ import annotations

import pytest

from dashboard.parts.keeping import soonest
from ledger import Answers, Book

YES = Answers(yes=True)


@pytest.fixture
def book(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as one:
        yield one


def eat(book, item, amount, on):
    book.write("eaten", ate=[{"item": item, "amount": amount}], on=on, answers=YES)


@pytest.mark.parametrize(
    ("came", "went", "is_told"),
    [
        ("10 lb", "4530 g", False),  # 5.9 g of 4.5 kg
        ("10 lb", "4515 g", True),  # 20.9 g: on a kitchen's scales
        ("8 oz", "224 g", False),  # 2.8 g: a hundredth of it
        ("50 g", "42 g", True),  # 8 g of little is much of it
        ("3 g", "2 g", True),  # saffron
    ],
)
def test_nobody_is_told_to_use_up_dust(book, came, went, is_told):
    book.write("item_described", item="tomato", sort="food", keeps={"fridge": "5 days"}, on="2026-07-01", answers=YES)  # fmt: skip
    line = {"item": "tomato", "amount": came, "kept": "fridge"}
    book.write("harvested", lines=[line], on="2026-08-01", answers=YES)
    eat(book, "tomato", went, "2026-08-03")
    rows = book.show("shelf", as_of="2026-08-04").records()
    assert [row["item"] for row in rows] == ["tomato"]  # listed from a gram on
    assert bool(soonest(rows)) == is_told


def test_dust_is_in_no_figure_of_stocking_up_and_no_pack_is_bought_for_it(book):
    price = {"item": "rice", "amount": "10 lb", "paid": "12"}
    for on in ("2026-06-01", "2026-07-06"):
        book.write("bought", lines=[price], on=on, answers=YES)
    for week in range(10):
        eat(
            book,
            "rice",
            "2 lb" if week else "907.9 g",
            f"2026-{6 + (week + 1) // 5:02}-{3 + 7 * ((week + 1) % 4):02}",
        )
    book.write("target_set", item="rice", amount="10 lb", on="2026-06-01", answers=YES)
    (row,) = book.show("stocking-up").records()
    assert row["left"]["whole"] == 0
    assert row["packs_wanted"] == 1
    book.write(
        "bought",
        lines=[{"item": "rice", "amount": "4530 g", "paid": "12"}],
        on="2026-09-01",
        answers=YES,
    )
    (row,) = book.show("stocking-up").records()
    assert row["packs_wanted"] == 0  # 5 g short of ten pounds


def test_a_milligram_of_last_year_tells_nothing_of_how_long_things_keep(book):
    """Oldest first takes what rounding left: chard had kept for 323 days."""
    book.write(
        "item_described", item="chard", sort="food", keeps={"fridge": "5 days"}, on="2025-06-01"
    )
    for on in ("2025-08-01", "2026-06-20"):
        book.write(
            "harvested",
            lines=[{"item": "chard", "amount": "1000 g", "kept": "fridge"}],
            on=on,
            answers=YES,
        )
    eat(book, "chard", "999.999 g", "2025-08-03")
    eat(book, "chard", "500 g", "2026-06-22")
    eat(book, "chard", "499.9 g", "2026-06-23")
    (row,) = [r for r in book.show("keeping-life").records() if r["item"] == "chard"]
    assert (row["at_least_days"], row["subjects"]) == (3, 3)
