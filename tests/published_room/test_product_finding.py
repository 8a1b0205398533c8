"""The household's words, the recipe's schedule, and what is no published product."""

from __future__ import annotations

import pytest

from ledger.published import Used, find, jar_size
from ledger.published.batch import BatchDone
from ledger.published.ingredients import ingredient_findings
from ledger.published.jars import next_size
from ledger.published.parts import parts_of


@pytest.mark.parametrize(
    ("words", "product"),
    [
        ("green beans", "snap_beans"),
        ("canned green bean", "snap_beans"),
        ("Apple sauce", "applesauce"),
        ("our crushed tomatoes", "tomatoes_crushed"),
        ("chicken stock", "meat_stock"),
        ("sweet corn", "corn_whole_kernel"),
        ("kidney beans", "dry_beans_or_peas"),
    ],
)
def test_plain_words_find_one_product(words, product):
    assert find(words).candidates == (product,)


@pytest.mark.parametrize("words", ["tomatoes", "dill pickles", "soup", "chicken"])
def test_several_products_are_all_shown(words):
    match = find(words)
    assert len(match.candidates) > 1
    assert "Say which" in match.text
    assert all(f'"{name}"' in match.text for name in [match.text.split('"')[1]])


@pytest.mark.parametrize(
    "words",
    [
        "plum butter",
        "zucchini relish",
        "green tomato chutney",
        "winter soup",
        "pesto",
        "pumpkin butter",
    ],
)
def test_made_up_mixture_has_no_candidate(words):
    match = find(words)
    assert match.candidates == ()
    assert "print no process" in match.text


def test_nearest_is_for_comparison_only():
    assert find("plum butter").near[:2] == ("apple_butter", "plums")
    assert "for comparison only" in find("plum butter").text


@pytest.mark.parametrize(
    "schedule", ["snap_beans-hot-pint-dial-1", "snap_beans", "snap beans", "USDA green beans"]
)
def test_recipes_schedule_goes_before_the_words(schedule):
    match = find("grandmother's jars", recipe_schedule=schedule)
    assert (match.candidates, match.by) == (("snap_beans",), "schedule")


def test_unknown_schedule_is_said():
    match = find("green beans", recipe_schedule="the blue book of 1950")
    assert match.candidates == ("snap_beans",)
    assert "not among the tables held here" in match.text


@pytest.mark.parametrize(
    ("product", "item", "kind"),
    [
        ("tomatoes_crushed", "olive oil", "no published process"),
        ("tomato_sauce", "onion", "no published process"),
        ("tomato_sauce", "corn starch", "no published process"),
        ("soup_vegetable_or_meat", "egg noodles", "no published process"),
        ("soup_vegetable_or_meat", "cream", "no published process"),
        ("peaches", "banana", "no published process"),
        ("applesauce", "cinnamon", "to check yourself"),
        ("tomatoes_crushed", "dried oregano", "to check yourself"),
    ],
)
def test_what_was_added_makes_another_product_of_it(product, item, kind):
    found = against(product, [item])
    assert kind in [one.kind for one in found if one.done == item], found


def against(product, items):
    parts = parts_of([Used(item, "1 cup") for item in items])
    return ingredient_findings(product, parts, BatchDone(product, "pressure"))


@pytest.mark.parametrize(
    ("product", "items"),
    [
        ("tomatoes_crushed", ["Roma tomatoes", "lemon juice", "salt"]),
        ("snap_beans", ["green beans", "canning salt", "water"]),
        ("peaches", ["peaches", "sugar"]),
        ("pickles_dill_quick", ["cucumbers", "vinegar", "salt", "fresh dill", "garlic"]),
        ("spaghetti_sauce_without_meat", ["tomato", "onion", "green pepper", "olive oil", "salt"]),
        ("meat_strips_cubes_chunks", ["stewing beef", "salt"]),
    ],
)
def test_published_ingredients_are_no_departure(product, items):
    assert against(product, items) == []


def test_lacking_acid_is_a_departure():
    (one,) = against("pickles_dill_quick", ["cucumber", "salt"])
    assert one.kind == "no published process"
    assert "holds vinegar" in one.text


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("quart jar", "quart"),
        ("pint", "pint"),
        ("half-pint jars", "half-pint"),
        ("1.5-pint jar", "1.5-pint"),
        ("half-gallon jar", "half-gallon"),
        ("500 ml jar", None),
        ("1 l jar", None),
        ("250 ml jar", None),
        ("crock", None),
        (None, None),
    ],
)
def test_metric_jars_are_not_their_neighbours(name, size):
    assert jar_size(name) == size


def test_a_jar_takes_the_next_larger_printed_size():
    printed = ("pint", "quart")
    assert next_size("1.5-pint jar", printed) == "quart"
    assert next_size("500 ml jar", printed) == "quart"
    assert next_size("1 l jar", printed) is None
    assert next_size("half-pint jar", printed) == "pint"
    assert next_size("12 oz jar", printed) == "pint"
    assert next_size("28 oz jar", printed) == "quart"
