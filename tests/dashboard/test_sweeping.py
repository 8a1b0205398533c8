"""Memory is looked through while nobody waits, and after many answers in any case."""

from __future__ import annotations

import asyncio
import gc
import weakref

import pytest

from dashboard import sweeping


class Own:
    """Something that refers to itself."""

    def __init__(self):
        self.me = self


@pytest.fixture(autouse=True)
def thresholds():
    before = gc.get_threshold()
    yield
    gc.set_threshold(*before)


def left():
    return weakref.ref(Own())


def test_what_is_left_goes_once_it_is_quiet(monkeypatch):
    monkeypatch.setattr(sweeping, "_REST_S", 0.02)
    found = []

    async def work():
        sweeper, loop = sweeping.Sweeper(), asyncio.get_running_loop()
        sweeper.asked()
        one = left()
        sweeper.answered(loop)
        sweeper.asked()  # somebody waits again: it is not done now
        await asyncio.sleep(0.06)
        found.append(one() is None)
        sweeper.answered(loop)
        await asyncio.sleep(0.06)
        found.append(one() is None)

    asyncio.run(work())
    assert found == [False, True]


def test_it_is_done_where_it_is_never_quiet():
    async def work():
        sweeper, loop = sweeping.Sweeper(), asyncio.get_running_loop()
        one = left()
        for _ in range(sweeping._MOST):
            sweeper.asked()
            sweeper.asked()
            sweeper.answered(loop)
        return one()

    assert asyncio.run(work()) is None
