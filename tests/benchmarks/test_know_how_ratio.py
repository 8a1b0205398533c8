"""know-how against the cold replay of the same book, and against a book a quarter as long.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_know_how_ratio.py``. Ratios of one
run are printed; nothing is asserted of times, only that the answers hold together.
"""

from __future__ import annotations

import pytest
from benchmarks.test_our_table_ratio import seconds, state_of_size
from benchmarks.test_replay_ratios import EVENTS

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

ASKED = ({}, {"skill": "bread"}, {"year_sheet": "2025"}, {"curve": "bread"})


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
        book.show("know-how", **options)
        took, answer = seconds(lambda options=options: book.show("know-how", **options))
        assert len(answer.frame)
        print(f"\nknow-how {options} / cold replay of the demo: {took / whole:.2f} (reach for 0.1)")


def test_a_book_four_times_as_long():
    took = {}
    for number in (EVENTS // 4, EVENTS):
        state = state_of_size(number)
        took[number], answer = seconds(lambda state=state: PROJECTIONS["know-how"].build(state), 3)
        times = answer.frame[answer.frame["person"].isna()]["times"].sum()
        assert times >= sum(state.events(kind).size for kind in ("put_up", "harvested"))
    small, large = took.values()
    print(f"\nknow-how of {EVENTS} events / of a quarter: {large / small:.1f} (4: linear)")
