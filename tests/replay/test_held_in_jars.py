"""What was counted, bought or given in jars stands in jars: a count and a volume at once (docs/formats.md, section 1)."""

from __future__ import annotations

import pytest

from ledger import Answers, Book

YES = Answers(yes=True)


@pytest.fixture
def book(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as one:
        yield one


def count(book, *lines, on="2026-11-01"):
    lines = [{"item": item, "amount": amount} for item, amount in lines]
    book.write("counted", {"lines": lines}, on=on, answers=YES)


def shelf(book, on="2026-11-30"):
    rows = book.show("shelf", as_of=on).records()
    return {row["item"]: (row["jar"], row["jars_left"], str(row["left"]["text"])) for row in rows}


def test_a_count_in_jars_is_so_many_jars(book):
    count(book, ("tomato sauce", "12 quart jars"), ("green bean", "8 pint jars"), ("plum jam", "6 half-pint jars"),
          ("cider", "3 1 l jars"), ("stock", "4 qt"))  # fmt: skip
    assert shelf(book) == {
        "tomato sauce": ("quart jar", 12, "12 quart jars"),
        "green bean": ("pint jar", 8, "8 pint jars"),
        "plum jam": ("half-pint jar", 6, "6 half-pint jars"),
        "cider": ("1 l jar", 3, "3 1 l jars"),
        "stock": (None, None, "4 qt"),
    }
    items = {row["item"]: row for row in book.show("shelf", items=True).records()}
    assert (items["tomato sauce"]["jars_left"], items["stock"]["jars_left"]) == (12, None)


@pytest.mark.parametrize("kind", ["bought", "received"])
def test_what_came_in_jars_stands_in_jars(book, kind):
    more = {"paid": "9"} if kind == "bought" else {}
    how = {"how": "gift"} if kind == "received" else {}
    line = {"item": "honey", "amount": "3 pint jars", **more}
    book.write(kind, {**how, "lines": [line]}, on="2026-11-01", answers=YES)
    book.write("eaten", ate=[{"item": "honey", "amount": "1/2 pt"}], on="2026-11-02", answers=YES)
    assert shelf(book)["honey"] == ("pint jar", 2.5, "2.5 pint jars")


def test_one_eaten_is_one_less_and_no_jar_of_the_household_s(book):
    count(book, ("tomato sauce", "12 quart jars"))
    line = {"item": "tomato sauce", "amount": "1 quart jar"}
    book.write("eaten", ate=[line], on="2026-11-02", answers=YES)
    assert shelf(book)["tomato sauce"] == ("quart jar", 11, "11 quart jars")
    assert book.show("shelf").totals["jars"] == {}  # whose they are nobody said


def test_more_than_the_book_had_is_that_many_jars_more(book):
    book.write("harvested", item="tomato", amount="60 lb", on="2026-09-01", answers=YES)
    body = {"makes": "tomato sauce", "method": "boiling water", "minutes": "40",
            "used": [{"item": "tomato", "amount": "21 lb"}], "made": [{"jars": 7, "jar": "quart jar", "kept": "shelf"}]}  # fmt: skip
    book.write("put_up", body, on="2026-09-02", answers=YES)
    count(book, ("tomato sauce", "10 quart jars"))
    rows = book.show("shelf").records()
    found = sorted((row["jar"], row["jars_left"]) for row in rows if row["item"] == "tomato sauce")
    assert found == [("quart jar", pytest.approx(3)), ("quart jar", 7)]


def test_two_sizes_in_one_count_are_told_until_some_went(book):
    count(book, ("jam", "12 pint jars"), ("jam", "4 quart jars"))
    assert shelf(book)["jam"] == (None, None, "4 quart jars, 12 pint jars")
    book.write("eaten", ate=[{"item": "jam", "amount": "1 pint jar"}], on="2026-11-02", answers=YES)
    assert shelf(book)["jam"] == (None, None, "9.5 qt")  # which went nobody said: the volume stands


def test_jars_by_weight_are_jars_too(book):
    """An item reckoned by weight: what a jar of it weighs parts the weight into jars."""
    book.write(
        "item_described",
        item="honey",
        sort="food",
        measure="mass",
        g_per_ml="1.42",
        on="2026-01-01",
    )
    count(book, ("honey", "5 pint jars"))
    jar, jars, text = shelf(book)["honey"]
    assert (jar, jars, text) == ("pint jar", pytest.approx(5), "5 pint jars")


def test_a_tree_of_jars_left_leads_to_the_count(book):
    count(book, ("tomato sauce", "12 quart jars"))
    (row,) = book.show("shelf").records()
    tree = book.why(row["why"], "jars_left")
    assert tree.value == 12
    assert "counted 12 quart jars tomato sauce" in str(tree)
