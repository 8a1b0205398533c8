"""How many plants, with which chance: against SciPy's t, and how seasons and the book are weighed."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods.yields import Seasons, household_of, need_spread, yield_ahead

NOBODY = household_of([])
yields = st.lists(st.floats(0.1, 50) | st.just(0.0), max_size=12)
published = st.none() | st.floats(0.1, 50)


def ahead(seasons, known=None, household=NOBODY):
    return yield_ahead(Seasons(tuple(seasons), known), household)


def test_first_year_goes_by_the_published_yield():
    found = ahead([], 3.0)
    assert found.likely == pytest.approx(3.0)
    assert found.scale == pytest.approx(math.hypot(0.35, 0.40))
    assert found.failure == pytest.approx(0.05)
    assert found.units(30) == pytest.approx(10)
    # Student's t of 6 degrees, the tail left for good seasons once failures have their share
    low = 3.0 * math.exp(found.scale * stats.t.ppf((0.1 - 0.05) / 0.95, 6))
    assert found.units(30, nine=True) == pytest.approx(30 / low)
    assert found.chance_short(30, 30 / low) == pytest.approx(0.1)


def test_own_seasons_alone_are_one_more_draw_of_students_t():
    """Without a published yield: SciPy's t about the mean of the logs."""
    found = ahead([2.0, 3.0, 2.5, 4.0])
    logs = np.log([2.0, 3.0, 2.5, 4.0])
    squares = ((logs - logs.mean()) ** 2).sum()
    spread = math.sqrt((6 * 0.35**2 + squares) / 9 * 1.25)
    f = 0.5 / 14
    second = stats.t(9, logs.mean(), spread)
    assert found.missed_once_in_ten() == pytest.approx(math.exp(second.ppf((0.1 - f) / (1 - f))))
    short = f + (1 - f) * second.cdf(math.log(100 / 40))
    assert found.chance_short(100, 40) == pytest.approx(short)


def test_seasons_and_the_book_are_weighed():
    few, many = ahead([6.0], 3.0), ahead([6.0] * 12, 3.0)
    assert 3 < few.likely < many.likely < 6
    assert few.weight < many.weight < 1


def test_other_crops_say_how_this_garden_stands_to_the_book():
    good = household_of([Seasons((4.0, 4.2), 2.0), Seasons((9.0, 8.8), 5.0), Seasons((), 1.0)])
    assert good.offset > 0.2
    assert ahead([], 1.0, good).likely > 1.2
    failing = household_of([Seasons((0.0, 0.0, 4.0), 2.0), Seasons((), 1.0)])
    assert ahead([], 1.0, failing).failure > ahead([], 1.0).failure


def test_failed_seasons_count_apart_and_the_answer_stays_finite():
    found = ahead([0.0, 0.0, 0.0, 2.0], 2.0)
    assert found.failure == pytest.approx(3.5 / 14)
    assert math.isfinite(found.units(10, nine=True))
    assert found.chance_short(10, 1e9) == pytest.approx(found.failure)


def test_need_spreads_as_well():
    assert need_spread([]) == need_spread([7.0]) == pytest.approx(0.25 * math.sqrt(2))
    assert need_spread([5.0] * 9) < need_spread([5.0, 9.0, 2.0] * 3)
    found = ahead([2.0, 2.2], 2.0)
    assert found.units(10, nine=True, spread=0.3) > found.units(10, nine=True)


def test_nothing_known_says_nothing():
    assert ahead([]) is None
    assert ahead([0.0]) is None
    assert ahead([3.0]) is not None


@given(st.lists(st.tuples(yields, published), max_size=6), st.floats(1, 1000), st.floats(0, 0.5))
def test_nine_in_ten_is_finite_and_keeps_its_chance(crops, needed, spread):
    several = [Seasons(tuple(some), known) for some, known in crops]
    household = household_of(several)
    for crop in several:
        found = yield_ahead(crop, household)
        if found is None:
            assert not crop.published
            continue
        even, nine = found.units(needed), found.units(needed, nine=True, spread=spread)
        assert 0 < even < nine < math.inf
        short = found.chance_short(needed, nine, spread)
        assert short <= max(0.1, found.failure + 0.03) + 1e-9
        assert found.chance_short(needed, 2 * nine, spread) <= short


def test_nothing_planted_falls_short():
    assert ahead([], 2.0).chance_short(5, 0) == 1.0
    assert ahead([], 2.0).chance_short(0, 0) == 0.0


@pytest.mark.parametrize("call", [lambda: Seasons((-1.0,)), lambda: Seasons((), 0.0), lambda: Seasons((math.nan,))])  # fmt: skip
def test_bad_input_is_refused(call):
    with pytest.raises(InputError):
        call()
