"""Choices in the address: only what somebody changed is written there."""

from __future__ import annotations

from dash import no_update

from dashboard.callbacks import changed_choices, changed_search
from dashboard.parts import choice
from dashboard.parts.choices import written


def listed(**values):
    return [{"id": {"choice": name}, "value": value} for name, value in values.items()]


def test_page_just_drawn_changes_nothing():
    said = changed_choices(listed(item="jam", trips=4), listed(item="jam", trips="4"))
    assert said == {}
    assert changed_search("?item=jam", said) is no_update
    assert changed_search("", said) is no_update


def test_only_the_changed_one_goes_into_the_address():
    said = changed_choices(listed(item="jam", trips=5), listed(item="jam", trips="4"))
    assert said == {"trips": 5}
    assert changed_search("?season=2025", said) == "?season=2025&trips=5"


def test_emptied_one_leaves_the_address():
    said = changed_choices(listed(budget="", trips="4"), listed(budget="20", trips="4"))
    assert changed_search("?budget=20&trips=4", said) == "?trips=4"


def test_choice_that_was_not_marked_counts_as_said():
    bare = [{"id": {"choice": "find"}}]
    assert changed_choices(listed(find="plum"), bare) == {"find": "plum"}


def test_choices_carry_what_they_were_drawn_with():
    for one in (choice("item", "Item", "jam", [("jam", "jam")]), written("n", "N", "jam", "4")):
        assert one.to_plotly_json()["props"]["data-drawn"] == "jam"


def test_number_box_asks_for_the_keypad_and_says_what_is_wrong():
    box = written("n", "N", "x", "4", error="not a number", keypad=True)
    assert box.inputMode == "decimal"
    assert box.error == "not a number"
