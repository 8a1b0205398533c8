"""Replay, matching and start-up against the least that could do the same: printed ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_replay_ratios.py``. The number of
events is CROFTBOOK_BENCH_EVENTS (100000); nothing is asserted of times, only of results. Books are
drawn at random from a fixed seed: they have the shape of a household's book, not its content.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import os
import random
import re
import resource
import sqlite3
import statistics
import subprocess
import sys
import time
import uuid
from pathlib import Path

import numpy as np
import orjson
import pytest
from oracle import match as deque_match
from oracle.model import Draw, Lot

from ledger.log import NewEvent, open_log
from ledger.replay import Replay
from ledger.replay.matching import Flow, match

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(1800)]

EVENTS = int(os.environ.get("CROFTBOOK_BENCH_EVENTS", "100000"))
DRAWS = 1_000_000
TOP = Path(__file__).parents[2]
ITEMS = [f"food {n}" for n in range(200)]
FIRST, DAYS = dt.date(1986, 1, 1), 14_600
AS_OF = "2100-01-01"


def line(rng, most, n=1, item=None, **more):
    chosen = item or rng.choice(ITEMS)
    whole = rng.randint(1, most)
    return {"item": chosen, "amount": "1 lb", "n": n, "whole": whole, "basis": "exact", **more}


def body_of(rng):
    """Return a kind and a body, in the shares of a kitchen that eats more often than it shops."""
    k = rng.random()
    if k < 0.55:
        ate = [line(rng, 500_000, n + 1) for n in range(rng.randint(1, 4))]
        return "eaten", {"ate": ate, "people": 6}
    if k < 0.75:
        return "bought", {"lines": [line(rng, 3_000_000, paid="3.40")], "shop": "corner shop"}
    if k < 0.9:
        return "harvested", {"lines": [line(rng, 3_000_000, bed="south")]}
    if k < 0.95:
        made = {"n": 1, "jars": 7, "jar": "quart jar", "lids": "lid", "kept": "shelf"}
        return "put_up", {
            "makes": rng.choice(ITEMS),
            "method": "pressure",
            "used": [line(rng, 900_000, n + 1) for n in range(3)],
            "made": [{**made, "whole": 6_624_471, "basis": "exact"}],
            "work": [{"person": "Ada", "minutes": "90"}],
        }
    if k < 0.97:
        seen = line(rng, 453_592, price="2.10")
        del seen["n"]
        return "price_seen", seen
    if k < 0.98:
        return "counted", {"lines": [line(rng, 900_000)]}
    return "given_away", {"how": "gift", "lines": [line(rng, 90_000)]}


def drawn_events(number, seed=1):
    rng = random.Random(seed)

    def event(kind, on, body):
        text = orjson.dumps(body, option=orjson.OPT_SORT_KEYS).decode()
        id = str(uuid.UUID(int=rng.getrandbits(128), version=4))
        return NewEvent(id=id, kind=kind, v=1, on=on.isoformat(), body=text)

    for item in ITEMS:
        told = {"item": item, "sort": "food", "measure": "mass", "kcal_per_100g": "50"}
        yield event("item_described", FIRST, told)
    for n in range(len(ITEMS), number):
        kind, body = body_of(rng)
        yield event(kind, FIRST + dt.timedelta(days=n * DAYS // number), body)


def write_book(path, number):
    with open_log(path) as log, log.writing() as tx:
        some = []
        for one in drawn_events(number):
            some.append(one)
            if len(some) == 20_000:
                tx.append_many(some)
                some = []
        tx.append_many(some)
    return path


def seconds(work):
    """Return the processor's seconds: others who share the machine do not lengthen them."""
    began = time.process_time()
    out = work()
    return time.process_time() - began, out


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


def told(name, ratios, reach, more=""):
    """Print the median of the rounds' ratios, the least and the most."""
    ratios = [float(one) for one in ratios]
    span = f"{min(ratios):.2f} to {max(ratios):.2f} in {len(ratios)} rounds"
    print(f"\n{name}: {statistics.median(ratios):.2f} ({span}; reach for {reach}) {more}")


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


def run_python(*args, **env):
    done = subprocess.run(
        [sys.executable, *args],
        cwd=TOP,
        env={**os.environ, **env},
        capture_output=True,
        text=True,
        check=True,
    )
    return done.stdout


COMMAND = ("-c", "from ledger.cli import main; raise SystemExit(main())")
HEAVY = "import numpy, sqlite3"


def started(*args):
    """Return the processor's seconds of a program, its start included."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    run_python(*args)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def ratio_of_starts(mine, other, rounds=9):
    """Return the ratios of starts in turn, after one that fills the caches."""
    found = [(started(*mine), started(*other)) for _ in range(rounds + 1)][1:]
    return [one / two for one, two in found]


def test_starting_the_command(tmp_path):
    lines = tmp_path / "demo.jsonl"
    lines.write_text(run_python("-m", "seed_demo", "--until", "2026-10-31"), encoding="utf-8")
    book = str(tmp_path / "demo.sqlite")
    run_python(*COMMAND, "import", str(lines), "--book", book)
    shelf = (*COMMAND, "show", "shelf", "--as-of", "2026-10-31", "--book", book)
    assert len(run_python(*shelf).splitlines()) > 5
    assert "croftbook" in run_python(*COMMAND, "--help")
    help_ = ratio_of_starts((*COMMAND, "--help"), ("-c", "pass"))
    told("croftbook --help / python -c pass", help_, "10 or less")
    for question in ("shelf", "jar-cost", "our-table"):
        asked = (*COMMAND, "show", question, "--as-of", "2026-10-31", "--book", book)
        name = f"show {question} on the sample / importing NumPy and sqlite3"
        told(name, ratio_of_starts(asked, ("-c", HEAVY)), "5 or less")
    for words in (("harvest", "3 lb plum"), ("say", "picked 3 lb plums today", "--yes")):
        wrote = (*COMMAND, *words, "--book", book)
        name = f"{words[0]} on the sample / importing NumPy and sqlite3"
        told(name, ratio_of_starts(wrote, ("-c", HEAVY)), "(no aim of its own)")


IMPORTS = (
    "--help", "harvest", "say", "history --limit 3", "show shelf", "show jar-cost", "show our-table", "show season",
    "show shelf --csv",
)  # fmt: skip


def imported_by(line, book):
    """Return the milliseconds that a command's modules take to import, by package, biggest first."""
    words = line.split()
    words += {"harvest": ["3 lb plum"], "say": ["picked 3 lb plums today", "--yes"]}.get(line, [])
    words += [] if line == "--help" else ["--book", book]
    best = {}
    for _ in range(3):
        done = subprocess.run(
            [sys.executable, "-X", "importtime", *COMMAND, *words],
            cwd=TOP, capture_output=True, text=True, check=True,
        )  # fmt: skip
        for row in done.stderr.splitlines():
            found = re.match(r"import time:\s+(\d+) \|\s+\d+ \|\s*(\S+)", row)
            if found:
                best[found[2]] = min(int(found[1]), best.get(found[2], 1 << 60))
    packages = {}
    for name, took in best.items():
        package = name.partition(".")[0]
        package = "Python's own" if package in sys.stdlib_module_names else package
        packages[package] = packages.get(package, 0) + took / 1000
    return dict(sorted(packages.items(), key=lambda one: -one[1]))


def test_import_time_by_command(tmp_path):
    """Print one row a command: what `-X importtime` tells, the least of three starts."""
    book = str(tmp_path / "demo.sqlite")
    run_python(
        "-c", f"from ledger import Book; from seed_demo import build; build(Book.open({book!r}))"
    )
    run_python(*COMMAND, "show", "shelf", "--book", book)
    for line in IMPORTS:
        found = imported_by(line, book)
        parts = ", ".join(f"{name} {took:.0f}" for name, took in found.items() if took >= 1)
        print(f"\nimports of {line}: {sum(found.values()):.0f} ms ({parts})")
        assert "sqlalchemy" not in found


def test_commands_on_forty_years_against_the_sample(demo_file, tmp_path, monkeypatch):
    """Kept columns are there from the first round on, as for every command but the first."""
    from browser.conftest import COPIES, copied, shifted

    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    with copied(demo_file, tmp_path) as sample:
        rows = [row for chunk in sample.log.read() for row in chunk]
    forty = tmp_path / "forty.sqlite"
    with open_log(forty) as log, log.writing("import") as tx:
        for copy in range(COPIES):
            tx.append_many(shifted(row, copy) for row in rows)
    for question in ("shelf", "jar-cost", "our-table"):
        long, short = (
            (*COMMAND, "show", question, "--as-of", "2026-10-31", "--book", str(book))
            for book in (forty, tmp_path / "book.sqlite")
        )
        name = f"show {question} on forty years ({COPIES * len(rows):,} events) / on the sample"
        told(name, ratio_of_starts(long, short, rounds=5), "1.3 or less")
