"""Food of little acid in boiling water: said first, and said of nothing else.

What is low in acid: USDA Complete Guide to Home Canning (2015), guides 3 (tomatoes), 4 (vegetables)
and 5 (meats), whose tables print a pressure process only.
"""

from __future__ import annotations

import pytest

from ledger.published import batch_as_typed, caution_before
from ledger.published.finding import find, lines_of
from ledger.reference.schedules import products


def caution(makes, method, used=()):
    return caution_before(batch_as_typed({"makes": makes, "method": method, "used": list(used)}))


WORDS = ("boiling water", "water-bath", "Water bath", "steamer", "open kettle", "oven")


@pytest.mark.parametrize("method", WORDS)
@pytest.mark.parametrize(
    "food", ["green beans", "carrots", "corn", "beets", "asparagus", "chicken", "stock", "peas", "dry beans"]
)  # fmt: skip
def test_food_published_for_pressure_only_is_said_first(food, method):
    said = caution(food, method)
    assert said.startswith(f"CAUTION: {food}: food of little acid.")
    assert "botulism" in said
    assert "do not taste" in said


@pytest.mark.parametrize("method", ["pressure", "freeze", "dry", "ferment", "cellar", None])
def test_other_methods_are_let_be(method):
    assert caution("green beans", method) is None


@pytest.mark.parametrize("product", sorted(products()))
def test_every_published_product_by_its_own_tables(product):
    name = products()[product].label
    fit = find(name).candidates
    boiled = any(lines_of(one, "boiling water") for one in fit)
    tomato = products()[product].group == "tomato" or "fig" in name or "Asian" in name
    if boiled and tomato:
        return  # on the border: the caution stands until its acid is written down, tested below
    assert (caution(name, "boiling water") is None) == boiled


@pytest.mark.parametrize("food", ["crushed tomatoes", "figs", "Asian pears"])
def test_food_on_the_border_is_cautioned_until_its_acid_is_written_down(food):
    said = {"makes": food, "method": "boiling water", "used": [f"10 lb {food}"]}
    assert caution_before(batch_as_typed(said)).startswith(f"CAUTION: {food}")
    assert caution_before(batch_as_typed({**said, "acid": ["1 tbsp lemon juice"]})) is None


@pytest.mark.parametrize(
    ("makes", "used", "named"),
    [
        ("leek pot", ["3 lb leek", "1 lb potato"], "leek pot, leek, potato"),
        ("tomato sauce", ["20 lb tomato", "2 lb pepper", "1 tbsp salt"], "pepper"),
        ("apple butter", ["10 lb apple", "2 lb pumpkin"], "pumpkin"),
        ("pumpkin butter", ["5 lb pumpkin", "2 lb sugar"], "pumpkin butter, pumpkin"),
        ("green tomato chutney", ["4 lb green tomato", "2 lb onion", "1 qt vinegar"], "onion"),
        ("garlic in oil", ["1 lb garlic", "1 qt olive oil"], "garlic in oil, garlic"),
    ],
)
def test_a_mixture_is_named_by_what_makes_it_so(makes, used, named):
    assert caution(makes, "boiling water", used).startswith(f"CAUTION: {named}: ")


@pytest.mark.parametrize(
    ("makes", "used"),
    [
        ("plum butter", ["16 lb plum", "3 lb sugar"]),
        ("tomato sauce", ["20 lb tomato", "1 cup bottled lemon juice"]),
        ("pickled beets", ["7 lb beet", "1 qt vinegar"]),
        ("strawberry jam", ["4 lb strawberry", "sugar"]),
        (None, ["bean"]),
    ],
)
def test_nothing_is_said_where_nothing_is_known_to_be_low_in_acid(makes, used):
    assert caution(makes, "boiling water", used) is None


def test_pumpkin_butter_is_warned_of_and_butter_is_no_bean():
    for said in ("pumpkin butter", "mashed squash", "Kürbismus"):
        assert "Not to be canned at home" in find(said).text
    assert "Not to be canned" not in find("plum butter").text
    assert "lima_beans_shelled" not in (*find("plum butter").near, *find("pumpkin butter").near)
