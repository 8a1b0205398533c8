"""How many plants, with which chance."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods.yields import chance_short, from_range, from_seasons, plants_for

seasons = st.lists(st.floats(0.1, 50), min_size=2, max_size=12)


def test_even_chance_takes_the_middle():
    assert plants_for(30, from_range(2, 4)) == 10
    assert plants_for(30, from_range(2, 4), 0.9) == 14  # 30 / 2.2
    assert plants_for(0, from_range(2, 4)) == 0


def test_one_published_figure_gives_an_even_chance_only():
    single = from_range(3, 3)
    assert plants_for(30, single) == 10
    assert plants_for(30, single, 0.9) is None
    assert chance_short(30, 10, single) is None
    assert plants_for(30, from_range(3, 3, assumed_spread=0.5), 0.9) == 17  # 30 / 1.8


def test_own_seasons_follow_the_prediction_interval():
    # held to scipy's t distribution on the logs
    yields = [2.0, 3.0, 2.5, 4.0]
    logs = np.log(yields)
    low = stats.t.ppf(0.1, 3, logs.mean(), logs.std(ddof=1) * np.sqrt(1.25))
    assert from_seasons(yields).quantile(0.1) == pytest.approx(np.exp(low))
    assert plants_for(100, from_seasons(yields), 0.9) == int(np.ceil(100 / np.exp(low)))
    assert from_seasons(yields).likely == pytest.approx(np.exp(logs.mean()))


@given(seasons, st.floats(1, 1000))
@example([15.5, 15.5, 15.5], 15.5)
def test_chance_agrees_with_the_plants(yields, needed):
    spread = from_seasons(yields)
    plants = plants_for(needed, spread, 0.9)
    if plants and plants < 1e9:
        assert chance_short(needed, plants, spread) <= 0.1 + 1e-6
        assert plants >= plants_for(needed, spread, 0.5)


@given(st.floats(0.5, 10), st.floats(0, 10), st.floats(1, 500))
@example(1.0, 2.220446049250313e-16, 1.0)  # no wider than rounding: one figure
def test_chance_of_a_range_agrees(low, width, needed):
    spread = from_range(low, low + width, assumed_spread=0.2)
    plants = plants_for(needed, spread, 0.9)
    assert chance_short(needed, plants, spread) <= 0.1 + 1e-6
    if plants > 1:
        assert chance_short(needed, plants - 1, spread) >= 0.1 - 1e-6


def test_failed_seasons_count():
    spread = from_seasons([2.0, 0.0, 3.0, 2.5])
    assert spread.failed == 0.25
    # one season in four brings nothing: no number of plants makes nine in ten
    assert plants_for(10, spread, 0.9) is None
    assert plants_for(10, spread, 0.5) is not None
    assert chance_short(10, 10_000, spread) == pytest.approx(0.25, abs=0.01)


def test_seasons_all_alike():
    spread = from_seasons([2.0, 2.0])
    assert plants_for(10, spread, 0.9) == 5
    assert (chance_short(10, 5, spread), chance_short(10, 4, spread)) == (0.0, 1.0)


def test_too_few_seasons():
    assert from_seasons([]) is None
    assert from_seasons([3.0]) is None
    assert from_seasons([3.0, 0.0]) is None


def test_nothing_planted_falls_short():
    assert chance_short(5, 0, from_range(1, 2)) == 1.0
    assert chance_short(0, 0, from_range(1, 2)) == 0.0


@pytest.mark.parametrize(
    "call",
    [
        lambda: from_range(4, 2),
        lambda: from_range(0, 0),
        lambda: from_seasons([1, -1]),
        lambda: plants_for(1, from_range(1, 2), 1.0),
    ],
)
def test_bad_input_is_refused(call):
    with pytest.raises(InputError):
        call()
