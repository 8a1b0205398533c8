"""A season's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import garden_book
from test_proved_sources import TIMES, WHOLE, changed, is_used_up, leaves, moved, with_event

from ledger.questions.season import PROJECTION, why

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2100-01-01"
UNITS = {"inputs": "money", "shop_value": "money", "hours": "minutes", "picked_g": ""}

NEAR = dict.fromkeys(UNITS, 1e-9) | {"picked_g": 1e-4}
"""How near a moved figure is: what was picked is brought to whole units of its crop's measure."""


def more_picked(event):
    """Return a picking with TIMES as much of everything; None: it is none."""
    if event["kind"] != "harvested":
        return None
    body = copy.deepcopy(event["body"])
    for line in body["lines"]:
        for name in ("whole", "trimmed_whole", "times", "trimmed_times"):
            if name in line:
                line[name] *= TIMES
    return {**event, "body": body}


def change_of(figure):
    return more_picked if figure == "picked_g" else dearer


def dearer(event):
    """Return an event with its money or minutes TIMES as much; None: it has none, or moves the seasons."""
    return None if event["body"].get("name") == "season_starts" else changed(event)


def opened(events, figure, at):
    """Return address, and the whole tree of a figure of one record; None where none has it."""
    state = state_of(events, AS_OF)
    found = [
        record["why"].partition("/")[2]
        for season in PROJECTION.build(state).totals["seasons"]
        for record in PROJECTION.build(state, season=season).records()
        if record[figure]
    ]
    if not found:
        return None, None
    key = found[at % len(found)]
    return key, why(state, key, figure, deep=WHOLE)


def value_of(events, key, figure):
    return why(state_of(events, AS_OF), key, figure).value


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 50), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    events = garden_book(seed, size)
    key, tree = opened(events, figure, at)
    if tree is None or is_used_up(tree):
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    for event in events:
        new = change_of(figure)(event) if event["id"] in named else None
        if new is None:
            continue
        assert value_of(with_event(events, new), key, figure) == pytest.approx(
            moved(tree, event["id"], UNITS[figure]), rel=NEAR[figure], abs=1e-9
        ), event


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 50), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    events = garden_book(seed, size)
    key, tree = opened(events, figure, at)
    if tree is None:
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    others = {e["id"]: change_of(figure)(e) for e in events if e["id"] not in named}
    book = [others.get(event["id"]) or event for event in events]
    assert value_of(book, key, figure) == pytest.approx(tree.value, rel=1e-9, abs=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed):
    state = state_of(garden_book(seed), "2026-07-20")
    for season in PROJECTION.build(state).totals["seasons"]:
        for record in PROJECTION.build(state, season=season).records():
            for figure in (
                "net",
                "hours",
                "where_it_went.on hand",
                "still_to_come_g.likely",
                "target_g",
            ):
                tree = why(state, record["why"].partition("/")[2], figure)
                for leaf in leaves(tree):
                    says = leaf.event or leaf.source or leaf.assumption or leaf.address
                    assert says or leaf.value is None or leaf.how == "sum", (figure, leaf)
