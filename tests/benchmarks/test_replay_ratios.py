"""Replay measured as ratios of one run: `pytest -m benchmark -s tests/benchmarks`."""

from __future__ import annotations

import datetime as dt
import os
import random
import resource
import subprocess
import sys
import time
import uuid
from collections import deque

import numpy as np
import orjson
import pytest

from ledger.log import NewEvent, open_log
from ledger.replay import Replay
from ledger.replay.matching import Flow, match

pytestmark = pytest.mark.benchmark
EVENTS = int(os.environ.get("CROFTBOOK_BENCH_EVENTS", "100000"))
FAR = "2100-01-01"


def new_events(count, seed=1):
    """Yield stored-form events of a busy household: meals, purchases, harvests, batches, counts."""
    rng = random.Random(seed)
    items = [f"food {i}" for i in range(200)]
    start = dt.date(1986, 1, 1)

    def line(n, most, **more):
        return {
            "item": rng.choice(items),
            "amount": "1 lb",
            "n": n,
            "whole": rng.randint(1, most),
            "basis": "exact",
            **more,
        }

    def event(kind, on, body):
        return NewEvent(
            id=str(uuid.UUID(int=rng.getrandbits(128), version=4)),
            kind=kind,
            v=1,
            on=on,
            body=orjson.dumps(body, option=orjson.OPT_SORT_KEYS).decode(),
        )

    for item in items:
        yield event(
            "item_described",
            "1986-01-01",
            {"item": item, "sort": "food", "measure": "mass", "kcal_per_100g": "50"},
        )
    for number in range(len(items), count):
        on = (start + dt.timedelta(days=number * 14600 // count)).isoformat()
        kind = rng.choices(
            ["eaten", "bought", "harvested", "put_up", "price_seen", "counted", "given_away"],
            [55, 20, 15, 5, 2, 1, 2],
        )[0]
        if kind == "eaten":
            body = {"ate": [line(n + 1, 500_000) for n in range(rng.randint(1, 4))], "people": 6}
        elif kind == "bought":
            body = {"lines": [line(1, 3_000_000, paid="3.40")], "shop": "corner shop"}
        elif kind == "harvested":
            body = {"lines": [line(1, 3_000_000, bed="south bed")]}
        elif kind == "put_up":
            made = [
                {"n": 1, "amount": "2 lb", "whole": 900_000, "basis": "exact", "kept": "freezer"}
            ]
            body = {
                "makes": rng.choice(items),
                "method": "freeze",
                "used": [line(n + 1, 900_000) for n in range(3)],
                "made": made,
            }
        elif kind == "price_seen":
            body = {
                "item": rng.choice(items),
                "amount": "1 lb",
                "whole": 453592,
                "basis": "exact",
                "price": "2.10",
            }
        elif kind == "counted":
            body = {"lines": [line(1, 900_000)]}
        else:
            body = {"how": "gift", "lines": [line(1, 90_000)]}
        yield event(kind, on, body)


def filled(path, count):
    log = open_log(path)
    with log.writing("benchmark") as tx:
        tx.append_many(new_events(count))
    return log


def cold(log):
    begin = time.perf_counter()
    replay = Replay(log)
    replay.refresh()
    state = replay.state(as_of=FAR)
    assert state.costs.lot.shape[0] == state.lots["ev"].size
    return replay, time.perf_counter() - begin


def test_cold_replay_against_reading_and_parsing(tmp_path):
    log = filled(tmp_path / "book.sqlite", EVENTS)
    begin = time.perf_counter()
    parsed = sum(1 for chunk in log.read() for row in chunk if orjson.loads(row[10]))
    base = time.perf_counter() - begin
    replay, took = cold(log)
    assert len(replay.journal) == parsed == EVENTS
    print(
        f"\ncold replay of {EVENTS:,} events / reading and parsing the same rows: {took / base:.2f}"
    )
    print(f"peak memory: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e6:.2f} GB")


def test_one_more_event_against_cold_replay(tmp_path):
    log = filled(tmp_path / "book.sqlite", 20_000)
    replay, whole = cold(log)
    rounds = []
    for extra in list(new_events(260, seed=2))[-7:]:
        with log.writing("benchmark") as tx:
            tx.append(extra)
        begin = time.perf_counter()
        replay.refresh()
        assert replay.state(as_of=FAR).costs.lot.size
        rounds.append(time.perf_counter() - begin)
    print(
        f"\none more event on a book of 20,000 / its cold replay: {sorted(rounds)[3] / whole:.2f}"
    )


def test_matching_against_a_plain_deque():
    rng = np.random.default_rng(3)
    lots, draws, items = 300_000, EVENTS * 3, 300
    item_in, item_out = rng.integers(0, items, lots), rng.integers(0, items, draws)
    pos = rng.permutation(lots + draws)
    size_in, size_out = rng.integers(1, 3_000_000, lots), rng.integers(1, 500_000, draws)
    none = np.empty(0, np.int64)
    flow = Flow(
        item_in,
        pos[:lots],
        size_in,
        item_out,
        pos[lots:],
        size_out,
        np.full(draws, -1),
        none,
        none,
        none,
    )
    begin = time.perf_counter()
    matched = match(flow)
    fast = time.perf_counter() - begin
    begin = time.perf_counter()
    order = np.argsort(pos)
    queues = [deque() for _ in range(items)]
    whole, of = (
        np.concatenate([size_in, -size_out]).tolist(),
        np.concatenate([item_in, item_out]).tolist(),
    )
    taken = []
    for row in order.tolist():
        amount, queue = whole[row], queues[of[row]]
        if amount > 0:
            queue.append([row, amount])
            continue
        need = -amount
        while need and queue:
            part = min(need, queue[0][1])
            taken.append((row - lots, queue[0][0], part))
            queue[0][1] -= part
            need -= part
            if not queue[0][1]:
                queue.popleft()
    plain = time.perf_counter() - begin
    assert int(matched.amount.sum()) == int(size_out.sum())
    recorded = matched.lot < lots
    assert int(matched.amount[recorded].sum()) == sum(part for _, _, part in taken)
    print(f"\nplain deque engine / matching, {draws:,} draws: {plain / fast:.1f} times faster")


def median(command, env=None):
    times = []
    for _ in range(5):
        begin = time.perf_counter()
        subprocess.run(command, check=True, capture_output=True, env=env)
        times.append(time.perf_counter() - begin)
    return sorted(times)[2]


def test_start_of_the_command(tmp_path):
    python, book = sys.executable, str(tmp_path / "demo.sqlite")
    run = [python, "-c", "import sys; from ledger.cli import main; sys.exit(main(sys.argv[1:]))"]
    subprocess.run([*run, "demo", "--no-serve", "--book", book], check=True, capture_output=True)
    nothing = median([python, "-c", "pass"])
    libraries = median([python, "-c", "import numpy, pandas, scipy.sparse.linalg, sqlalchemy"])
    print(f"\ncroftbook --help / python -c pass: {median([*run, '--help']) / nothing:.1f}")
    print(
        f"show shelf on the demo / importing its libraries: {median([*run, 'show', 'shelf', '--book', book]) / libraries:.2f}"
    )
