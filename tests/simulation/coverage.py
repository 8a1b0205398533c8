"""How well ranges and chances hold on simulated items: coverage, width, pinball, Brier."""

from __future__ import annotations

import numpy as np

from ledger.methods.looking_ahead import look_ahead
from ledger.methods.past import past_of
from simulation.kinds import KINDS, simulate

__all__ = ["measure"]

SHARES = np.array([0.1, 0.5, 0.9])


def weeks_until(futures, stock):
    """Return the weeks until a stock is gone on each future; inf where it is not.

    A day's use is spread evenly over the day.
    """
    run = np.cumsum(futures, axis=1)
    at = (run < stock * (1 - 1e-9)).sum(axis=1)
    last = np.minimum(at, run.shape[1] - 1)[:, None]
    day = np.take_along_axis(futures, last, 1)[:, 0]
    before = np.take_along_axis(run, last, 1)[:, 0] - day
    part = np.clip((stock - before) / np.where(day > 0, day, 1.0), 0, 1)
    return np.where(at == run.shape[1], np.inf, (at + part) / 7)


def pinball(ends, seen):
    """Return the mean pinball loss of three quantiles, in weeks; ends and seen are capped."""
    gap = np.minimum(seen, 256)[:, None] - np.minimum(ends, 256)[None]
    return float(np.maximum(SHARES * gap, (SHARES - 1) * gap).mean())


def one_item(kind, rng, weeks):
    """Return coverage, width against the oracle, pinball (ours, oracle), Brier (ours, outcome share), use."""
    while True:
        item = simulate(kind, rng, weeks)
        ahead = look_ahead(past_of(item.use, item.there))
        if ahead is not None:
            break
    stock = item.level * rng.uniform(4, 16)
    if kind in ("packs at even pauses", "by chance", "seldom"):
        unit = item.futures[item.futures > 0].min()
        stock = max(round(stock / unit), 1) * unit
    seen = weeks_until(item.futures, stock)
    found = ahead.run_out(stock)
    ends = np.array([found.low, found.likely, found.high])
    oracle = np.quantile(seen, SHARES, method="inverted_cdf")
    inside = np.mean((seen >= found.low - 1e-9) & (seen <= found.high + 1e-9))
    width = (min(ends[2], 256) - ends[0]) / max(oracle[2] - oracle[0], 1 / 7)
    when = stock / item.level * rng.uniform(0.6, 1.4)
    chance, came = ahead.reaches(stock, [when]), seen > when
    low, _, high = ahead.use_over(12)
    coming = item.futures[:, :84].sum(axis=1)
    held = np.mean((coming >= low - 1e-9) & (coming <= high + 1e-9))
    return {
        "inside": inside, "width": width, "pinball": pinball(ends, seen), "oracle": pinball(oracle, seen),
        "brier": float(np.mean((came - chance) ** 2)), "came": float(came.mean()), "use": held,
        "seasonal": float(ahead.seasonal), "level": abs(np.log(ahead.level / item.level)),
    }  # fmt: skip


def measure(weeks, items, seed=0, kinds=KINDS):
    """Return figures by kind: a dict of name to dict of mean figures."""
    out = {}
    for kind in kinds:
        rng = np.random.default_rng([seed, weeks, KINDS.index(kind)])
        rows = [one_item(kind, rng, weeks) for _ in range(items)]
        mean = {name: float(np.mean([row[name] for row in rows])) for name in rows[0]}
        mean["width"] = float(np.median([row["width"] for row in rows]))
        mean["base"] = mean["came"] * (1 - mean["came"])
        out[kind] = mean
    return out
