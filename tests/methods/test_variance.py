"""Causes of a change add up to it, exactly."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from ledger.errors import InputError
from ledger.methods.variance import causes_of_change

table = st.dictionaries(
    st.sampled_from("abcdef"),
    st.tuples(st.floats(0, 1e6), st.floats(0, 1e4)),
    max_size=6,
)


def parts(causes):
    return causes.price + causes.amount + causes.mix


@given(table, table)
def test_causes_add_up_exactly(before, after):
    found = causes_of_change(before, after)
    assert parts(found.all) == found.all.total
    for cause in found.items.values():
        assert parts(cause) == cause.total
    for name in ("total", "price", "amount", "mix"):
        assert sum(getattr(c, name) for c in found.items.values()) == getattr(found.all, name)


@given(table, table)
def test_total_is_the_difference(before, after):
    found = causes_of_change(before, after)
    plain = sum(q * p for q, p in after.values()) - sum(q * p for q, p in before.values())
    assert float(found.all.total) == pytest.approx(plain, rel=1e-9, abs=1e-2)


@given(table)
def test_nothing_changed_has_no_cause(before):
    found = causes_of_change(before, before).all
    assert (found.total, found.price, found.amount, found.mix) == (0, 0, 0, 0)


def test_each_cause_alone():
    before = {"plum": (10, 2.0), "pear": (10, 4.0)}
    assert causes_of_change(before, {"plum": (10, 2.5), "pear": (10, 4.0)}).all.price == 5
    doubled = causes_of_change(before, {"plum": (20, 2.0), "pear": (20, 4.0)}).all
    assert (doubled.price, doubled.amount, doubled.mix) == (0, 60, 0)
    shifted = causes_of_change(before, {"plum": (5, 2.0), "pear": (15, 4.0)}).all
    assert (shifted.price, shifted.amount, shifted.mix) == (0, 0, 10)


def test_new_and_gone_items():
    found = causes_of_change({"plum": (10, 2)}, {"pear": (10, 3)})
    assert (found.all.total, found.all.price, found.all.amount, found.all.mix) == (10, 0, 0, 10)
    first = causes_of_change({}, {"pear": (10, 3)}).all
    assert (first.amount, first.price, first.mix) == (30, 0, 0)
    last = causes_of_change({"pear": (10, 3)}, {}).all
    assert (last.amount, last.price, last.mix) == (-30, 0, 0)
    assert causes_of_change({}, {}).all.total == Decimal(0)


def test_negative_amount_is_refused():
    with pytest.raises(InputError, match="pear"):
        causes_of_change({"pear": (-1, 1)}, {})
