"""When something comes in again: equally likely waits, against SciPy's log-normal and normal."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from ledger.errors import InputError
from ledger.methods.waiting import POINTS, after_pauses, in_season

MIDDLES = (np.arange(POINTS) + 0.5) / POINTS


def test_waits_are_quantiles_of_the_log_normal():
    pauses = [7.0, 9.0, 6.0, 14.0]
    logs = np.log(pauses)
    spread = np.sqrt((((logs - logs.mean()) ** 2).sum() + 3 * 0.35**2) / 6 * 1.25)
    second = stats.lognorm(spread, scale=np.exp(logs.mean()))
    assert after_pauses(pauses, 0) == pytest.approx(second.ppf(MIDDLES))
    rest = second.ppf(second.cdf(5) + second.sf(5) * MIDDLES) - 5
    assert after_pauses(pauses, 5) == pytest.approx(rest)


def test_waits_of_a_season_are_quantiles_of_the_normal():
    days = [200.0, 215.0]
    spread = np.sqrt((112.5 + 3 * 14.0**2) / 4 * 1.5)
    assert in_season(days) == pytest.approx(stats.norm(207.5, spread).ppf(MIDDLES))
    assert (in_season([3.0]) > 0).all()


@given(st.lists(st.floats(1, 400), min_size=1, max_size=20), st.integers(0, 900))
def test_waits_lie_ahead_and_rise(pauses, since):
    found = after_pauses(pauses, since)
    assert (found > 0).all() or since > 100 * max(pauses)
    assert (np.diff(found) >= 0).all()


@pytest.mark.parametrize("call", [lambda: after_pauses([], 3), lambda: after_pauses([0.0], 3), lambda: in_season([])])  # fmt: skip
def test_nothing_to_go_by_is_refused(call):
    with pytest.raises(InputError):
        call()
