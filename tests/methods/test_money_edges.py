"""Money where there is nothing to divide by, and sums that must hold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.money import (
    break_even,
    payback,
)
from ledger.methods.wear import straight_line

money = st.floats(0, 1e6)


def test_no_margin_never_breaks_even():
    assert break_even(100, 2, 2) is None
    assert break_even(100, 2, 3) is None
    assert break_even(0, 2, 3) == 0


def test_payback_edges():
    assert payback(0, [5.0]) == 0
    assert payback(100, []) is None
    assert payback(100, [], then=0) is None
    assert payback(100, [60, -20, 60]) == 3
    assert payback(100, [100]) == 1


@given(st.floats(0.01, 1e6), st.lists(st.floats(0, 1e5), max_size=10), st.floats(0.01, 1e5))
def test_payback_has_earned_exactly_the_cost(cost, flows, then):
    years = payback(cost, flows, then=then)
    whole = math.floor(years)
    flows = [*flows, *[then] * max(0, min(whole + 1 - len(flows), 1))]
    if whole < len(flows):
        earned = math.fsum(flows[:whole]) + (years - whole) * flows[whole]
        if years <= len(flows):
            assert earned == pytest.approx(cost, rel=1e-6)


@given(money, st.floats(0, 1), st.integers(1, 40), st.integers(1, 12))
def test_wear_adds_up_to_what_is_lost(cost, share, years, months):
    salvage = cost * share
    lost = pytest.approx(cost - salvage, abs=1e-6 * max(1.0, cost))
    assert math.fsum(straight_line(cost, salvage, years, months_in_first=months)) == lost


@pytest.mark.parametrize(
    "call",
    [
        lambda: straight_line(1, 0, 0),
        lambda: straight_line(1, 0, 2, months_in_first=13),
        lambda: break_even(1, 2, 1, tax=1),
    ],
)
def test_bad_input_is_refused(call):
    with pytest.raises(InputError):
        call()
