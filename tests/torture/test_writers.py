"""Eight writers at one book, processes and threads, with readers beside: nothing lost, nothing double."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
import time

import pytest
from torture_tools import count, keep

from ledger.log import NewEvent, open_log, verify

pytestmark = [pytest.mark.torture, pytest.mark.timeout(0)]
WRITERS = 8

PROCESS = """
import json, sys, time, uuid
from ledger.log import NewEvent, open_log
longest = 0.0
with open_log(sys.argv[1], wait=120.0) as log:
    for n in range(int(sys.argv[3])):
        id = str(uuid.uuid5(uuid.NAMESPACE_OID, f"{sys.argv[2]} {n}"))
        began = time.monotonic()
        with log.writing() as tx:
            tx.append(NewEvent(id, "harvested", 1, "2026-09-02", "{}"))
        longest = max(longest, time.monotonic() - began)
print(json.dumps(longest))
"""


@pytest.fixture(params=["sqlite", "postgres"])
def address(request, tmp_path):
    if request.param == "sqlite":
        yield str(tmp_path / "book.db")
        return
    url = os.environ.get("CROFTBOOK_TEST_POSTGRES")
    if not url:
        pytest.skip("CROFTBOOK_TEST_POSTGRES names no server")
    import psycopg

    with psycopg.connect(url.replace("+psycopg", ""), autocommit=True) as admin:
        schema = f"t_{os.getpid()}_{time.monotonic_ns()}"
        admin.execute(f"CREATE SCHEMA {schema}")
        yield f"{url}?options=-csearch_path%3D{schema}"
        admin.execute(f"DROP SCHEMA {schema} CASCADE")


class Readers:
    """Two threads that read while others write; each end seen is not before the one seen last."""

    def __init__(self, address):
        self.address, self.stop, self.faults, self.longest = address, threading.Event(), [], 0.0
        self.threads = [threading.Thread(target=self.read) for _ in range(2)]

    def __enter__(self):
        for one in self.threads:
            one.start()
        return self

    def __exit__(self, *_):
        self.stop.set()
        for one in self.threads:
            one.join()

    def read(self):
        last = 0
        try:
            with open_log(self.address) as log:
                while not self.stop.is_set():
                    began = time.monotonic()
                    head = log.head()
                    if head.seq < last or (head.seq and log.hash_at(head.seq) != head.hash):
                        self.faults.append((last, head))
                    last = head.seq
                    self.longest = max(self.longest, time.monotonic() - began)
                    time.sleep(0.002)
        except Exception as error:
            self.faults.append(repr(error))


def judged(what, address, each, readers, longest, took):
    with open_log(address) as log:
        report = verify(log)
        ids = [row[1] for chunk in log.read() for row in chunk]
    store = "PostgreSQL" if address.startswith("postgres") else "SQLite"
    lost, double = WRITERS * each - len(set(ids)), len(ids) - len(set(ids))
    keep(
        f"{WRITERS} writers, {what}, {store}", WRITERS * each, lost=lost, double=double,
        longest_wait_s=round(longest, 2), longest_read_s=round(readers.longest, 2), took_s=round(took, 1),
    )  # fmt: skip
    assert (lost, double, readers.faults, report.reasons) == (0, 0, [], [])


def test_processes(address):
    each = count(2_000)
    open_log(address).close()
    environ = {**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)}
    began = time.monotonic()
    with Readers(address) as readers:
        running = [
            subprocess.Popen([sys.executable, "-c", PROCESS, address, str(n), str(each)], stdout=subprocess.PIPE, env=environ)
            for n in range(WRITERS)
        ]  # fmt: skip
        said = [one.communicate()[0] for one in running]
    assert [one.returncode for one in running] == [0] * WRITERS
    judged(
        "processes", address, each, readers, max(map(json.loads, said)), time.monotonic() - began
    )


def test_threads(address):
    each, longest, faults = count(2_000), [0.0] * WRITERS, []
    began = time.monotonic()

    def write(log, which):
        try:
            for n in range(each):
                start = time.monotonic()
                with log.writing() as tx:
                    tx.append(NewEvent(f"{which}-{n}", "harvested", 1, "2026-09-02", "{}"))
                longest[which] = max(longest[which], time.monotonic() - start)
        except Exception as error:
            faults.append(repr(error))

    with open_log(address, wait=120.0) as log, Readers(address) as readers:
        threads = [threading.Thread(target=write, args=(log, n)) for n in range(WRITERS)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
    assert faults == []
    judged("threads", address, each, readers, max(longest), time.monotonic() - began)
