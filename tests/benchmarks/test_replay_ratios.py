"""Replay and matching against the least that could do the same: printed ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_replay_ratios.py``. The number of
events is CROFTBOOK_BENCH_EVENTS (100000); nothing is asserted of times, only of results.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import sqlite3
import statistics

import numpy as np
import orjson
import pytest
from oracle import match as deque_match
from oracle.model import Draw, Lot
from ratio_tools import (
    AS_OF,
    DAYS,
    EVENTS,
    FIRST,
    ITEMS,
    drawn_events,
    run_python,
    seconds,
    told,
    write_book,
)

from ledger.log import open_log
from ledger.replay import Replay
from ledger.replay.matching import Flow, match

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]
DRAWS = 1_000_000


def read_and_parse(path):
    """Read every row from a bare connection and parse its body: the least a replay must do."""
    count = 0
    with contextlib.closing(sqlite3.connect(path)) as raw:
        cursor = raw.execute("SELECT * FROM events ORDER BY household, seq")
        at = [c[0] for c in cursor.description].index("body")
        while rows := cursor.fetchmany(20_000):
            for row in rows:
                orjson.loads(row[at])
            count += len(rows)
    return count


def replayed(log):
    """Return the seconds of decoding, matching and costing, and the state they end in."""
    replay = Replay(log)
    took, _ = seconds(replay.refresh)
    matching, state = seconds(lambda: replay.state(as_of=AS_OF))
    costing, _ = seconds(lambda: state.costs)
    return replay, state, (took, matching, costing)


def test_cold_replay_against_reading_and_parsing(tmp_path):
    path = write_book(tmp_path / "book.sqlite", EVENTS)
    rounds = 3 if EVENTS <= 200_000 else 1
    with open_log(path) as log:
        bare, parts = [], []
        for _ in range(rounds):
            took, count = seconds(lambda: read_and_parse(path))
            assert count == EVENTS
            bare.append(took)
            replay, state, took = replayed(log)
            parts.append(took)
            assert len(replay.journal) == EVENTS
            assert not state.conservation()
    ratios = [[one / base for one in took] for base, took in zip(bare, parts, strict=True)]
    mid = [statistics.median(p) for p in zip(*ratios, strict=True)]
    name = f"cold replay of {EVENTS:,} events / reading and parsing"
    told(f"{name}, decoded and matched", [sum(one[:2]) for one in ratios], "1.8 or less")
    parted = f"decoding {mid[0]:.2f}, matching {mid[1]:.2f}, costs {mid[2]:.2f}; "
    parted += f"base {statistics.median(bare):.2f} s"
    told(f"{name}, with costs", [sum(one) for one in ratios], "1.8 or less", parted)


def test_matching_against_the_deque_engine():
    rng = np.random.default_rng(1)
    n_lots = DRAWS // 3
    size = n_lots + DRAWS
    is_lot = np.zeros(size, bool)
    is_lot[rng.choice(size, n_lots, replace=False)] = True
    item = rng.integers(0, len(ITEMS), size)
    whole = np.where(is_lot, rng.integers(1, 3_000_000, size), rng.integers(1, 1_000_000, size))
    pos = np.arange(size)
    none = np.empty(0, np.int64)
    lots, draws = np.flatnonzero(is_lot), np.flatnonzero(~is_lot)
    flow = Flow(
        item[lots], pos[lots], whole[lots],
        item[draws], pos[draws], whole[draws], np.full(DRAWS, -1),
        none, none, none,
    )  # fmt: skip
    day, names, steps = FIRST, [f"e{i}" for i in range(size)], []
    for i, (lot, what, amount) in enumerate(
        zip(is_lot.tolist(), item.tolist(), whole.tolist(), strict=True)
    ):
        if lot:
            steps.append(
                Lot(f"{names[i]}:1", what, amount, day, None, "bought", names[i], i, (what,))
            )
        else:
            steps.append(Draw(names[i], 1, what, amount, "eaten", day, i, (what,)))
    fast = [seconds(lambda: match(flow)) for _ in range(3)]
    slow, (plain_lots, plain_draws) = seconds(lambda: deque_match(steps))
    matched = fast[0][1]
    assert matched.draw.size == sum(len(d.allocations) for d in plain_draws)
    assert matched.missing_of.size == len(plain_lots) - n_lots
    order = np.lexsort((matched.lot, matched.draw))
    assert matched.amount[order].sum() == sum(d.whole for d in plain_draws)
    ratios = [slow / took for took, _ in fast]
    told(f"matching {DRAWS:,} draws, times as fast as the deque engine", ratios, "5 or more")


def test_one_more_event_against_its_cold_replay(tmp_path):
    number, more_events = 20_000, 21
    path = write_book(tmp_path / "book.sqlite", number)
    one = list(drawn_events(number + more_events, seed=2))[-more_events:]
    with open_log(path) as log:
        cold = [sum(replayed(log)[2]) for _ in range(5)]
        replay = replayed(log)[0]
        decoding, whole = [], []
        for event in one:
            with log.writing() as tx:
                tx.append(event)
            took, count = seconds(replay.refresh)
            assert count == 1
            more, state = seconds(lambda: replay.state(as_of=AS_OF))
            costing, _ = seconds(lambda state=state: state.costs)
            decoding.append(took)
            whole.append(took + more + costing)
        assert len(replay.journal) == number + more_events
        assert not state.conservation()
    base = statistics.median(cold)
    told(
        "one more event on 20,000 / its cold replay",
        [one / base for one in whole],
        "0.05 or less",
        f"taking it in alone {statistics.median(decoding) / base:.3f}",
    )


def test_another_day_against_a_cold_replay(tmp_path):
    """What a page asks every morning: nothing is new, and the day has moved."""
    path = write_book(tmp_path / "book.sqlite", 20_000)
    last = FIRST + dt.timedelta(days=DAYS + 30)
    with open_log(path) as log:
        cold = [sum(replayed(log)[2]) for _ in range(3)]
        replay = replayed(log)[0]
        replay.state(as_of=last.isoformat()).costs  # noqa: B018 - worked out when first asked for
        idle = []
        for n in range(1, 8):
            day = (last + dt.timedelta(days=n)).isoformat()
            idle.append(seconds(lambda day=day: replay.state(as_of=day).costs)[0])
        replay.state(as_of=(FIRST + dt.timedelta(days=9_000)).isoformat()).costs  # noqa: B018
        moved = []
        for n in range(9_001, 9_008):
            day = (FIRST + dt.timedelta(days=n)).isoformat()
            moved.append(seconds(lambda day=day: replay.state(as_of=day).costs)[0])
    base = statistics.median(cold)
    told("a day on which nothing happened / cold replay", [one / base for one in idle], "0.1")
    told("a day further in the past / cold replay", [one / base for one in moved], "0.1")


GROWN = """
import json, resource, sys, time
from ledger.log import open_log
from ledger.replay import Replay
with open_log(sys.argv[1]) as log:
    began = time.process_time()
    replay = Replay(log)
    replay.refresh()
    state = replay.state(as_of=sys.argv[2])
    state.costs
    took = time.process_time() - began
try:  # the system's own figure for a program starts at what its parent held
    with open("/proc/self/status") as status:
        peak = next(int(line.split()[1]) * 1024 for line in status if line.startswith("VmHWM"))
except OSError:
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    peak *= 1 if sys.platform == "darwin" else 1024
print(json.dumps([len(replay.journal), took, peak]))
"""


def test_growth_of_time_and_memory(tmp_path):
    small, large = max(EVENTS // 10, 1_000), EVENTS
    paths = {number: write_book(tmp_path / f"{number}.sqlite", number) for number in (small, large)}
    times, peaks = [], []
    for _ in range(3 if large <= 200_000 else 1):
        found = []
        for number, path in paths.items():
            count, took, peak = json.loads(run_python("-c", GROWN, str(path), AS_OF))
            assert count == number
            assert peak > 0
            found.append((took, peak))
        times.append([took for took, _ in found])
        peaks.append([peak for _, peak in found])
    by = large / small
    name = f"growth {small:,} to {large:,} events, per event"
    (t1, t2), (m1, m2) = times[-1], peaks[-1]
    told(f"{name}, time", [b / a / by for a, b in times], "0.8 to 1.2", f"{t1:.2f} s to {t2:.2f} s")
    memory = f"peak {m1 / 1e9:.2f} GB to {m2 / 1e9:.2f} GB"
    reach = "1.2 or less, 1 GB at a million"
    told(f"{name}, memory", [b / a / by for a, b in peaks], reach, memory)
