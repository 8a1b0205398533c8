"""A source is proved, not claimed: a number changed in the log moves what its tree says, and nothing else.

The changed book is reckoned by the plain engine, which knows nothing of figures or trees.
"""

from __future__ import annotations

import datetime as dt

import pytest
from books import FAR
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from oracle import reckon
from oracle.table import Table
from questions.proving import WHOLE, base, changed, is_used_up, leaves, moved, with_event
from strategies import random_book

from ledger.questions.jar_cost.why import why
from ledger.questions.our_table.why import why as why_eaten

QUICK = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def cost_of(events, lot):
    book = reckon(events)
    found = [record for record in book.jar_cost if record["lot"] == lot]
    return float(found[0]["cost"]["all_in"])


def entry_of(seed, size, at):
    """Return a random book and one of its made entries with its whole tree; None where there is none."""
    events = random_book(seed, size)
    state = base(events, FAR)
    from ledger.projections import PROJECTIONS

    records = [r for r in PROJECTIONS["jar-cost"].build(state).records() if r["cost"]["all_in"]]
    if not records:
        return events, None, None
    lot = records[at % len(records)]["lot"]
    return events, lot, why(state, lot, "cost.all_in", deep=WHOLE)


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99))
def test_a_number_changed_in_a_leaf_moves_the_figure_as_its_tree_says(seed, size, at):
    events, lot, tree = entry_of(seed, size, at)
    if tree is None or is_used_up(tree):
        return
    named = {leaf.event.split(" ")[0]: leaf for leaf in leaves(tree) if leaf.event}
    for event in events:
        new = changed(event) if event["id"] in named else None
        if new is None:
            continue
        unit = "minutes" if event["kind"] == "put_up" else "money"
        assert cost_of(with_event(events, new), lot) == pytest.approx(
            moved(tree, event["id"], unit), rel=1e-9, abs=1e-9
        ), event


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99))
def test_a_number_changed_outside_the_tree_moves_nothing(seed, size, at):
    events, lot, tree = entry_of(seed, size, at)
    if tree is None:
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    others = {e["id"]: changed(e) for e in events if e["id"] not in named}
    book = [others.get(event["id"]) or event for event in events]
    assert cost_of(book, lot) == pytest.approx(tree.value, rel=1e-9, abs=1e-9)


# -- what was eaten -------------------------------------------------------------------------


def eaten_of(events, basis, origin):
    """Return what the plain engine says was eaten on all days of a book."""
    days = sorted(dt.date.fromisoformat(event["on"]) for event in events)
    return float(Table(reckon(events)).eaten(days[0], days[-1])[0][basis][origin])


def served(seed, size, at, basis):
    """Return a random book, an origin of which something was eaten, and the whole tree of it."""
    events = random_book(seed, size)
    state = base(events, FAR)
    from ledger.projections import PROJECTIONS

    days = sorted(event["on"] for event in events)
    span = {"from_": days[0], "to": days[-1]}
    records = PROJECTIONS["our-table"].build(state, basis=basis, **span).records()
    records = [record for record in records if record["amount"]]
    if not records:
        return events, None, None
    record = records[at % len(records)]
    key = record["why"].partition("/")[2]
    return events, record["origin"], why_eaten(state, key, "amount", deep=WHOLE)


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99), st.sampled_from(["energy", "value"]))  # fmt: skip
def test_a_number_changed_in_a_leaf_moves_what_was_eaten(seed, size, at, basis):
    events, origin, tree = served(seed, size, at, basis)
    if tree is None:
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    unit = "kcal per" if basis == "energy" else "money per"
    for event in events:
        new = changed(event) if event["id"] in named else None
        if new is None:
            continue
        assert eaten_of(with_event(events, new), basis, origin) == pytest.approx(
            moved(tree, event["id"], unit), rel=1e-9, abs=1e-9
        ), event


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 90), st.integers(0, 99), st.sampled_from(["energy", "weight", "value"]))  # fmt: skip
def test_a_number_changed_outside_moves_nothing_that_was_eaten(seed, size, at, basis):
    events, origin, tree = served(seed, size, at, basis)
    if tree is None:
        return
    named = {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}
    others = {e["id"]: changed(e) for e in events if e["id"] not in named}
    book = [others.get(event["id"]) or event for event in events]
    assert eaten_of(book, basis, origin) == pytest.approx(tree.value, rel=1e-9, abs=1e-9)
