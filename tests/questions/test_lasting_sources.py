"""What lasts, and home prices: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.worth_it.question import build
from ledger.questions.worth_it.why import why

QUICK = settings(max_examples=5, deadline=None, suppress_health_check=list(HealthCheck))
BOOKS = given(st.integers(0, 10_000), st.integers(30, 70), st.integers(0, 99))
LASTING, PRICES = {"durables": True}, {"prices": True}
FIGURES = [
    ("earned", LASTING), ("paid", LASTING), ("charged", LASTING), ("earned_per_year", LASTING),
    ("yearly_cost", LASTING), ("home_per_unit", PRICES), ("shop_per_unit", PRICES), ("saved", PRICES),
]  # fmt: skip
proved = pytest.mark.parametrize(("figure", "options"), FIGURES, ids=[name for name, _ in FIGURES])


def priced(event):
    """Return an event with its money or minutes TIMES as much; None: it has none, or is no price."""
    return None if event["body"].get("name") == "interest_rate" else changed(event)


def proof(figure, options, at):
    """Return how a figure is opened, at one of the records that have it."""

    def opened(events):
        state = base(events, FAR)
        found = [r["why"].partition("/")[2] for r in build(state, **options).rows() if r[figure]]
        if not found:
            return None, None
        key = found[at % len(found)]
        return key, why(state, key, figure, deep=WHOLE)

    def unit(event):
        return "minutes" if event["kind"] == "put_up" else "money"

    return Proof(opened, lambda state, key: why(state, key, figure).value, priced, unit, FAR)


@proved
@QUICK
@BOOKS
def test_a_price_changed_in_a_leaf_moves_the_figure_as_its_tree_says(
    figure, options, seed, size, at
):
    proof(figure, options, at).holds_inside(random_book(seed, size))


@proved
@QUICK
@BOOKS
def test_a_price_changed_outside_the_tree_moves_nothing(figure, options, seed, size, at):
    proof(figure, options, at).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("options", [LASTING, PRICES], ids=("durables", "prices"))
@pytest.mark.parametrize("seed", range(3))
def test_every_leaf_names_where_it_comes_from(seed, options):
    """And every node is what its parts give; the column and the root are one."""
    state = base(random_book(seed, 80), "2026-07-20")
    answer, seen = build(state, **options), 0
    for record in answer.rows()[:8]:
        for column in answer.columns:
            value = record[column.name]
            if isinstance(value, float | int) and not isinstance(value, bool):
                tree = why(state, record["why"].partition("/")[2], column.name, deep=2)
                assert tree.value == pytest.approx(value, rel=1e-12)
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), (record, column.name)
                seen += 1
    assert seen or not answer.rows()
