"""Looking ahead for items, against drawing 2,000 futures of each in plain numpy, as ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_looking_ahead_ratio.py``. Items are
drawn at random from a fixed seed.
"""

from __future__ import annotations

import time

import numpy as np
import pytest

from ledger.methods import looking_ahead
from ledger.methods.looking_ahead import look_ahead
from ledger.methods.past import past_of

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(300)]

ITEMS, WEEKS, FUTURES, BLOCK, FAR = 120, 104, 2000, 4, 260


def drawn(gaps):
    rng = np.random.default_rng(1)
    out = []
    for _ in range(ITEMS):
        there = np.ones(7 * WEEKS, bool)
        if gaps:
            there[rng.random(there.size) < 0.1] = False
        use = rng.poisson(0.3, 7 * WEEKS) * rng.gamma(2.0, 1.0, 7 * WEEKS) * there
        out.append((use, there, rng.uniform(5, 60), rng.uniform(1, 50, 9)))
    return out


def ours(items):
    looking_ahead._look_ahead.cache_clear()  # what is kept is not what is measured
    for use, there, stock, waits in items:
        one = look_ahead(past_of(use, there))
        one.run_out(stock)
        one.reaches(stock, waits)
        one.use_over(12)


def futures(items):
    rng = np.random.default_rng(0)
    for use, _, stock, _ in items:
        weekly = use.reshape(-1, 7).sum(axis=1)
        start = rng.integers(0, WEEKS, (FAR // BLOCK, FUTURES))
        week = (start[:, None, :] + np.arange(BLOCK)[None, :, None]) % WEEKS
        run = np.cumsum(weekly[week].reshape(FAR, FUTURES), axis=0)
        ends = np.where(run[-1] >= stock, (run >= stock).argmax(axis=0) + 1.0, np.inf)
        np.quantile(ends, (0.1, 0.5, 0.9), method="inverted_cdf")


def seconds(work, items, rounds=5):
    took = []
    for _ in range(rounds):
        began = time.thread_time()
        work(items)
        took.append(time.thread_time() - began)
    return min(took) / len(items)


def test_an_item_against_drawing_its_futures(capsys):
    even, gapped = drawn(gaps=False), drawn(gaps=True)
    ours(even[:2])  # tables and first calls are not what is measured
    plain = seconds(futures, even[:20], 2)
    without, with_gaps, few = seconds(ours, even), seconds(ours, gapped), seconds(ours, even[:30])
    with capsys.disabled():
        print(
            f"\nlooking ahead, an item: {plain / without:.0f} times as fast as drawing {FUTURES:,} futures, "
            f"{plain / with_gaps:.0f} times with gaps of its own; {1000 * without:.2f} and "
            f"{1000 * with_gaps:.2f} ms; one of {ITEMS} costs {without / few:.2f} of one of 30"
        )
    assert plain > with_gaps
