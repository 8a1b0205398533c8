"""What is eaten too late."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.methods.supply import past_best

lots = st.lists(st.tuples(st.floats(0, 100), st.floats(-5, 50)), max_size=12)


def test_first_lot_is_eaten_first():
    assert past_best([6.0, 10.0], [2.0, 4.0], 2.0) == [2.0, 6.0]
    # the order they are listed in does not matter
    assert past_best([10.0, 6.0], [4.0, 2.0], 2.0) == [6.0, 2.0]


def test_lot_without_a_date_is_never_late():
    assert past_best([100.0, 4.0], [math.inf, 1.0], 2.0) == [0.0, 2.0]


def test_lot_past_its_date_is_late_whole():
    assert past_best([3.0, 4.0], [-1.0, 2.0], 2.0) == [3.0, 0.0]
    assert past_best([3.0], [10.0], 0.0) == [3.0]


@given(lots, st.floats(0, 20), st.floats(0.1, 10))
def test_eaten_faster_is_never_later(rows, pace, more):
    amounts, weeks = [a for a, _ in rows], [w for _, w in rows]
    slow = past_best(amounts, weeks, pace)
    fast = past_best(amounts, weeks, pace + more)
    assert math.fsum(fast) <= math.fsum(slow) + 1e-9
    for amount, late in zip(amounts, slow, strict=True):
        assert 0 <= late <= amount


@given(lots, st.floats(0, 20))
def test_late_equals_day_by_day_eating(rows, pace):
    """Eat in small steps, always of the lot whose date comes first and has not passed."""
    amounts = [a for a, _ in rows]
    rest = dict(enumerate(amounts))
    order = sorted(rest, key=lambda i: rows[i][1])
    now = 0.0
    for i in order:  # between two dates nothing changes, so whole stretches may be eaten at once
        until = rows[i][1]
        budget = pace * max(0.0, until - now)
        now = max(now, until)
        for j in order:
            if rows[j][1] >= until:
                bite = min(rest[j], budget)
                rest[j] -= bite
                budget -= bite
    assert past_best(amounts, [w for _, w in rows], pace) == pytest.approx(
        [rest[i] for i in range(len(rows))], abs=1e-6
    )
