"""When something comes in again: equally likely days, from pauses or from earlier seasons.

A chance that averages over these days is a better one than at their middle. The priors (a third
of the pause, two weeks of a season, each worth three) are our own choice.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods.past import Array

__all__ = ["POINTS", "after_pauses", "in_season"]

#: How many equally likely days stand for all.
POINTS = 9
#: Spread of the log of a pause before any is known, and how many it is worth.
PAUSE_SPREAD, PRIOR_PAUSES = 0.35, 3
#: Days by which a season comes earlier or later, before any is known.
SEASON_SPREAD = 14.0


def after_pauses(pauses: ArrayLike, since: float) -> Array:
    """Return equally likely waits from now, in days, for a supply that comes by its rhythm.

    A further pause is log-normal, its logs having the mean of those known and the variance
    (SS + 3 x 0.35^2) / (k - 1 + 3) x (1 + 1/k); it is longer than what has passed.

    Parameters
    ----------
    pauses : array of float, shape (k,)
        Days from supply to supply, above 0.
    since : float
        Days since the last one.

    Returns
    -------
    ndarray, shape (9,)

    Raises
    ------
    InputError
        Without a pause, or with one that is not above 0.
    """
    known = np.asarray(pauses, dtype=np.float64)
    if not known.size or known.min() <= 0:
        raise InputError("pauses", Message.of("refusal-no-pause"))
    logs = np.log(known)
    spread = _spread(logs, PAUSE_SPREAD)
    passed = (math.log(since) - float(logs.mean())) / spread if since > 0 else -math.inf
    return np.asarray(np.exp(logs.mean() + spread * _beyond(passed)) - max(since, 0.0))


def in_season(days: ArrayLike) -> Array:
    """Return equally likely waits from now, in days, for a supply that comes by its season.

    A further season is normal about the mean of those known, with the variance
    (SS + 3 x 14^2) / (k - 1 + 3) x (1 + 1/k); it lies ahead.

    Parameters
    ----------
    days : array of float, shape (k,)
        Days from now to the same day as in each earlier season.

    Returns
    -------
    ndarray, shape (9,)

    Raises
    ------
    InputError
        Without a season.
    """
    known = np.asarray(days, dtype=np.float64)
    if not known.size:
        raise InputError("days", Message.of("refusal-no-season"))
    spread = _spread(known, SEASON_SPREAD)
    return np.asarray(known.mean() + spread * _beyond(-float(known.mean()) / spread))


def _spread(known: Array, prior: float) -> float:
    """Return the standard deviation of one more, the prior being worth three."""
    k = len(known)
    squares = float(((known - known.mean()) ** 2).sum())
    return math.sqrt(
        (squares + PRIOR_PAUSES * prior**2) / (k - 1 + PRIOR_PAUSES) * (1 + 1 / k)
    )  # fmt: skip


def _beyond(least: float) -> Array:
    """Return normal scores of the middles of equal parts of what lies beyond one."""
    from scipy.special import ndtr, ndtri

    above = float(ndtr(-least))  # the upper tail, so that little of it is not lost
    tails = above * (1 - (np.arange(POINTS) + 0.5) / POINTS)
    return np.asarray(-ndtri(np.maximum(tails, 1e-300)))
