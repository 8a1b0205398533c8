"""Simulated use of twelve kinds, whose past and many futures share the same hidden rates.

Rates, swings and sizes are our own choice; they stand for no household. Time goes by days; week 0
of the past is the oldest. What varies by week is a factor on a base rate, known to the oracle.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

__all__ = ["KINDS", "Simulated", "simulate"]

AHEAD = 120
"""Weeks of each future."""


@dataclass
class Simulated:
    """One item: past by day, futures by day, and its true level.

    Attributes
    ----------
    use, there : ndarray, shape (days,)
    futures : ndarray, shape (futures, days ahead)
    level : float
        True mean use a week.
    """

    kind: str
    use: np.ndarray
    there: np.ndarray
    futures: np.ndarray
    level: float


def _ar(rng, weeks, keep, sd, start=None, count=1):
    """Return factors exp(x) / mean of an autoregressive x, shape (count, weeks), and the last x."""
    x = np.empty((count, weeks))
    now = rng.normal(0, sd, count) if start is None else np.full(count, start)
    for week in range(weeks):
        now = keep * now + rng.normal(0, sd * np.sqrt(1 - keep**2), count)
        x[:, week] = now
    return np.exp(x - sd**2 / 2), x


def _spread(rng, weekly, days):
    """Return weekly amounts (count, weeks) on `days` random days of each week."""
    count, weeks = weekly.shape
    out = np.zeros((count, weeks, 7))
    order = rng.random((count, weeks, 7)).argsort(axis=2)[:, :, :days]
    share = rng.dirichlet(np.full(days, 20.0), (count, weeks))
    np.put_along_axis(out, order, share * weekly[:, :, None], axis=2)
    return out.reshape(count, -1)


def _chance(rng, rates, cv):
    """Return uses by chance: rates (count, weeks) a week, sizes of mean 1 with this scatter."""
    many = rng.poisson(np.repeat(rates / 7, 7, axis=1))
    if not cv:
        return many.astype(float)
    shape = 1 / cv**2
    return np.where(many > 0, rng.gamma(np.maximum(many, 1) * shape) / shape, 0.0)


def _pauses(rng, mean, shape, days, count, age):
    """Return a use of one after each gamma pause; `age` days of the first have gone."""
    out = np.zeros((count, days))
    for row in out:
        at = -age + rng.gamma(shape, mean / shape)
        while at < 0:
            at = -age + rng.gamma(shape, mean / shape)
        while at < days:
            row[int(at)] += 1
            at += rng.gamma(shape, mean / shape)
    return out


def _factor(kind, rng, weeks, count):
    """Return factors of the past (1, weeks) and of the futures (count, AHEAD)."""
    t = np.arange(-weeks, AHEAD)[None]
    if kind in ("swings of weeks", "swings of months"):
        keep, sd = (0.6, rng.uniform(0.25, 0.45)) if kind == "swings of weeks" else (0.9, rng.uniform(0.25, 0.5))  # fmt: skip
        past, x = _ar(rng, weeks, keep, sd)
        ahead, _ = _ar(rng, AHEAD, keep, sd, x[0, -1], count)
        return past, ahead
    if kind == "season":
        both = 1 + rng.uniform(0.3, 0.8) * np.cos(2 * np.pi * (t / 52 - rng.random()))
    elif kind == "drift":
        both = np.exp(rng.choice([-1, 1]) * np.log1p(rng.uniform(0.10, 0.42)) * t / 52)
    elif kind == "people came or went":
        when = -rng.integers(1, max(weeks, 2))
        both = np.where(t < when, rng.choice([0.6, 0.75, 1.33, 1.6]), 1.0)
    elif kind == "school holidays":
        both = np.where((t + rng.integers(52)) % 52 < 6, rng.uniform(1.8, 3.0), 1.0)
    else:
        both = np.ones(t.shape)
    return both[:, :weeks], np.repeat(both[:, weeks:], count, axis=0)


KINDS = (
    "steady", "by chance", "seldom", "now and then", "swings of weeks", "swings of months", "season",
    "drift", "people came or went", "stock-outs", "packs at even pauses", "school holidays",
)  # fmt: skip


def simulate(kind, rng, weeks, count=100):
    """Return one item of a kind with so many weeks of past and `count` futures."""
    past, ahead = _factor(kind, rng, weeks, count)
    there = np.ones(7 * weeks, bool)
    if kind == "packs at even pauses":
        mean, shape = rng.uniform(12, 35), rng.choice([6, 12, 25])
        use = _pauses(rng, mean, shape, 7 * weeks + 400, 1, 0.0)[0, 400:]
        at = np.flatnonzero(use)
        age = len(use) - 1 - at[-1] if at.size else rng.uniform(0, mean)
        return Simulated(
            kind, use, there, _pauses(rng, mean, shape, 7 * AHEAD, count, age), 7 / mean
        )
    level = rng.uniform(0.3, 3.0)
    if kind in ("by chance", "seldom", "now and then"):
        low, high = {"by chance": (0.7, 2), "seldom": (0.2, 0.4), "now and then": (0.3, 1.2)}[kind]
        rate, cv = rng.uniform(low, high), rng.uniform(0.4, 0.9) if kind == "now and then" else 0
        use, futures = _chance(rng, rate * past, cv)[0], _chance(rng, rate * ahead, cv)
        return Simulated(kind, use * level, there, futures * level, rate * level)
    cv, days = rng.uniform(0.15, 0.45), int(rng.integers(2, 8))
    noise = [rng.gamma(1 / cv**2, cv**2, part.shape) for part in (past, ahead)]
    use = _spread(rng, past * noise[0] * level, days)[0]
    futures = _spread(rng, ahead * noise[1] * level, days)
    if kind == "stock-outs":
        at = 0
        while at < len(use):
            at += int(rng.integers(14, 50))
            out = int(rng.integers(3, 22))
            there[at : at + out] = use[at : at + out] = 0
            at += out
        use[-1], there[-1] = max(use[-1], 0.1 * level), True
    return Simulated(kind, use, there, futures, level)
