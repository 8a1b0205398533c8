"""With a bare connection to any store: what is written cannot be changed, only found tampered."""

from __future__ import annotations

import pytest
from conftest_events import event

from ledger.log import verify


def adding(seq, id_, household="household", how="INSERT INTO"):
    """The first event once more, under another number, id or household."""
    return (
        f'{how} events SELECT {household}, {seq}, {id_}, kind, v, "on", at, recorded_at, '
        'typed_at, "by", replaces, body, hash FROM events WHERE seq = 1'
    )


@pytest.fixture
def filled(log):
    with log.writing() as tx:
        tx.append_many(event(str(n)) for n in range(3))
    return log


def refused(store, log, statement):
    before = [row for chunk in log.read() for row in chunk]
    with pytest.raises(Exception, match=r"croftbook|unique|duplicate|constraint"):
        store.run(statement)
    assert [row for chunk in log.read() for row in chunk] == before


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE events SET body = '{}' WHERE seq = 2",
        "UPDATE events SET household = 'mine'",
        "DELETE FROM events WHERE seq = 3",
        "DELETE FROM events",
    ],
)
def test_update_and_delete_are_refused(store, filled, statement):
    refused(store, filled, statement)


@pytest.mark.postgres
def test_truncate_is_refused(store, filled):
    if store.name == "sqlite":
        pytest.skip("SQLite knows no TRUNCATE")
    refused(store, filled, "TRUNCATE events")
    refused(store, filled, "TRUNCATE events CASCADE")


@pytest.mark.parametrize("seq", ["3", "5", "0", "-1"])
def test_any_number_but_the_next_is_refused(store, filled, seq):
    refused(store, filled, adding(seq, "'new'"))


def test_number_must_start_at_one(store, filled):
    refused(store, filled, adding(2, "'new'", household="'other'"))


def test_known_id_is_refused(store, filled):
    refused(store, filled, adding(4, "id"))


def test_rows_of_one_statement_must_follow_too(store, filled):
    later = adding(6, "'b'", how="").removeprefix(" events ")
    first = adding(4, "'a'")
    refused(store, filled, f"{first} UNION ALL {later}")


@pytest.mark.parametrize("how", ["INSERT OR REPLACE INTO", "REPLACE INTO", "INSERT OR IGNORE INTO"])
def test_insert_that_replaces_is_refused(store, filled, how):
    if store.name != "sqlite":
        pytest.skip("only SQLite knows it")
    refused(store, filled, adding(4, "id", how=how))
    refused(store, filled, adding(1, "'x'", how=how))


@pytest.mark.parametrize(
    ("seq", "id_", "target"), [("4", "id", "(household, id)"), ("1", "'x'", "(household, seq)")]
)
def test_insert_that_updates_on_conflict_is_refused(store, filled, seq, id_, target):
    refused(
        store,
        filled,
        f"{adding(seq, id_)} ON CONFLICT {target} DO UPDATE SET body = '{{}}'",
    )


@pytest.mark.postgres
def test_replaying_session_is_refused_too(store, filled):
    if store.name == "sqlite":
        pytest.skip("a setting of PostgreSQL")
    refused(store, filled, "SET session_replication_role = replica; DELETE FROM events")


def test_next_number_with_forged_hash_is_found(store, filled):
    store.run(adding(4, "'forged'"))
    report = verify(filled)
    assert report.first_bad is not None
    assert report.first_bad[0] == 4
    assert "hash" in report.first_bad[1]
    assert (report.events, report.whole) == (3, False)
