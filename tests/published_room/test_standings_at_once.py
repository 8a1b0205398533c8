"""Standings asked for by several threads at once are those that one thread gets: what is half worked out is not read."""

from __future__ import annotations

import random
import threading
import time

from books import FAR, state_of
from strategies import random_book

from ledger.questions.shared.standing import Standings


def test_threads_read_nothing_half_worked_out(monkeypatch):
    state = state_of(random_book(random.Random(3), 90), FAR)
    lots = range(state.lots["ev"].size)
    wanted = Standings(state).of(lots)
    assert any(one is not None and one.is_marked for one in wanted.values())
    several, judged, got = Standings(state), Standings._judged, []

    def slowly(self, ev):
        time.sleep(0.001)
        return judged(self, ev)

    monkeypatch.setattr(Standings, "_judged", slowly)
    threads = [threading.Thread(target=lambda: got.append(several.of(lots))) for _ in range(4)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert got == [wanted] * 4
