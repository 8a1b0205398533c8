"""How well ranges and chances kept their word: shares held, Brier and pinball scores, widening."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from ledger.errors import InputError
from ledger.messages import Message

__all__ = [
    "ENDS",
    "brier",
    "chance_widened",
    "held",
    "losses",
    "normal_score",
    "pinball",
    "too_few_held",
    "widened",
    "widening",
]

Array = np.ndarray[Any, Any]

ENDS = (0.1, 0.5, 0.9)
"""What low, likely and high are: the tenth, fiftieth and ninetieth of a hundred."""
PRIOR = 20.0
"""So many outcomes that were as wide as said go with the household's own. Our choice."""
MOST = 2.0
"""Ranges are widened by no more than this factor of their variance. Our choice."""
_FAR = 4.0
"""No outcome counts as farther out than so many standard deviations. Our choice."""


def brier(chances: ArrayLike, happened: ArrayLike) -> float:
    """Return the Brier score: the mean of (chance - what happened)^2; 0 is best, 1 is worst.

    Parameters
    ----------
    chances : array of float, shape (n,)
        0 to 1.
    happened : array of bool, shape (n,)

    Raises
    ------
    InputError
        When there are none, or a chance is not from 0 to 1.

    References
    ----------
    Brier, Verification of forecasts expressed in terms of probability, 1950 (from memory).

    Examples
    --------
    >>> round(brier([0.9, 0.6, 0.2], [True, False, False]), 4)
    0.1367
    """
    said, came = np.asarray(chances, np.float64), np.asarray(happened, np.float64)
    if not said.size:
        raise InputError("chances", Message.of("refusal-no-chance"))
    if not ((said >= 0) & (said <= 1)).all():
        raise InputError("chances", Message.of("refusal-chance-outside"))
    return float(((said - came) ** 2).mean())


def pinball(said: ArrayLike, came: ArrayLike, at: ArrayLike) -> float:
    """Return the mean pinball loss of quantiles, in the unit of what came; 0 is best.

    (came - said) x at where more came than said, else (said - came) x (1 - at).

    Parameters
    ----------
    said : array of float, shape (quantiles, n)
    came : array of float, shape (n,)
    at : array of float, shape (quantiles,)
        Which quantiles: 0.1 is the tenth of a hundred.

    References
    ----------
    Koenker and Bassett, Regression quantiles, 1978; Gneiting and Raftery, 2007 (from memory).

    Examples
    --------
    >>> round(pinball([[8.0], [10.0], [14.0]], [11.0], [0.1, 0.5, 0.9]), 4)
    0.3667
    """
    return float(losses(said, came, at).mean())


def losses(said: ArrayLike, came: ArrayLike, at: ArrayLike) -> Array:
    """Return the pinball loss of each outcome, the mean over the quantiles; shape (n,).

    Parameters and references as for `pinball`.
    """
    level = np.asarray(at, np.float64)[:, None]
    more = np.asarray(came, np.float64)[None, :] - np.asarray(said, np.float64)
    return np.asarray(np.maximum(level * more, (level - 1) * more).mean(axis=0))


def held(low: ArrayLike, high: ArrayLike, came: ArrayLike) -> Array:
    """Return which outcomes lie in their range, both ends being in it; shape (n,)."""
    value = np.asarray(came, np.float64)
    return np.asarray((np.asarray(low) <= value) & (value <= np.asarray(high)))


def normal_score(low: ArrayLike, likely: ArrayLike, high: ArrayLike, came: ArrayLike) -> Array:
    """Return how many standard deviations from likely the outcomes lie, by the side they lie on.

    The distance to low (or high) is that of the tenth (ninetieth) of a hundred of a normal
    distribution, 1.2816 standard deviations; so the range itself tells, and no distribution needs to
    be kept. Held to 4 either way. Our choice.
    """
    from scipy.special import ndtri

    ends = np.array([np.asarray(x, np.float64) for x in (low, likely, high)])
    value = np.asarray(came, np.float64)
    below = value < ends[1]
    side = np.where(below, ends[1] - ends[0], ends[2] - ends[1])
    off = value - ends[1]
    far = np.where(off == 0, 0.0, np.copysign(np.inf, off))
    with np.errstate(invalid="ignore", divide="ignore"):
        score = np.where(side > 0, off / side * float(ndtri(ENDS[2])), far)
    return np.clip(score, -_FAR, _FAR)


def too_few_held(count: int, of: int) -> bool:
    """Say whether fewer ranges of 80 % held than chance allows.

    share < 0.8 - 1.64 sqrt(0.16 / (of / 2)): one in twenty by chance, neighbours in time counted as
    half an outcome each, as they share most of their weeks.
    """
    return of > 0 and count / of < 0.8 - 1.64 * math.sqrt(0.16 / (of / 2))


def widening(scores: ArrayLike, count: int) -> float:
    """Return the factor by which the variance behind ranges is widened, 1 to 2; 1: as they are.

    (20 + sum of squared scores) / (20 + scores), only where too few held.

    Parameters
    ----------
    scores : array of float, shape (n,)
        From `normal_score`.
    count : int
        How many of them held.

    References
    ----------
    A scale updated by squared standard scores, as a scaled inverse chi-squared prior of 20 gives it
    (textbook, from memory); prior, bound and test are our choice.
    """
    score = np.asarray(scores, np.float64)
    if not too_few_held(count, score.size):
        return 1.0
    return float(min(max((PRIOR + (score**2).sum()) / (PRIOR + score.size), 1.0), MOST))


def widened(ranges: Array, factor: float) -> Array:
    """Return low, likely and high with the distances from likely widened; shape (3, n).

    By the root of the factor, in logs where low is above 0 (so that it stays there), else as they
    are, low held to 0. What is not known, or beyond the horizon, stays so.
    """
    if factor == 1.0:
        return ranges
    by = math.sqrt(factor)
    low, likely, high = (np.asarray(row, np.float64) for row in ranges)
    with np.errstate(invalid="ignore", divide="ignore"):
        in_logs = (low > 0) & np.isfinite(likely)
        first = np.where(in_logs, likely * (low / likely) ** by, likely - (likely - low) * by)
        last = np.where(in_logs, likely * (high / likely) ** by, likely + (high - likely) * by)
    first = np.where(np.isfinite(low) & np.isfinite(likely), np.maximum(first, 0.0), low)
    last = np.where(np.isfinite(high) & np.isfinite(likely), last, high)
    return np.array([first, likely, last])


def chance_widened(chance: ArrayLike, factor: float) -> Array:
    """Return chances as they are once the range behind them is widened: nearer to one half."""
    said = np.asarray(chance, np.float64)
    if factor == 1.0:
        return said
    from scipy.special import ndtr, ndtri

    return np.asarray(ndtr(ndtri(said) / math.sqrt(factor)))
