"""Extra packs within a budget."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.stocking import Staple, extra_packs

FLOUR = Staple("flour", held=4, per_week=2, target_weeks=8, pack=5, price=3.0)
SUGAR = Staple("sugar", held=1, per_week=0.5, target_weeks=12, pack=1, price=1.2)
YEAST = Staple("yeast", held=0, per_week=1, target_weeks=10, pack=2, price=1.0, keeps_weeks=5)


def test_cheapest_week_comes_first():
    # a week of sugar is 0.60, of flour 1.20: sugar first, flour as far as the money goes
    plan = extra_packs([FLOUR, SUGAR], trips=2, budget=5.0)
    assert [trip.packs for trip in plan.trips] == [{"sugar": 4}, {"sugar": 1, "flour": 1}]
    assert plan.packs_short == {"flour": 2}
    assert plan.cost == pytest.approx(4 * 1.2 + 1.2 + 3)


def test_best_before_is_respected():
    # ten weeks would be five packs; only five weeks keep, so two packs
    plan = extra_packs([YEAST], trips=1, budget=100)
    assert plan.trips[0].packs == {"yeast": 2}
    assert plan.kept_out == {"yeast": 3}


def test_target_met_buys_nothing():
    plan = extra_packs([Staple("salt", 9, 0.1, 52, 1, 0.5)], trips=3, budget=10)
    assert [trip.packs for trip in plan.trips] == [{}, {}, {}]


staples = st.lists(
    st.builds(
        Staple,
        st.sampled_from("abcdef"),
        st.floats(0, 50),
        st.floats(0, 5),
        st.floats(0, 30),
        st.floats(0.1, 10),
        st.floats(0, 20),
        st.one_of(st.just(math.inf), st.floats(0, 60)),
    ),
    unique_by=lambda s: s.name,
    max_size=5,
)


@given(staples, st.integers(0, 4), st.floats(0, 60))
def test_plan_keeps_budget_target_and_date(staples, trips, budget):
    plan = extra_packs(staples, trips=trips, budget=budget)
    assert all(trip.cost <= budget * (1 + 1e-6) + 1e-6 for trip in plan.trips)
    for staple in staples:
        packs = sum(trip.packs.get(staple.name, 0) for trip in plan.trips)
        after = staple.held + packs * staple.pack
        if packs:
            assert after - staple.pack < staple.per_week * staple.target_weeks + 1e-6
            assert after <= staple.per_week * staple.keeps_weeks + 1e-6
        assert packs + plan.packs_short.get(staple.name, 0) == staple.packs_wanted()


@pytest.mark.parametrize(
    ("staples", "budget"),
    [
        ([Staple("x", 1, 1, 1, 0, 1)], 1),
        ([Staple("x", 1, -1, 1, 1, 1)], 1),
        ([FLOUR, FLOUR], 1),
        ([FLOUR], -1),
    ],
)
def test_bad_input_is_refused(staples, budget):
    with pytest.raises(InputError):
        extra_packs(staples, trips=1, budget=budget)
