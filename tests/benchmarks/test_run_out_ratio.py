"""What drawing 2,000 paths for 300 items costs, as ratios inside one run."""

from __future__ import annotations

import time

import numpy as np
import pytest

from ledger.methods.futures import BLOCK
from ledger.methods.runout import run_out

pytestmark = pytest.mark.benchmark


def _plain(stock: float, use: list[float], paths: int, weeks: int) -> None:
    rng = np.random.default_rng(0)
    for _ in range(paths):
        left = stock
        for _ in range(weeks // BLOCK):
            start = int(rng.random() * len(use))
            for step in range(BLOCK):
                left -= use[(start + step) % len(use)]
            if left <= 0:
                break


def _seconds(call) -> float:
    begin = time.perf_counter()
    call()
    return time.perf_counter() - begin


def test_run_out_against_a_plain_loop(capsys):
    rng = np.random.default_rng(1)
    past = rng.poisson(0.7, (300, 156)) * rng.gamma(2.0, 1.0, (300, 156))
    stock = rng.uniform(5, 60, 300)
    run_out(stock[:2], past[:2])  # imports and first calls are not what is measured
    fast = _seconds(lambda: run_out(stock, past, season=52, next_supply_week=30.0)) / 300
    half = _seconds(lambda: run_out(stock[:150], past[:150], season=52)) / 150
    plain = _seconds(lambda: [_plain(stock[i], list(past[i]), 200, 156) for i in range(5)]) / 5 * 10
    with capsys.disabled():
        print(
            f"\nrun-out: an item costs 1/{plain / fast:.0f} of a plain loop; "
            f"one of 300 costs {fast / half:.2f} of one of 150; 300 take {fast * 300:.2f} s"
        )
    assert plain / fast > 5
    assert fast / half < 3
