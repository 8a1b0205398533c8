"""Frost days, degree-days and seed: worked examples of the tables."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods import frost

DAYS = [118, 125, 130, 121, 135, 128, 140, 122, 131, 127]


def test_frost_date_at_risk():
    """METHODS 5: mean 127.7, s 6.67; one year in ten later than 136.2."""
    found = frost.frost_day(DAYS, 0.1, spring=True)
    assert found.mean == pytest.approx(127.7)
    assert found.spread == pytest.approx(6.67, abs=0.005)
    assert found.day == pytest.approx(136.2, abs=0.05)
    assert frost.frost_day(DAYS, 0.1, spring=False).day == pytest.approx(127.7 - 8.55, abs=0.01)


def test_under_ten_years_the_latest_seen_is_taken():
    assert frost.frost_day(DAYS[:9], 0.1, spring=True).day == 140
    assert frost.frost_day(DAYS[:9], 0.1, spring=True).how == "latest seen"
    assert frost.frost_day(DAYS[:9], 0.1, spring=False).day == 118
    assert frost.frost_day([], 0.1, spring=True) is None


def test_germination():
    """METHODS 11: 13 of 20 is 65 per cent, 43 to 82; 40 plants take 62 seeds."""
    found = frost.sprouts(13, 20)
    assert found.rate == 0.65
    assert (found.low, found.high) == (
        pytest.approx(0.433, abs=0.001),
        pytest.approx(0.819, abs=0.001),
    )
    assert frost.seeds_wanted(40, found.rate) == 62
    assert frost.seeds_wanted(40, 0) is None


@given(sown=st.integers(1, 500), part=st.floats(0, 1))
def test_wilson_is_that_of_a_general_library(sown, part):
    """Against scipy.stats.binomtest(...).proportion_ci(method="wilson")."""
    sprouted = int(part * sown)
    found = frost.sprouts(sprouted, sown)
    other = stats.binomtest(sprouted, sown).proportion_ci(method="wilson")
    assert found.low == pytest.approx(other.low, abs=1e-9)
    assert found.high == pytest.approx(other.high, abs=1e-9)


@given(st.lists(st.integers(1, 365), min_size=10, max_size=40), st.floats(0.02, 0.4))
def test_less_risk_is_later_in_spring_and_earlier_in_fall(days, risk):
    for spring in (True, False):
        careful, bold = (frost.frost_day(days, one, spring=spring).day for one in (risk / 2, risk))
        assert careful >= bold - 1e-9 if spring else careful <= bold + 1e-9


def test_bad_numbers_are_refused():
    with pytest.raises(InputError):
        frost.frost_day(DAYS, 1.5, spring=True)
    with pytest.raises(InputError):
        frost.sprouts(21, 20)
