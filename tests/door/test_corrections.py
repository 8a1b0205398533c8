"""Corrections: lines keep their numbers, measures stay, days and times are taken over."""

from __future__ import annotations

import pytest

from ledger import InputError


def line(item, amount, **more):
    return {"item": item, "amount": amount, **more}


def numbers(written):
    return {one["item"]: one["n"] for one in written.body["lines"]}


@pytest.fixture
def basket(book, fixed_day):
    lines = [line("plum", "3 lb"), line("bean", "2 lb")]
    return book, book.write("harvested", {"lines": lines}, on="2026-09-02", at="07:30")


def test_lines_keep_their_numbers_through_a_correction(basket):
    book, first = basket
    lines = [line("bean", "1 lb"), line("garlic", "1 lb"), line("plum", "3 lb")]
    again = book.write("harvested", {"lines": lines}, replaces=first.event.id)
    assert numbers(again) == {"bean": 2, "garlic": 3, "plum": 1}


def test_number_of_a_line_that_is_gone_is_not_given_again(basket):
    book, first = basket
    second = book.write("harvested", {"lines": [line("plum", "3 lb")]}, replaces=first.event.id)
    lines = [line("plum", "3 lb"), line("leek", "1 lb")]
    third = book.write("harvested", {"lines": lines}, replaces=second.event.id)
    assert numbers(third) == {"plum": 1, "leek": 3}


def test_correction_without_a_day_keeps_the_day_and_time(basket):
    book, first = basket
    again = book.write("harvested", line("plum", "4 lb"), replaces=first.event.id)
    assert (again.event.on, again.event.at) == ("2026-09-02", "07:30")


def test_lot_of_a_corrected_entry_is_the_item_that_it_says_now(basket, yes):
    book, first = basket
    second = book.write("harvested", line("plum", "3 lb"), replaces=first.event.id)
    lot = f"{first.event.id}:2"  # the beans, gone since
    written = book.write("eaten", {"ate": [line("bean", "1 lb", lot=lot)]}, answers=yes)
    assert "no such lot" in written.notes[0]
    lot = f"{second.event.id}:1"  # any event of the entry names it
    assert not book.write("eaten", {"ate": [line("plum", "1 lb", lot=lot)]}).notes


def test_lot_of_a_struck_entry_is_asked_about_however_it_was_struck(basket, yes):
    book, first = basket
    second = book.write("harvested", line("plum", "3 lb"), replaces=first.event.id)
    book.strike(second.event.id, "never was")
    meal = {"ate": [line("plum", "1 lb", lot=f"{first.event.id}:1")]}
    assert "taken back" in book.write("eaten", meal, answers=yes).notes[0]
    book.write("harvested", line("plum", "3 lb"), replaces=second.event.id)
    assert not book.write("eaten", meal).notes


def test_lot_of_the_same_day_but_a_later_phase_is_asked_about(book, fixed_day, yes):
    left = [{"item": "stew", "amount": "1 qt", "share": "0.5"}]
    meal = book.write("eaten", {"ate": [line("plum", "1 lb")], "left": left}, on="2026-09-02")
    batch = {"makes": "powder", "method": "dry", "made": [{"amount": "1 oz"}]}
    used = [line("stew", "1 cup", lot=f"{meal.event.id}:1")]
    written = book.write("put_up", batch | {"used": used}, on="2026-09-02", answers=yes)
    assert "later" in written.notes[0]
    assert not book.write("put_up", batch | {"used": used}, on="2026-09-03").notes


def test_striking_twice_is_refused_through_any_event_of_the_entry(basket):
    book, first = basket
    second = book.write("harvested", line("plum", "3 lb"), replaces=first.event.id)
    book.strike(first.event.id, "never was")
    with pytest.raises(InputError, match="taken back already"):
        book.strike(second.event.id, "again")


def described(book, **body):
    return book.write("item_described", {"sort": "food", **body}, on="2026-09-02")


def test_items_with_lines_of_different_measures_are_merged(basket):
    book, _ = basket
    described(book, item="prune", measure="count")
    book.write("harvested", line("prune", "3"), on="2026-09-02")
    described(book, item="plum", also=["prune"])
    left = book.show("shelf", item="plum").to_dict()["records"]
    # kept by count, as said last; the plums were picked by weight, and one weighs 66 g of SR28
    # without the stone, which is 6 % of it
    grams = 66 / 0.94
    assert {one["left"]["measure"] for one in left} == {"count"}
    assert 3000 in [one["left"]["whole"] for one in left]
    assert any(abs(one["left"]["whole"] - 1360.777e3 / grams) < 1000 for one in left)


def test_two_items_of_one_measure_are_merged(basket):
    book, _ = basket
    described(book, item="prune", measure="mass")
    book.write("harvested", line("prune", "3 lb"), on="2026-09-02")
    described(book, item="plum", also=["prune"])
    assert book.write("harvested", line("Prunes", "1 lb")).body["lines"][0]["item"] == "plum"
    with pytest.raises(InputError, match="another name"):
        described(book, item="prune", also=["plum"])


def test_measure_may_change_at_any_time(book, fixed_day):
    described(book, item="plum", measure="count", g_per={"piece": "50"})
    book.write("harvested", line("plum", "3 lb"), on="2026-09-02")

    def left():
        (row,) = book.show("shelf").to_dict()["records"]
        return row["left"]["measure"], row["left"]["whole"]

    assert left() == ("count", round(3 * 453_592.37 / 50))
    changed = described(book, item="plum", measure="mass")
    assert left() == ("mass", round(3 * 453_592.37))
    book.strike(changed.event.id, "by mistake")
    assert left()[0] == "count"


def test_trimmed_part_is_weighed_anew_with_its_line(book, fixed_day):
    book.write("harvested", {"item": "plum", "amount": "1 lb"}, on="2026-08-01")
    plum = {"item": "plum", "sort": "food"}
    book.write("item_described", {**plum, "g_per": {"piece": "60"}}, on="2026-08-01")
    body = {"item": "plum", "amount": "10", "trimmed": "2"}
    first = book.write("harvested", body, on="2026-08-02").event.id

    def left():
        shelf = book.show("shelf", as_of="2026-08-02")
        (row,) = [one for one in shelf.to_dict()["records"] if one["lot"] == f"{first}:1"]
        return row["left"]["whole"]

    assert left() == 480_000
    book.write("item_described", {**plum, "g_per": {"piece": "100"}}, on="2026-08-03")
    assert left() == 800_000
