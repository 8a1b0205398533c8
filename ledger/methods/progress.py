"""A running season against earlier ones: by this day then, and what usually still comes."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np
from numpy.typing import ArrayLike

__all__ = ["ToCome", "by_week_of_season", "picked_by", "still_to_come"]


@dataclass(frozen=True)
class ToCome:
    """What the rest of earlier seasons brought after this day; in the unit of the amounts.

    Attributes
    ----------
    low, likely, high : float
        Least, middle and most of the earlier seasons.
    seasons : int
        How many there were. From fewer than two, low and high are one and the same.
    """

    low: float
    likely: float
    high: float
    seasons: int


def by_week_of_season(days: ArrayLike, amounts: ArrayLike, weeks: int = 53) -> np.ndarray:
    """Return the amount of each week of a season, the first of its days being day 0.

    Parameters
    ----------
    days : array of int, shape (n,)
        Days since the season began; others than those of the weeks asked for are left out.
    amounts : array of float, shape (n,)
        What was picked.
    weeks : int
        How many weeks.

    Returns
    -------
    ndarray of float, shape (weeks,)
    """
    week = np.asarray(days, dtype=np.int64) // 7
    keep = (week >= 0) & (week < weeks)
    weights = np.asarray(amounts, dtype=np.float64)[keep]
    return np.bincount(week[keep], weights=weights, minlength=weeks)


def picked_by(days: ArrayLike, amounts: ArrayLike, day: int) -> float:
    """Return what a season had brought by a day of it, that day included.

    Parameters
    ----------
    days, amounts
        As for `by_week_of_season`.
    day : int
        Days since the season began.
    """
    when = np.asarray(days, dtype=np.int64)
    return float(np.asarray(amounts, dtype=np.float64)[when <= day].sum())


def still_to_come(
    seasons: Sequence[tuple[ArrayLike, ArrayLike]],
    day: int,
    *,
    scale: Sequence[float] | None = None,
) -> ToCome | None:
    """Return what the weeks after a day of the season usually bring.

    Parameters
    ----------
    seasons : sequence of (days, amounts)
        Earlier seasons, whole, as for `by_week_of_season`.
    day : int
        Days since the season began; what came after it counts.
    scale : sequence of float, optional
        This season's plants (or ground) over each earlier season's; 1 when not given.

    Returns
    -------
    ToCome or None
        None where there is no earlier season.
    """
    factors = [1.0] * len(seasons) if scale is None else list(scale)
    rest = [
        (picked_by(days, amounts, np.iinfo(np.int64).max) - picked_by(days, amounts, day)) * factor
        for (days, amounts), factor in zip(seasons, factors, strict=True)
    ]
    return ToCome(min(rest), median(rest), max(rest), len(rest)) if rest else None
