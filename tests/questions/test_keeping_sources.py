"""Keeping life's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.keeping_life.question import PROJECTION

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
FIGURES = ("money", "hours")


def opened_of(record):
    return record["why"].partition("/")[2]


def proof(figure, at):
    """Return how what was lost is opened, at one of the records that have it."""

    def opened(events):
        state = base(events, FAR)
        found = [r for r in PROJECTION.build(state, loss=True).rows() if r[figure]]
        if not found:
            return None, None
        key = opened_of(found[at % len(found)])
        return key, PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    def unit(event):
        return "minutes" if event["kind"] == "put_up" else "money"

    return Proof(opened, valued, changed, unit, FAR)


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_loss_as_its_tree_says(figure, seed, size, at):
    proof(figure, at).holds_inside(random_book(seed, size))


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    proof(figure, at).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("options", [{}, {"loss": True}], ids=("lives", "losses"))
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, options):
    state = base(random_book(seed, 90), "2026-06-01")
    answer, seen = PROJECTION.build(state, **options), 0
    for record in answer.rows()[:6]:
        for column in answer.columns:
            if isinstance(record[column.name], float | int) and column.unit != "yes or no":
                tree = PROJECTION.why(state, opened_of(record), column.name, deep=2)
                check_tree(tree)
                assert all(names_its_source(leaf) for leaf in leaves(tree)), column.name
                seen += 1
    assert seen or not answer.rows()
