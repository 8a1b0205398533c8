"""Several programs at one book: turns, readers meanwhile, and one that is killed."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor

import pytest
from conftest_events import event

from ledger.errors import BookLocked
from ledger.log import verify

PROLOGUE = """
import sys, time, uuid
from ledger.log import NewEvent, open_log
def event(id=None):
    return NewEvent(id=id or str(uuid.uuid4()), kind="harvested", v=1, on="2026-09-02", body="{}")
log = open_log(sys.argv[1])
"""


def start(store, script):
    """Run a script as another program on the same book; its lines can be read one by one."""
    return subprocess.Popen(
        [sys.executable, "-c", PROLOGUE + script, store.address],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )


def end(process):
    with process.stdout:
        output = process.stdout.read()
    assert process.wait(60) == 0
    return output


def kill(process):
    process.send_signal(signal.SIGKILL)
    process.wait(60)
    with process.stdout:
        return process.stdout.read()


def test_threads_write_in_turns(store, log):
    logs = [log, log, store.open(), store.open()]

    def write(mine):
        for _ in range(8):
            with mine.writing() as tx:
                tx.append_many([event(), event()])

    with ThreadPoolExecutor(4) as pool:
        list(pool.map(write, logs))
    assert log.count() == 64
    assert verify(log).whole


def test_processes_write_in_turns(store, log):
    script = """
for _ in range(15):
    with log.writing() as tx:
        tx.append_many([event(), event()])
"""
    for process in [start(store, script) for _ in range(3)]:
        end(process)
    assert log.count() == 90
    assert verify(log).whole


def test_processes_that_say_the_same_write_it_once(store, log):
    script = """
for n in range(20):
    with log.writing() as tx:
        tx.append(event(str(uuid.UUID(int=n))))
"""
    for process in [start(store, script) for _ in range(2)]:
        end(process)
    assert log.count() == 20


def test_two_programs_make_one_new_book(store):
    for process in [start(store, "print(log.count())") for _ in range(3)]:
        assert end(process) == "0\n"
    with store.open(create=False).writing() as tx:
        assert tx.append(event()).seq == 1


def test_readers_see_the_book_as_it_was_during_a_write(store, log):
    with log.writing() as tx:
        tx.append(event())
    reader = store.open(wait=0.2)
    with log.writing() as tx:
        tx.append_many(event() for _ in range(50))
        tx.flush()
        assert reader.count() == log.count() == 1
        assert sum(len(chunk) for chunk in reader.read()) == 1
    assert reader.count() == 51


def test_households_do_not_mix_while_both_write(store):
    logs = [store.open("home"), store.open("other")]

    def write(mine):
        for _ in range(10):
            with mine.writing() as tx:
                tx.append(event())

    with ThreadPoolExecutor(2) as pool:
        list(pool.map(write, logs))
    assert [one.count() for one in logs] == [10, 10]
    assert all(verify(one).whole for one in logs)


def test_locked_book_waits_then_says_who_holds_it(store, log):
    holder = start(
        store,
        """
with log.writing("import") as tx:
    print("holding", flush=True)
    time.sleep(60)
""",
    )
    assert holder.stdout.readline() == "holding\n"
    waiting = store.open(wait=0.5)
    began = time.monotonic()
    with pytest.raises(BookLocked) as caught, waiting.writing():
        raise AssertionError("never reached")
    assert time.monotonic() - began >= 0.4
    assert "import" in str(caught.value)
    assert str(holder.pid) in str(caught.value)
    kill(holder)
    with store.open(wait=20).writing() as tx:
        assert tx.append(event()).seq == 1


def test_waiting_writer_goes_on_when_the_lock_is_free(store, log):
    other = store.open(wait=20)
    inside, written = threading.Event(), []

    def second():
        inside.wait(10)
        with other.writing() as tx:
            written.append(tx.append(event()).seq)

    thread = threading.Thread(target=second)
    thread.start()
    with log.writing() as tx:
        inside.set()
        time.sleep(0.3)
        assert not written
        tx.append(event())
    thread.join(20)
    assert written == [2]


def test_writing_inside_writing_is_refused_at_once(log):
    began = time.monotonic()
    with log.writing(), pytest.raises(BookLocked, match="already"), log.writing():
        raise AssertionError("never reached")
    assert time.monotonic() - began < 5


def test_killed_before_the_end_leaves_nothing(store, log):
    with log.writing() as tx:
        tx.append(event())
    before = list(log.read())
    victim = start(
        store,
        """
with log.writing("import") as tx:
    tx.append_many(event() for _ in range(8000))
    tx.flush()
    print("half way", flush=True)
    time.sleep(60)
""",
    )
    assert victim.stdout.readline() == "half way\n"
    kill(victim)
    after = store.open(wait=20)
    assert list(after.read()) == before
    with after.writing() as tx:
        assert tx.append(event()).seq == 2
    assert verify(after).whole


@pytest.mark.parametrize("after_s", [0.05, 0.2, 0.4])
def test_killed_at_any_moment_leaves_whole_transactions(store, log, after_s):
    victim = start(
        store,
        """
while True:
    with log.writing() as tx:
        tx.append_many([event(), event()])
    print(log.count(), flush=True)
""",
    )
    told = int(victim.stdout.readline())
    time.sleep(after_s)
    lines = kill(victim).split()
    told = max([told, *map(int, lines[:-1] if lines else [])])
    with store.open(wait=20).writing() as tx:
        found = tx.head.seq
    assert found >= told
    assert found % 2 == 0
    assert verify(log).whole
