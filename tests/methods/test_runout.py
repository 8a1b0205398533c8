"""Run-out by drawing weeks again: against a plain loop, and where the answer is known."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods import futures, runout
from ledger.methods.futures import BLOCK
from ledger.methods.runout import expected_use, run_out, stock_ahead, use_range


def plain_weeks(stock, use, draws, season):
    """Walk every path week by week."""
    starts = futures.Futures(draws, season).starts(len(use))
    answer = []
    for path in range(draws.shape[1]):
        left, week = stock, 0.0
        for block in range(draws.shape[0]):
            for step in range(BLOCK):
                taken = use[(starts[block, path] + step) % len(use)]
                if left > 0:
                    week += min(1.0, left / taken) if taken > 0 else 1.0
                    left -= taken
        answer.append(week if left <= 0 else np.inf)
    return np.array(answer)


@settings(max_examples=40)
@given(
    st.lists(st.integers(0, 4), min_size=4, max_size=130),
    st.integers(0, 60),
    st.sampled_from([None, 26, 52]),
)
def test_fast_equals_plain_loop(use, stock, season):
    use = np.array(use, dtype=float)
    draws = futures.draws(20, 60, 7)
    fast = runout._weeks_until_empty(float(stock), use, futures.Futures(draws, season))
    assert fast == pytest.approx(plain_weeks(float(stock), use, draws, season))


def test_even_use_runs_out_when_it_must():
    found = run_out(10.0, np.full(30, 2.0), next_supply_week=5.0, paths=50)
    assert (found.low[0], found.likely[0], found.high[0]) == (5, 5, 5)
    assert found.reaches[0] == 1.0
    assert run_out(10.0, np.full(30, 2.0), next_supply_week=5.01, paths=50).reaches[0] == 0.0


def test_nothing_left_and_nothing_used():
    found = run_out([0.0, 4.0], [[1.0] * 8, [0.0] * 8], next_supply_week=2.0)
    assert found.likely.tolist() == [0.0, np.inf]
    assert found.reaches.tolist() == [0.0, 1.0]


def test_too_little_history_says_so():
    found = run_out([5.0, 5.0], [[np.nan] * 5 + [1.0] * 3, [1.0] * 8], next_supply_week=[2, np.nan])
    assert np.isnan(found.likely[0])
    assert np.isnan(found.reaches[0])
    assert found.likely[1] == 5
    assert np.isnan(found.reaches[1])


def test_range_covers_what_happens():
    # use is 0 or 2 a week by a fair coin: 26 weeks' worth ends about there, never under 13
    rng = np.random.default_rng(3)
    found = run_out(26.0, 2.0 * rng.integers(0, 2, 400), seed=1)
    assert 13 <= found.low[0] < found.likely[0] < found.high[0]
    assert found.likely[0] == pytest.approx(26, abs=4)


def test_chance_agrees_with_the_range():
    rng = np.random.default_rng(5)
    past = rng.poisson(1.5, 120).astype(float)
    low = run_out(30.0, past, seed=2).low[0]
    # nine paths in ten last as long as the low end; no more than that last longer
    assert run_out(30.0, past, next_supply_week=low, seed=2).reaches[0] >= 0.9
    longer = np.nextafter(low, np.inf)
    assert run_out(30.0, past, next_supply_week=longer, seed=2).reaches[0] <= 0.9


def test_same_seed_same_answer_whoever_else_is_asked():
    rng = np.random.default_rng(8)
    past = rng.poisson(1.0, (5, 80)).astype(float)
    stock = np.array([3.0, 8.0, 20.0, 50.0, 9.0])
    together = run_out(stock, past, next_supply_week=[9, 9, 300, 9, 9], seed=4)
    for i in range(5):
        alone = run_out(stock[i], past[i], next_supply_week=together.horizon / 12, seed=4)
        assert alone.likely[0] == together.likely[i]
        assert alone.low[0] == together.low[i]
    other = run_out(stock, past, seed=5)
    assert (other.low != together.low).any() or (other.high != together.high).any()


def test_season_is_kept():
    """Used only in the first half of each year."""
    year = np.r_[np.ones(26), np.zeros(26)]
    slack = BLOCK + runout.JITTER
    before = run_out(10.0, np.tile(year, 3), season=52)
    assert 10 - slack <= before.low[0] <= before.high[0] <= 10 + slack
    # half a year on, the next use is 26 weeks away
    after = run_out(10.0, np.r_[np.tile(year, 3), year[:26]], season=52)
    assert 36 - slack <= after.low[0] <= after.high[0] <= 36 + slack
    # without seasons the same history says about twenty weeks
    assert run_out(10.0, np.tile(year, 3)).likely[0] == pytest.approx(20, abs=8)


def test_more_stock_never_ends_sooner():
    rng = np.random.default_rng(9)
    past = rng.poisson(0.8, 60).astype(float)
    ends = [run_out(float(stock), past, seed=1).low[0] for stock in range(0, 40, 4)]
    assert ends == sorted(ends)


def test_scaling_amounts_leaves_weeks():
    past = np.random.default_rng(2).poisson(1.2, 70).astype(float)
    assert run_out(12.0, past).likely[0] == run_out(12_000.0, past * 1000).likely[0]


def test_use_range_holds_the_mean():
    past = np.random.default_rng(4).poisson(1.2, 104).astype(float)
    found = use_range([past, np.full(104, 3.0)], weeks=52)
    assert found.low[0] < past.mean() < found.high[0]
    assert (found.low[1], found.likely[1], found.high[1]) == (3, 3, 3)
    assert np.isnan(use_range([1.0, 2.0]).likely[0])


@pytest.mark.parametrize(
    ("stock", "past", "more"),
    [
        (-1.0, [1.0] * 5, {}),
        (np.nan, [1.0] * 5, {}),
        (1.0, [1.0, -2.0, 1.0, 1.0], {}),
        ([1.0, 2.0], [1.0] * 5, {}),
        (1.0, [1.0] * 5, {"paths": 0}),
    ],
)
def test_bad_input_is_refused(stock, past, more):
    with pytest.raises(InputError):
        run_out(stock, past, **more)


def test_stock_ahead_falls_at_an_even_pace():
    found = stock_ahead(10.0, np.full(30, 2.0), weeks=7, paths=50)
    assert found.likely.tolist() == [10, 8, 6, 4, 2, 0, 0, 0]
    assert found.low.tolist() == found.high.tolist() == found.likely.tolist()


@settings(max_examples=25)
@given(
    st.lists(st.integers(0, 4), min_size=4, max_size=130),
    st.integers(1, 40),
    st.sampled_from([None, 52]),
)
def test_stock_ahead_is_gone_when_run_out_says(use, stock, season):
    weeks = run_out(stock, use, season=season, paths=99, horizon=156)
    left = stock_ahead(stock, use, season=season, paths=99, weeks=156)
    for name in ("low", "likely", "high"):
        week = getattr(weeks, name)[0]
        gone = np.flatnonzero(getattr(left, name) == 0)
        assert gone[:1].tolist() == ([] if np.isinf(week) else [np.ceil(week)])


def test_use_range_follows_the_season():
    year = np.r_[np.zeros(40), np.full(12, 3.0)]
    past = np.tile(year, 3)[: 3 * 52 - 6]  # six weeks of use are still to come this season
    season = use_range(past, season=52, weeks=4)
    assert season.likely[0] == 3.0
    assert use_range(past, weeks=4).likely[0] < 3.0
    assert use_range(np.r_[past, np.full(6, 3.0)], season=52, weeks=8).high[0] < 1.0


def test_stock_ahead_says_too_little_history():
    assert np.isnan(stock_ahead(5.0, [1.0, 1.0], weeks=3).likely).tolist() == [True] * 4


@pytest.mark.parametrize("season", [None, 52])
def test_expected_use_is_the_mean_of_many_paths(season):
    past = np.random.default_rng(5).poisson(2.0, 130).astype(float)
    left = stock_ahead(1e6, past, season=season, weeks=30, paths=4000)
    expected = 1e6 - np.cumsum(expected_use(past, season=season, weeks=30))
    assert left.likely[1:] == pytest.approx(expected, abs=3)


def test_expected_use_is_unknown_of_three_weeks():
    assert np.isnan(expected_use([1.0, np.nan, 2.0, 3.0], weeks=2)).all()
