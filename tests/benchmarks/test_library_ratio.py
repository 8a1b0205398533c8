"""Writing and reading 20,000 events against a general event-sourcing library: printed ratios.

The library is PyPI's eventsourcing, installed by hand into an environment of its own, as the ledger
does not need it:

    python -m venv /tmp/es && /tmp/es/bin/pip install eventsourcing
    CROFTBOOK_BENCH_LIBRARY=/tmp/es/bin/python python -m pytest -m benchmark -s tests/benchmarks/test_library_ratio.py

Both write the same bodies into SQLite in a file, a hundred events to a transaction, and read all of
them back: the library rebuilds its aggregates, the ledger answers what is on the shelf.
"""

from __future__ import annotations

import json
import os
import subprocess

import pytest
from ratio_tools import AS_OF, drawn_events, seconds, told

from ledger import Book

LIBRARY = os.environ.get("CROFTBOOK_BENCH_LIBRARY")
EVENTS, AT_ONCE, ROUNDS = 20_000, 100, 3

pytestmark = [
    pytest.mark.benchmark,
    pytest.mark.timeout(900),
    pytest.mark.skipif(LIBRARY is None, reason="CROFTBOOK_BENCH_LIBRARY names no Python"),
]

THEIRS = """
import json, os, sys, time
from importlib.metadata import version
os.environ.update(PERSISTENCE_MODULE="eventsourcing.sqlite", SQLITE_DBNAME=sys.argv[2])
from eventsourcing.application import Application
from eventsourcing.domain import Aggregate, event

class Days(Aggregate):
    @event("Opened")
    def __init__(self):
        self.many = 0
    @event("Written")
    def write(self, kind, on, body):
        self.many += 1

with open(sys.argv[1]) as file:
    events = [json.loads(line) for line in file]
app, ids = Application(), []
began = time.process_time()
for at in range(0, len(events), int(sys.argv[3])):
    days = Days()
    for kind, on, body in events[at : at + int(sys.argv[3])]:
        days.write(kind=kind, on=on, body=body)
    app.save(days)
    ids.append(days.id)
wrote = time.process_time() - began
began = time.process_time()
count = sum(app.repository.get(id).many for id in ids)
print(json.dumps([wrote, time.process_time() - began, count, version("eventsourcing")]))
"""


def theirs(lines, path):
    done = subprocess.run(
        [LIBRARY, "-c", THEIRS, str(lines), str(path), str(AT_ONCE)],
        capture_output=True,
        text=True,
        check=True,
    )
    return json.loads(done.stdout)


def ours(events, path):
    """Return the seconds of writing and of reading all back with an answer, and how many that were."""
    with Book.open(path) as book:

        def write():
            for at in range(0, len(events), AT_ONCE):
                with book.log.writing() as tx:
                    tx.append_many(events[at : at + AT_ONCE])

        wrote, _ = seconds(write)
    with Book.open(path) as book:
        read, answer = seconds(lambda: book.show("shelf", as_of=AS_OF))
        assert not answer.is_empty
        return wrote, read, book.log.position()


def test_write_and_read_against_a_general_library(tmp_path, monkeypatch):
    events = list(drawn_events(EVENTS))
    lines = tmp_path / "events.jsonl"
    told_lines = (json.dumps([one.kind, one.on, json.loads(one.body)]) for one in events)
    lines.write_text("\n".join(told_lines), encoding="utf-8")
    write, read = [], []
    for n in range(ROUNDS):
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / f"cache {n}"))
        wrote, took, count, version = theirs(lines, tmp_path / f"theirs {n}.sqlite")
        mine = ours(events, tmp_path / f"ours {n}.sqlite")
        assert count == mine[2] == EVENTS
        write.append(wrote / mine[0])
        read.append(took / mine[1])
    name = f"eventsourcing {version}, {EVENTS:,} events: its seconds / ours"
    told(f"{name}, writing", write, "0.6 or more")
    told(f"{name}, reading all back, and here the answer of the shelf", read, "1.0 or more")
