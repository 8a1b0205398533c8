"""Answers of a moment that grew from others, with all that lasted, against those worked out anew."""

from __future__ import annotations

import random

import pytest
from books import FAR, ListLog, row_of
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from strategies import books

import seed_demo
from ledger import Book
from ledger.projections import PROJECTIONS
from ledger.replay import Replay, day_number
from ledger.replay.building import build_state

SLOW = settings(max_examples=6, deadline=None, suppress_health_check=list(HealthCheck))
ASKED = (
    ("shelf", {}),
    ("shelf", {"items": True}),
    ("jar-cost", {}),
    ("our-table", {}),
    ("as-published", {}),
    ("stocking-up", {}),
)
UNTIL = "2026-10-01"
NEWEST = 60
"""Entries of the sample household that are taken in one by one."""


def plain(value):
    """Return an answer's value with figures to nine places: sums may be made in another order."""
    if isinstance(value, float):
        return round(value, 9) + 0.0 if value == value else None  # noqa: PLR0124 - not a number
    if isinstance(value, dict):
        return {key: plain(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(one) for one in value]
    return value


def assert_the_same(state, anew):
    for name, options in ASKED:
        mine, wanted = (
            plain(PROJECTIONS[name].build(one, **options).to_dict()) for one in (state, anew)
        )
        assert mine == wanted, name


def grown_and_anew(log, events, steps, days):
    """Yield a state that grew with the log, and the same built at once, step by step."""
    replay, at = Replay(log), 0
    for step, day in zip(steps, days, strict=True):
        log.rows += [row_of(event) for event in events[at : at + step]]
        at += step
        replay.refresh()
        known = len(replay.journal)
        anew = build_state(replay.journal, as_of=day_number(day), known=known)
        yield replay.state(as_of=day), anew


@SLOW
@given(books(min_size=15, max_size=60), st.integers(0, 2**32))
def test_answers_of_any_book_last(events, seed):
    assume(events)
    rng = random.Random(seed)
    steps = [max(len(events) - 8, 1), *(1 for _ in events[max(len(events) - 8, 1) :])]
    newest = max(event["on"] for event in events)
    days = [rng.choice((newest, newest, FAR)) for _ in steps]
    for state, anew in grown_and_anew(ListLog([]), events, steps, days):
        assert_the_same(state, anew)


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    """The rows of the sample household."""
    import datetime as dt

    with Book.open(tmp_path_factory.mktemp("sample") / "book.sqlite") as book:
        seed_demo.build(book, until=dt.date.fromisoformat(UNTIL))
        return [tuple(row) for chunk in book.log.read() for row in chunk]


def test_answers_of_the_sample_last(sample):
    log = ListLog([])
    log.rows = sample[:-NEWEST]
    replay = Replay(log)
    for at in range(len(sample) - NEWEST, len(sample) + 1, 5):
        log.rows = sample[:at]
        replay.refresh()
        state = replay.state(as_of=UNTIL)
        anew = build_state(replay.journal, as_of=day_number(UNTIL), known=at)
        assert_the_same(state, anew)


def test_the_last_lot_taken_back_leaves_an_empty_shelf(tmp_path):
    with Book.open(tmp_path / "book.sqlite") as book:
        first = book.write("harvested", {"item": "plum", "amount": "31 lb"}, on="2026-09-02")
        book.write("harvested", {"item": "plum", "amount": "13 lb"}, on="2026-09-02", replaces=first.event.id)  # fmt: skip
        assert len(book.show("shelf").records()) == 1
        book.strike(first.event.id, "written twice")
        assert book.show("shelf").records() == []
