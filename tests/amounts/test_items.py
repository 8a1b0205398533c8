"""Names: what is the same item, and what is a slip."""

import pytest

from ledger.items import ItemFacts, item_key, merge, near_misses


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Tomatoes", "tomato"),
        ("plum  butter", "Plum Butters"),
        ("cherries", "cherry"),
        ("loaves", "loaf"),
        ("radishes", "radish"),
    ],
)
def test_case_plural_and_spacing_do_not_matter(one, other):
    assert item_key(one) == item_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [("plum", "plum butter"), ("asparagus", "asparagu"), ("glass", "glas"), ("bean", "beet")],
)
def test_other_things_stay_apart(one, other):
    assert item_key(one) != item_key(other)


def test_slip_is_found_and_digits_are_not_slips():
    assert near_misses("tomatto", ["tomato", "potato"]) == ["tomato"]
    assert near_misses("food 12", ["food 11", "food 13"]) == []
    assert near_misses("plum butter", ["plum"]) == []


def test_weights_merge_unit_by_unit():
    facts = merge(ItemFacts(), {"sort": "food", "g_per": {"clove": "5", "head": "45"}})
    facts = merge(facts, {"g_per": {"clove": "6"}})
    assert (facts.sort, facts.g_per) == ("food", {"clove": "6", "head": "45"})
