"""A running season against earlier ones."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.methods.progress import by_week_of_season, picked_by, still_to_come

SEASONS = [([10, 20, 30], [1.0, 2.0, 4.0]), ([20, 40], [8.0, 3.0]), ([5], [9.0])]


def test_by_this_day_then():
    assert [picked_by(*season, 20) for season in SEASONS] == [3.0, 8.0, 9.0]


def test_rest_of_earlier_seasons():
    found = still_to_come(SEASONS, 20)
    assert (found.low, found.likely, found.high, found.seasons) == (0.0, 3.0, 4.0, 3)
    doubled = still_to_come(SEASONS, 20, scale=[2, 2, 2])
    assert (doubled.low, doubled.likely, doubled.high) == (0.0, 6.0, 8.0)
    assert still_to_come([], 20) is None


@given(
    st.lists(st.tuples(st.integers(0, 370), st.floats(0, 1e6)), max_size=40), st.integers(0, 370)
)
def test_then_and_rest_are_the_whole(rows, day):
    days, amounts = [d for d, _ in rows], [a for _, a in rows]
    rest = still_to_come([(days, amounts)], day)
    assert picked_by(days, amounts, day) + rest.likely == pytest.approx(sum(amounts))
    assert by_week_of_season(days, amounts).sum() == pytest.approx(sum(amounts))


def test_weeks_of_a_season():
    found = by_week_of_season([-1, 0, 6, 7, 400], [1, 2, 4, 8, 16], 3)
    assert found.tolist() == [6, 8, 0]
