"""Everyday names: each plainly one row of the food table, with the weights of what is brought home."""

from __future__ import annotations

import pytest

from ledger.amounts import known_units
from ledger.items import item_key
from ledger.reference import foods
from ledger.reference.everyday import everyday, names


def test_there_are_hundreds_in_either_language():
    assert len(names("en")) >= 300
    assert len(names("de")) >= 300
    assert len(names()) >= 600


@pytest.mark.parametrize("language", ["en", "de"])
def test_every_name_means_one_row_that_is_there(language):
    rows = {}
    for name, food in names(language).items():
        assert foods.by_id(food) is not None, name
        assert rows.setdefault(item_key(name), food) == food, name
        assert everyday(name, language).food == food


def test_no_name_is_a_unit():
    units = {item_key(unit) for unit in known_units()}
    assert not units & {item_key(name) for name in names()}


@pytest.mark.parametrize(
    ("name", "language", "row"),
    [
        ("Eggs", "en", "Egg, whole, raw, fresh"),
        ("Eier", "de", "Egg, whole, raw, fresh"),
        ("Äpfel", "de", "Apples, raw, with skin"),
        ("green beans", "en", "Beans, snap, green, raw"),
        ("Zwetschgen", "de", "Plums, raw"),
        ("paprika", "en", "Spices, paprika"),
        ("Paprika", "de", "Peppers, sweet, green, raw"),
    ],
)
def test_names_as_people_say_them(name, language, row):
    assert everyday(name, language).description == row


@pytest.mark.parametrize("name", ["plum butter", "tomato soup", "bean salad", "egg noodle soup"])
def test_what_is_not_on_the_list_means_nothing(name):
    assert everyday(name) is None


def test_pieces_weigh_what_is_brought_home():
    # A dozen large shell eggs weigh 24 oz at the least and 26 oz at the most (7 CFR 56.218,
    # USDA weight classes, large and the next above), and 50 g each without the shell (SR28).
    dozen = 12 * float(everyday("egg").g_per["piece"])
    assert 24 * 28.349523125 <= dozen <= 27 * 28.349523125
    edible = 1 - float(foods.refuse_pct("01123")) / 100
    assert dozen * edible == pytest.approx(12 * 50, rel=0.001)


def test_a_head_is_one_lettuce_and_weighs_as_much():
    lettuce = everyday("lettuce")
    assert lettuce.pieces_per == {"head": "1"}
    assert float(lettuce.g_per["piece"]) > 300


def test_adopted_at_first_use_and_said(book, fixed_day):
    written = book.write("harvested", {"item": "eggs", "amount": "12"})
    (described,) = [book.log.get(one.id) for one in written.described]
    assert '"food":"01123"' in described.body
    assert '"measure":"count"' in described.body
    assert any("Egg, whole, raw, fresh" in note for note in written.notes)
    book.write("eaten", {"ate": [{"item": "egg", "amount": "12"}]})
    energy = [
        one["amount"]
        for one in book.show("our-table").to_dict()["records"]
        if (one["basis"], one["origin"]) == ("energy", "grown")
    ]
    assert energy == [pytest.approx(12 * 50 * 1.43, rel=0.001)]  # SR28: 143 kcal in 100 g edible


def test_what_is_first_said_in_jars_stays_a_volume(book, fixed_day):
    book.write("bought", {"item": "sauerkraut", "amount": "3 quart jars", "paid": "9"})
    (row,) = book.show("shelf").to_dict()["records"]
    assert row["left"]["measure"] == "volume"
