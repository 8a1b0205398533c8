"""Rules that every ratio keeps."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.ratios import (
    feed_adjusted,
    ratio,
    self_sufficiency,
)

amounts = st.floats(0, 1e9)


@given(st.floats(0.01, 1e6), st.floats(0.01, 1e6), st.floats(0.01, 100))
def test_scaling_amounts_leaves_shares(made, came, factor):
    scaled = self_sufficiency(made * factor, came * factor)
    assert scaled == pytest.approx(self_sufficiency(made, came))


@pytest.mark.parametrize("bad", [None, math.nan, math.inf])
def test_unknown_gives_unknown(bad):
    assert ratio(bad, 1.0) is None
    assert ratio(1.0, bad) is None


def test_undefined_is_none_and_never_zero():
    assert ratio(0.0, 0.0) is None
    assert ratio(3.0, -2.0) is None
    assert self_sufficiency(5.0, 0.0, 9.0) is None


def test_stock_laid_in_is_not_used_yet():
    # grew 10 and bought 4, of which 6 went on the shelf: 8 were used
    assert self_sufficiency(10, 4, 0, 6) == 1.25


def test_negative_feed_share_is_refused():
    with pytest.raises(InputError, match="feed"):
        feed_adjusted(1.0, -0.1)
