"""The household's own curve."""

from __future__ import annotations

import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import stats  # imported here: hypothesis would count it as the first example's time

from ledger.errors import InputError
from ledger.methods.learning import (
    exponent,
    fit_curve,
    unit_time,
)


@given(st.floats(0.5, 200), st.floats(0.5, 1.2), st.integers(5, 40))
def test_fit_finds_the_curve_it_came_from(first, rate, n):
    curve = fit_curve([unit_time(first, rate, i) for i in range(1, n + 1)])
    assert curve.rate == pytest.approx(rate, rel=1e-6)
    assert curve.first == pytest.approx(first, rel=1e-6)
    assert curve.rate_low <= curve.rate * 1.000001
    assert curve.rate_high >= curve.rate * 0.999999


@pytest.mark.parametrize("minutes", [[], [9.0] * 4, [9.0] * 4 + [None, 0.0, float("nan")]])
def test_fewer_than_five_repetitions_give_no_curve(minutes):
    assert fit_curve(minutes) is None


def test_minutes_that_never_change():
    curve = fit_curve([1.0] * 5)
    assert (curve.rate_low, curve.rate, curve.rate_high) == (1, 1, 1)


def test_repetition_without_a_record_still_counts_as_practice():
    whole = [unit_time(30, 0.8, n) for n in range(1, 9)]
    gappy = [*whole[:2], None, *whole[3:]]
    assert fit_curve(gappy).rate == pytest.approx(0.8)
    assert fit_curve(gappy).repetitions == 7


def test_scatter_widens_the_range():
    calm = fit_curve([10, 9.1, 8.4, 8.1, 7.9, 7.6])
    wild = fit_curve([10, 6.0, 12, 5.0, 11, 6.0])
    assert wild.rate_high - wild.rate_low > 3 * (calm.rate_high - calm.rate_low)
    assert calm.rate_low < calm.rate < calm.rate_high < 1


def test_slower_each_time_is_above_one():
    assert fit_curve([5, 6, 7, 8, 9, 10]).rate > 1


def test_bad_input_is_refused():
    with pytest.raises(InputError, match="rate"):
        exponent(0)
    with pytest.raises(InputError, match="repetition"):
        unit_time(1, 0.8, 0)


def test_range_is_that_of_the_library():
    # scipy.stats.linregress gives the error of the intercept: the range of the curve at n = 1
    minutes = [10, 6.0, 12, 5.0, 11, 6.0]
    line = stats.linregress([math.log(n) for n in range(1, 7)], [math.log(m) for m in minutes])
    reach = stats.t.ppf(0.975, 4) * line.intercept_stderr
    assert fit_curve(minutes).range_factor(1) == pytest.approx(math.exp(reach))


def test_one_batch_ranges_wider_than_the_curve():
    curve = fit_curve([10, 6.0, 12, 5.0, 11, 6.0])
    middle = curve.range_factor(3)
    assert 1 < middle < curve.range_factor(40)
    assert middle < curve.range_factor(3, one_batch=True)
    assert fit_curve([1.0] * 5).range_factor(9, one_batch=True) == 1


@example([1.0] * 5)
@example([3.0] * 6)
@given(st.lists(st.one_of(st.none(), st.floats(0.1, 500)), min_size=5, max_size=60))
def test_fit_is_that_of_the_statistics_library(minutes):
    known = [(math.log(n), math.log(m)) for n, m in enumerate(minutes, 1) if m is not None]
    curve = fit_curve(minutes)
    if len(known) < 5:
        assert curve is None
        return
    line = stats.linregress([x for x, _ in known], [y for _, y in known])
    assert curve.exponent == pytest.approx(line.slope, abs=1e-9)
    assert curve.first == pytest.approx(math.exp(line.intercept), rel=1e-9)
    # minutes that never change fit exactly; that library gives no error for them
    error = 0.0 if math.isnan(line.stderr) else line.stderr
    assert curve.error == pytest.approx(error, abs=1e-7)
