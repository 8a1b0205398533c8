"""Scores by hand, by a second formula, and what must hold whatever is said."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.stats import binom, norm

from ledger.errors import InputError
from ledger.methods.scoring import (
    ENDS,
    brier,
    chance_widened,
    held,
    normal_score,
    pinball,
    too_few_held,
    widened,
    widening,
)

chances = st.lists(st.tuples(st.floats(0, 1), st.booleans()), min_size=1, max_size=40)
amounts = st.floats(0.01, 1e6)


# -- by hand ----------------------------------------------------------------------------


def test_brier_by_hand():
    # (0.1^2 + 0.6^2 + 0.2^2) / 3 = 0.41 / 3
    assert brier([0.9, 0.6, 0.2], [True, False, False]) == pytest.approx(0.41 / 3)


def test_brier_of_rain():
    """Wikipedia, Brier score: 100 % and rain 0, 100 % and none 1, 70 % and rain 0.09, 30 % and rain 0.49."""
    cases = [(1.0, True, 0.0), (1.0, False, 1.0), (0.7, True, 0.09), (0.3, True, 0.49)]
    for chance, rain, score in cases:
        assert brier([chance], [rain]) == pytest.approx(score)


def test_pinball_by_hand():
    # 11 came: 0.1 x 3, 0.5 x 1, and 0.1 x 3 above: (0.3 + 0.5 + 0.3) / 3
    assert pinball([[8.0], [10.0], [14.0]], [11.0], ENDS) == pytest.approx(1.1 / 3)
    # 7 came: 0.9 x 1, 0.5 x 3, 0.1 x 7
    assert pinball([[8.0], [10.0], [14.0]], [7.0], ENDS) == pytest.approx((0.9 + 1.5 + 0.7) / 3)


def test_widening_by_hand():
    # 10 of 40 held, each outcome two deviations off: (20 + 160) / (20 + 40) = 3, held to 2
    assert widening([2.0] * 40, 10) == 2.0
    # 24 of 40: 0.6 < 0.8 - 1.64 sqrt(0.16 / 20) = 0.653; (20 + 60) / (20 + 40)
    assert widening([math.sqrt(1.5)] * 40, 24) == pytest.approx(80 / 60)
    # 27 of 40 is more than chance allows for: as it is, however far off the others were
    assert widening([2.0] * 40, 27) == 1.0
    # too few held, but narrowly: never made narrower
    assert widening([0.5] * 40, 10) == 1.0
    assert widening([], 0) == 1.0


def test_ranges_are_widened_from_likely():
    low, likely, high = widened(np.array([[5.0, 0.0], [10.0, 10.0], [20.0, 15.0]]), 2.0)
    by = math.sqrt(2)
    assert (low[0], high[0]) == pytest.approx((10 * 0.5**by, 10 * 2**by))
    assert (low[1], high[1]) == pytest.approx((0.0, 10 + 5 * by))
    assert list(likely) == [10, 10]


# -- second opinions ----------------------------------------------------------------------


@pytest.mark.parametrize("came", [-1.0, 0.3, 2.5])
def test_pinball_over_all_quantiles_is_half_the_crps(came):
    """Closed form of the continuous ranked probability score of a normal (Gneiting and Raftery 2007)."""
    crps = came * (2 * norm.cdf(came) - 1) + 2 * norm.pdf(came) - 1 / math.sqrt(math.pi)
    loss, _ = quad(lambda p: pinball([[norm.ppf(p)]], [came], [p]), 1e-9, 1 - 1e-9, limit=200)
    assert 2 * loss == pytest.approx(crps, abs=1e-6)


@pytest.mark.parametrize("level", [0.1, 0.5, 0.9])
def test_the_true_quantile_has_the_least_pinball_loss(level):
    came = norm.ppf((np.arange(2000) + 0.5) / 2000)
    best = pinball([np.full(2000, norm.ppf(level))], came, [level])
    for off in (-0.2, 0.2):
        assert pinball([np.full(2000, norm.ppf(level) + off)], came, [level]) > best


def test_scores_of_a_normal_are_its_deviations():
    at = np.array([-2.0, -0.5, 0.0, 1.0, 3.0])
    ends = [np.full(5, norm.ppf(end)) for end in ENDS]
    assert normal_score(*ends, at) == pytest.approx(at)


@pytest.mark.parametrize("of", [40, 80, 160, 320])
def test_too_few_is_rare_where_ranges_hold(of):
    """Of independent outcomes far fewer than one in twenty households would be widened by chance."""
    fewest = next(n for n in range(of + 1) if not too_few_held(n, of))
    assert binom.cdf(fewest - 1, of, 0.8) < 0.05
    # of half as many, each standing for two, about one in twenty
    assert 0.01 < binom.cdf(math.ceil((fewest - 1) / 2), of // 2, 0.8) < 0.12


def test_a_normal_that_is_too_narrow_is_found_and_widened_to_hold():
    rng = np.random.default_rng(5)
    came = rng.normal(0, math.sqrt(1.8), 400)
    ends = [np.full(400, norm.ppf(end)) for end in ENDS]
    within = held(ends[0], ends[2], came)
    factor = widening(normal_score(*ends, came), int(within.sum()))
    assert factor == pytest.approx(1.8, abs=0.25)
    low, _, high = widened(np.array(ends) + 10, factor)
    assert held(low, high, came + 10).mean() == pytest.approx(0.8, abs=0.04)


# -- whatever is said ---------------------------------------------------------------------


@given(chances)
def test_brier_lies_between_nought_and_one_and_a_perfect_one_is_nought(several):
    said, came = zip(*several, strict=True)
    assert 0 <= brier(said, came) <= 1
    assert brier([float(one) for one in came], came) == 0
    assert brier(said, came) + 1e-12 >= 0


@given(st.lists(st.booleans(), min_size=1, max_size=40), st.floats(0, 1))
def test_no_one_chance_beats_the_base_rate(came, chance):
    base = sum(came) / len(came)
    assert brier([base] * len(came), came) <= brier([chance] * len(came), came) + 1e-12


@given(st.lists(amounts, min_size=1, max_size=20))
def test_a_perfect_range_scores_nought_and_holds(came):
    assert pinball([came] * 3, came, ENDS) == 0
    assert held(came, came, came).all()
    assert (normal_score(came, came, came, came) == 0).all()


@given(amounts, st.floats(0, 1), st.floats(1, 10), st.floats(1, 2))
def test_a_widened_range_holds_the_narrow_one(likely, down, up, factor):
    narrow = np.array([[likely * down], [likely], [likely * up]])
    low, middle, high = widened(narrow, factor)
    assert 0 <= low[0] <= narrow[0, 0] * (1 + 1e-9)
    assert middle[0] == likely
    assert high[0] >= narrow[2, 0] * (1 - 1e-9)


@given(st.floats(0.001, 0.999), st.floats(1, 2))
def test_a_widened_chance_lies_nearer_to_one_half(chance, factor):
    after = float(chance_widened(chance, factor))
    assert abs(after - 0.5) <= abs(chance - 0.5) + 1e-9
    assert (after - 0.5) * (chance - 0.5) >= -1e-9


def test_what_is_not_known_stays_so():
    ranges = np.array([[np.nan, 5.0], [np.nan, 10.0], [np.nan, np.inf]])
    low, likely, high = widened(ranges, 1.5)
    assert np.isnan([low[0], likely[0], high[0]]).all()
    assert high[1] == np.inf
    assert low[1] < 5


@pytest.mark.parametrize("said", [[1.2], [-0.1], [float("nan")], []])
def test_no_chance_beyond_nought_and_one(said):
    with pytest.raises(InputError):
        brier(said, [True] * len(said))
