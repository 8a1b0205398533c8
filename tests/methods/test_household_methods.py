"""Electricity, work, prices and hens: worked examples of the tables."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.methods import flock, price_index, work
from ledger.reference import winter

# -- METHODS 7


@pytest.mark.parametrize(("load", "quart"), [(3.88, 0.55), (1.93, 0.28), (2.07, 0.30)])
def test_estimates_a_quart(load, quart):
    names = ("raw pack", "hot tap water", "pressure, 7")
    loads = [one for one in winter.figures("energy", "canner_load_estimate") if one.middle == load]
    assert any(name in one.item for one in loads for name in names)
    assert load / 7 == pytest.approx(quart, abs=0.006)


# -- METHODS 8


def test_work_of_the_tables():
    """12 h, 50 quarts at shop 3.50, inputs 40, wear 5; 15 and 22 an hour."""
    assert work.brought(50, 3.50, 40, 5) == 130
    assert work.brought(50, 3.50, 40, 5) / 12 == pytest.approx(10.83, abs=0.005)
    assert work.by_hours(12, 15) == 180
    assert work.by_hours(12, 22) == 264


# -- METHODS 9: atozmath.com, food basket; edu.com question 668218; one made up
BASKETS = {
    "food basket": (([39, 40, 45, 30], [40, 44, 50, 36], [1, 12, 2, 2], [1.5, 10, 1.5, 1.5]), (110.61, 110.16, 110.385, 94.02)),
    "from expenditures": (([10, 12, 18, 8], [15, 15, 27, 12], [6, 10, 5, 5], [5, 10, 3, 4]), (140.32, 138.28, 139.30, 114.19)),
    "no longer bought": (([0.5, 4, 2], [0.6, 5, 3], [50, 40, 60], [60, 30, 0]), (134.43, 124.0, 129.11, 60.98)),
}  # fmt: skip


@pytest.mark.parametrize("name", BASKETS)
def test_indices_of_the_tables(name):
    (p0, p1, q0, q1), wanted = BASKETS[name]
    low, high = price_index.laspeyres(p0, p1, q0), price_index.paasche(p0, p1, q1)
    got = (low, high, price_index.fisher(low, high), price_index.value_index(p0, p1, q0, q1))
    assert got == pytest.approx(wanted, abs=0.006)


def test_sums_of_the_food_basket():
    (p0, p1, q0, q1), _ = BASKETS["food basket"]
    assert sum(p * q for p, q in zip(p1, q0, strict=True)) == 740
    assert sum(p * q for p, q in zip(p0, q0, strict=True)) == 669
    assert sum(p * q for p, q in zip(p1, q1, strict=True)) == 629
    assert sum(p * q for p, q in zip(p0, q1, strict=True)) == 571


MONEY = st.lists(st.tuples(*[st.floats(0.1, 100)] * 4), min_size=1, max_size=12)


@given(MONEY)
def test_fisher_prices_times_fisher_quantities_is_the_value(rows):
    p0, p1, q0, q1 = (list(column) for column in zip(*rows, strict=True))
    prices = price_index.fisher(price_index.laspeyres(p0, p1, q0), price_index.paasche(p0, p1, q1))
    amounts = price_index.fisher(price_index.laspeyres(q0, q1, p0), price_index.paasche(q0, q1, p1))
    assert prices * amounts / 100 == pytest.approx(price_index.value_index(p0, p1, q0, q1))


def test_an_empty_basket_has_no_index():
    assert price_index.laspeyres([], [], []) is None
    assert price_index.fisher(None, 100) is None


# -- METHODS 10: a farm's flock of 315 in December 2010 (E2)


def test_hens_of_the_tables():
    assert flock.hen_day_lay(4236.5, 315 * 31) == pytest.approx(0.434, abs=0.0005)
    assert flock.lb_per_dozen(2435, 4236.5) == pytest.approx(6.90, abs=0.005)
    assert pytest.approx(winter.figure("feed_eggs", "feed", "one farm flock of 315, December 2010").middle, abs=0.0005) == 2435 / 31 / 315  # fmt: skip


def test_six_hens():
    assert flock.days_of_feed(50, 6, 0.249) == pytest.approx(33.5, abs=0.05)
    assert flock.lb_per_dozen(6 * 0.249, 4.5) == pytest.approx(3.98, abs=0.005)
    assert flock.days_of_feed(50, 0, 0.25) is None
