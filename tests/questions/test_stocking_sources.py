"""Stocking up's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.stocking_up.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2026-06-01"
ALL = {"budget": 20, "trips": 2, "weeks": 8, "price_rise": 30, "shortage": 8}


def by_money(figure, at, **options):
    """Return how a figure of money of one of the staples is opened and changed."""

    def opened(events):
        state = base(events, AS_OF)
        found = [r for r in PROJECTION.build(state, **options).rows() if r[figure]]
        if not found:
            return None, None
        key = found[at % len(found)]["why"].partition("/")[2]
        return key, PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, changed, "money", AS_OF)


@pytest.mark.parametrize("figure", ["price_per_week", "rise_cost"])
@QUICK
@given(st.integers(0, 10_000), st.integers(60, 100), st.integers(0, 99))
def test_a_price_outside_the_tree_moves_nothing(figure, seed, size, at):
    """All that the household paid or saw elsewhere is as much again: the cheapest pack stays."""
    by_money(figure, at, **ALL).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("options", [{}, ALL], ids=("plain", "all"))
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, options):
    state = base(random_book(seed, 90), AS_OF)
    answer, seen = PROJECTION.build(state, **options), 0
    for record in answer.rows()[:4]:
        for column in answer.columns:
            key = record["why"].partition("/")[2]
            if isinstance(record[column.name], float | int):
                for leaf in leaves(PROJECTION.why(state, key, column.name)):
                    assert names_its_source(leaf), (column.name, leaf)
                    seen += 1
    assert seen or not answer.rows()
