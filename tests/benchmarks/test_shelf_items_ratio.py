"""The shelf ahead: 2,000 futures of 300 items, and the question against its book; as ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_shelf_items_ratio.py``. Books
are drawn at random from a fixed seed.
"""

from __future__ import annotations

import statistics
import time

import numpy as np
import pytest
from books import state_of

from ledger import Book
from ledger.methods.runout import BLOCK
from ledger.projections import PROJECTIONS
from ledger.projections._use_weeks import HORIZON, PATHS, UseWeeks
from ledger.replay import Replay
from seed_demo import build

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(900)]

ITEMS, WEEKS = 300, 156
SHELF = PROJECTIONS["shelf"].build


def seconds(work, rounds=3):
    took = []
    for _ in range(rounds):
        began = time.perf_counter()
        out = work()
        took.append(time.perf_counter() - began)
    return statistics.median(took), out


def straight_numpy(stock, past, supply):
    """Answer the same with every week of every future of an item at once: the plain numpy way."""
    rng = np.random.default_rng(0)
    out = np.empty((4, len(stock)))
    for i, (held, use) in enumerate(zip(stock, past, strict=True)):
        start = rng.integers(0, WEEKS, (HORIZON // BLOCK, PATHS))
        week = (start[:, None, :] + np.arange(BLOCK)[None, :, None]) % WEEKS
        run = np.cumsum(use[week].reshape(HORIZON, PATHS), axis=0)
        weeks = np.where(run[-1] >= held, (run >= held).argmax(axis=0) + 1.0, np.inf)
        out[:3, i] = np.quantile(weeks, (0.1, 0.5, 0.9), method="inverted_cdf")
        out[3, i] = (weeks >= supply[i]).mean()
    return out


def drawn(items):
    rng = np.random.default_rng(1)
    past = rng.poisson(0.7, (items, WEEKS)) * rng.gamma(2.0, 1.0, (items, WEEKS))
    stock, supply = rng.uniform(5, 60, items), rng.uniform(1, 50, items)
    none = np.zeros(items, bool)
    known = np.full(items, WEEKS)
    level = np.full(items, np.nan)
    weeks = UseWeeks(np.arange(items), past, known, none, none, none, level, level, level, past)
    return stock, past, supply, weeks


def test_300_items_against_straight_numpy(capsys):
    stock, past, supply, weeks = drawn(ITEMS)
    weeks.run_out(stock, supply)  # the first call is not what is measured
    fast, found = seconds(lambda: weeks.run_out(stock, supply))
    plain, other = seconds(lambda: straight_numpy(stock, past, supply), 1)
    seasons = UseWeeks(*(vars(weeks) | {"seasonal": np.ones(ITEMS, bool)}).values())
    slow, _ = seconds(lambda: seasons.run_out(stock, supply))
    few = drawn(ITEMS // 3)
    third, _ = seconds(lambda: few[3].run_out(few[0], few[2]))
    # two draws of the same futures: the middle weeks lie close together
    apart = np.abs(np.ceil(found[1]) - other[1])
    assert np.median(apart[np.isfinite(apart)]) <= 1
    with capsys.disabled():
        print(
            f"\n{PATHS:,} futures of {ITEMS} items / straight numpy: {fast / plain:.2f} (reach for 0.5), "
            f"{fast:.2f} s; by season {slow / fast:.2f} of that; one of 300 costs "
            f"{fast / third / 3:.2f} of one of 100"
        )


def test_question_against_the_cold_replay_of_the_sample(tmp_path, capsys):
    with Book.open(tmp_path / "demo.sqlite") as book:
        build(book)

        def cold():
            replay = Replay(book.log)
            replay.refresh()
            state = replay.state(as_of=book.today().isoformat(), known_at=None)
            assert state.costs is not None
            return state

        took, state = seconds(cold)
        warm, answer = seconds(lambda: SHELF(state, items=True))
        time_, _ = seconds(lambda: SHELF(state, over_time="plum butter"))
    assert len(answer.frame) > 20
    with capsys.disabled():
        print(
            f"\nshelf --items / cold replay of the sample: {warm / took:.2f} (reach for 0.1), "
            f"{warm / len(answer.frame) * 1e3:.1f} ms an item; --over-time {time_ / took:.2f}"
        )


def rows(number):
    """Return stored events of 40 items, each bought and used again and again."""
    rng = np.random.default_rng(3)
    day0 = np.datetime64("2021-01-01")
    for n in range(number):
        item = f"food {rng.integers(40)}"
        line = {"item": item, "amount": "1 kg", "n": 1, "basis": "exact"}
        buys = rng.random() < 0.3
        line["whole"] = int(rng.integers(1, 3_000_000 if buys else 1_000_000))
        body = {"lines": [line | {"paid": "3"}]} if buys else {"ate": [line]}
        yield {
            "seq": n + 1,
            "id": f"{n:032x}",
            "kind": "bought" if buys else "eaten",
            "on": str(day0 + n * 1800 // number),
            "recorded_at": "2026-01-01T00:00:00Z",
            "body": body,
        }


def test_growth_with_the_number_of_events(capsys):
    took = []
    for number in (10_000, 40_000):
        state = state_of(list(rows(number)), "2025-12-31", chunk=5_000)
        SHELF(state, items=True)
        took.append(seconds(lambda state=state: SHELF(state, items=True))[0])
    with capsys.disabled():
        print(
            f"\nshelf --items, four times the events: {took[1] / took[0]:.2f} of the time (4 is linear)"
        )
