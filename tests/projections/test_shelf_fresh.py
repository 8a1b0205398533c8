"""Fresh food of which nobody said how long it keeps: it comes with what wants eating, and says so."""

from __future__ import annotations

from shelf_tools import day, items

AH66 = ("strawberry", "potato")
"""With a storage life in USDA Agriculture Handbook 66: strawberries 5 to 7 days (1968), potatoes 24
to 26 weeks (1954)."""


def bought(book, on, *names, kept=None):
    lines = [{"item": one, "amount": "2 lb", "paid": "1"} for one in names]
    book.write(
        "bought", {"lines": [one | ({"kept": kept} if kept else {}) for one in lines]}, on=on
    )


def pantry(book):
    for name in ("fish", "milk", "sugar", *AH66, "rice"):
        body = {"item": name, "sort": "food", "measure": "mass"}
        book.write("item_described", body, on=day(0))
    keeps = {"item": "cheese", "sort": "food", "measure": "mass", "keeps": {"fridge": "3 weeks"}}
    book.write("item_described", keeps, on=day(0))
    bought(book, day(0), "sugar", "rice")
    bought(book, day(1), "cheese", kept="fridge")
    bought(book, day(2), "potato", "strawberry", "fish")


def ranked(book, **options):
    found = book.show("shelf", as_of=day(2), **options).records()
    return [one["item"] for one in sorted(found, key=lambda one: one["eat_first"])], {
        one["item"]: one for one in found
    }


def test_fresh_food_comes_with_what_wants_eating(book):
    pantry(book)
    order, shelf = ranked(book)
    # the day it came; 5 days on; 3 weeks from the week before; 24 weeks on; a pantry period; none
    assert order == ["fish", "strawberry", "cheese", "potato", "rice", "sugar"]
    assert [shelf[one]["use_by"] for one in ("fish", "strawberry", "sugar")] == [None] * 3


def test_by_item_it_comes_first_as_well(book):
    pantry(book)
    order, found = ranked(book, items=True)
    assert order[:2] == ["fish", "strawberry"]
    assert order[-1] == "sugar"
    assert found["fish"]["best_until"] is None


def test_it_says_that_no_keeping_time_is_known(book):
    pantry(book)
    for shape in ({}, {"items": True}):
        answer = book.show("shelf", as_of=day(2), **shape)
        said = {one.id: str(one.text) for one in answer.assumptions}
        assert said["fresh-not-known"].startswith("No keeping time is known of fish")
        assert "strawberry" in said["fresh-as-published"]
        rests = {one["item"]: one["assumptions"] for one in answer.records()}
        assert "fresh-not-known" in rests["fish"]
        assert "fresh-as-published" in rests["strawberry"]
        assert not {"fresh-not-known", "fresh-as-published"} & set(rests["sugar"])


def test_the_household_s_word_goes_before(book):
    pantry(book)
    body = {"item": "fish", "sort": "food", "keeps": {"shelf": "60 days"}}
    book.write("item_described", body, on=day(0))
    order, shelf = ranked(book)
    assert shelf["fish"]["use_by"] == day(2, 60)
    assert order.index("fish") > order.index("cheese")
    assert "fresh-not-known" not in shelf["fish"]["assumptions"]


def test_frozen_food_and_jars_are_not_fresh(book):
    pantry(book)
    bought(book, day(1), "milk", kept="freezer")
    _, shelf = ranked(book)
    assert "fresh-not-known" not in shelf["milk"]["assumptions"]


def test_leftovers_are_fresh_whatever_they_are_called(book):
    pantry(book)
    left = [{"item": "Tuesday's dish", "amount": "1 qt", "kept": "fridge", "share": "0.5"}]
    ate = [{"item": "potato", "amount": "1 lb"}]
    book.write("eaten", {"ate": ate, "dish": "stew", "left": left}, on=day(2))
    order, _ = ranked(book)
    assert set(order[:2]) == {"fish", "Tuesday's dish"}


def test_the_rank_is_told(book):
    pantry(book)
    assert book.why("shelf/items/fish", "eat_first", as_of=day(2)).value == 1
    assert items(book, day(2))[0]["fish"]["eat_first"] == 1
