"""Looking for ids goes to the key of each, however large the book: an import stays linear."""

from __future__ import annotations

from ledger.log._statements import Statements


def test_many_ids_are_found_by_their_key(log, event):
    with log.writing() as tx:
        tx.append_many(event() for _ in range(2_000))
    sql = Statements(log._engine)
    values = {"household": "home", "ids": sql.listed(["a", "b"])}
    parameters = [values.get(name, fixed) for name, fixed in sql.known._parts]
    with log._connected() as raw:
        plan = raw.execute(f"EXPLAIN QUERY PLAN {sql.known.text}", parameters).fetchall()
    steps = [row[3] for row in plan if " events" in row[3]]
    assert steps
    for step in steps:
        assert "(household=? AND id=?)" in step or "(household=? AND seq=?)" in step, step
