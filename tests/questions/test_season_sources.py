"""A season's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import ROUNDED, TIMES, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import garden_book

from ledger.questions.season import PROJECTION, why

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2100-01-01"
UNITS = {"inputs": "money", "shop_value": "money", "hours": "minutes", "picked_g": ""}

OFF = dict.fromkeys(UNITS, 0.0) | {"picked_g": ROUNDED}
"""How far a moved leaf is off: what was picked is brought to whole units of its crop's measure."""


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


def proof(figure, at):
    """Return how a figure of a season is opened, at one of the records that have it, and changed."""

    def opened(events):
        state = base(events, AS_OF)
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

    def valued(state, key):
        return why(state, key, figure).value

    return Proof(opened, valued, change_of(figure), UNITS[figure], AS_OF, OFF[figure])


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 50), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    proof(figure, at).holds_inside(garden_book(seed, size))


@pytest.mark.parametrize("figure", UNITS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 50), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    proof(figure, at).holds_outside(garden_book(seed, size))


@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed):
    state = base(garden_book(seed), "2026-07-20")
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
                    assert names_its_source(leaf), (figure, leaf)
