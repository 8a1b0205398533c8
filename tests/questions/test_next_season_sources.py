"""Next-season's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import ROUNDED, TIMES, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import garden_book

from ledger.questions.next_season.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
AMOUNTS = ("whole", "trimmed_whole", "times", "trimmed_times")


def more(*kinds):
    """Return how events of some kinds are changed: TIMES as much of everything in them."""

    def change(event):
        return {**event, "body": _more(event["body"])} if event["kind"] in kinds else None

    return change


def _more(value):
    if isinstance(value, list):
        return [_more(one) for one in value]
    if not isinstance(value, dict):
        return copy.copy(value)
    return {
        name: one * TIMES if name in AMOUNTS and isinstance(one, int | float) else _more(one)
        for name, one in value.items()
    }


def uncounted(seed, size):
    """Return a book without counts: what a count found lacking goes by all that came and went before."""
    events = garden_book(seed, size)
    gone = {event["id"] for event in events if event["kind"] == "counted"}
    kept = [event for event in events if not any(id_ in str(event) for id_ in gone)]
    return [{**event, "seq": seq} for seq, event in enumerate(kept, 1)]


def proof(events, figure, at, change, unit="", off=0.0, **options):
    """Return how a figure is opened, at one of the records that have it, and changed: as of the last day."""
    as_of = max(event["on"] for event in events)

    def opened(events):
        state = base(events, as_of)
        found = [one for one in PROJECTION.build(state, **options).rows() if one[figure]]
        if not found:
            return None, None
        key = found[at % len(found)]["why"].partition("/")[2]
        return key, PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, change, unit, as_of, off)


MOVED = {
    "fresh_wanted_g": (more("eaten", "given_away"), "", ROUNDED, {}),
    "otherwise_g": (more("eaten", "given_away"), "", ROUNDED, {}),
    "hours": (changed, "minutes", 0.0, {"preserving": True}),
}
"""What is changed of a figure, the units of the leaves that move, and the question's options."""


@pytest.mark.parametrize("figure", MOVED)
@QUICK
@given(st.integers(0, 10_000), st.integers(40, 90), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    change, unit, off, options = MOVED[figure]
    events = garden_book(seed, size)
    proof(events, figure, at, change, unit, off, **options).holds_inside(events)


STILL = {
    "fresh_wanted_g": {}, "otherwise_g": {}, "needed_g.likely": {}, "needed_g.high": {}, "trimmed_share": {}, "yield_g.likely": {},
    "yield_g.low": {}, "plants.nine_in_ten": {}, "plants.planned": {}, "short_g": {}, "fails": {}, "chance_short": {},
    "raw_g": {"preserving": True}, "jars": {"preserving": True}, "jars_wanted": {}, "jars_there": {"preserving": True},
    "jars_to_get": {"preserving": True}, "lids_there": {"preserving": True}, "lids_to_get": {"preserving": True},
}  # fmt: skip
"""Figures that hold still, with the question's options."""


@pytest.mark.parametrize("figure", STILL)
@QUICK
@given(st.integers(0, 10_000), st.integers(40, 90), st.integers(0, 99))
def test_an_amount_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    change = more("harvested", "eaten", "given_away", "put_up")
    events = uncounted(seed, size)
    proof(events, figure, at, change, **STILL[figure]).holds_outside(events)


@pytest.mark.parametrize("figure", ["jars_wanted", "jars_there"])
@pytest.mark.parametrize("seed", [179, 204])
def test_which_jar_it_goes_into_is_named(figure, seed):
    """What went into another jar, or was taken of what stands loose, moved these."""
    events, change = uncounted(seed, 45), more("harvested", "eaten", "given_away", "put_up")
    for at in range(8):
        proof(events, figure, at, change, **STILL[figure]).holds_outside(events)


@pytest.mark.parametrize("figure", ["lids_there", "lids_to_get"])
@pytest.mark.parametrize("seed", [29, 47, 176, 193])
def test_which_lids_and_weeks_it_goes_by_are_named(figure, seed):
    """What was taken of another lot of lids, or wanted in a week before, moved these."""
    events, change = uncounted(seed, 60), more("harvested", "eaten", "given_away", "put_up")
    for at in range(4):
        proof(events, figure, at, change, **STILL[figure]).holds_outside(events)


@pytest.mark.parametrize("options", [{}, {"preserving": True}, {"for": "value", "rotate": True}])
@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed, options):
    events = garden_book(seed, 90)
    state = base(events, max(event["on"] for event in events))
    answer, seen = PROJECTION.build(state, **dict(options)), 0
    for record in answer.rows()[:4]:
        for column in answer.columns:
            if column.unit not in ("", "day", "seasons") and record[column.name] is not None:
                key = record["why"].partition("/")[2]
                for leaf in leaves(PROJECTION.why(state, key, column.name, deep=WHOLE)):
                    assert names_its_source(leaf), (column.name, leaf)
                    seen += 1
    assert seen or not answer.rows()
