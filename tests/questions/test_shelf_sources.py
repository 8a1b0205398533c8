"""The shelf's sources are proved: a number changed in the log moves what its tree says, and nothing else."""

from __future__ import annotations

import copy

import pytest
from books import state_of
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from questions.proving import TIMES, WHOLE, Proof, base, changed, leaves, names_its_source
from strategies import random_book

from ledger.questions.ahead.widening import Lately
from ledger.questions.shared.use_by import days_of
from ledger.questions.shelf.question import PROJECTION

QUICK = settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
AS_OF = "2026-06-01"
ITEMS = ("used_per_week.likely", "weeks_left.likely", "target")
LOTS = ("left.whole", "share_left", "use_by")


def keys_of(state, figure, **options):
    return [
        record["why"].partition("/")[2]
        for record in PROJECTION.build(state, **options).rows()
        if record[figure]
    ]


def lines_of(body):
    lists = [value for value in body.values() if isinstance(value, list)]
    return [line for several in lists for line in several if isinstance(line, dict)]


def more(event, *, but=frozenset()):
    """Return an event with TIMES as much of everything; None: it has no amounts, or speaks of `but`."""
    body = copy.deepcopy(event["body"])
    lines = lines_of(body)
    if but & {str(body.get("makes")), *(str(line.get("item")) for line in lines)}:
        return None
    for line in lines:
        for name in ("whole", "trimmed_whole", "times", "trimmed_times"):
            if name in line:
                line[name] *= TIMES
    return {**event, "body": body} if lines else None


def names_of(state, item):
    """Return every name under which an item was written down, with its strands."""
    facts, number = state.facts, state.facts.find_strand(item)
    several = {facts.names[one] for one in facts.several(int(facts.item_of[number]))}
    return frozenset(n for n in facts.names if n in several or facts.find(n) == facts.find(item))


def by_cost(at):
    """Return how the cost of what is left of one of the lots is opened and changed."""

    def opened(events):
        state = base(events, AS_OF)
        found = keys_of(state, "cost_left")
        if not found:
            return None, None
        key = found[at % len(found)]
        return key, PROJECTION.why(state, key, "cost_left", deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, "cost_left").value

    def unit(event):
        return "minutes" if event["kind"] == "put_up" else "money"

    return Proof(opened, valued, changed, unit, AS_OF)


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 80), st.integers(0, 99))
def test_a_price_changed_in_a_leaf_moves_the_cost_as_its_tree_says(seed, size, at):
    by_cost(at).holds_inside(random_book(seed, size))


@QUICK
@given(st.integers(0, 10_000), st.integers(20, 80), st.integers(0, 99))
def test_a_price_changed_outside_the_tree_moves_no_cost(seed, size, at):
    by_cost(at).holds_outside(random_book(seed, size))


@pytest.mark.parametrize("figure", LOTS)
@QUICK
@given(st.integers(0, 10_000), st.integers(20, 80), st.integers(0, 99))
def test_an_amount_of_another_thing_moves_no_lot(figure, seed, size, at):
    """What goes out of other lots of one item goes by their order, so only other items are changed."""
    events = random_book(seed, size)
    state = base(events, AS_OF)
    found = [one for one in PROJECTION.build(state).rows() if one[figure]]
    assume(found)
    record = found[at % len(found)]
    key, but = record["why"].partition("/")[2], names_of(state, record["item"])
    named = {leaf.event.split(" ")[0] for leaf in leaves(PROJECTION.why(state, key, figure, deep=WHOLE)) if leaf.event}  # fmt: skip
    book = [event if event["id"] in named else more(event, but=but) or event for event in events]
    now = PROJECTION.why(state_of(book, AS_OF), key, figure).value
    assert now == record[figure] or now == pytest.approx(record[figure], rel=1e-9)


@pytest.mark.parametrize("figure", ITEMS)
@QUICK
@given(st.integers(0, 10_000), st.integers(40, 90), st.integers(0, 99))
def test_an_amount_outside_the_tree_moves_no_item(figure, seed, size, at):
    """Procedures are given what their trees name: nothing else of the book moves what they say.

    But for one thing, set aside here: the earlier ranges of all items together widen those of each.
    """

    def opened(events):
        state = base(events, AS_OF)
        found = keys_of(state, figure, items=True)
        if not found:
            return None, None
        key = found[at % len(found)]
        return key, PROJECTION.why(state, key, figure, deep=WHOLE)

    def valued(state, key):
        return PROJECTION.why(state, key, figure).value

    with pytest.MonkeyPatch.context() as patch:
        for room in ("ahead.lasting", "shelf.items_gather"):
            patch.setattr(
                f"ledger.questions.{room}.lately", lambda _: Lately(1.0, frozenset(), 0, 0, {})
            )
        Proof(opened, valued, more, "", AS_OF).holds_outside(random_book(seed, size))


def nodes(node):
    return [node, *(one for part in node.parts for one in nodes(part))]


def again(node):
    """Return what a procedure gives of the parts that its node names; None of one that looks ahead."""
    values = [part.value for part in node.parts]
    if node.assumption == "by-calendar":
        start, span = node.parts
        return days_of(int(start.value), f"{span.value:g} {span.unit}")
    if node.assumption == "whole-days":
        return values[1] + int(values[0] * 7 + 0.01)
    if node.assumption == "target-until-supply" and values[0] is not None:
        return min(max(values[0] - values[1], 0), 365) / 365
    return None


@pytest.mark.parametrize("seed", range(4))
def test_what_a_procedure_gave_comes_again_of_its_parts(seed):
    state = base(random_book(seed, 90), AS_OF)
    seen = set()
    asked = [({}, ("days_left",)), ({"items": True}, ("best_until", "runs_out_on.late", "target"))]
    for options, figures in asked:
        for record in PROJECTION.build(state, **options).rows():
            for figure in figures:
                tree = PROJECTION.why(state, record["why"].partition("/")[2], figure)
                for node in [one for one in nodes(tree) if one.how == "method"]:
                    value = again(node)
                    if value is None or isinstance(node.value, str):
                        continue
                    seen.add(node.assumption)
                    assert value == pytest.approx(node.value), (figure, node)
    assert "by-calendar" in seen


@pytest.mark.parametrize("seed", range(4))
def test_every_leaf_names_where_it_comes_from(seed):
    state = base(random_book(seed, 90), AS_OF)
    for options in ({}, {"items": True}):
        answer = PROJECTION.build(state, **options)
        for record in answer.rows():
            for column in answer.columns:
                key = record["why"].partition("/")[2]
                if isinstance(record[column.name], float):
                    for leaf in leaves(PROJECTION.why(state, key, column.name)):
                        assert names_its_source(leaf), (column.name, leaf)
