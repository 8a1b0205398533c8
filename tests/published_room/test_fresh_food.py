"""Fresh food is told from what stands on a shelf, by the food table or by its name.

The kinds that stand on a shelf are those of USDA FSIS, Shelf-Stable Food Safety: jerky, canned and
bottled food, rice, pasta, flour, sugar, spices and oils.
"""

from __future__ import annotations

import pytest

from ledger.published.fresh import is_fresh
from ledger.reference.everyday import everyday

SHELF_STABLE = (
    "rice", "pasta", "flour", "sugar", "salt", "black pepper", "cinnamon", "olive oil", "canned tuna",
    "honey", "vinegar", "lentil", "oatmeal", "milk powder", "dried apple", "raisin", "dried basil",
    "bottled lemon juice", "tomato paste", "ketchup", "baking powder",
)  # fmt: skip
FRESH = (
    "fish", "trout", "chicken", "ground beef", "milk", "yogurt", "ricotta", "egg", "butter", "lettuce",
    "tomato", "strawberry", "potato", "basil", "bread", "shrimp", "tofu", "lemon",
)  # fmt: skip


def judged(name):
    known = everyday(name)
    return is_fresh(name, None if known is None else known.food)


@pytest.mark.parametrize("name", SHELF_STABLE)
def test_what_stands_on_a_shelf_is_not_fresh(name):
    assert not judged(name)


@pytest.mark.parametrize("name", FRESH)
def test_what_spoils_is_fresh(name):
    assert judged(name)


@pytest.mark.parametrize(
    ("name", "fresh"),
    [("Forelle", True), ("Brot", True), ("getrocknete Tomaten", False), ("dried trout", False),
     ("canned fish", False), ("widget", False),
     ("store tomato sauce", False), ("Apfelmus", False), ("cultured butter", True)],
)  # fmt: skip
def test_a_name_without_a_row_is_read(name, fresh):
    assert is_fresh(name) is fresh


def test_the_row_goes_before_the_name():
    assert not is_fresh("tomatoes", everyday("dried tomato").food)
