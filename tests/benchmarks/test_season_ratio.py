"""season against the cold replay of the same book, and against a book a quarter as long.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_season_ratio.py``. Ratios of one run
are printed; nothing is asserted of times, only that the answers hold together.
"""

from __future__ import annotations

import pytest
from benchmarks.test_our_table_ratio import seconds, state_of_size
from benchmarks.test_replay_ratios import EVENTS

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

ASKED = ({}, {"weeks": True}, {"against": "2025"})


def adds_up(answer):
    """Hold where everything went to what was kept, and causes to their difference."""
    totals = answer.totals
    if "where_it_went" in totals:
        kept = answer.frame["kept_g"].astype(float).sum()
        assert sum(totals["where_it_went"].values()) == pytest.approx(kept)
    if "from_price" in totals:
        causes = sum(
            totals[name] for name in ("from_price", "from_amount", "from_mix", "not_split")
        )
        assert causes == pytest.approx(totals["difference"])


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
        book.show("season", **options)
        took, answer = seconds(lambda options=options: book.show("season", **options))
        adds_up(answer)
        print(f"\nseason {options} / cold replay of the demo: {took / whole:.2f} (reach for 0.1)")


def test_it_grows_no_faster_than_the_book():
    build = PROJECTIONS["season"].build
    short, long = state_of_size(EVENTS // 4), state_of_size(EVENTS)
    for options in ({}, {"weeks": True}):
        took = []
        for state in (short, long):
            build(state, **options)
            once, answer = seconds(lambda state=state, options=options: build(state, **options), 3)
            adds_up(answer)
            took.append(once)
        print(f"\nseason {options}: four times the events, {took[1] / took[0]:.1f} times as long")
