"""The first row proposed for a plain kitchen word is the plain kind (USDA SR28 descriptions)."""

from __future__ import annotations

import pytest

from ledger.reference import foods

PLAIN = [
    ("sugar", "19335", "Sugars, granulated"),
    ("tomato", "11529", "Tomatoes, red, ripe, raw, year round average"),
    ("milk", "01077", "Milk, whole, 3.25% milkfat, with added vitamin D"),
    ("plum", "09279", "Plums, raw"),
    ("onion", "11282", "Onions, raw"),
    ("carrot", "11124", "Carrots, raw"),
    ("cabbage", "11109", "Cabbage, raw"),
    ("butter", "01001", "Butter, salted"),
    ("egg", "01123", "Egg, whole, raw, fresh"),
    ("honey", "19296", "Honey"),
    ("salt", "02047", "Salt, table"),
    ("olive oil", "04053", "Oil, olive, salad or cooking"),
    ("strawberry", "09316", "Strawberries, raw"),
    ("green bean", "11052", "Beans, snap, green, raw"),
]
SAID = [
    ("brown sugar", "19334", "Sugars, brown"),
    ("green tomato", "11527", "Tomatoes, green, raw"),
    ("dried apple", "09011", "Apples, dried, sulfured, uncooked"),
]


@pytest.mark.parametrize(("name", "food", "description"), PLAIN + SAID)
def test_likeliest_row_comes_first(name, food, description):
    first = foods.propose(name)[0]
    assert (first.food_id, first.description) == (food, description)


def test_nothing_is_proposed_for_what_is_no_food():
    assert foods.propose("zzyzx") == ()
