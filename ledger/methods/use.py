"""How much is used a week: the series, its level, and use that is mostly none.

Series are plain numpy arrays with time on the last axis; an item's leading weeks before it was
first in the book are NaN where several items share one table.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ledger.errors import InputError

__all__ = [
    "DEFAULT_ALPHA",
    "SPARSE_GAP",
    "Accuracy",
    "SparseUse",
    "accuracy",
    "croston",
    "is_sparse",
    "moving_average",
    "smooth",
    "weekly_use",
]

Array = NDArray[np.float64]

#: The smoothing constant that Hyndman and Athanasopoulos take for Croston's method.
DEFAULT_ALPHA = 0.1

#: A mean gap between uses above this many periods makes use intermittent (from memory:
#: Syntetos, Boylan and Croston, Journal of the Operational Research Society 56, 2005).
SPARSE_GAP = 1.32


def weekly_use(
    days: ArrayLike,
    amounts: ArrayLike,
    *,
    first: int,
    last: int,
    items: ArrayLike | None = None,
    n_items: int = 1,
) -> Array:
    """Return the amount used in each whole week, counted back from the last day.

    Parameters
    ----------
    days : array of int, shape (n,)
        Day of each use, in days since 1970-01-01.
    amounts : array of float, shape (n,)
        How much, in the item's own unit.
    first, last : int
        The period, inclusive. Days before its first whole week are left out, so that the
        newest week is always a whole one.
    items : array of int, shape (n,), optional
        Which of `n_items` each use belongs to.

    Returns
    -------
    ndarray, shape (weeks,) or (n_items, weeks) when `items` is given
        Oldest week first; a week without use is 0.
    """
    day = np.asarray(days, dtype=np.int64)
    weeks = max(0, (last - first + 1) // 7)
    row = np.zeros(len(day), np.int64) if items is None else np.asarray(items, np.int64)
    week = weeks - 1 - (last - day) // 7
    keep = (day <= last) & (week >= 0)
    table: Array = (
        np.bincount(
            row[keep] * weeks + week[keep],
            weights=np.asarray(amounts, dtype=np.float64)[keep],
            minlength=n_items * weeks,
        )
        .astype(np.float64)
        .reshape(n_items, weeks)
    )
    return table[0] if items is None else table


@dataclass(frozen=True)
class SparseUse:
    """Use that comes now and then: arrays of the shape of the series without its last axis.

    Attributes
    ----------
    size : ndarray
        Smoothed amount per use; NaN where nothing was ever used.
    gap : ndarray
        Smoothed number of periods from one use to the next.
    per_period : ndarray
        size / gap; 0 where nothing was ever used.
    corrected : ndarray
        `per_period` x (1 - alpha / 2): without the upward bias of a quotient of means.
    """

    size: Any
    gap: Any
    per_period: Any
    corrected: Any


def croston(series: ArrayLike, alpha: float = DEFAULT_ALPHA) -> SparseUse:
    """Return the level of intermittent use by Croston's method, with the bias correction.

    The amounts of the periods with use, and the gaps between these, are smoothed apart with one
    alpha, both from their first value, and change only when something is used. The first gap is
    counted from the start of the series.

    Parameters
    ----------
    series : array of float, shape (..., periods)
        Use by period, oldest first; NaN is a period before the item was there.
    alpha : float
        Smoothing constant, above 0 and up to 1.

    Returns
    -------
    SparseUse

    Raises
    ------
    InputError
        When alpha is out of range.

    References
    ----------
    Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 2nd ed. (2018), 12.2.
    Syntetos and Boylan, International Journal of Forecasting (2005): the factor 1 - alpha/2,
    from memory.
    """
    _check_alpha(alpha)
    use = np.asarray(series, dtype=np.float64)
    rows = use.reshape(-1, use.shape[-1])
    levels = np.array([_smoothed(row, alpha) for row in rows]).reshape(*use.shape[:-1], 2)
    size, gap = levels[..., 0], levels[..., 1]
    rate = np.where(np.isnan(size), 0.0, size / np.where(np.isnan(gap), 1.0, gap))
    return SparseUse(size, gap, rate, rate * (1 - alpha / 2))


def _smoothed(row: Any, alpha: float) -> tuple[float, float]:
    """Return the smoothed amount of a use and gap between uses; NaN where nothing was used."""
    at = np.flatnonzero(row > 0)
    periods = np.cumsum(~np.isnan(row))[at]
    size = gap = math.nan
    for amount, since in zip(row[at].tolist(), np.diff(periods, prepend=0).tolist(), strict=True):
        size = amount if math.isnan(size) else size + alpha * (amount - size)
        gap = float(since) if math.isnan(gap) else gap + alpha * (since - gap)
    return size, gap


def is_sparse(series: ArrayLike) -> Any:
    """Say whether use is intermittent: more than 1.32 periods from one use to the next.

    Parameters
    ----------
    series : array of float, shape (..., periods)
        Use by period; NaN is a period before the item was there.

    Returns
    -------
    ndarray of bool, shape (...)
        False where nothing was ever used.

    References
    ----------
    Syntetos, Boylan and Croston (2005): the boundary 1.32 of the mean gap, from memory.
    """
    use = np.asarray(series, dtype=np.float64)
    uses = np.sum(use > 0, axis=-1)
    periods = np.sum(~np.isnan(use), axis=-1)
    return (uses > 0) & (periods > SPARSE_GAP * uses)


def smooth(series: ArrayLike, alpha: float, *, start: float | None = None) -> Array:
    """Return one-step forecasts by simple exponential smoothing.

    forecast[t + 1] = forecast[t] + alpha x (series[t] - forecast[t]).

    Parameters
    ----------
    series : array of float, shape (periods,)
        Oldest first.
    alpha : float
        Smoothing constant, above 0 and up to 1.
    start : float, optional
        Forecast of the first period; the first value when not given.

    Returns
    -------
    ndarray, shape (periods + 1,)
        Forecast of each period, the last for the period to come; empty for an empty series.

    Raises
    ------
    InputError
        When alpha is out of range.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.4.3.
    """
    _check_alpha(alpha)
    values = np.asarray(series, dtype=np.float64)
    if not len(values):
        return np.empty(0)
    forecast = np.empty(len(values) + 1)
    forecast[0] = values[0] if start is None else start
    for t, value in enumerate(values):
        forecast[t + 1] = forecast[t] + alpha * (value - forecast[t])
    return forecast


def moving_average(series: ArrayLike, window: int, *, centred: bool = True) -> Array:
    """Return the mean of `window` neighbouring values, NaN where the window is not full.

    Parameters
    ----------
    series : array of float, shape (periods,)
        Oldest first.
    window : int
        How many values; odd when centred.
    centred : bool
        Around each period; else of the newest `window` values up to it.

    Returns
    -------
    ndarray, shape (periods,)

    Raises
    ------
    InputError
        When the window is below 1, or even and centred.

    References
    ----------
    Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 2nd ed. (2018), 6.2.
    """
    if window < 1 or (centred and window % 2 == 0):
        raise InputError("window", f"{window} values", "Give an odd number of values, 1 or more")
    values = np.asarray(series, dtype=np.float64)
    result = np.full(len(values), np.nan)
    if len(values) < window:
        return result
    means = np.lib.stride_tricks.sliding_window_view(values, window).mean(axis=-1)
    begin = window // 2 if centred else window - 1
    result[begin : begin + len(means)] = means
    return result


@dataclass(frozen=True)
class Accuracy:
    """How far forecasts were off; None where there is nothing to compare.

    Attributes
    ----------
    bias : float or None
        Mean of actual - forecast: negative when the forecasts were too high.
    mean_absolute, mean_square : float or None
        Mean of the absolute and of the squared error.
    mean_percent : float or None
        Mean absolute error in per cent of the actual, over the periods with some.
    """

    bias: float | None
    mean_absolute: float | None
    mean_square: float | None
    mean_percent: float | None


def accuracy(actual: ArrayLike, forecast: ArrayLike) -> Accuracy:
    """Return the usual measures of how far forecasts were off.

    Parameters
    ----------
    actual, forecast : array of float, shape (periods,)
        Pairs with a NaN are left out.

    References
    ----------
    NIST/SEMATECH e-Handbook of Statistical Methods, 6.4.3 (mean squared error).
    """
    real = np.asarray(actual, dtype=np.float64)
    error = real - np.asarray(forecast, dtype=np.float64)
    known = ~np.isnan(error)
    if not known.any():
        return Accuracy(None, None, None, None)
    real, error = real[known], error[known]
    some = real != 0
    percent = float(np.mean(np.abs(error[some] / real[some])) * 100) if some.any() else None
    return Accuracy(
        float(error.mean()), float(np.abs(error).mean()), float((error**2).mean()), percent
    )


def _check_alpha(alpha: float) -> None:
    if not 0 < alpha <= 1:
        raise InputError("alpha", f"{alpha:g}", "Give a smoothing constant above 0 and up to 1")
