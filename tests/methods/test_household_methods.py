"""Electricity, work and hens: worked examples of the tables."""

from __future__ import annotations

import pytest

from ledger.methods import flock, work
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


# -- METHODS 10: a farm's flock of 315 in December 2010 (E2)


def test_hens_of_the_tables():
    assert flock.hen_day_lay(4236.5, 315 * 31) == pytest.approx(0.434, abs=0.0005)
    assert flock.lb_per_dozen(2435, 4236.5) == pytest.approx(6.90, abs=0.005)
    assert pytest.approx(winter.figure("feed_eggs", "feed", "one farm flock of 315, December 2010").middle, abs=0.0005) == 2435 / 31 / 315  # fmt: skip


def test_six_hens():
    assert flock.days_of_feed(50, 6, 0.249) == pytest.approx(33.5, abs=0.05)
    assert flock.lb_per_dozen(6 * 0.249, 4.5) == pytest.approx(3.98, abs=0.005)
    assert flock.days_of_feed(50, 0, 0.25) is None
