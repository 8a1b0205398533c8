"""Published yields through the lookups, and the worked garden plans printed with them.

The expected figures are typed here from the sources and not read from the packaged table.
"""

from __future__ import annotations

import math

import pytest

from ledger.methods.yields import Seasons, household_of, yield_ahead
from ledger.reference import planting
from ledger.reference.planting import (
    per_person,
    plant_family,
    published_range,
    published_yields,
)

# Home Vegetable Gardening in Kentucky (ID-128), University of Kentucky, as printed in 2014:
# crop as people say it, pounds on 100 feet of row, planting for one person fresh and to put up
KENTUCKY = [
    ("asparagus", 30, (10, 15), (10, 15), "plants"),
    ("bush beans", 120, (15, 16), (15, 20), "ft_row"),
    ("pole beans", 150, (5, 6), (8, 10), "ft_row"),
    ("bush lima beans", 25, (10, 15), (15, 20), "ft_row"),
    ("pole lima beans", 50, (5, 6), (8, 10), "ft_row"),
    ("beets", 150, (5, 10), (10, 20), "ft_row"),
    ("broccoli", 100, (3, 5), (5, 6), "plants"),
    ("brussels sprouts", 75, (2, 5), (5, 8), "plants"),
    ("cabbage", 150, (3, 4), (5, 10), "plants"),
    ("carrots", 100, (5, 10), (10, 15), "ft_row"),
    ("cauliflower", 100, (3, 5), (8, 12), "plants"),
    ("celeriac", 60, (5, 5), (5, 5), "ft_row"),
    ("Swiss chard", 75, (3, 5), (8, 12), "plants"),
    ("kale", 100, (5, 10), (5, 10), "ft_row"),
    ("cucumbers", 120, (1, 2), (3, 5), "hills"),
    ("eggplants", 100, (2, 3), (2, 3), "plants"),
    ("kohlrabi", 75, (3, 5), (5, 10), "ft_row"),
    ("okra", 100, (4, 6), (6, 10), "ft_row"),
    ("onions", 100, (3, 5), (30, 50), "ft_row"),
    ("parsley", 30, (1, 3), (1, 3), "ft_row"),
    ("parsnips", 100, (10, 10), (10, 10), "ft_row"),
    ("peas", 20, (15, 20), (40, 60), "ft_row"),
    ("snow peas", 20, (10, 15), (30, 40), "ft_row"),
    ("southern peas", 40, (10, 15), (20, 50), "ft_row"),
    ("peppers", 60, (3, 5), (3, 5), "plants"),
    ("sweet potatoes", 100, (5, 10), (10, 20), "plants"),
    ("pumpkins", 100, (1, 2), (1, 2), "hills"),
    ("salsify", 100, (5, 5), (5, 5), "ft_row"),
    ("soybeans", 20, (50, 50), (50, 50), "ft_row"),
]


@pytest.mark.parametrize(("crop", "pounds", "fresh", "keep", "unit"), KENTUCKY)
def test_kentucky_table(crop, pounds, fresh, keep, unit):
    found = [
        y
        for y in published_yields(crop)
        if y.row_ft == 100 and y.source.publisher.startswith("University of Kentucky")
    ]
    assert [(y.low, y.high) for y in found] == [(pounds, pounds)] * len(found)
    assert found[0].low_g == pytest.approx(pounds * 453.59237 / 30.48)
    plan = [p for p in per_person(crop) if p.source == found[0].source]
    assert (plan[0].fresh, plan[0].keep, plan[0].unit) == (fresh, keep, unit)


def test_kentucky_corn_has_no_weight():
    (found,) = (y for y in published_yields("sweet corn") if y.garden)
    assert (found.low, found.unit, found.low_g) == (10, "dozen_ears", None)
    assert published_range("sweet corn", row_m=30) is None


def test_kentucky_garlic_is_not_planted_to_eat_fresh():
    (found,) = per_person("garlic")
    assert (found.fresh, found.keep) == (None, (1, 5))


def test_recalled_lines_say_so():
    for crop in ("tomato", "potato", "zucchini", "winter squash", "turnips"):
        found = published_yields(crop)[0]
        assert found.from_memory
        assert published_range(crop, row_m=10).note.endswith("from memory")


# Midwest Vegetable Production Guide 2022, page 30: tons per acre, average and excellent
MIDWEST = [
    ("asparagus", 1, 2),
    ("snap beans", 2, 4),
    ("cabbage", 13, 20),
    ("cantaloupes", 10, 19),
    ("slicing cucumber", 9, 15),
    ("pickling cucumbers", 6, 12),
    ("onion", 13, 23),
    ("green pepper", 14, 20),
    ("potato", 10, 20),
    ("pumpkin", 10, 25),
    ("spinach", 6, 10),
    ("summer squash", 10, 16),
    ("sweet corn", 4.5, 10),
    ("sweet potato", 7, 15),
    ("slicing tomatoes", 11, 15),
    ("paste tomatoes", 25, 33),
    ("watermelon", 15, 25),
]


@pytest.mark.parametrize(("crop", "average", "excellent"), MIDWEST)
def test_field_yields(crop, average, excellent):
    (found,) = (y for y in published_yields(crop) if not y.garden)
    assert (found.low, found.high, found.unit) == (average, excellent, "tons_per_acre")
    # 1 short ton on an acre is 224.17 g on a square metre (NIST SP 811)
    assert published_range(crop, area_m2=1.0).low_g == pytest.approx(average * 224.17, rel=1e-4)


@pytest.mark.parametrize(
    ("people", "pounds_each", "pounds_a_foot", "feet"),
    [
        (4, 20, 2.5, 32),  # tomatoes, USDA Community Garden Guide figures: 32 feet of row
        (1, 6, 0.6, 10),  # asparagus, the same: 10 feet for one person
    ],
)
def test_worked_row_length(people, pounds_each, pounds_a_foot, feet):
    found = yield_ahead(Seasons((), pounds_a_foot), household_of([]))
    assert found.units(people * pounds_each) == pytest.approx(feet)


def test_worked_family_of_five():
    # UGA county agent, after the USDA guide: 12 feet of snap beans a person, 60 for five
    (plan,) = (p for p in per_person("snap beans") if p.unit == "lb")
    (found,) = (y for y in published_yields("snap beans") if y.row_ft == 12)
    assert plan.keep == (8, 15) == (found.low, found.high)
    # what the middle of 8 to 15 lb takes of the middle of as much on 12 feet, five times
    middle = math.sqrt(plan.keep[0] * plan.keep[1])
    known = Seasons((), math.sqrt(found.low * found.high) / 12)
    assert yield_ahead(known, household_of([])).units(5 * middle) == pytest.approx(60)


def test_asparagus_sources_agree():
    # Michigan State: 3 lb on 10 feet; Kentucky: 30 lb on 100 feet
    found = {y.low_g for y in published_yields("asparagus") if y.row_ft in {10, 100}}
    assert max(found) == pytest.approx(min(found))


@pytest.mark.parametrize(
    ("pounds", "publisher"), [(0.5, "Rutgers"), (0.6, "VillageSoup"), (1.24, "VillageSoup")]
)
def test_mixed_vegetables(pounds, publisher):
    # Rutgers guideline; Ohio State figures, rows and raised beds: lb a square foot
    found = [y for y in published_yields("mixed vegetables") if y.low == pounds]
    assert [y.source.publisher.startswith(publisher) for y in found] == [True]
    assert found[0].low_g == pytest.approx(pounds * 4882.43, rel=1e-5)


@pytest.mark.parametrize(
    ("crop", "amount", "unit"),
    [
        ("tomatoes", 2, "plants"),
        ("bush beans", 5, "ft_row"),
        ("beets", 2, "ft_row"),
        ("carrots", 2, "ft_row"),
        ("lettuce", 3, "ft_row"),
        ("chard", 3, "ft_row"),
        ("New Zealand spinach", 2, "ft_row"),
        ("radishes", 1, "ft_row"),
    ],
)
def test_oregon_planting_for_one(crop, amount, unit):
    # How much to plant, Jackson County Master Gardener (Oregon State University), 2012
    found = [p for p in per_person(crop) if "Mail Tribune" in p.source.publisher]
    assert [(p.fresh, p.unit) for p in found] == [((amount, amount), unit)]


def test_names_are_found_with_their_kind():
    assert published_yields("Brenna paste tomatoes") == published_yields("paste tomato")
    assert published_yields("unicorn") == ()
    assert per_person("") == ()
    assert published_range("cabbage") is None


def test_families_keep_kin_together():
    assert plant_family("roma tomatoes") == plant_family("potato") == "Solanaceae"
    assert plant_family("kale") == plant_family("radish") == "Brassicaceae"
    assert plant_family("unicorn") is None


def test_every_name_leads_to_rows_or_a_family():
    for name in planting._names():
        assert published_yields(name) or per_person(name) or plant_family(name), name
        for y in published_yields(name):
            assert y.source.title
            assert 0 < y.low <= y.high
