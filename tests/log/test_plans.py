"""Looking for ids goes to the key of each, however large the book: an import stays linear."""

from __future__ import annotations

from ledger.log._protocol import listed


def test_many_ids_are_found_by_their_key(log, event):
    with log.writing() as tx:
        tx.append_many(event() for _ in range(2_000))
    values = {"household": "home", "ids": listed(log.store, ["a", "b"])}
    with log.store.reading() as raw:
        known = log.store.sql.known.text
        plan = raw.execute(f"EXPLAIN QUERY PLAN {known}", values).fetchall()
    steps = [row[3] for row in plan if " events" in row[3]]
    assert steps
    for step in steps:
        assert "(household=? AND id=?)" in step or "(household=? AND seq=?)" in step, step
