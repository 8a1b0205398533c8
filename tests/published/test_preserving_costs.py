"""What preserving and gardens cost and bring, as extension services published it.

Sources
-------
NMSU : CANIT: Cost of Canning, slides, New Mexico State University Extension, about 2011.
CSU : Cost of Preserving and Storing Food 8.704, Colorado State University Extension, 2008.
MAINE : The Cost of Preserving Food in Maine 4032, University of Maine Extension, 2017 (averages
    as announced).
UCCE : The Home Money Tree, University of California Cooperative Extension, about 2010 (on a
    Florida garden of 1980).
OSU : table of eight published gardens, Oregon State University Extension, 2012 (a reprint).
JOE : Journal of Extension 52(2) 2RIB5, 2014.
"""

from __future__ import annotations

from statistics import mean, median

import pytest

from ledger.methods.money import break_even, payback
from ledger.methods.ratios import ratio
from ledger.methods.wear import straight_line


@pytest.mark.parametrize(
    ("price", "years", "a_year"),
    [(30.00, 20, 1.50), (100.00, 20, 5.00)],  # NMSU: water-bath and pressure canner
)
def test_canner_a_year(price, years, a_year):
    assert straight_line(price, 0, years) == [a_year] * years


def test_jars_of_a_batch():
    # NMSU: 15.00 a dozen over 10 years, 7 jars; printed 0.86, 0.875 exactly. CSU: 10 years
    assert straight_line(15.00, 0, 10)[0] * 7 / 12 == pytest.approx(0.86, abs=0.02)


def test_lids_of_a_batch():
    assert straight_line(3.00, 0, 1)[0] * 7 / 12 == 1.75  # NMSU: new each time


def test_pickles_a_jar_against_the_shop():
    # NMSU: 7 pints for 14.20, 2.03 each; 2.50 in the shop
    assert round(ratio(14.20, 7), 2) == 2.03


def test_canner_of_the_pickles_is_paid_back():
    # NMSU figures: each batch leaves 3.30 and bears 1.50 of the canner, so 4.80 go towards its 30
    batches = payback(30.00, [], then=7 * 2.50 - 14.20 + 1.50)
    assert batches == pytest.approx(6.25)
    # the same in jars: 2.50 each against what a jar costs without the canner
    assert break_even(30.00, 2.50, (14.20 - 1.50) / 7) == pytest.approx(batches * 7)


@pytest.mark.parametrize(("dozen", "each"), [(5.0, 5 / 120), (8.0, 8 / 120)])
def test_jar_a_use(dozen, each):
    # CSU: 5 to 8 dollars a dozen, over ten yearly uses
    assert straight_line(dozen / 12, 0, 10)[0] == pytest.approx(each)


@pytest.mark.parametrize(
    ("method", "a_pound"), [("boiling water", 0.73), ("drying", 0.99), ("pressure", 1.14)]
)
def test_dearer_method_never_pays_back(method, a_pound):
    # MAINE: dollars a pound, equipment counted, food and labour not; freezing is 0.41. Against
    # it no number of pounds pays for another appliance (a dehydrator is 150)
    assert break_even(150, 0.41, a_pound) is None
    # the other way round it takes so many pounds
    assert break_even(150, a_pound, 0.41) == pytest.approx(150 / (a_pound - 0.41))


# OSU: garden, square feet, cost, value, difference, difference in 2012 dollars, that a square foot
GARDENS = [
    ("Tallahassee", 1400, 70.00, 384.00, 314.00, 874.14, 0.62),
    ("Jacksonville", 638, 83.00, 416.00, 333.00, 927.03, 1.45),
    ("Homestead", 600, 333.65, 495.70, 162.05, 512.02, 0.85),
    ("Scarborough", 10_890, 282.00, 2431.00, 2149.00, 2297.80, 0.21),
    ("Oregon", 878, 318.43, 606.97, 288.54, 307.42, 0.35),
    ("Tucson 1", 833, 45.00, 154.00, 109.00, 232.38, 0.28),
    ("Tucson 2", 627.5, 56.00, 178.00, 122.00, 260.09, 0.41),
    # printed as 0.41, though 154.80 / 150.7 is 1.03, which the printed mean and median need
    ("Columbus", 150.7, 46.00, 90.00, 44.00, 154.80, 1.03),
]


@pytest.mark.parametrize(
    ("garden", "area", "cost", "value", "gain", "gain_2012", "a_foot"), GARDENS
)
def test_eight_gardens(garden, area, cost, value, gain, gain_2012, a_foot):
    assert value - cost == gain
    assert ratio(gain_2012, area) == pytest.approx(a_foot, abs=0.0051)


def test_eight_gardens_together():
    # OSU: mean 0.65 and median 0.52 a square foot; 104 for a garden of 200
    a_foot = [ratio(row[5], row[1]) for row in GARDENS]
    assert round(mean(a_foot), 2) == 0.65
    assert median(a_foot) == pytest.approx(0.52, abs=0.0051)
    assert 200 * median(a_foot) == pytest.approx(104, abs=1)


def test_garden_materials_are_paid_within_the_season():
    # JOE: materials 238, harvest beyond them 677 on average
    assert payback(238, [238 + 677]) == pytest.approx(238 / 915)
