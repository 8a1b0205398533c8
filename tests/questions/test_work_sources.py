"""Work-worth's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from projections.winter_tools import check_tree
from questions.proving import WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book
from strategies.winters import with_more

from ledger.questions.work_worth.question import PROJECTION

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
SEASONS = [str(year) for year in range(2023, 2026)]
WAGES = ("helper_wage", "pay_given_up", "labour_rate")


def paid_book(seed, size):
    """Return a random book in which an hour has a price of each sort."""
    rates = [
        ("setting_changed", {"name": name, "value": value}, "2023-01-01")
        for name, value in zip(WAGES, ("15", "0.40 per minute", "9 per hour"), strict=True)
    ]
    return with_more(random_book(seed, size), seed, rates)


def worked(event):
    """Return an event with its minutes or its wage changed; None: it has neither."""
    if event["kind"] == "setting_changed" and event["body"]["name"] not in WAGES:
        return None
    return (
        changed(event) if event["kind"] == "setting_changed" or event["body"].get("work") else None
    )


def priced(event):
    """Return an event with its money changed; None: it has none, or moves the seasons."""
    return None if event["body"].get("name") == "season_starts" else changed(event)


def unit_of_work(event):
    return "money per" if event["kind"] == "setting_changed" else "minutes"


def rows_of(state):
    return [row for year in SEASONS for row in PROJECTION.build(state, season=year).rows()]


def proof(figure, number, unit, at):
    """Return how a figure of work is opened, at one of the records that have it."""

    def opened(events):
        state = base(events, FAR)
        found = [row["why"].partition("/")[2] for row in rows_of(state) if row[figure]]
        key = found[at % len(found)] if found else None
        return key, key and PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    return Proof(opened, valued, number, unit, FAR)


PROOFS = [
    *((name, worked, unit_of_work) for name in ("hours", "own_rate", "helper", "pay_given_up")),
    ("brought", priced, "money"),
]
BOOK = st.builds(paid_book, st.integers(0, 10_000), st.integers(20, 60))


@pytest.mark.parametrize(("figure", "number", "unit"), PROOFS)
@QUICK
@given(BOOK, st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(
    figure, number, unit, events, at
):
    proof(figure, number, unit, at).holds_inside(events)


@pytest.mark.parametrize(("figure", "number", "unit"), PROOFS)
@QUICK
@given(BOOK, st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(figure, number, unit, events, at):
    proof(figure, number, unit, at).holds_outside(events)


@pytest.mark.parametrize("seed", range(3))
def test_every_leaf_names_where_it_comes_from(seed):
    """And every node is what its parts give; the column and the root are one."""
    state, seen = base(paid_book(seed, 90), FAR), 0
    for record in rows_of(state):
        for figure in ("hours", *(name for name, _, _ in PROOFS), "brought_per_hour"):
            tree = PROJECTION.why(state, record["why"].partition("/")[2], figure)
            assert tree.value == pytest.approx(record[figure], rel=1e-12)
            assert tree.mark == record["bounds"].get(figure, "")
            check_tree(tree)
            assert all(names_its_source(leaf) for leaf in leaves(tree)), figure
            seen += 1
    assert seen
