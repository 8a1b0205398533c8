"""Own prices: the indices of published baskets, and that sources are proved.

Baskets: atozmath.com, food basket; edu.com question 668218; one made up (METHODS 9).
"""

from __future__ import annotations

from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.figures import Groups, said
from ledger.questions.own_prices.figures import OwnPrices
from ledger.questions.own_prices.question import PROJECTION

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2024-12-31"

BASKETS = {
    "food basket": (([39, 40, 45, 30], [40, 44, 50, 36], [1, 12, 2, 2], [1.5, 10, 1.5, 1.5]), (110.61, 110.16, 110.385, 94.02)),
    "from expenditures": (([10, 12, 18, 8], [15, 15, 27, 12], [6, 10, 5, 5], [5, 10, 3, 4]), (140.32, 138.28, 139.30, 114.19)),
    "no longer bought": (([0.5, 4, 2], [0.6, 5, 3], [50, 40, 60], [60, 30, 0]), (134.43, 124.0, 129.11, 60.98)),
}  # fmt: skip


def indices(p0, p1, q0, q1):
    """Return the indices of a basket by its prices and amounts."""
    rows = np.arange(len(p0))
    together = Groups(np.zeros_like(rows), 1)
    basket = SimpleNamespace(
        names=["x"] * rows.size, rows=rows, is_priced=[rows >= 0] * 2, together=together, all_used=together,
        money=[said(np.array(p, float), "money", rows) for p in (p0, p1)],
        whole=[said(np.ones(rows.size), "mg", rows)] * 2,
        used=[said(np.array(q, float), "mg", rows) for q in (q0, q1)],
        for_each=lambda figure: figure.at(np.zeros_like(rows)),
    )  # fmt: skip
    return {name: figure.cells()[0] for name, figure in OwnPrices(basket, "last-year").all.items()}


@pytest.mark.parametrize("name", BASKETS)
def test_indices_of_the_tables(name):
    columns, wanted = BASKETS[name]
    found = indices(*columns)
    got = [found[name] for name in ("laspeyres", "paasche", "fisher", "value_index")]
    assert got == pytest.approx(wanted, abs=0.006)


def test_sums_of_the_food_basket():
    (p0, p1, q0, q1), _ = BASKETS["food basket"]
    assert sum(p * q for p, q in zip(p1, q0, strict=True)) == 740
    assert sum(p * q for p, q in zip(p0, q0, strict=True)) == 669
    assert sum(p * q for p, q in zip(p1, q1, strict=True)) == 629
    assert sum(p * q for p, q in zip(p0, q1, strict=True)) == 571


MONEY = st.lists(st.tuples(*[st.floats(0.1, 100)] * 4), min_size=1, max_size=12)


@given(MONEY)
def test_fisher_prices_times_fisher_quantities_is_the_value(rows):
    p0, p1, q0, q1 = (list(column) for column in zip(*rows, strict=True))
    prices, amounts = indices(p0, p1, q0, q1), indices(q0, q1, p0, p1)
    assert prices["fisher"] * amounts["fisher"] / 100 == pytest.approx(prices["value_index"])


def test_an_empty_basket_has_no_index():
    assert set(indices([], [], [], []).values()) == {None}


# -- sources


def key_of(record):
    return record["why"].partition("/")[2]


def proof(figure, at):
    """Return how a figure of the prices is opened, at one of the records that have it."""

    def opened(events):
        state = base(events, AS_OF)
        found = [key_of(r) for r in PROJECTION.build(state).rows() if r.get(figure)]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, changed, "money", AS_OF)


@pytest.mark.parametrize("figure", ["change", "laspeyres", "share"])
@QUICK
@given(st.integers(0, 10_000), st.integers(60, 120), st.integers(0, 99))
def test_a_price_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    proof(figure, at).holds_inside(random_book(seed, size))


@pytest.mark.parametrize("figure", ["change", "laspeyres", "share"])
@QUICK
@given(st.integers(0, 10_000), st.integers(60, 120), st.integers(0, 99))
def test_a_price_outside_the_tree_moves_nothing(figure, seed, size, at):
    proof(figure, at).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed):
    state = base(random_book(seed, 120), AS_OF)
    answer = PROJECTION.build(state)
    for record in answer.rows()[:6]:
        for column in answer.columns:
            if isinstance(record[column.name], float | int):
                tree = PROJECTION.why(state, key_of(record), column.name, deep=2)
                assert tree.value == pytest.approx(record[column.name])
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), column.name
