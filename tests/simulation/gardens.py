"""Gardens of ten crops with hidden yields, in five shapes of season; for the plants of nine in ten."""

from __future__ import annotations

import numpy as np

from ledger.methods.yields import Seasons, household_of, yield_ahead

__all__ = ["SHAPES", "measure_gardens"]

SHAPES = ("log-normal", "normal", "bad years", "failures", "years linked")


def _seasons(shape, rng, spread, count):
    """Return yields of so many seasons about a middle of one."""
    z = rng.normal(size=count)
    if shape == "normal":
        return np.maximum(1 + spread * z, 0.05)
    if shape == "years linked":
        now, out = rng.normal(), []
        for one in z:
            now = 0.5 * now + np.sqrt(0.75) * one
            out.append(now)
        z = np.array(out)
    out = np.exp(spread * z)
    if shape == "bad years":
        out = np.where(rng.random(count) < 0.15, 0.4 * out, out)
    if shape == "failures":
        out = np.where(rng.random(count) < 0.10, 0.0, out)
    return out


def measure_gardens(shape, seasons, gardens=40, further=200, seed=0, offset=0.35, spread=0.35):
    """Return share of further seasons short with the nine-in-ten plants, and plants / even plants."""
    rng = np.random.default_rng([seed, SHAPES.index(shape), seasons])
    short, times = [], []
    for _ in range(gardens):
        crops, ahead = [], []
        for _ in range(10):
            level = np.exp(rng.normal(0, offset))
            own = spread * np.exp(0.25 * rng.normal())
            run = level * _seasons(shape, rng, own, seasons + further)
            crops.append(Seasons(tuple(run[:seasons].tolist()), 1.0))
            ahead.append(run[seasons:])
        household = household_of(crops)
        for crop, later in zip(crops, ahead, strict=True):
            found = yield_ahead(crop, household)
            plants = found.units(100, nine=True)
            short.append(np.mean(plants * later < 100))
            times.append(plants / found.units(100))
    return float(np.mean(short)), float(np.median(times))
