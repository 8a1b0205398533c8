"""The shelf ahead: what passes its best before it is eaten, and what is eaten first."""

from __future__ import annotations

import pytest
from shelf_tools import KG, day, eat, items, weekly


def test_what_passes_its_best_before_it_is_eaten(book):
    """Six with two weeks and ten with four, two a week: two and six are left standing."""
    keeps = {"item": "egg", "sort": "food", "measure": "count", "keeps": {"fridge": "6 weeks"}}
    book.write("item_described", keeps, on=day(0))
    line = {"item": "egg", "paid": "1", "kept": "fridge"}
    book.write("bought", {"lines": [line | {"amount": "16"}]}, on=day(0))
    for week in range(8):
        eat(book, "egg", "2", day(week, 3))
    book.write("bought", {"lines": [line | {"amount": "6"}]}, on=day(4, -1))
    book.write("bought", {"lines": [line | {"amount": "10"}]}, on=day(6, -1))
    one = items(book, day(8, -1))[0]["egg"]
    assert one["used_per_week"]["likely"] == pytest.approx(2.0, rel=0.1)
    assert one["past_best"] == pytest.approx(8.0, rel=0.1)
    assert one["past_best_on"] == day(10, -1) == one["best_until"]


def canned(book, keeps=None):
    body = {"item": "apple sauce", "sort": "food", "measure": "volume"}
    book.write("item_described", body | ({"keeps": keeps} if keeps else {}), on=day(0))
    book.write("harvested", {"lines": [{"item": "apple", "amount": "40 kg"}]}, on=day(0))
    made = [{"jars": 8, "jar": "half-pint jar", "kept": "shelf"}]
    book.write(
        "put_up",
        {"makes": "apple sauce", "method": "boiling water", "made": made,
         "used": [{"item": "apple", "amount": "8 kg"}], "minutes": "15", "pack": "hot",
         "headspace": "1/2 in", "altitude": "800 ft", "loads": 1},
        on=day(0),
    )  # fmt: skip


def test_published_period_is_never_the_use_by(book):
    canned(book)
    (lot,) = (r for r in book.show("shelf", as_of=day(4)).records() if r["item"] == "apple sauce")
    assert (lot["use_by"], lot["days_left"]) == (None, None)
    assert lot["best_quality"] is not None
    one = items(book, day(4))[0]["apple sauce"]
    assert one["best_until"] == "2025-01-07"
    assert "best-as-published" in one["assumptions"]
    tree = book.why("shelf/items/apple-sauce", "past_best", as_of=day(4))
    assert tree.how in ("sum", "as written")


def test_open_jar_and_leftovers_have_their_short_lives(book):
    canned(book, {"shelf": "12 months", "fridge": "3 weeks"})
    eat(book, "apple sauce", "1 cup", day(3))
    eat(book, "apple sauce", "0.5 cup", day(4))
    shelf = {r["item"]: r for r in book.show("shelf", as_of=day(5)).records()}
    assert shelf["apple sauce"]["use_by"] == day(7)
    body = {"item": "soup", "sort": "food", "measure": "volume", "keeps": {"fridge": "4 days"}}
    book.write("item_described", body, on=day(0))
    left = [{"item": "soup", "amount": "1 qt", "kept": "fridge", "share": "0.4"}]
    book.write(
        "eaten", {"ate": [{"item": "apple", "amount": "2 kg"}], "dish": "soup", "left": left}, on=day(5)
    )  # fmt: skip
    shelf = {r["item"]: r for r in book.show("shelf", as_of=day(5)).records()}
    assert (shelf["soup"]["use_by"], shelf["soup"]["kept"]) == (day(5, 4), "fridge")
    assert items(book, day(5))[0]["soup"]["best_until"] == day(5, 4)


def test_first_to_pass_its_best_comes_first(book):
    for name, life in (("milk", "5 days"), ("oats", "2 years")):
        keeps = {"item": name, "sort": "food", "measure": "mass", "keeps": {"shelf": life}}
        book.write("item_described", keeps, on=day(0))
        weekly(book, name, "20 kg", "1 kg", 6)
    found, _ = items(book, day(6, -1))
    assert [found[name]["eat_first"] for name in ("milk", "oats")] == [1, 2]
    assert found["milk"]["past_best"] == pytest.approx(14 * KG, rel=0.1)
    assert found["oats"]["past_best"] == 0.0
