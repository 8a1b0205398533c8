"""The shelf ahead: 2,000 futures of 300 items, as ratios.

Run with ``python -m pytest -m benchmark -s tests/benchmarks/test_shelf_items_ratio.py``. Books
are drawn at random from a fixed seed.
"""

from __future__ import annotations

import statistics
import time

import numpy as np
import pytest

from ledger.methods import runout
from ledger.methods.futures import BLOCK
from ledger.projections._use_weeks import HORIZON, PATHS, UseWeeks

pytestmark = [pytest.mark.benchmark, pytest.mark.timeout(900)]

ITEMS, WEEKS = 300, 156


def seconds(work, rounds=3):
    took = []
    for _ in range(rounds):
        runout._run_out.cache_clear()  # what was drawn is kept, and is not what is measured
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
