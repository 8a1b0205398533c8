"""A state grown by a few events, or moved to another day, against the same built at once."""

from __future__ import annotations

import random

import numpy as np
import pytest
from books import FAR, ListLog, row_of
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from strategies import books, random_book, random_moments

from ledger.replay import Replay, day_number
from ledger.replay.building import build_state, grow_state

SLOW = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
MONEY = {"rtol": 1e-9, "atol": 1e-9}


def assert_equal_columns(mine, other):
    assert set(mine) == set(other)
    for name, column in other.items():
        assert mine[name].dtype == column.dtype, name
        np.testing.assert_array_equal(mine[name], column, err_msg=name)


def assert_equal_states(mine, other):
    """Hold every column of two states together, and all that is carried through batches."""
    for name in ("lots", "draws"):
        assert_equal_columns(getattr(mine, name), getattr(other, name))
    for name in ("lots", "draws", "counts"):
        assert_equal_columns(getattr(mine.flows, name), getattr(other.flows, name))
    for name, column in vars(other.matched).items():
        np.testing.assert_array_equal(getattr(mine.matched, name), column, err_msg=name)
    for one, two in zip(mine.allocations, other.allocations, strict=True):
        np.testing.assert_array_equal(one, two)
    np.testing.assert_array_equal(mine.left, other.left)
    np.testing.assert_allclose(mine.costs.lot, other.costs.lot, **MONEY)
    for one, two in zip(mine.costs.rows.gives, other.costs.rows.gives, strict=True):
        np.testing.assert_allclose(one, two, **MONEY)
    assert said(mine) == said(other)
    assert_equal_gardens(mine.costs, other.costs)
    assert mine.as_of_day == other.as_of_day


def assert_equal_gardens(mine, other):
    """Hold together what seasons took, how it was laid on what was picked, and what that rests on."""
    own, wanted = mine.garden, other.garden

    def in_words(costs, marks):
        return {of: (costs.assumed(mark), costs.names_of(mark)) for of, mark in marks.items()}

    assert [(*part[1:3], part.source[:3]) for part in own.parts] == [
        (*part[1:3], part.source[:3]) for part in wanted.parts
    ]
    for name in ("bases", "unshared"):
        assert getattr(own, name) == getattr(wanted, name), name
    assert in_words(mine, own.marks) == in_words(other, wanted.marks)
    assert own.by_crop == pytest.approx(wanted.by_crop, rel=1e-9, abs=1e-9)
    for key in [(year, crop) for year, of in wanted._pooled.items() for crop in of]:
        assert own.shares(*key) == pytest.approx(wanted.shares(*key), rel=1e-9, abs=1e-9)


def said(state):
    """Return what each lot rests on, in words, with the events that it comes from."""
    costs = state.costs
    ids = [costs.assumed(costs.mark(lot)) for lot in range(state.lots["ev"].size)]
    told = [costs.assumption(one) for one in sorted({one for some in ids for one in some})]
    # what was paid is added up over all purchases before: equal but for the last digits of a float
    own = [(*one[:2], round(one[2], 9), bool(one[3]), *one[4:]) for one in costs.own_costs()]
    return ids, told, own


def built(replay, as_of, known_at=None):
    journal = replay.journal
    return build_state(journal, as_of=day_number(as_of), known=journal.known(known_at))


@SLOW
@given(books(min_size=5, max_size=60), st.integers(0, 2**32))
def test_grown_in_chunks_equals_built_at_once(events, seed):
    assume(events)
    rng = random.Random(seed)
    log, at = ListLog([]), 0
    replay = Replay(log)
    moments = [FAR, FAR, *(random_moments(events, rng)[0] or FAR for _ in range(3))]
    while at < len(events):
        step = rng.choice((1, 1, 1, 2, 5, 20))
        log.rows += [row_of(event) for event in events[at : at + step]]
        at += step
        replay.refresh()
        as_of = str(rng.choice(moments))
        assert_equal_states(replay.state(as_of=as_of), built(replay, as_of))


@SLOW
@given(books(min_size=5, max_size=60), st.integers(0, 2**32))
def test_moved_to_any_moment_equals_built_there(events, seed):
    assume(events)
    rng = random.Random(seed)
    replay = Replay(ListLog(events))
    replay.refresh()
    for _ in range(6):
        as_of, known_at = random_moments(events, rng)
        as_of = str(as_of) if as_of else FAR
        assert_equal_states(
            replay.state(as_of=as_of, known_at=known_at), built(replay, as_of, known_at)
        )


@pytest.mark.parametrize("seed", range(25))
def test_grown_day_by_day_equals_built_on_each(seed):
    """Time passes and nothing is written: yesterday's state is moved on."""
    events = random_book(random.Random(seed), 40)
    replay = Replay(ListLog(events))
    replay.refresh()
    first = day_number(min(event["on"] for event in events))
    grown = build_state(replay.journal, as_of=first - 1, known=len(events))
    for day in range(first, first + 60):
        wanted = build_state(replay.journal, as_of=day, known=len(events))
        state = grow_state(grown, replay.journal, as_of=day, known=len(events))
        assert state is not None
        assert_equal_states(state, wanted)
        grown = state


def test_a_day_without_events_shares_what_is_known():
    replay = Replay(ListLog(random_book(random.Random(3), 40)))
    replay.refresh()
    before = replay.state(as_of="2098-12-31")
    assert before.costs is not None
    after = replay.state(as_of="2099-01-01")
    assert after.lots is before.lots
    assert after.costs.lot is before.costs.lot


def test_growing_matches_only_what_an_event_touches(monkeypatch):
    from ledger.replay import growing

    events = random_book(random.Random(5), 200)
    log = ListLog(events)
    replay = Replay(log)
    replay.refresh()
    replay.state(as_of=FAR)
    matched = []
    match = growing.match
    monkeypatch.setattr(growing, "match", lambda flow: matched.append(flow) or match(flow))
    one = next(e for e in reversed(events) if e["kind"] == "bought" and not e["replaces"])
    line = {**one["body"]["lines"][0], "n": 1}
    body = {**one["body"], "lines": [line]}
    more = {**one, "seq": len(events) + 1, "id": "one-more", "body": body}
    more["recorded_at"] = events[-1]["recorded_at"]
    log.rows.append(row_of(more))
    replay.refresh()
    state = replay.state(as_of=FAR)
    assert len(matched) == 1
    assert set(matched[0].lot_item.tolist()) == {state.facts.find(line["item"])}
    assert_equal_states(state, built(replay, FAR))
