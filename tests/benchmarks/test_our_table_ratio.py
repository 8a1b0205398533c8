"""our-table against the cold replay of the same book, and against a book a quarter as long.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_our_table_ratio.py``. Ratios of one
run are printed; nothing is asserted of times, only that the answers hold together.
"""

from __future__ import annotations

import json
import statistics
import time

import pytest
from benchmarks.test_replay_ratios import EVENTS, drawn_events
from books import ListLog

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

ASKED = ({}, {"by": "month"}, {"paths": True})


def seconds(work, rounds=5):
    """Return the median seconds of some rounds, and the last outcome."""
    took = []
    for _ in range(rounds):
        began = time.perf_counter()
        out = work()
        took.append(time.perf_counter() - began)
    return statistics.median(took), out


def adds_up(answer):
    """Hold shares to one, and paths to what came in."""
    if "grams" in answer.totals:
        grams = answer.totals["grams"]
        assert grams["paths"] == pytest.approx(grams["there_before"] + grams["came_in"])
        return
    frame = answer.frame
    known = frame[frame["share_of_eaten"].notna()]
    sums = known.groupby(["period", "basis"])["share_of_eaten"].sum()
    assert sums.astype(float).to_numpy() == pytest.approx(1.0)


def test_the_demo_against_its_cold_replay(tmp_path):
    path = tmp_path / "demo.sqlite"
    with Book.open(path) as book:
        seed_demo.build(book)

    def cold():
        book = Book.open(path)
        book.state().costs  # noqa: B018
        return book

    cold()
    whole, book = seconds(cold)
    for options in ASKED:
        book.show("our-table", **options)
        took, answer = seconds(lambda options=options: book.show("our-table", **options))
        adds_up(answer)
        print(
            f"\nour-table {options} / cold replay of the demo: {took / whole:.2f} (reach for 0.1)"
        )


def state_of_size(number):
    """Return a drawn book of so many events, costed, without a store."""
    events = [
        {
            "seq": seq, "id": one.id, "kind": one.kind, "on": one.on,
            "recorded_at": "2026-01-01T00:00:00Z", "body": json.loads(one.body),
        }
        for seq, one in enumerate(drawn_events(number), 1)
    ]  # fmt: skip
    replay = Replay(ListLog(events, 20_000))
    replay.refresh()
    state = replay.state(as_of="2027-01-01")
    state.costs  # noqa: B018
    return state


def test_it_grows_no_faster_than_the_book():
    build = PROJECTIONS["our-table"].build
    short, long = state_of_size(EVENTS // 4), state_of_size(EVENTS)
    for options in ASKED:
        took = []
        for state in (short, long):
            build(state, **options)
            once, answer = seconds(lambda state=state, options=options: build(state, **options), 3)
            adds_up(answer)
            took.append(once)
        print(
            f"\nour-table {options}: four times the events, {took[1] / took[0]:.1f} times as long"
        )
