"""Worth-it's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.worth_it.question import build
from ledger.questions.worth_it.why import why

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
UNITS = {"net": "money", "money_out": "money", "hours": "minutes"}


def proof(figure, at):
    """Return how a figure of the season's lines is opened, at one of the records that have it."""

    def opened(events):
        state = base(events, FAR)
        found = [
            record["why"].partition("/")[2]
            for season in range(2022, 2027)
            for record in build(state, season=str(season)).to_dict()["records"]
            if record[figure]
        ]
        if not found:
            return None, None
        key = found[at % len(found)]
        return key, why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return why(state, key, figure).value

    return Proof(opened, valued, changed, UNITS[figure], FAR)


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 60), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    proof(figure, at).holds_inside(random_book(seed, size))


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 60), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    proof(figure, at).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("seed", range(3))
def test_every_leaf_names_where_it_comes_from(seed):
    state = base(random_book(seed, 90), "2026-07-20")
    for season in range(2022, 2027):
        for record in build(state, season=str(season)).to_dict()["records"]:
            for figure in UNITS:
                for leaf in leaves(why(state, record["why"].partition("/")[2], figure)):
                    assert names_its_source(leaf), (figure, leaf)
