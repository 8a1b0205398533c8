"""The log against the bare databases doing the same: printed ratios, never asserted times.

Run with ``pytest -m benchmark -s tests/benchmarks/test_log_speed.py``; the PostgreSQL part needs
CROFTBOOK_TEST_POSTGRES. The bare side writes rows made beforehand, hashes included, into a table
of the same columns, keys and settings, without triggers.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
import statistics
import time
import uuid

import pytest

from ledger.log import NewEvent, open_log, verify

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(600)]

EVENTS = 100_000
SINGLE = 400
ROUNDS = 3

COLUMNS = "household TEXT NOT NULL, seq INTEGER NOT NULL, id TEXT NOT NULL, kind TEXT NOT NULL, "
COLUMNS += 'v INTEGER NOT NULL, "on" TEXT NOT NULL, at TEXT, recorded_at TEXT NOT NULL, '
COLUMNS += 'typed_at TEXT, "by" TEXT, replaces TEXT, body TEXT NOT NULL, hash TEXT NOT NULL, '
COLUMNS += "PRIMARY KEY (household, seq), UNIQUE (household, id)"


def new_events(number):
    body = (
        '{{"lines":[{{"amount":"31 lb 8 oz","basis":"exact","item":"plum {0}","n":1,'
        '"paid":"3.40","whole":14288160}}],"shop":"corner shop"}}'
    )
    return [
        NewEvent(
            id=str(uuid.uuid4()),
            kind="bought",
            v=1,
            on="2026-09-02",
            body=body.format(n % 200),
            by="Ada",
        )
        for n in range(number)
    ]


@pytest.fixture(scope="module")
def events():
    return new_events(EVENTS)


@pytest.fixture(scope="module")
def rows(events, tmp_path_factory):
    """The rows as stored, for the bare side to write as they are."""
    with open_log(tmp_path_factory.mktemp("rows") / "book.db") as log:
        with log.writing() as tx:
            tx.append_many(events)
        return [("home", *row) for chunk in log.read() for row in chunk]


def timed(work):
    began = time.perf_counter()
    work()
    return time.perf_counter() - began


def told(name, bare, ours):
    """Print the speed of ours as a share of the bare one, by the medians of the rounds."""
    share = statistics.median(bare) / statistics.median(ours)
    print(f"\n{name}: {share:.2f} of the bare speed ({min(bare):.3f} s to {min(ours):.3f} s)")
    assert share > 0


def bare_book(path):
    raw = sqlite3.connect(path, isolation_level=None)
    raw.execute("PRAGMA journal_mode = WAL")
    raw.execute("PRAGMA synchronous = FULL")
    raw.execute(f"CREATE TABLE events ({COLUMNS}) STRICT, WITHOUT ROWID")
    return raw


INSERT = f"INSERT INTO events VALUES ({', '.join('?' * 13)})"


def test_bulk_append_against_executemany(events, rows, tmp_path):
    bare, ours = [], []
    for n in range(ROUNDS):
        with contextlib.closing(bare_book(tmp_path / f"bare{n}.db")) as raw:

            def plain(raw=raw):
                raw.execute("BEGIN IMMEDIATE")
                raw.executemany(INSERT, rows)
                raw.execute("COMMIT")

            bare.append(timed(plain))
        with open_log(tmp_path / f"ours{n}.db") as log:

            def append(log=log):
                with log.writing() as tx:
                    tx.append_many(events)

            ours.append(timed(append))
            assert log.count() == EVENTS
    told("bulk append / executemany, SQLite", bare, ours)


@pytest.mark.postgres
def test_bulk_append_against_copy(events, rows):
    url = os.environ.get("CROFTBOOK_TEST_POSTGRES")
    if not url:
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server (tests/run.sh starts one)")
    import psycopg

    bare, ours = [], []
    for n in range(ROUNDS):
        schema = f"bench_{uuid.uuid4().hex}"
        with psycopg.connect(url.replace("+psycopg", ""), autocommit=True) as raw:
            raw.execute(f"CREATE SCHEMA {schema}")
            raw.execute(f"SET search_path = {schema}")
            raw.execute(f"CREATE TABLE bare{n} ({COLUMNS.replace('seq INTEGER', 'seq BIGINT')})")

            def plain(raw=raw, n=n):
                with raw.transaction(), raw.cursor().copy(f"COPY bare{n} FROM STDIN") as copy:
                    for row in rows:
                        copy.write_row(row)

            bare.append(timed(plain))
            raw.execute(f"CREATE SCHEMA {schema}_log")
            with open_log(f"{url}?options=-csearch_path%3D{schema}_log") as log:

                def append(log=log):
                    with log.writing() as tx:
                        tx.append_many(events)

                ours.append(timed(append))
                assert log.count() == EVENTS
            raw.execute(f"DROP SCHEMA {schema} CASCADE")
            raw.execute(f"DROP SCHEMA {schema}_log CASCADE")
    told("bulk append / COPY, PostgreSQL", bare, ours)


def test_single_appends_against_bare_sqlite(rows, tmp_path):
    events = new_events(SINGLE * ROUNDS)
    bare, ours = [], []
    with (
        contextlib.closing(bare_book(tmp_path / "bare.db")) as raw,
        open_log(tmp_path / "ours.db") as log,
    ):
        for n in range(ROUNDS):
            span = slice(n * SINGLE, (n + 1) * SINGLE)

            def plain(span=span):
                for row in rows[span]:
                    raw.execute("BEGIN IMMEDIATE")
                    raw.execute(INSERT, row)
                    raw.execute("COMMIT")

            def append(span=span):
                for one in events[span]:
                    with log.writing() as tx:
                        tx.append(one)

            bare.append(timed(plain))
            ours.append(timed(append))
        assert log.count() == SINGLE * ROUNDS
    told("single appends / bare SQLite", bare, ours)


def test_reading_and_checking_against_a_bare_read(events, tmp_path):
    with open_log(tmp_path / "book.db") as log:
        with log.writing() as tx:
            tx.append_many(events)
        log.close()
        bare, ours, checked = [], [], []
        for _ in range(ROUNDS):
            with contextlib.closing(sqlite3.connect(tmp_path / "book.db")) as raw:

                def plain(raw=raw):
                    cursor = raw.execute("SELECT * FROM events ORDER BY household, seq")
                    while cursor.fetchmany(20_000):
                        pass

                bare.append(timed(plain))
            ours.append(timed(lambda: [None for _ in log.read()]))
            checked.append(timed(lambda: verify(log)))
    told("reading / bare SQLite", bare, ours)
    told("checking the chain / bare read", bare, checked)
