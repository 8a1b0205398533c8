"""next-season against the cold replay of the same book, and against a book a quarter as long.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_next_season_ratio.py``. Ratios of one
run are printed; nothing is asserted of times, only that the plans hold together.
"""

from __future__ import annotations

import pytest
from benchmarks.test_our_table_ratio import seconds, state_of_size
from benchmarks.test_replay_ratios import EVENTS

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

ASKED = ({}, {"rotate": True}, {"preserving": True})


def holds(answer):
    """Hold a plan to the ground there is."""
    for bed in answer.totals.get("beds", {}).values():
        assert 0 <= bed["free_m2"] <= bed["area_m2"]


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
        book.show("next-season", **options)
        took, answer = seconds(lambda options=options: book.show("next-season", **options))
        holds(answer)
        assert len(answer.frame) > 5
        print(f"\nnext-season {options} / cold replay: {took / whole:.2f} (reach for 0.1)")


def test_it_grows_no_faster_than_the_book():
    build = PROJECTIONS["next-season"].build
    short, long = state_of_size(EVENTS // 4), state_of_size(EVENTS)
    for options in ASKED:
        took = []
        for state in (short, long):
            build(state, **options)
            once, answer = seconds(lambda state=state, options=options: build(state, **options), 3)
            holds(answer)
            took.append(once)
        print(
            f"\nnext-season {options}: four times the events, {took[1] / took[0]:.1f} times as long"
        )
