"""The standing of every lot is what a plain walk finds, at any depth and asked of some or of all."""

from __future__ import annotations

import random

import pytest
from books import FAR, state_of
from hypothesis import HealthCheck, given, settings
from jars_in_danger import AGAINST, put_up, shelf
from strategies import books, random_book

from ledger import Book
from ledger.published import GRAVE, MARKED, STANDINGS
from ledger.published import OPEN as TO_LOOK_UP
from ledger.questions.shared.standing import standings

pytestmark = pytest.mark.usefixtures("fixed_day")


def gravest_by_a_plain_walk(state):
    """Return how every lot stands, found by walking every way from it one by one."""
    known = state.once(standings)
    order = list(STANDINGS)
    made = {}
    for lot in range(state.lots["ev"].size):
        made.setdefault(int(state.lots["ev"][lot]), []).append(lot)
    draw, from_, _ = state.allocations
    into = {}
    for d, lot in zip(draw.tolist(), from_.tolist(), strict=True):
        if int(state.draws["role"][d]) in (1, 4):  # used, ate
            into.setdefault(int(state.draws["ev"][d]), set()).add(lot)
    missed = {}
    for d, lot in zip(draw.tolist(), from_.tolist(), strict=True):
        if int(state.draws["role"][d]) == 6:
            missed.setdefault(int(state.draws["item"][d]), []).append(
                (int(state.draws["pos"][d]), lot)
            )

    def walk(lot, seen):
        if lot in seen:
            return None
        ev, suffix = int(state.lots["ev"][lot]), int(state.lots["suffix"][lot])
        several = []
        if suffix >= 2:
            pos, item = int(state.lots["pos"][lot]), int(state.lots["item"][lot])
            behind = [one for at, one in missed.get(item, ()) if 2 * at < pos]
        else:
            behind = into.get(ev, ())
            own = known._applies(ev, lot)
            if own is not None:
                several.append(own.standing)
        for one in behind:
            found = walk(one, seen | {lot})
            if suffix < 2 and found in GRAVE and known._may_be_fresh(ev, one):
                found = TO_LOOK_UP[-1]  # by weight, and no lot named: it may have been fresh food
            if found in MARKED:
                several.append(found)
        return min(several, key=order.index, default=None)

    return {lot: walk(lot, frozenset()) for lot in range(state.lots["ev"].size)}


@given(books(max_size=30))
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_every_lot_stands_as_a_plain_walk_finds(events):
    state = state_of(events)
    # what was looked up does not rank among the published standings
    state.once(standings)._settled.clear()
    found = state.once(standings).of(range(state.lots["ev"].size))
    mine = {lot: one and one.standing for lot, one in found.items()}
    assert mine == gravest_by_a_plain_walk(state)


@pytest.mark.parametrize("seed", range(6))
def test_what_is_asked_of_some_lots_is_what_all_say(seed):
    events = random_book(random.Random(seed), 60)
    whole, bit = state_of(events, FAR), state_of(events, FAR)
    every = whole.once(standings).of(range(whole.lots["ev"].size))
    rng = random.Random(seed)
    for lot in rng.sample(sorted(every), min(8, len(every))):
        one = bit.once(standings).of([lot])[lot]
        assert (one and one.text) == (every[lot] and every[lot].text)


def test_deep_chains_do_not_end_the_walk(book):
    put_up(book, AGAINST)
    lines = [("starter", "canned green beans", "1 quart jar")] + [
        ("starter", "starter", "2 qt")
    ] * 400
    events = [
        (n, n, {"kind": "put_up", "on": "2026-09-20", "at": "12:00", "body": {
            "makes": makes, "method": "cook", "used": [{"item": item, "amount": amount}],
            "made": [{"amount": "2 qt", "kept": "fridge"}]}})
        for n, (makes, item, amount) in enumerate(lines)
    ]  # fmt: skip
    book.import_events(iter(events))
    (row,) = [r for r in shelf(book).values() if r["item"] == "starter"]
    assert row["standing"] == "against every published process"
    assert isinstance(book, Book)
