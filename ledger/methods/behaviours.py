"""Nine ways in which use may go on: even, in swings, drifting, by season, in holidays.

Each is a kernel, the correlation of the swings of two weeks by the weeks between them (Rasmussen
and Williams, Gaussian Processes for Machine Learning, 2006, chapter 4, from memory). Sizes,
shapes and prior weights are our own choice, made on simulated households of twelve kinds.

Weeks are in bins as in `ledger.methods.past`, the newest first. So a shorter history has the
leading part of a longer one's matrices, and of their Cholesky factors.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from ledger.methods.past import KEPT_WEEKS, SINGLE_WEEKS, Array

__all__ = ["BEHAVIOURS", "HORIZONS", "YEARLY", "Behaviour", "Gram", "Tables", "grams", "tables"]

#: Weeks ahead that are tabled: days 1 to 6, then weekly to 26, every 2 to 52, 4 to 104, 8 to 256.
HORIZONS: Array = np.concatenate(
    [np.arange(1, 7) / 7, np.r_[1:27], np.r_[28:53:2], np.r_[56:105:4], np.r_[112:257:8]]
).astype(np.float64)
_YEAR = 52
_AT_ONCE = 3
"""Columns solved at once: more, and the library wakes its threads, which costs more than it saves."""


@dataclass(frozen=True)
class Behaviour:
    """One way to behave.

    Attributes
    ----------
    name, kernel : str
    size : float
        Variance of the swing as a share of the squared mean.
    weight : float
        Prior weight.
    """

    name: str
    kernel: str
    size: float
    weight: float


BEHAVIOURS = (
    Behaviour("even", "none", 0.0, 0.44),
    Behaviour("swings of weeks", "0.6", 0.12, 0.09),
    Behaviour("swings of months", "0.9", 0.10, 0.12),
    Behaviour("strong swings of months", "0.9", 0.35, 0.10),
    Behaviour("slow change", "0.985", 0.10, 0.06),
    Behaviour("drift", "drift", 0.06, 0.06),
    Behaviour("season", "season", 0.05, 0.03),
    Behaviour("strong season", "season", 0.20, 0.05),
    Behaviour("holidays", "holidays", 0.15, 0.05),
)
#: The ways that come back each year: together above one half, use is called seasonal.
YEARLY = np.array([one.kernel in ("season", "holidays") for one in BEHAVIOURS])


@dataclass(frozen=True)
class Tables:
    """A kernel over bins and horizons.

    Attributes
    ----------
    past : ndarray, shape (bins, bins)
        Mean over the weeks of both bins.
    shape : ndarray, shape (bins, parts)
        How the past of each bin bears on the weeks ahead: `shape` @ `reach` is the kernel summed
        over the weeks ahead up to each horizon.
    reach : ndarray, shape (parts, horizons)
    ahead : ndarray, shape (horizons,)
        The double sum over the weeks ahead up to each horizon.
    """

    past: Array
    shape: Array
    reach: Array
    ahead: Array


@cache
def _bin_of() -> tuple[Array, Array]:
    """Return weights that turn weeks (newest first) into bins, and so far ahead as is tabled."""
    fours = (KEPT_WEEKS - SINGLE_WEEKS) // 4
    weeks = np.zeros((SINGLE_WEEKS + fours, SINGLE_WEEKS + 4 * fours))
    weeks[np.arange(SINGLE_WEEKS), np.arange(SINGLE_WEEKS)] = 1.0
    for i in range(fours):
        weeks[SINGLE_WEEKS + i, SINGLE_WEEKS + 4 * i : SINGLE_WEEKS + 4 * i + 4] = 0.25
    ahead = np.clip(HORIZONS[:, None] - np.arange(int(HORIZONS[-1])), 0.0, 1.0)
    return weeks, ahead


@cache
def tables(kernel: str) -> Tables:
    """Return a kernel's tables for the longest history; a shorter one has their leading part."""
    bins, ahead = _bin_of()
    # middles of the weeks, the present being 0
    back, on = np.arange(bins.shape[1]) + 0.5, np.arange(ahead.shape[1]) + 0.5
    if kernel == "drift":
        shape = bins @ (-back / _YEAR)[:, None]
        reach = (ahead @ ((1 - np.exp(-on / 26)) / 2))[None]
        return Tables(shape @ shape.T, shape, reach, reach[0] ** 2)
    lags = _by_lag(kernel, back.size + on.size)
    double = ahead @ lags[np.abs(np.subtract.outer(on, on)).astype(int)]
    twice = (double * ahead).sum(axis=1)
    if kernel == "season":
        turn = 2 * np.pi / _YEAR
        shape = bins @ np.column_stack([np.cos(turn * back), np.sin(turn * back)])
        reach = np.array([ahead @ np.cos(turn * on), -(ahead @ np.sin(turn * on))])
        return Tables(shape @ shape.T, shape, reach, twice)
    past = bins @ lags[np.abs(np.subtract.outer(back, back)).astype(int)] @ bins.T
    if kernel == "holidays":
        cross = bins @ lags[np.add.outer(back, on).astype(int)] @ ahead.T
        left, sizes, right = np.linalg.svd(cross, full_matrices=False)
        some = sizes > 1e-5 * sizes[0]
        return Tables(past, left[:, some], (sizes[:, None] * right)[some], twice)
    share = float(kernel)  # what is left of a swing a week later
    return Tables(past, bins @ (share**back)[:, None], (ahead @ share**on)[None], twice)


def _by_lag(kernel: str, count: int) -> Array:
    lag = np.arange(count)
    if kernel == "season":
        return np.asarray(np.cos(2 * np.pi * lag / _YEAR))
    if kernel == "holidays":
        once = np.exp(-2 * np.sin(np.pi * lag / _YEAR) ** 2 / 0.04)
        mean = once[:_YEAR].mean()
        return np.asarray((once - mean) / (1 - mean))
    return np.asarray(float(kernel) ** lag)


@dataclass(frozen=True)
class Gram:
    """What a history says under one way to behave, with C = diag(1 / there) + g R.

    Attributes
    ----------
    products : ndarray, shape (2 + parts, 2 + parts)
        X' C^-1 X, the columns of X being ones, the weeks and the kernel's `shape`.
    log_root : float
        Half of log det C.
    """

    products: Array
    log_root: float


@lru_cache(160)
def _lower(kernel: str, strength: float) -> tuple[Array, Array, Array]:
    """Return L^-1 of the longest history without gaps, L^-1 of ones and shape, and log diag L."""
    from scipy.linalg.lapack import dtrtri

    table = tables(kernel)
    there = np.ones(len(table.past))
    there[SINGLE_WEEKS:] = 4.0
    root = np.linalg.cholesky(np.diag(1 / there) + strength * table.past)
    lower, _ = dtrtri(root, lower=1)
    known = lower @ np.column_stack([np.ones(len(root)), table.shape])
    return lower, known, np.log(np.diag(root))


def grams(strengths: Sequence[float], there: Array, weeks: Array) -> list[Gram]:
    """Return what a history says under each of `BEHAVIOURS`.

    Parameters
    ----------
    strengths : sequence of float, length (behaviours,)
        g of each, in powers of two where factors are to be shared; of no meaning for even use.
    there, weeks : ndarray, shape (bins,)
        Weeks with some in each bin, 0 where there was none, and use against the mean in them.
    """
    whole = (there[:SINGLE_WEEKS] == 1).all() and (there[SINGLE_WEEKS:] == 4).all()
    shapes = _low_rank_shapes()[:, : len(weeks)]
    x = np.empty((2 + len(shapes), len(weeks)))
    x[0], x[1], x[2:] = 1.0, weeks, shapes
    plain = (x * there) @ x.T
    logs = -0.5 * float(np.log(there if whole else there[there > 0]).sum())
    roots = None if whole else np.sqrt(there)
    out = []
    for way, strength in zip(BEHAVIOURS, strengths, strict=True):
        if way.kernel in _LOW_RANK:
            some = _LOW_RANK[way.kernel]
            out.append(_low_rank(plain[some[:, None], some], strength, logs))
        elif roots is None:
            out.append(_shared(way.kernel, strength, weeks))
        else:
            out.append(_own(way.kernel, strength, roots, weeks, logs))
    return out


#: Places of each kernel's columns among ones, weeks and the shapes of all that have few parts.
_LOW_RANK = {"none": np.r_[0:2], "season": np.r_[0:4], "drift": np.r_[0:2, 4]}


@cache
def _low_rank_shapes() -> Array:
    return np.concatenate([tables("season").shape.T, tables("drift").shape.T])


def _low_rank(plain: Array, strength: float, logs: float) -> Gram:
    """Return it by the Woodbury identity; the columns of X from the third on are the shape."""
    if len(plain) == 2:
        return Gram(plain, logs)
    cross = plain[:, 2:]
    inner = plain[2:, 2:] * strength
    inner.flat[:: len(inner) + 1] += 1
    if len(inner) == 1:
        det = float(inner[0, 0])
        solved = cross.T / det
    else:  # two parts, as a season has
        (a, b), (_, d) = inner.tolist()
        det = a * d - b * b
        solved = np.array([[d, -b], [-b, a]]) @ cross.T / det
    return Gram(plain - strength * cross @ solved, logs + 0.5 * math.log(det))


def _shared(kernel: str, strength: float, weeks: Array) -> Gram:
    """Return it for a history without gaps, whose factor is part of the longest one's."""
    lower, known, logs = _lower(kernel, strength)
    n = len(weeks)
    told = np.empty((n, known.shape[1] + 1))
    told[:, 0], told[:, 1], told[:, 2:] = known[:n, 0], lower[:n, :n] @ weeks, known[:n, 1:]
    return Gram(told.T @ told, float(logs[:n].sum()))


def _own(kernel: str, strength: float, roots: Array, weeks: Array, logs: float) -> Gram:
    """Return it for a history with gaps, from C^-1 = W B^-1 W with B = 1 + g W R W, W^2 = there.

    A bin without any is a row of the identity in B, and 0 in W: it says nothing.
    """
    from scipy.linalg.blas import dtrsm
    from scipy.linalg.lapack import dpotrf, dtrtri

    n, table = len(weeks), tables(kernel)
    matrix = table.past[:n, :n] * np.multiply.outer(roots * strength, roots)
    matrix.flat[:: n + 1] += 1.0
    root, _ = dpotrf(matrix.T, lower=1, overwrite_a=1)
    told = np.empty((n, 2 + table.shape.shape[1]), order="F")
    told[:, 0], told[:, 1] = roots, roots * weeks
    np.multiply(table.shape[:n], roots[:, None], out=told[:, 2:])
    if told.shape[1] <= _AT_ONCE:
        told = dtrsm(1.0, root, told, lower=1, overwrite_b=1)
    else:
        told = dtrtri(root, lower=1)[0] @ told
    return Gram(told.T @ told, logs + float(np.log(root.flat[:: n + 1]).sum()))
