"""The first year's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import ROUNDED, TIMES, WHOLE, Proof, base, leaves, names_its_source
from strategies import random_book
from strategies.catalog import ITEMS

from ledger.questions.first_year.question import COLUMNS, PROJECTION

QUICK = settings(max_examples=10, deadline=None, suppress_health_check=list(HealthCheck))
BOOKS = given(st.integers(0, 10_000), st.integers(20, 70), st.integers(0, 99))
AS_OF = "2027-03-01"
FIGURES = ("quarts", "own_quarts")
NUMBERS = ("plan_quarts", "own_quarts", "months", "quarts", "lb", "row_ft")


def with_jars(events):
    """Return a book in which jars were put up, eaten and given away within the last year too."""
    line = {"n": 1, "item": "plum butter", "basis": "exact", "measure": "volume"}
    eaten = {**line, "amount": "900 ml", "whole": 900_000}
    made = {"n": 1, "amount": "5 l", "whole": 5_000_000, "basis": "exact", "measure": "volume"}
    told = [
        ("2026-01-01", "item_described", {"item": "plum butter", **ITEMS["plum butter"]}),
        ("2026-07-01", "put_up", {"makes": "plum butter", "method": "boiling water", "used": [], "made": [made]}),
        ("2026-08-01", "eaten", {"ate": [eaten]}),
        ("2026-12-24", "given_away", {"how": "gift", "lines": [eaten]}),
        ("2026-01-01", "setting_changed", {"name": "people", "value": "4"}),
    ]  # fmt: skip
    more = [
        {"seq": len(events) + n, "id": f"00000000-0000-0000-0000-00000000000{n}", "kind": kind, "v": 1, "on": on,
         "at": None, "recorded_at": "2099-01-01T00:00:00Z", "by": None, "replaces": None, "body": body}
        for n, (on, kind, body) in enumerate(told, 1)
    ]  # fmt: skip
    return [*events, *more]


def more_used(event):
    """Return a meal or gift with TIMES as much of all that it took; None: it is none."""
    lines = {"eaten": "ate", "given_away": "lines"}.get(event["kind"])
    if lines is None:
        return None
    body = copy.deepcopy(event["body"])
    for line in body[lines]:
        for name in ("whole", "times"):
            if line.get(name):
                line[name] *= TIMES
    return {**event, "body": body}


def more_people(event):
    """Return the setting of how many eat with TIMES as many; None: it is no such setting."""
    if event["body"].get("name") != "people":
        return None
    return {**event, "body": {**event["body"], "value": str(int(event["body"]["value"]) * TIMES)}}


def proof(figure, at, change, unit):
    """Return how a figure is opened, at one of the foods that have a record of their own."""

    def opened(events):
        found = [r for r in PROJECTION.build(state_of(events, AS_OF)).rows() if r["own_quarts"]]
        key = found[at % len(found)]["food"]
        return key, PROJECTION.why(state_of(events, AS_OF), key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, change, unit, AS_OF, ROUNDED if unit == "ul" else 0.0)


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@BOOKS
def test_an_amount_changed_in_a_leaf_moves_the_figure_as_its_tree_says(figure, seed, size, at):
    proof(figure, at, more_used, "ul").holds_inside(with_jars(random_book(seed, size)))


@pytest.mark.parametrize("figure", FIGURES)
@QUICK
@BOOKS
def test_an_amount_changed_outside_the_tree_moves_nothing(figure, seed, size, at):
    proof(figure, at, more_used, "ul").holds_outside(with_jars(random_book(seed, size)))


@pytest.mark.parametrize("figure", ["plan_quarts", "quarts"])
@QUICK
@BOOKS
def test_how_many_eat_moves_the_plan_as_its_tree_says(figure, seed, size, at):
    events = with_jars(random_book(seed, size))
    proof(figure, at, more_people, "people").holds_inside(events)
    proof(figure, at, more_people, "people").holds_outside(events)


@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed):
    """And every node is what its parts give; the column and the root are one."""
    state, seen = base(with_jars(random_book(seed, 60)), AS_OF), 0
    assert set(NUMBERS) < {column.name for column in COLUMNS}
    for record in PROJECTION.build(state).rows():
        for name in NUMBERS:
            tree = PROJECTION.why(state, record["food"], name, deep=1)
            assert tree.value == record[name]
            check_tree(tree)
            for leaf in leaves(tree):
                assert names_its_source(leaf), (record["food"], name, leaf)
                seen += 1
    assert seen > 200
