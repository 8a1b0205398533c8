"""Worth-it's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import FAR, state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import random_book
from test_proved_sources import WHOLE, changed, is_used_up, leaves, moved, with_event

from ledger.questions.worth_it.question import build
from ledger.questions.worth_it.why import why

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
UNITS = {"net": "money", "money_out": "money", "hours": "minutes"}


def numbered(event):
    """Return an event with its money or minutes changed; None: it has none, or moves the seasons."""
    return None if event["body"].get("name") == "season_starts" else changed(event)


def opened(events, figure, at):
    """Return the key of a record and the whole tree of a figure of it; None where none has it."""
    state = state_of(events, FAR)
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


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 60), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    events = random_book(seed, size)
    key, tree = opened(events, figure, at)
    if tree is None or is_used_up(tree):
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    for event in events:
        new = numbered(event) if event["id"] in named else None
        if new is not None:
            now = why(state_of(with_event(events, new), FAR), key, figure).value
            says = moved(tree, event["id"], UNITS[figure])
            assert now == pytest.approx(says, rel=1e-9, abs=1e-9), event


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 60), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    events = random_book(seed, size)
    key, tree = opened(events, figure, at)
    if tree is None:
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    others = {e["id"]: numbered(e) for e in events if e["id"] not in named}
    book = [others.get(event["id"]) or event for event in events]
    now = why(state_of(book, FAR), key, figure).value
    assert now == pytest.approx(tree.value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("seed", range(3))
def test_every_leaf_names_where_it_comes_from(seed):
    state = state_of(random_book(seed, 90), "2026-07-20")
    for season in range(2022, 2027):
        for record in build(state, season=str(season)).to_dict()["records"]:
            for figure in UNITS:
                for leaf in leaves(why(state, record["why"].partition("/")[2], figure)):
                    says = leaf.event or leaf.source or leaf.assumption or leaf.address
                    assert says or leaf.value is None or leaf.how == "sum", (figure, leaf)
