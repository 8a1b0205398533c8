"""The predictive distribution of use: against SciPy's distributions, and where the answer is known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods.behaviours import BEHAVIOURS, HORIZONS, grams, tables
from ledger.methods.looking_ahead import look_ahead
from ledger.methods.nearly import near_fdtr
from ledger.methods.past import KEPT_WEEKS, past_of
from ledger.methods.pauses import even_pauses
from ledger.methods.predictive import HORIZON, LookingAhead


def ahead_of(use, there=None):
    use = np.asarray(use, float)
    return look_ahead(past_of(use, np.ones(len(use), bool) if there is None else there))


def weekly(weeks, amount=7.0):
    """Return days with the same use each week, all on one day of it."""
    return np.tile([0, 0, 0, amount, 0, 0, 0], weeks)


# -- the past -----------------------------------------------------------------------------------


def test_a_week_that_ran_dry_counts_as_far_as_it_went():
    use, there = np.zeros(28), np.ones(28, bool)
    use[24], there[25:] = 3.0, False
    past = past_of(use, there)
    assert past.there.tolist() == [4 / 7, 1, 1, 1]
    assert past.used.tolist() == [3, 0, 0, 0]
    assert (past.weeks, past.uses, past.size, past.age) == (4, 1, 3.0, 0.0)


def test_older_weeks_are_taken_in_fours_and_an_incomplete_four_is_dropped():
    past = past_of(np.ones(7 * 36), np.ones(7 * 36, bool))
    assert (past.weeks, len(past.used)) == (34, 28)
    assert past.used.tolist() == [7.0] * 26 + [28.0] * 2
    assert past.there.tolist() == [1.0] * 26 + [4.0] * 2
    assert past_of(np.ones(9999), np.ones(9999, bool)).weeks == KEPT_WEEKS - 2


def test_pauses_count_days_with_some_only():
    use, there = np.zeros(42), np.ones(42, bool)
    use[[0, 10, 30]], there[11:21] = 1.0, False
    past = past_of(use, there)
    assert past.pauses.tolist() == [10, 10]
    assert past.age == 11


@pytest.mark.parametrize(("use", "there"), [([1.0, -1.0] * 7, [True] * 14), ([1.0], [True, True])])
def test_bad_days_are_refused(use, there):
    with pytest.raises(InputError):
        past_of(use, there)


# -- one predictive distribution ----------------------------------------------------------------


def by_chance(uses, weeks):
    """Return even use that comes by chance, of so many uses of one in so many weeks."""
    past = past_of(weekly(weeks, 1.0), np.ones(7 * weeks, bool))
    past = type(past)(past.used, past.there, weeks, uses, 1.0, 0.0, np.empty(0), 0.0)
    rate = uses / weeks
    return LookingAhead(
        past, rate, np.ones(1), np.array([1 / rate]), HORIZONS[None], HORIZONS[None] ** 2 / weeks,
        0.0, 1.0, (),
    )  # fmt: skip


@pytest.mark.parametrize("weeks", [4, 8, 13, 26, 52])
def test_unit_uses_by_chance_are_the_gamma_poisson_predictive(weeks):
    """9 uses in 26 weeks, stock 6: the chance of six or more uses, by SciPy's negative binomial."""
    found = by_chance(9, 26).gone_within(6.0, [float(weeks)])[0]
    second = stats.nbinom.sf(5, 9.5, 26 / (26 + weeks))
    assert found == pytest.approx(second, abs=1e-9)


@pytest.mark.parametrize("gaps", [False, True])
def test_products_are_those_of_the_whole_covariance(gaps):
    """Against the plain inverse and determinant of C, of the bins in which there was some."""
    n = 34
    there = np.ones(n)
    there[26:] = 4.0
    if gaps:
        there[3:9], there[12:15] = 3 / 7, 0.0
    keep = np.flatnonzero(there)
    weeks = np.random.default_rng(1).gamma(2, 0.5, n)
    found = grams([0.5] * len(BEHAVIOURS), there, weeks)
    for way, one in zip(BEHAVIOURS, found, strict=True):
        c = np.diag(1 / there[keep])
        x = np.column_stack([np.ones(len(keep)), weeks[keep]])
        if way.size:
            table = tables(way.kernel)
            c = c + 0.5 * table.past[np.ix_(keep, keep)]
            x = np.column_stack([x, table.shape[keep]])
        assert one.products == pytest.approx(x.T @ np.linalg.inv(c) @ x, rel=1e-7, abs=1e-7)
        assert 2 * one.log_root == pytest.approx(np.linalg.slogdet(c)[1])


@given(
    above=st.floats(0.6, 400),
    below=st.floats(1.5, 400),
    x=st.floats(0.0, 20.0, allow_subnormal=False),
)
@settings(max_examples=150, deadline=None)
def test_f_nearly_is_f(above, below, x):
    """Against SciPy's F: near enough to say where to look."""
    off = 0.01 if min(above, below) > 6 else 0.2
    assert near_fdtr(above, below, x) == pytest.approx(stats.f.cdf(x, above, below), abs=off)


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_use_over_weeks_is_where_the_chance_says(share):
    """The amount is that which is gone within the weeks with its chance, sought by bisection."""
    ahead = ahead_of(np.random.default_rng(2).gamma(0.5, 1.0, 7 * 40))
    low, high = 0.0, 1e4
    for _ in range(80):
        middle = (low + high) / 2
        within = ahead.gone_within(middle, [12.0])[0]
        low, high = (middle, high) if within > 1 - share else (low, middle)
    found = dict(zip((0.1, 0.5, 0.9), ahead.use_over(12), strict=True))[share]
    assert found == pytest.approx(low, rel=1e-3)


@pytest.mark.parametrize("kernel", [one.kernel for one in BEHAVIOURS if one.size])
def test_reach_is_the_kernel_summed_over_the_weeks_ahead(kernel):
    """The first three single weeks, against sums of the kernel itself."""
    table, at = tables(kernel), int(np.flatnonzero(HORIZONS == 9)[0])
    own = table.past[0, :26]  # by lag, but for drift
    if kernel != "drift":
        for i in range(3):
            plain = own[i + 1 : i + 10].sum()
            assert (table.shape[i] @ table.reach[:, at]) == pytest.approx(plain, abs=1e-3)
        twice = sum(own[abs(a - b)] for a in range(9) for b in range(9))
        assert table.ahead[at] == pytest.approx(twice)
    assert np.linalg.eigvalsh(table.past).min() > -1e-9


def test_the_weights_of_a_steady_item_are_those_of_the_log_evidence():
    """Against the density of Student's t of the weeks' contrasts, by SciPy, up to a constant."""
    rng = np.random.default_rng(4)
    ahead = ahead_of(rng.gamma(4, 0.25, 7 * 20))
    past = ahead.past
    z, n = past.used / past.there / ahead.level, len(past.used)
    prior = max((1 + past.scatter) / ahead.rate - 1 / 7, 0.04)
    near = (4 * prior + (np.diff(z) ** 2 / 2).sum()) / (3 + n)
    turn = stats.ortho_group.rvs(n, random_state=1)
    turn[0] = 1 / np.sqrt(n)
    q, _ = np.linalg.qr(turn.T)
    contrasts = q[:, 1:].T
    scores = []
    for one in BEHAVIOURS:
        g = 2.0 ** round(np.log2(one.size / near)) if one.size else 0.0
        c = np.eye(n) + (g * tables(one.kernel).past[:n, :n] if one.size else 0.0)
        shape = contrasts @ c @ contrasts.T
        density = stats.multivariate_t(np.zeros(n - 1), prior * shape, df=4).logpdf(contrasts @ z)
        scores.append(np.log(one.weight) + density)
    scores = np.exp(np.array(scores) - max(scores))
    scores /= scores.sum()
    kept = scores[scores >= 0.01]
    assert ahead.weights == pytest.approx(kept / kept.sum(), rel=1e-6)


def test_few_weeks_or_no_use_say_nothing():
    assert ahead_of(weekly(3)) is None
    assert ahead_of(np.zeros(70)) is None
    assert ahead_of(weekly(4)) is not None


def test_an_even_item_is_gone_when_it_must_be():
    ahead = ahead_of(np.ones(7 * 104))
    found = ahead.run_out(70.0)
    assert found.low < 10 < found.high
    assert found.likely == pytest.approx(10, rel=0.03)
    assert found.high - found.low < 3.5
    low, likely, high = ahead.use_over(12)
    assert low < 84 < high
    assert likely == pytest.approx(84, rel=0.03)


def test_empty_days_are_neither_use_of_nothing_nor_filled():
    """Two weeks of use, two of none in the house, over again: the level is that of the days with some."""
    use = np.tile(np.r_[np.ones(14), np.zeros(14)], 8)
    there = np.tile(np.r_[np.ones(14, bool), np.zeros(14, bool)], 8)
    ahead = ahead_of(use, there)
    assert ahead.level == pytest.approx(7)
    assert ahead.run_out(70.0).likely == pytest.approx(10, rel=0.05)


def test_a_bag_opened_every_three_weeks_is_not_treated_as_chance():
    use = np.zeros(7 * 60)
    use[::21] = 1.0
    even, chance = ahead_of(use), by_chance(20, 60)
    weight, ways = even_pauses(even.past)
    assert weight < 0.1
    assert sum(way.weight for way in ways) == pytest.approx(1 - weight)
    few, more = even.run_out(3.0), chance.run_out(3.0)
    assert few.high - few.low < 0.7 * (more.high - more.low)
    assert few.low < 3 * 3 < few.high


def test_a_season_is_named_after_two_years_and_followed():
    days = np.arange(7 * 104)
    use = 1 + 0.7 * np.cos(2 * np.pi * days / 364)
    ahead = ahead_of(use)
    assert ahead.seasonal
    assert not ahead_of(np.ones(7 * 104)).seasonal
    winter = ahead_of(use[: 7 * 78])  # half a year before: the low time lies at hand
    assert winter.use_over(12)[1] < 0.8 * ahead.use_over(12)[1]


def test_same_days_same_answer_and_chance_agrees_with_the_range():
    use = np.random.default_rng(3).poisson(0.3, 7 * 60) * 1.0
    one, two = ahead_of(use), ahead_of(use.copy())
    assert one is two
    found = one.run_out(9.0)
    for share, weeks in ((0.1, found.low), (0.5, found.likely), (0.9, found.high)):
        assert one.gone_within(9.0, [weeks])[0] == pytest.approx(share, abs=0.02)
        assert one.reaches(9.0, [weeks]) == pytest.approx(1 - share, abs=0.02)


def test_widened_is_wider():
    ahead = ahead_of(np.random.default_rng(3).poisson(0.3, 7 * 60) * 1.0)
    plain, wide = ahead.run_out(9.0), ahead.widened(2.0).run_out(9.0)
    assert wide.low < plain.low < plain.high < wide.high


def test_left_after_begins_with_the_stock_and_falls():
    low, likely, high = ahead_of(np.ones(7 * 60)).left_after(35.0, 12)
    assert low[0] == likely[0] == high[0] == 35.0
    assert (np.diff(low) <= 1e-9).all()
    assert (np.diff(high) <= 1e-9).all()
    assert (low <= likely).all()
    assert (likely <= high).all()
    assert likely[12] == 0.0


days_strategy = st.lists(
    st.sampled_from([0.0, 0.0, 0.0, 1.0, 2.5, 40.0]), min_size=28, max_size=500
)


@settings(max_examples=60)
@given(days_strategy, st.integers(0, 6), st.floats(0.01, 500))
def test_every_answer_is_in_order(use, every, stock):
    there = np.ones(len(use), bool)
    if every:
        there[:: every + 1] = False
    ahead = ahead_of(use, there)
    if ahead is None:
        return
    found = ahead.run_out(stock)
    assert 0 <= found.low <= found.likely <= found.high
    assert found.low < np.inf or ahead.gone_within(stock, [HORIZON])[0] <= 0.1
    low, likely, high = ahead.use_over(12)
    assert 0 <= low <= likely <= high < np.inf
    chances = ahead.gone_within(stock, HORIZONS)
    assert (np.diff(chances) >= 0).all()
    assert (chances >= 0).all()
    assert (chances <= 1).all()
    assert (np.diff(ahead.expected(np.arange(60.0))) >= 0).all()
    more = ahead.run_out(2 * stock)
    assert more.low >= found.low - 1e-9
    assert more.high >= found.high - 1e-9


@settings(max_examples=30)
@given(days_strategy, st.sampled_from([0.001, 1000.0]))
def test_another_unit_scales_amounts_and_leaves_weeks(use, times):
    one, other = ahead_of(use), ahead_of(np.array(use) * times)
    if one is None:
        return
    assert other.run_out(5.0 * times).likely == pytest.approx(one.run_out(5.0).likely, rel=1e-6)
    assert other.use_over(12) == pytest.approx([times * x for x in one.use_over(12)], rel=1e-6)


@pytest.mark.parametrize("stock", [-1.0, float("nan")])
def test_bad_stock_is_refused(stock):
    with pytest.raises(InputError):
        ahead_of(weekly(10)).run_out(stock)
