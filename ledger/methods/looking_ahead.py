"""What may be used in the weeks to come: one predictive distribution, no drawing of futures.

The household's own weeks tell how even the use of an item is, and how sure anybody can be of the
usual amount after so few of them. Nine ways to behave (`ledger.methods.behaviours`) are weighed by
how well they explain the weeks (log marginal likelihood, a flat prior on the mean: textbook, from
memory) and mixed (`ledger.methods.predictive`). Prior strengths are our own choice; what was
measured stands in docs/performance.md.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ledger.methods.behaviours import BEHAVIOURS, HORIZONS, YEARLY, Gram, Tables, grams, tables
from ledger.methods.past import Array, Past
from ledger.methods.predictive import LookingAhead

__all__ = ["LEAST_WEEKS", "look_ahead"]

#: Fewer whole weeks than this tell nothing about the weeks to come. Our choice.
LEAST_WEEKS = 4
#: Weeks that the prior scatter is worth. Our choice.
PRIOR_WEEKS = 4.0
#: Ways to behave below this weight are left out.
LEAST_WEIGHT = 0.01
#: So many items' answers are kept: what was not touched by an entry is not worked out again.
KEPT_ITEMS = 4096
_WEIGHTS = np.array([one.weight for one in BEHAVIOURS])
_SIZES = np.array([one.size or 1.0 for one in BEHAVIOURS])
_ZERO = np.zeros((1, 1))
_NO_SWINGS = Tables(_ZERO, _ZERO, np.zeros((1, HORIZONS.size)), np.zeros(HORIZONS.size))


def look_ahead(past: Past) -> LookingAhead | None:
    """Return what may be used in the weeks to come.

    Parameters
    ----------
    past : Past
        From `ledger.methods.past.past_of`.

    Returns
    -------
    LookingAhead or None
        None where fewer than `LEAST_WEEKS` weeks are known, or nothing was ever used.
    """
    if past.weeks < LEAST_WEEKS or past.there.sum() < 1 or not past.uses:
        return None
    return _look_ahead(_Keyed(past.key, past))


class _Keyed:
    """A past that is found again by what it holds."""

    def __init__(self, key: tuple[bytes, ...], past: Past) -> None:
        self.key, self.past, self.hash = key, past, hash(key)

    def __hash__(self) -> int:
        return self.hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Keyed) and self.key == other.key


@lru_cache(KEPT_ITEMS)
def _look_ahead(keyed: _Keyed) -> LookingAhead:
    from ledger.methods.pauses import even_pauses

    past = keyed.past
    keep = np.flatnonzero(past.there > 0)
    there = past.there[keep]
    level = float(past.used.sum() / there.sum())
    z = past.used[keep] / (there * level)
    rate = past.uses / float(there.sum())
    prior = max((1 + past.scatter) / rate - 1 / 7, 0.04)
    n = len(keep)
    freedom = PRIOR_WEEKS + n - 1
    steps = np.diff(z) ** 2 / (1 / there[1:] + 1 / there[:-1])
    near = (PRIOR_WEEKS * prior + float(steps.sum())) / freedom
    strengths = np.exp2(np.rint(np.log2(_SIZES / near))).tolist()  # shared by many histories
    weeks = np.zeros(keep[-1] + 1)
    weeks[keep] = z
    known = grams(strengths, past.there[: len(weeks)], weeks)
    told = np.array([one.products[:2, :2].ravel()[[0, 1, 3]] for one in known])
    misfit = np.maximum(told[:, 2] - told[:, 1] ** 2 / told[:, 0], 0.0)
    sigma = (PRIOR_WEEKS * prior + misfit) / freedom
    scores = -np.array([one.log_root for one in known]) - np.log(told[:, 0]) / 2
    scores += np.log(_WEIGHTS) - freedom / 2 * np.log(freedom * sigma)
    weights = np.exp(scores - scores.max())
    weights /= weights.sum()
    ways = np.flatnonzero(weights >= LEAST_WEIGHT)
    means, doubts = _ahead(ways.tolist(), strengths, known)
    by_chance, even = even_pauses(past) if rate < 1 else (1.0, ())
    return LookingAhead(
        past, level, weights[ways] / weights[ways].sum(), sigma[ways] * (1 + 1.6 / freedom),
        means, doubts, float(weights[YEARLY].sum()), by_chance, even,
    )  # fmt: skip


@lru_cache(64)
def _reach(ways: tuple[int, ...]) -> tuple[list[slice], list[int], Array, Array]:
    """Return the parts of each way, their starts, and reach and ahead of all, parts by horizons."""
    kernels = [tables(BEHAVIOURS[i].kernel) if BEHAVIOURS[i].size else _NO_SWINGS for i in ways]
    ends = np.cumsum([len(one.reach) for one in kernels]).tolist()
    starts = [0, *ends[:-1]]
    parts = [slice(a, b) for a, b in zip(starts, ends, strict=True)]
    return (
        parts, starts, np.concatenate([one.reach for one in kernels]),
        np.array([one.ahead for one in kernels]),
    )  # fmt: skip


def _ahead(ways: list[int], strengths: list[float], told: list[Gram]) -> tuple[Array, Array]:
    """Return the mean use up to each horizon, in weeks of the mean, and how unsure it is.

    Both of shape (ways, horizons); the parts of all ways' kernels are worked out together.
    """
    parts, starts, reach, ahead = _reach(tuple(ways))
    ones, weeks = np.zeros((2, len(ways), len(reach)))
    among = np.zeros((len(reach), len(reach)))
    for row, (i, part) in enumerate(zip(ways, parts, strict=True)):
        known, strength = told[i].products, strengths[i]
        if BEHAVIOURS[i].size:
            ones[row, part] = strength * known[0, 2:]
            weeks[row, part] = strength * known[1, 2:]
            among[part, part] = strength * strength * known[2:, 2:]
    there, used = np.array([told[i].products[0, :2] for i in ways]).T[:, :, None]
    mean = used / there
    means = HORIZONS * mean + (weeks - mean * ones) @ reach
    means = np.maximum(np.maximum.accumulate(means, axis=1), HORIZONS / 20)
    spread = np.add.reduceat(reach * (among @ reach), starts, axis=0)
    doubts = np.array([strengths[i] for i in ways])[:, None] * ahead - spread
    doubts += (HORIZONS - ones @ reach) ** 2 / there
    return means, np.maximum(doubts, 1e-9)
