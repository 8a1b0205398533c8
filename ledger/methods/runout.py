"""When a stock runs out, by futures of the household's own weeks (`ledger.methods.futures`)."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from ledger.errors import InputError
from ledger.methods.futures import BLOCK, JITTER, Array, Futures, blocks, futures

__all__ = [
    "LEAST_WEEKS",
    "RunOut",
    "UseRange",
    "expected_use",
    "run_out",
    "stock_ahead",
    "use_range",
]

#: Fewer whole weeks than this tell nothing about the weeks to come. Our choice.
LEAST_WEEKS = 4
#: So many items' answers are kept: what was not touched by an entry is not drawn again.
KEPT_ITEMS = 4096


@dataclass(frozen=True)
class RunOut:
    """When the stocks run out; one value an item.

    Attributes
    ----------
    low, likely, high : ndarray, shape (items,)
        Weeks until nothing is left: the tenth, fiftieth and ninetieth of a hundred paths. inf:
        not within the horizon. NaN: too few weeks of history to say.
    reaches : ndarray, shape (items,)
        Chance (0 to 1) that the stock lasts until the next supply; NaN where no supply is
        known, or too few weeks.
    horizon : int
        How many weeks ahead were looked at.
    """

    low: Array
    likely: Array
    high: Array
    reaches: Array
    horizon: int


@dataclass(frozen=True)
class UseRange:
    """Use a week over a stretch to come: tenth, fiftieth and ninetieth of a hundred paths."""

    low: Array
    likely: Array
    high: Array


def run_out(
    stock: ArrayLike,
    history_weeks: ArrayLike,
    *,
    season: int | None = None,
    next_supply_week: ArrayLike | None = None,
    paths: int = 2000,
    seed: int = 0,
    horizon: int = 156,
) -> RunOut:
    """Return a range for the weeks until each stock is gone, and the chance to reach supply.

    Every item meets the same random numbers, so that its answer does not depend on which
    others are asked about with it.

    Parameters
    ----------
    stock : array of float, shape (items,) or a number
        What is there, in each item's own unit.
    history_weeks : array of float, shape (items, weeks) or (weeks,)
        Use in each past week, oldest first and ending with the present; NaN before the item
        was there.
    season : int, optional
        Weeks in a cycle (52). Items with more than one cycle of history draw from about the
        same time of it; the others, and all when None, from any week.
    next_supply_week : array of float, shape (items,) or a number, optional
        Weeks from now until new supply is there; NaN where none is expected.
    paths : int
        How many futures to draw.
    seed : int
        The same seed gives the same answer.
    horizon : int
        How many weeks ahead to look.

    Returns
    -------
    RunOut

    Raises
    ------
    InputError
        When the shapes do not fit, a stock is negative, or there are no paths.
    """
    held = np.atleast_1d(np.asarray(stock, dtype=np.float64))
    past = np.atleast_2d(np.asarray(history_weeks, dtype=np.float64))
    supply = np.broadcast_to(
        np.asarray(np.nan if next_supply_week is None else next_supply_week, np.float64), held.shape
    )
    _check(held, past, paths, horizon)
    answer = np.full((4, len(held)), np.nan)
    for i in range(len(held)):
        use = past[i][~np.isnan(past[i])]
        if len(use) >= LEAST_WEEKS:
            until = None if np.isnan(supply[i]) else float(supply[i])
            answer[:, i] = _run_out(
                float(held[i]), use.tobytes(), season, until, paths, seed, horizon
            )
    return RunOut(answer[0], answer[1], answer[2], answer[3], horizon)


@lru_cache(KEPT_ITEMS)
def _run_out(
    stock: float,
    past: bytes,
    season: int | None,
    supply: float | None,
    paths: int,
    seed: int,
    horizon: int,
) -> tuple[float, float, float, float]:
    """Return low, likely, high and reaches of one item, whose weeks come as the bytes of floats."""
    far = max(horizon, math.ceil(supply or 0))
    weeks = _weeks_until_empty(stock, np.frombuffer(past), futures(paths, far, seed, season))
    reaches = math.nan if supply is None else float((weeks >= supply).mean())
    weeks[weeks > horizon] = np.inf
    return (*_ranges(weeks), reaches)


def _ranges(values: Array) -> tuple[float, float, float]:
    """Return the tenth, fiftieth and ninetieth of a hundred, each a value that occurs."""
    count = len(values)
    at = [max(math.ceil(share * count) - 1, 0) for share in (0.1, 0.5, 0.9)]
    low, likely, high = np.partition(values, at)[at].tolist()
    return low, likely, high


def use_range(
    history_weeks: ArrayLike,
    *,
    season: int | None = None,
    weeks: int = 52,
    paths: int = 2000,
    seed: int = 0,
) -> UseRange:
    """Return use a week, as a range over the coming `weeks`, from the same drawing of blocks.

    Parameters
    ----------
    history_weeks : array of float, shape (items, past weeks) or (past weeks,)
        As for `run_out`.
    season : int, optional
        As for `run_out`.
    weeks : int
        The stretch to come that the mean is taken over, in whole blocks of four.
    paths, seed : int
        As for `run_out`.

    Returns
    -------
    UseRange
        Arrays of shape (items,); NaN where fewer than four weeks are known.
    """
    past = np.atleast_2d(np.asarray(history_weeks, dtype=np.float64))
    _check(np.zeros(len(past)), past, paths, weeks)
    answer = np.full((3, len(past)), np.nan)
    for i, row in enumerate(past):
        use = row[~np.isnan(row)]
        if len(use) >= LEAST_WEEKS:
            answer[:, i] = _use_range(use.tobytes(), season, weeks, paths, seed)
    return UseRange(answer[0], answer[1], answer[2])


@lru_cache(KEPT_ITEMS)
def _use_range(
    past: bytes, season: int | None, weeks: int, paths: int, seed: int
) -> tuple[float, float, float]:
    """Return low, likely and high use a week of one item."""
    use = np.frombuffer(past)
    starts = futures(paths, weeks, seed, season).starts(len(use))
    mean = np.take(blocks(use).sum(axis=1), starts).mean(axis=0) / BLOCK
    return _ranges(mean)


def stock_ahead(
    stock: float,
    history_weeks: ArrayLike,
    *,
    season: int | None = None,
    weeks: int = 52,
    paths: int = 2000,
    seed: int = 0,
) -> UseRange:
    """Return what is left at the end of each week to come when nothing new comes in.

    The paths are those of `run_out` for the same seed.

    Parameters
    ----------
    stock : float
        What is there, in the item's own unit.
    history_weeks : array of float, shape (weeks,)
        As for `run_out`.
    season, paths, seed
        As for `run_out`.
    weeks : int
        How many weeks ahead to look.

    Returns
    -------
    UseRange
        Arrays of shape (weeks + 1,), the first element being now; NaN where fewer than four weeks
        are known.
    """
    past = np.atleast_2d(np.asarray(history_weeks, dtype=np.float64))
    _check(np.atleast_1d(np.float64(stock)), past, paths, max(weeks, 1))
    use = past[0][~np.isnan(past[0])]
    if len(use) < LEAST_WEEKS:
        return UseRange(*np.full((3, weeks + 1), np.nan))
    starts = futures(paths, weeks, seed, season).starts(len(use))
    taken = blocks(use)[starts].transpose(0, 2, 1).reshape(-1, paths)[:weeks]
    left = np.full((weeks + 1, paths), float(stock))
    left[1:] -= np.cumsum(taken, axis=0)
    ranges = np.quantile(np.maximum(left, 0), (0.1, 0.5, 0.9), axis=1, method="inverted_cdf")
    return UseRange(*ranges)


def expected_use(history_weeks: ArrayLike, *, season: int | None = None, weeks: int = 52) -> Array:
    """Return the use to expect in each week to come: the mean of all blocks that can be drawn.

    Parameters
    ----------
    history_weeks : array of float, shape (weeks,)
        As for `run_out`.
    season : int, optional
        As for `run_out`.
    weeks : int
        How many weeks ahead to look.

    Returns
    -------
    ndarray, shape (weeks,)
        NaN where fewer than four weeks are known.
    """
    past = np.asarray(history_weeks, dtype=np.float64)
    use = past[~np.isnan(past)]
    if len(use) < LEAST_WEEKS:
        return np.full(weeks, np.nan)
    if season is None or len(use) <= season:
        return np.full(weeks, use.mean())
    return _expected(use.tobytes(), season, weeks).copy()


@lru_cache(KEPT_ITEMS)
def _expected(past: bytes, season: int, weeks: int) -> Array:
    """Return the use to expect of one item with more than one cycle of history."""
    use = np.frombuffer(past)
    ways = len(use) // season * (2 * JITTER + 1)
    every = np.broadcast_to((np.arange(ways) + 0.5) / ways, (-(-weeks // BLOCK), ways))
    starts = Futures(np.asarray(every), season).starts(len(use))
    return np.asarray(blocks(use)[starts].mean(axis=1).ravel()[:weeks])


def _weeks_until_empty(stock: float, use: Array, drawn: Futures) -> Array:
    """Return the week, with its fraction, at which the stock is used up on each path."""
    if stock <= 0:
        return np.zeros(drawn.paths)
    parts = blocks(use)
    totals = parts.sum(axis=1)
    mean = use.mean()
    weeks = np.full(drawn.paths, np.inf)
    if mean <= 0:
        return weeks
    # half of the paths end by stock / mean: look that far first, then on with those left
    far = drawn.blocks
    reach, done = int(min(stock / mean / BLOCK, far)) + 2, 0
    path, taken = np.arange(drawn.paths), np.zeros(drawn.paths)
    while path.size and done < far:
        ahead = drawn.starts(len(use), done, reach, path if done else None)
        run = taken + np.cumsum(totals[ahead], axis=0)
        full = (run < stock).sum(axis=0)
        ends = np.flatnonzero(full < len(run))
        at = full[ends]
        before = np.where(at > 0, run[at - 1, ends], taken[ends])
        inside = _weeks_inside(stock, before, parts[ahead[at, ends]])
        weeks[path[ends]] = (done + at) * BLOCK + inside
        goes_on = full == len(run)
        path, taken = path[goes_on], run[-1, goes_on]
        done, reach = done + len(run), max(reach // 4, 2)
    return weeks


def _weeks_inside(stock: float, before: Array, blocks: Array) -> Array:
    """Return the weeks into a block at which the stock is used up, shape (paths,).

    Parameters
    ----------
    before : ndarray, shape (paths,)
        Use up to the block.
    blocks : ndarray, shape (paths, BLOCK)
    """
    run = before[:, None] + np.cumsum(blocks, axis=1)
    run[:, -1] = np.maximum(run[:, -1], stock)  # the two sums may differ in the last bit
    week = (run < stock).sum(axis=1)
    rows = np.arange(len(run))
    level = np.where(week > 0, run[rows, week - 1], before)
    taken = run[rows, week] - level
    return np.asarray(week + (stock - level) / np.where(taken > 0, taken, 1.0))


def _check(stock: Array, past: Array, paths: int, horizon: int) -> None:
    if len(stock) != len(past):
        raise InputError(
            "history", f"{len(past)} items of history for {len(stock)} of stock", "Give one each"
        )
    if (stock < 0).any() or np.isnan(stock).any():
        raise InputError("stock", "a negative or unknown stock", "Give what is there, 0 or more")
    if np.nanmin(past, initial=0.0) < 0:
        raise InputError("history", "a week with negative use", "Give 0 or more for each week")
    if paths < 1 or horizon < 1:
        raise InputError("paths", f"{paths} paths over {horizon} weeks", "Give 1 or more of both")
