"""Survival: published worked examples, and the same by a general library."""

from __future__ import annotations

import warnings

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods.survival import product_limit

# Freireich and others, Blood 21, 1963, 6-MP, weeks (as in C. T. Le, Introductory Biostatistics, ex. 11.1)
SIX_MP = {6: (3, 1), 7: (1, 0), 9: (0, 1), 10: (1, 1), 11: (0, 1), 13: (1, 0), 16: (1, 0), 17: (0, 1), 19: (0, 1),
          20: (0, 1), 22: (1, 0), 23: (1, 0), 25: (0, 1), 32: (0, 2), 34: (0, 1), 35: (0, 1)}  # fmt: skip
CURVE = {6: (0.857, 0.0764), 7: (0.807, 0.0869), 10: (0.753, 0.0963), 13: (0.690, 0.1068), 16: (0.627, 0.1141),
         22: (0.538, 0.1282), 23: (0.448, 0.1346)}  # fmt: skip
# Bewick, Cheek, Ball, Critical Care 8:389, 2004, table 2, treatment 2, days
BEWICK = {1: (2, 0), 4: (1, 0), 5: (1, 0), 6: (0, 1), 9: (1, 1), 22: (1, 0)}
# ten winter squash, made up for the tables (Z3)
SQUASH = {30: (1, 0), 45: (1, 0), 60: (0, 1), 75: (1, 0), 90: (1, 1), 120: (1, 1), 150: (1, 1)}


def curve_of(table):
    times, failed = [], []
    for time, (gone, seen) in table.items():
        times += [time] * (gone + seen)
        failed += [True] * gone + [False] * seen
    return product_limit(times, failed)


def test_remission_of_6_mp():
    curve = curve_of(SIX_MP)
    found = {step.time: step for step in curve.steps}
    for week, (survival, error) in CURVE.items():
        assert found[week].survival == pytest.approx(survival, abs=0.0006)
        assert found[week].error == pytest.approx(error, abs=0.00006)
    assert [found[w].at_risk for w in (6, 7, 10, 13, 16, 22, 23)] == [21, 17, 15, 12, 11, 7, 6]
    assert (curve.median, curve.subjects, curve.failures) == (23, 21, 9)
    assert curve.mean == pytest.approx(23.288, abs=0.001)


def test_treatment_two_of_a_critical_care_tutorial():
    curve = curve_of(BEWICK)
    found = {step.time: step for step in curve.steps}
    printed = {1: 0.750, 4: 0.625, 5: 0.500, 9: 0.333, 22: 0.000}
    for day, survival in printed.items():
        assert found[day].survival == pytest.approx(survival, abs=0.0005)
    assert found[22].error is None
    assert curve.median == 5
    assert curve.mean == pytest.approx(10.208, abs=0.0005)


def test_ten_squash():
    curve = curve_of(SQUASH)
    found = {step.time: step.survival for step in curve.steps}
    wanted = {30: 0.9, 45: 0.8, 75: 0.6857, 90: 0.5714, 120: 0.4286, 150: 0.2143}
    for day, survival in wanted.items():
        assert found[day] == pytest.approx(survival, abs=0.00005)
    assert curve.median == 120
    assert curve.mean == pytest.approx(107.785, abs=0.001)
    assert curve.at(29) == 1
    assert curve.at(76) == pytest.approx(0.6857, abs=0.00005)


def test_potatoes_weigh_less():
    """METHODS 6: 3 per cent in the first month, 5 by the fifth: of 100 lb 95 are left."""
    from ledger.reference import winter

    first, fifth = winter.figures("keeping", "weight_loss", "potatoes")
    assert (first.middle, fifth.middle) == (3, 5)
    assert 100 * (1 - fifth.middle / 100) == pytest.approx(95)


@given(st.lists(st.tuples(st.integers(0, 40), st.booleans()), min_size=1, max_size=60))
def test_same_as_a_general_library(seen):
    """Against scipy.stats.ecdf of right-censored data: survival and, where defined, its error."""
    times, failed = [float(t) for t, _ in seen], [bad for _, bad in seen]
    if not any(failed):
        assert product_limit(times, failed).at(1e9) == 1
        return
    data = stats.CensoredData(
        uncensored=[t for t, bad in seen if bad], right=[t for t, bad in seen if not bad]
    )
    other = stats.ecdf(data).sf
    mine = {step.time: step for step in product_limit(times, failed).steps}
    with np.errstate(all="ignore"), warnings.catch_warnings():
        warnings.simplefilter(
            "ignore", RuntimeWarning
        )  # undefined where nothing failed yet or survives
        bounds = other.confidence_interval(0.95, method="linear") if len(seen) > 1 else None
    z = stats.norm.ppf(0.975)
    for n, (time, survival) in enumerate(zip(other.quantiles, other.probabilities, strict=True)):
        assert mine[time].survival == pytest.approx(survival, abs=1e-9)
        if bounds is None or mine[time].error is None:
            continue
        high = bounds.high.probabilities[n]
        if survival + z * mine[time].error < 1:
            assert high == pytest.approx(survival + z * mine[time].error, abs=1e-6)


@given(
    st.lists(
        st.tuples(st.integers(0, 40), st.booleans(), st.integers(1, 5)), min_size=1, max_size=30
    )
)
def test_counts_are_so_many_subjects(seen):
    many = product_limit([t for t, _, _ in seen], [b for _, b, _ in seen], [n for _, _, n in seen])
    flat = [(t, b) for t, b, n in seen for _ in range(n)]
    one = product_limit([t for t, _ in flat], [b for _, b in flat])
    assert [s.survival for s in many.steps] == pytest.approx([s.survival for s in one.steps])


def test_an_age_below_nought_is_refused():
    with pytest.raises(InputError):
        product_limit([-1], [True])
