"""Turns at writing are had in the order in which they were asked for, and none is lost."""

from __future__ import annotations

import threading
import time

import pytest

from ledger.errors import BookLocked
from ledger.log._turns import Turns

LONG = 60.0


def queued(turns, names, had, then=lambda name: None):
    """Start threads that wait for their turn, one behind the other."""
    threads = []
    for name in names:

        def take(name=name):
            assert turns.acquire(LONG)
            had.append(name)
            then(name)
            turns.release()

        threads.append(threading.Thread(target=take))
        before = len(turns._waiting)
        threads[-1].start()
        while len(turns._waiting) == before:
            time.sleep(0.001)
    return threads


def test_turns_come_in_the_order_of_asking():
    turns, had, names = Turns(), [], list("abcdefgh")
    assert turns.acquire(LONG)
    threads = queued(turns, names, had)
    turns.release()
    for one in threads:
        one.join(LONG)
    assert had == names


def test_who_lets_go_and_asks_again_comes_behind_those_who_wait():
    turns, had = Turns(), []
    assert turns.acquire(LONG)
    threads = queued(turns, ["waits", "waits too"], had)
    for _ in range(3):
        turns.release()
        assert turns.acquire(LONG)
        had.append("again")
    turns.release()
    for one in threads:
        one.join(LONG)
    assert had == ["waits", "waits too", "again", "again", "again"]


def test_who_gives_up_is_passed_over():
    turns, had = Turns(), []
    assert turns.acquire(LONG)
    assert not turns.acquire(0)
    threads = queued(turns, ["waits"], had)
    assert not turns.acquire(0.01)
    turns.release()
    threads[0].join(LONG)
    assert had == ["waits"]
    assert turns.acquire(0)


def test_who_gives_up_just_as_the_turn_comes_has_it(monkeypatch):
    turns = Turns()
    assert turns.acquire(LONG)
    leave = turns._has_left

    def handed_over_first(mine):
        turns.release()
        return leave(mine)

    monkeypatch.setattr(turns, "_has_left", handed_over_first)
    assert turns.acquire(0)
    assert not turns._waiting
    monkeypatch.undo()
    assert not turns.acquire(0)  # it is taken
    turns.release()
    assert turns.acquire(0)


def test_many_threads_are_never_in_at_once():
    turns, inside, done = Turns(), [], []

    def work(name):
        for n in range(200):
            while not turns.acquire(0.0001 if n % 3 else LONG):
                pass
            inside.append(name)
            assert inside == [name]
            inside.pop()
            done.append(name)
            turns.release()

    threads = [threading.Thread(target=work, args=(name,)) for name in range(5)]
    for one in threads:
        one.start()
    for one in threads:
        one.join(LONG)
    assert len(done) == 1000
    assert turns.acquire(0)


def test_log_hands_its_turn_to_who_waited_longest(log, event):
    order = []

    def write(name):
        with log.writing() as tx:
            order.append(name)
            tx.append(event())

    threads = [threading.Thread(target=write, args=(name,)) for name in ("first", "second")]
    with log.writing() as tx:
        tx.append(event())
        for n, one in enumerate(threads):
            one.start()
            while len(log._turn._waiting) == n:
                time.sleep(0.001)
    write("again")
    for one in threads:
        one.join(LONG)
    assert order == ["first", "second", "again"]


def test_log_that_nobody_lets_go_of_is_refused(log, event):
    log.wait = 0.01
    refused = []

    def write():
        with pytest.raises(BookLocked) as info, log.writing():
            pass
        refused.append(str(info.value))

    with log.writing() as tx:
        tx.append(event())
        other = threading.Thread(target=write)
        other.start()
        other.join(LONG)
    assert "this same program" in refused[0]
    before = log.count()
    with log.writing() as tx:
        tx.append(event())
    assert log.count() == before + 1
