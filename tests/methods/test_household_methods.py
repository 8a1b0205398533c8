"""Electricity and feed: worked examples of the tables."""

from __future__ import annotations

import pytest

from ledger.reference import winter

# -- METHODS 7


@pytest.mark.parametrize(("load", "quart"), [(3.88, 0.55), (1.93, 0.28), (2.07, 0.30)])
def test_estimates_a_quart(load, quart):
    names = ("raw pack", "hot tap water", "pressure, 7")
    loads = [one for one in winter.figures("energy", "canner_load_estimate") if one.middle == load]
    assert any(name in one.item for one in loads for name in names)
    assert load / 7 == pytest.approx(quart, abs=0.006)


# -- METHODS 10: a farm's flock of 315 in December 2010 (E2)


def test_feed_of_the_tables():
    eaten = winter.figure("feed_eggs", "feed", "one farm flock of 315, December 2010")
    assert eaten.middle == pytest.approx(2435 / 31 / 315, abs=0.0005)
