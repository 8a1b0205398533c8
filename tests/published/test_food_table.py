"""Household measures and energies, typed from USDA SR28 (2015): A1 in docs/sources.md."""

from fractions import Fraction as F

import pytest

from ledger.reference import containers, foods

LB = F("453.59237")

# (id, unit, grams of the edible portion) SR28 WEIGHT file
MEASURES = [
    ("01001", "tbsp", "14.2"),
    ("01001", "cup", "227"),
    ("01123", "piece", "44"),
    ("09003", "piece", "182"),
    ("11215", "clove", "3"),
    ("19335", "cup", "200"),
    ("20081", "cup", "125"),
]
# (id, kcal per 100 g, refuse %) SR28 FOOD_DES and NUT_DATA
ENERGIES = [
    ("01001", "717", 0),
    ("01004", "353", 0),
    ("01123", "143", 12),
    ("09279", "46", 6),
    ("09291", "240", 13),
    ("11215", "149", 13),
    ("11529", "18", 9),
    ("19335", "387", 0),
]
# (crop, container, lb, basis) Circular 780 and extension lists, B2 to B6
CONTAINERS = [
    ("tomatoes", "bushel", 53),
    ("tomatoes", "lug", 32),
    ("apples", "peck", 12),
    ("peaches", "bushel", 50),
    ("peaches", "lug", F("20.5")),
    ("plums", "bushel", 53),
    ("plums", "peck", 14),
    ("potatoes", "bushel", 60),
]
# Minnesota Statutes 239.32 (B2), pounds to the bushel, as the statute prints them
MINNESOTA = [
    ("wheat", 60), ("rye", 56), ("flaxseed", 56), ("sweet potatoes", 55), ("turnips", 55), ("onions", 52),
    ("rutabagas", 52), ("buckwheat", 50), ("hempseed", 50), ("beets", 50), ("walnuts", 50), ("rhubarb", 50),
    ("hickory nuts", 50), ("chestnuts", 50), ("tomatoes", 50), ("barley", 48), ("millet", 48), ("sweet corn", 48),
    ("cucumbers", 48), ("peaches", 48), ("carrots", 45), ("pears", 45), ("lima beans", 56), ("rapeseed", 50),
]  # fmt: skip


@pytest.mark.parametrize(("food", "unit", "grams"), MEASURES)
def test_household_measure_weighs_as_published(food, unit, grams):
    assert foods.household_measure(food, unit).grams == F(grams)


@pytest.mark.parametrize(("food", "kcal", "refuse"), ENERGIES)
def test_energy_and_refuse_are_as_published(food, kcal, refuse):
    assert (foods.kcal_per_100g(food), foods.refuse_pct(food)) == (F(kcal), refuse)


@pytest.mark.parametrize(("crop", "container", "pounds"), CONTAINERS)
def test_container_weighs_as_an_extension_service_prints(crop, container, pounds):
    assert containers.weight(crop, container).grams == pytest.approx(pounds * LB)


@pytest.mark.parametrize(("crop", "pounds"), MINNESOTA)
def test_legal_bushel_of_minnesota_is_among_the_weights(crop, pounds):
    legal = [w for w in containers.weights(crop, "bushel") if w.basis == "legal_minnesota"]
    assert any(w.grams == pounds * LB for w in legal)


def test_all_nine_hundred_six_foods_are_shipped():
    from ledger.reference._read import rows

    assert len(rows("foods")) == 906
    assert len(rows("portions")) == 2123


def test_value_of_a_portion_is_weight_times_value_over_hundred():
    """SR28 documentation (A2): N = V x W / 100; a tablespoon of butter has 717 x 14.2 / 100 kcal."""
    butter = foods.household_measure("01001", "tbsp").grams * foods.kcal_per_100g("01001") / 100
    assert float(butter) == pytest.approx(101.814)
