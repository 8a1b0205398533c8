"""Weekly series, and levels of use at their edges."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.use import accuracy, croston, is_sparse, moving_average, smooth, weekly_use

uses = st.lists(st.tuples(st.integers(0, 400), st.floats(0, 1e6), st.integers(0, 3)), max_size=60)


def test_newest_week_is_whole():
    # days 0 to 16: two whole weeks back from day 16 are 3-9 and 10-16
    found = weekly_use([0, 2, 3, 9, 10, 16], [1, 2, 4, 8, 16, 32], first=0, last=16)
    assert found.tolist() == [12, 48]


def test_less_than_a_week_has_no_series():
    assert weekly_use([1], [5.0], first=0, last=5).tolist() == []
    assert weekly_use([], [], first=10, last=0, items=[], n_items=2).shape == (2, 0)


@given(uses, st.integers(0, 100), st.integers(100, 400))
def test_weekly_use_equals_plain_loop(rows, first, last):
    days, amounts, items = (
        (list(column) for column in zip(*rows, strict=True)) if rows else ([],) * 3
    )
    found = weekly_use(days, amounts, first=first, last=last, items=items, n_items=4)
    weeks = (last - first + 1) // 7
    plain = np.zeros((4, weeks))
    for day, amount, item in rows:
        begin = last + 1 - 7 * weeks
        if begin <= day <= last:
            plain[item, (day - begin) // 7] += amount
    assert found == pytest.approx(plain)


@given(st.lists(st.sampled_from([0.0, 0.0, 1.0, 5.5]), min_size=1, max_size=40))
def test_croston_of_a_table_is_croston_of_each_row(series):
    table = np.array([series, series[::-1]])
    both = croston(table)
    for row in (0, 1):
        alone = croston(table[row])
        assert both.per_period[row] == alone.per_period
        assert both.corrected[row] == pytest.approx(0.95 * alone.per_period)


def test_never_used_has_no_size():
    found = croston([0, 0, 0])
    assert np.isnan(found.size)
    assert found.per_period == 0
    assert not is_sparse([0, 0, 0])


def test_weeks_before_the_item_was_there_do_not_count():
    young = croston([np.nan, np.nan, 0, 4, 0, 4])
    assert (young.size, young.gap) == (4, 2)
    assert is_sparse([np.nan, np.nan, 0, 4, 0, 4])
    assert not is_sparse([np.nan, np.nan, 4, 4])


def test_steady_use_keeps_its_level():
    assert croston([3.0] * 20).per_period == 3
    assert smooth([3.0] * 20, 0.3).tolist() == [3.0] * 21
    assert not is_sparse([3.0] * 20)


@pytest.mark.parametrize("alpha", [0, -0.1, 1.01])
def test_alpha_out_of_range_is_refused(alpha):
    with pytest.raises(InputError, match="alpha"):
        smooth([1.0], alpha)
    with pytest.raises(InputError, match="alpha"):
        croston([1.0], alpha)


def test_moving_average_edges():
    assert np.isnan(moving_average([1, 2], 3)).all()
    assert moving_average([1, 2, 3], 2, centred=False)[1:].tolist() == [1.5, 2.5]
    with pytest.raises(InputError, match="window"):
        moving_average([1, 2, 3], 2)


def test_accuracy_of_nothing():
    assert accuracy([], []).bias is None
    assert accuracy([0.0], [1.0]).mean_percent is None
    assert smooth([], 0.3).size == 0
