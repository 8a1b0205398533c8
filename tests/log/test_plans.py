"""Looking for ids goes to the key of each, however large the book: an import stays linear."""

from __future__ import annotations

from ledger.log._protocol import listed


def test_many_ids_are_found_by_their_key(log, event):
    with log.writing() as tx:
        tx.append_many(event() for _ in range(2_000))
    values = {"household": "home", "ids": listed(log.store, ["a", "b"])}
    for statement in (log.store.sql.known, log.store.sql.numbers):
        assert_by_key(log, statement, values)


def test_events_of_some_numbers_are_found_by_their_key(log, event):
    with log.writing() as tx:
        tx.append_many(event() for _ in range(2_000))
    values = {"household": "home", "numbers": listed(log.store, [7, 3])}
    assert_by_key(log, log.store.sql.numbered, values)


def assert_by_key(log, statement, values):
    with log.store.reading() as raw:
        plan = raw.execute(f"EXPLAIN QUERY PLAN {statement.text}", values).fetchall()
    steps = [row[3] for row in plan if " events" in row[3]]
    assert steps
    for step in steps:
        assert "(household=? AND id=?)" in step or "(household=? AND seq=?)" in step, step
