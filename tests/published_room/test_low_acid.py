"""Food of little acid in boiling water: said first, and said of nothing else.

What is low in acid: USDA Complete Guide to Home Canning (2015), guides 3 (tomatoes), 4 (vegetables)
and 5 (meats), whose tables print a pressure process only.
"""

from __future__ import annotations

import pytest

from ledger.published import low_acid_caution
from ledger.published.finding import find, lines_of
from ledger.reference.schedules import products

WORDS = ("boiling water", "water-bath", "Water bath", "steamer", "open kettle", "oven")


@pytest.mark.parametrize("method", WORDS)
@pytest.mark.parametrize(
    "food", ["green beans", "carrots", "corn", "beets", "asparagus", "chicken", "stock", "peas", "dry beans"]
)  # fmt: skip
def test_food_published_for_pressure_only_is_said_first(food, method):
    said = low_acid_caution(food, method)
    assert said.startswith(f"CAUTION: {food}: food of little acid.")
    assert "botulism" in said
    assert "do not taste" in said


@pytest.mark.parametrize("method", ["pressure", "freeze", "dry", "ferment", "cellar", None])
def test_other_methods_are_let_be(method):
    assert low_acid_caution("green beans", method) is None


@pytest.mark.parametrize("product", sorted(products()))
def test_every_published_product_by_its_own_tables(product):
    name = products()[product].label
    fit = find(name).candidates
    boiled = any(lines_of(one, "boiling water") for one in fit)
    assert (low_acid_caution(name, "boiling water") is None) == boiled


@pytest.mark.parametrize(
    ("makes", "used", "named"),
    [
        ("leek pot", ["3 lb leek", "1 lb potato"], "leek pot, 3 lb leek, 1 lb potato"),
        ("tomato sauce", ["20 lb tomato", "2 lb pepper", "salt"], "2 lb pepper"),
        ("apple butter", ["10 lb apple", "2 lb pumpkin"], "2 lb pumpkin"),
        ("pumpkin butter", ["5 lb pumpkin", "2 lb sugar"], "pumpkin butter, 5 lb pumpkin"),
        ("garlic in oil", ["1 lb garlic", "1 qt olive oil"], "garlic in oil, 1 lb garlic"),
    ],
)
def test_a_mixture_is_named_by_what_makes_it_so(makes, used, named):
    assert low_acid_caution(makes, "boiling water", tuple(used)).startswith(f"CAUTION: {named}: ")


@pytest.mark.parametrize(
    ("makes", "used"),
    [
        ("plum butter", ["16 lb plum", "3 lb sugar"]),
        ("tomato sauce", ["20 lb tomato", "lemon juice"]),
        ("green tomato chutney", ["4 lb green tomato", "2 lb onion", "1 qt vinegar"]),
        ("pickled beets", ["7 lb beet", "1 qt vinegar"]),
        ("strawberry jam", ["4 lb strawberry", "sugar"]),
        (None, ["bean"]),
    ],
)
def test_nothing_is_said_where_nothing_is_known_to_be_low_in_acid(makes, used):
    assert low_acid_caution(makes, "boiling water", tuple(used)) is None
