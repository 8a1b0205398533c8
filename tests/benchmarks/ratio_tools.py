"""What the benchmarks share: drawn books, the processor's seconds, programs run, and ratios told.

Books are drawn at random from a fixed seed: they have the shape of a household's book, not its content.
"""

from __future__ import annotations

import datetime as dt
import os
import random
import statistics
import subprocess
import sys
import time
import uuid
from pathlib import Path

import orjson

from ledger.log import NewEvent, open_log

EVENTS = int(os.environ.get("CROFTBOOK_BENCH_EVENTS", "100000"))
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


def told(name, ratios, reach, more=""):
    """Print the median of the rounds' ratios, the least and the most."""
    ratios = [float(one) for one in ratios]
    span = f"{min(ratios):.2f} to {max(ratios):.2f} in {len(ratios)} rounds"
    print(f"\n{name}: {statistics.median(ratios):.2f} ({span}; reach for {reach}) {more}")


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
