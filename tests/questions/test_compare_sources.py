"""A comparison's sources are proved: its lines open on their own days, and a number changed in the log moves what they say."""

from __future__ import annotations

import copy

import pytest
from books import state_of
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from questions.proving import WHOLE, changed, is_used_up, leaves, moved, named_in, with_event
from strategies import random_book

from ledger.projections import PROJECTIONS
from ledger.questions.compared.against import Against
from ledger.questions.compared.why import why_against

QUICK = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
BOOKS = given(st.integers(0, 10_000), st.integers(30, 70), st.integers(0, 99))
QUESTIONS = ("season", "shelf", "jar-cost", "our-table", "worth-it")
MILLIONTHS = 1e-4
"""Money of each record is compared to a millionth: a sum of some is as far off."""


class Pair:
    """A question of a book at its last day and at half of its days, and what of it is opened."""

    def __init__(self, events, name):
        self.events, self.name = events, name
        days = sorted(event["on"] for event in events)
        self.now, self.then = days[-1], days[len(days) // 2]
        self._states = {}

    def on(self, day):
        if day not in self._states:
            self._states[day] = state_of(self.events, day)
        return self._states[day]

    def records(self):
        return Against(PROJECTIONS[self.name], self.on, self.now, self.then, {}).answer().rows()

    def why(self, address, figure, day=None, deep=0):
        """Open an address as a book does."""
        name, _, key = address.partition("/")
        if name.startswith("on:"):
            return self.why(key, figure, name.removeprefix("on:"), deep)
        if key.startswith("against:"):
            return why_against(PROJECTIONS[name], self.on, self.now, key, figure)
        return PROJECTIONS[name].why(self.on(day or self.now), key, figure, deep=deep)

    def whole(self, node, day=None):
        """Return a tree in which each line that is folded is opened, down to events."""
        if node.address:
            return self.whole(self.why(node.address, node.figure, day, WHOLE), day)
        node = copy.copy(node)
        node.parts = [self.whole(part, day) for part in node.parts]
        return node


@pytest.mark.parametrize("name", QUESTIONS)
@pytest.mark.parametrize("seed", range(3))
def test_every_line_that_is_folded_opens_to_what_it_says(name, seed):
    pair, seen = Pair(random_book(seed, 70), name), 0
    for record in pair.records():
        for figure in ("difference", "amount_then", "amount_now", "from_amount"):
            for leaf in leaves(pair.why(record["why"], figure)):
                assert leaf.address or leaf.value is None or leaf.how == "sum", leaf
                if leaf.address:
                    there = pair.why(leaf.address, leaf.figure)
                    assert there.value == pytest.approx(leaf.value, rel=1e-9, abs=1e-6)
                    assert (leaf.unit, leaf.mark) == (there.unit, there.mark)
                    seen += 1
    assert seen or not pair.records()


@pytest.mark.parametrize("name", QUESTIONS)
@QUICK
@BOOKS
def test_money_changed_in_the_log_moves_a_difference_as_its_tree_says(name, seed, size, at):
    """And money that the tree does not name moves it not at all: all of it at once."""
    pair = Pair(random_book(seed, size), name)
    found = [record for record in pair.records() if record["difference"]]
    if not found:
        return
    why = found[at % len(found)]["why"]
    tree = pair.whole(pair.why(why, "difference"))
    if is_used_up(tree):
        return
    named = named_in(tree)

    def now(events):
        return Pair(events, name).why(why, "difference").value

    for event in pair.events:
        new = changed(event) if event["id"] in named else None
        if new is None:
            continue
        unit = "minutes" if event["kind"] == "put_up" else "money"
        says = moved(tree, event["id"], unit)
        assert now(with_event(pair.events, new)) == pytest.approx(says, rel=1e-6, abs=MILLIONTHS), (
            event
        )
    others = [event if event["id"] in named else changed(event) or event for event in pair.events]
    assert now(others) == pytest.approx(tree.value, rel=1e-6, abs=MILLIONTHS)


@pytest.mark.parametrize("name", QUESTIONS)
@pytest.mark.parametrize("seed", range(2))
def test_a_cause_is_its_formula_to_a_millionth(name, seed):
    """The exact fractions and the formula that the tree shows are one."""
    pair = Pair(random_book(seed, 70), name)
    for record in pair.records():
        for figure in ("from_price", "from_amount"):
            if record[figure] is not None:
                node = pair.why(record["why"], figure)
                if node.how == "method":
                    assert node.assumption == "exact-causes"
                    assert node.value == pytest.approx(node.parts[0].value, abs=6e-7, rel=1e-9)
