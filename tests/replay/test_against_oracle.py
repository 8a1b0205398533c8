"""The fast replay against the plain engine, on random books of every kind of mess."""

from __future__ import annotations

import random

import pytest
from books import FAR, allocations_of, answer_of, differences, lots_of, replay_of, state_of
from hypothesis import HealthCheck, given, settings
from oracle import reckon
from strategies import questions, random_book

SLOW = settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))


def assert_same(events, as_of=None, known_at=None):
    """Hold lots, jar-cost, shelf, jars and conservation of both engines together."""
    book = reckon(events, as_of, known_at)
    state = state_of(events, str(as_of) if as_of else FAR, known_at)
    theirs = {lot.id: (lot.item, lot.whole, lot.left) for lot in book.lots.values()}
    assert {k: (v[0], v[1], v[3]) for k, v in lots_of(state).items()} == theirs
    assert state.conservation() == []
    found = []
    for name, records in (("jar-cost", book.jar_cost), ("shelf", book.shelf)):
        mine = {record["lot"]: record for record in answer_of(state, name)["records"]}
        other = {
            record["lot"]: {k: v for k, v in record.items() if k != "sort"} for record in records
        }
        assert set(mine) == set(other)
        for lot, record in other.items():
            found += differences(mine[lot], record, f"{name} {lot}")
    assert found == []
    jars = answer_of(state, "shelf")["totals"]["jars"]
    for name, one in book.jars.items():
        assert (
            jars[name]["empty"] - jars[name]["never_written_down"]
            == one.got - one.filled + one.back
        )


@pytest.mark.parametrize("seed", range(40))
def test_seeded_books_agree_to_the_last_unit(seed):
    rng = random.Random(seed)
    events = random_book(random.Random(seed), rng.choice((10, 40, 90)))
    days = sorted(event["on"] for event in events)
    as_of = rng.choice([None, days[len(days) // 2], days[-1]])
    known_at = rng.choice([None, events[len(events) * 2 // 3]["recorded_at"]])
    assert_same(events, as_of, known_at)


@SLOW
@given(questions())
def test_any_book_and_moment_agree(question):
    events, as_of, known_at = question
    assert_same(events, as_of, known_at)


@pytest.mark.parametrize("seed", range(15))
def test_growing_event_by_event_equals_reading_at_once(seed):
    events = random_book(random.Random(seed), 50)
    replay = replay_of(events)
    grown, whole = replay.state(as_of=FAR), state_of(events, FAR, chunk=7)
    assert lots_of(grown) == lots_of(whole)
    assert allocations_of(grown) == allocations_of(whole)
    assert answer_of(grown, "jar-cost") == answer_of(whole, "jar-cost")


@pytest.mark.parametrize("seed", range(10))
def test_what_was_known_is_a_prefix(seed):
    events = random_book(random.Random(seed), 60)
    cut = events[len(events) // 2]["recorded_at"]
    prefix = [event for event in events if event["recorded_at"] <= cut]
    assert lots_of(state_of(events, FAR, cut)) == lots_of(state_of(prefix, FAR))


@pytest.mark.parametrize("seed", range(10))
def test_doubling_every_amount_doubles_lots(seed):
    events = [
        event
        for event in random_book(random.Random(seed), 40, mixed=False)
        if event["kind"] in ("bought", "harvested", "given_away", "counted")
    ]
    for number, event in enumerate(events, 1):
        event["seq"], event["replaces"] = number, None
    doubled = [{**event, "body": _doubled(event["body"])} for event in events]
    once, twice = lots_of(state_of(events)), lots_of(state_of(doubled))
    assert {k: (v[1] * 2, v[3] * 2) for k, v in once.items()} == {
        k: (v[1], v[3]) for k, v in twice.items()
    }


def _doubled(body):
    lines = []
    for line in body["lines"]:
        line = {k: v for k, v in line.items() if k not in ("per", "times")}
        trimmed = {"trimmed_whole": line["trimmed_whole"] * 2} if "trimmed_whole" in line else {}
        lines.append({**line, "whole": line["whole"] * 2, "basis": "exact", **trimmed})
    return {**body, "lines": lines}


def test_chain_of_a_thousand_batches_keeps_its_cost():
    """A starter kept alive: half of each batch goes into the next; money is conserved."""
    events = [
        {"seq": 1, "id": "a", "kind": "item_described", "on": "2020-01-01", "recorded_at": "2020-01-01T00:00:00Z", "body": {"item": "starter", "sort": "food", "measure": "mass"}},
        {"seq": 2, "id": "b", "kind": "bought", "on": "2020-01-01", "recorded_at": "2020-01-01T00:00:00Z", "body": {"lines": [{"item": "flour", "amount": "1 kg", "n": 1, "whole": 10**9, "basis": "exact", "paid": "1000"}]}},
    ]  # fmt: skip
    for i in range(1000):
        used = [{"item": "flour", "amount": "1 g", "n": 1, "whole": 10**6, "basis": "exact"}]
        if i:
            used.append(
                {"item": "starter", "amount": "1 g", "n": 2, "whole": 10**6, "basis": "exact"}
            )
        events.append(
            {
                "seq": i + 3,
                "id": f"c{i}",
                "kind": "put_up",
                "on": "2020-01-02",
                "recorded_at": "2020-01-02T00:00:00Z",
                "body": {
                    "makes": "starter",
                    "method": "ferment",
                    "used": used,
                    "made": [
                        {
                            "n": 1,
                            "amount": "2 g",
                            "whole": 2 * 10**6,
                            "basis": "exact",
                            "kept": "fridge",
                        }
                    ],
                },
            }
        )
    state = state_of(events)
    cost = state.costs.lot[:, :8].sum(axis=1)
    left = float((cost * state.left / state.lots["whole"]).sum())
    assert left == pytest.approx(1000, rel=1e-9)
