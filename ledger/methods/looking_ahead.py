"""What may be used in the weeks to come: one predictive distribution, no drawing of futures.

The household's own weeks tell how even the use of an item is, and how sure anybody can be of the
usual amount after so few of them. Nine ways to behave (`ledger.methods.behaviours`) are weighed by
how well they explain the weeks (log marginal likelihood, a flat prior on the mean: textbook, from
memory). The chance that a stock is gone within some weeks is the distribution function of F, which
for unit uses that come by chance is the gamma-Poisson predictive. Packs opened at even pauses are
mixed in (`ledger.methods.pauses`). Prior strengths are our own choice; what was measured stands in
docs/performance.md.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import ArrayLike

from ledger.errors import InputError
from ledger.methods.behaviours import BEHAVIOURS, HORIZONS, YEARLY, Behaviour, Gram, gram, tables
from ledger.methods.past import SINGLE_WEEKS, Array, Past

if TYPE_CHECKING:
    from ledger.methods.pauses import EvenPauses

__all__ = ["HORIZON", "LEAST_WEEKS", "LookingAhead", "RunOut", "look_ahead"]

#: Fewer whole weeks than this tell nothing about the weeks to come. Our choice.
LEAST_WEEKS = 4
#: Weeks beyond which nobody says when something runs out.
HORIZON = int(HORIZONS[-1])
#: Weeks that the prior scatter is worth. Our choice.
PRIOR_WEEKS = 4.0
#: Ways to behave below this weight are left out.
LEAST_WEIGHT = 0.01
#: So many items' answers are kept: what was not touched by an entry is not worked out again.
KEPT_ITEMS = 4096
_WEIGHTS = np.array([one.weight for one in BEHAVIOURS])
_HOLIDAYS = np.array([one.kernel == "holidays" for one in BEHAVIOURS])
_SHARES = (0.1, 0.5, 0.9)
_ZERO = np.zeros(1)
_GRID = np.concatenate([_ZERO, HORIZONS])
_COARSE = np.arange(0, len(HORIZONS), 4)
_WITHIN = {one + 1: (4 * one + 1, 4 * one + 2, 4 * one + 3) for one in range(_COARSE.size - 1)}


@dataclass(frozen=True)
class RunOut:
    """Weeks until nothing is left: the tenth, fiftieth and ninetieth of a hundred; inf: years."""

    low: float
    likely: float
    high: float


@dataclass(frozen=True)
class LookingAhead:
    """The predictive distribution of one item's use.

    Attributes
    ----------
    past : Past
    level : float
        Mean use of a week with some of it, m, in the item's unit.
    weights : ndarray, shape (ways,)
        Of the ways to behave that count.
    scatter : ndarray, shape (ways,)
        Variance of one week as a share of the squared mean, widened by Student's t at 80 per cent.
    means, doubts : ndarray, shape (ways, horizons)
        Use up to each of `HORIZONS` in weeks of the mean, and how unsure that is (variance, in
        units of the scatter).
    yearly : float
        Weight of season and holidays together.
    by_chance : float
        Weight of use by chance against even pauses.
    even : tuple of EvenPauses
    """

    past: Past
    level: float
    weights: Array
    scatter: Array
    means: Array
    doubts: Array
    yearly: float
    by_chance: float
    even: tuple[EvenPauses, ...]

    @property
    def seasonal(self) -> bool:
        """Whether use comes back at the same time of the year."""
        return self.yearly > 0.5

    @property
    def rate(self) -> float:
        """Days with use a week with some of it, u."""
        return self.past.uses / float(self.past.there.sum())

    def expected(self, weeks: ArrayLike) -> Array:
        """Return the mean use up to so many weeks from now, in the unit; beyond the last evenly."""
        mean = self.weights @ self.means * self.level
        asked = np.asarray(weeks, dtype=np.float64)
        known = np.interp(asked, _GRID, np.concatenate([_ZERO, mean]))
        return np.asarray(known * np.maximum(asked / HORIZONS[-1], 1.0))

    def gone_within(self, stock: float, weeks: ArrayLike) -> Array:
        """Return the chance that a stock is gone within so many weeks.

        Parameters
        ----------
        stock : float
            In the item's unit, 0 or more.
        weeks : array of float, shape (points,)

        Returns
        -------
        ndarray, shape (points,)
            0 to 1; beyond the last of `HORIZONS` as there.
        """
        asked = np.asarray(weeks, dtype=np.float64)
        if _checked(stock) == 0:
            return np.ones(asked.shape)
        order = asked.argsort()
        out = np.empty(asked.shape)
        gone = self._gone(np.full(asked.shape, float(stock)), asked[order])
        out[order] = np.maximum.accumulate(gone)  # where a season turns, by a hair it may fall
        return out

    def _gone(self, held: Array, weeks: Array) -> Array:
        """Return the chance that stocks are gone within so many weeks; both of shape (points,)."""
        from scipy.special import fdtr  # half of what a question without looking ahead would load

        weeks = np.minimum(np.maximum(weeks, 1e-3), HORIZON)
        after = np.minimum(np.searchsorted(HORIZONS, weeks), len(HORIZONS) - 1)
        part = (weeks - _GRID[after]) / (HORIZONS[after] - _GRID[after])
        means = _between(self.means, after, part)
        doubts = _between(self.doubts, after, part)
        scatter = self.scatter[:, None]
        pace = means / weeks
        known = means**2 / (scatter * doubts * (pace * np.sqrt(pace)))
        if self.rate < 1:
            # the mean of the rate lies above the rate of the mean where few uses are known
            means = means * (1 + 0.5 / np.maximum(np.minimum(known, 2 * self.past.uses + 1), 0.5))
        s = np.maximum(held / self.level, 1e-12)
        uses = np.maximum(s / scatter, 0.3)
        out = self.weights @ fdtr(2 * uses, 2 * known + 1, means / s)
        if self.even:
            out = self.by_chance * out
            for way in self.even:
                out += way.weight * way.gone_within(held, 7 * weeks)
        return np.asarray(out)

    def run_out(self, stock: float) -> RunOut:
        """Return when a stock is gone, when no more comes.

        Raises
        ------
        InputError
            When the stock is negative or not known.
        """
        if _checked(stock) == 0:
            return RunOut(0.0, 0.0, 0.0)
        held = float(stock)
        # every fourth horizon first, then those within the steps that a share falls into
        coarse = np.maximum.accumulate(self._gone(np.full(_COARSE.size, held), HORIZONS[_COARSE]))
        steps = {int(one) for one in coarse.searchsorted(_SHARES)}
        near = np.array([i for one in sorted(steps) for i in _WITHIN.get(one, ())], np.int64)
        at, gone = _COARSE, coarse
        if near.size:
            fine = self._gone(np.full(near.size, held), HORIZONS[near])
            at = np.concatenate([_COARSE, near])
            order = at.argsort()
            at, gone = at[order], np.concatenate([coarse, fine])[order]
        table = np.concatenate([_ZERO, np.maximum.accumulate(gone)])
        weeks = np.concatenate([_ZERO, HORIZONS[at]])
        return RunOut(*(_cross(weeks, table, share) for share in _SHARES))

    def reaches(self, stock: float, waits: ArrayLike) -> float:
        """Return the chance that a stock lasts until the next supply.

        Parameters
        ----------
        stock : float
        waits : array of float, shape (points,)
            Equally likely times of the next supply, in weeks (`ledger.methods.waiting`).
        """
        return float(1 - self.gone_within(stock, waits).mean())

    def use_over(self, weeks: int) -> tuple[float, float, float]:
        """Return low, likely and high use over so many weeks (one of `HORIZONS`), in the unit."""
        at = int(np.searchsorted(HORIZONS, weeks - 1e-9))
        means = self.means[:, at] * self.level
        spread = np.sqrt(self.scatter * (self.doubts[:, at] + HORIZONS[at])) * self.level
        low, top = 0.0, float((means + 4 * spread).max())
        for points in (11, 10):  # once to find where it lies, once to see it closely
            amounts = np.linspace(low, top, points)[0 if low else 1 :]
            below = 1 - self._gone(amounts, np.full(amounts.size, HORIZONS[at]))
            below = np.maximum.accumulate(below)
            found = [_quantile(amounts, below, share) for share in _SHARES]
            low, top = 0.9 * found[0], 1.1 * found[2]
        return found[0], found[1], found[2]

    def left_after(self, stock: float, weeks: int) -> tuple[Array, Array, Array]:
        """Return low, likely and high of what is left at the end of each week, shape (weeks + 1,)."""
        held, parts = _checked(stock), np.linspace(0.0, 1.0, 41)
        at = np.flatnonzero(weeks + 4 >= HORIZONS)
        taken = np.repeat(held * (1 - parts[:-1]), at.size)
        # the chance that less than that part is left
        ahead = np.tile(HORIZONS[at], parts.size - 1)
        less = self._gone(taken, ahead).reshape(-1, at.size)
        less = np.maximum.accumulate(np.vstack([less, np.ones(at.size)]), axis=0)
        ends = np.array([[_cross(parts, column, p) for p in _SHARES] for column in less.T]).T
        grid = np.r_[0.0, HORIZONS[at]]
        low, likely, high = (
            np.interp(np.arange(weeks + 1.0), grid, held * np.r_[1.0, end]) for end in ends
        )
        return low, likely, high

    def widened(self, by: float) -> LookingAhead:
        """Return the same with its variance times a factor, as the grade of earlier ranges asks."""
        even = tuple(
            replace(
                way, first_variance=way.first_variance * by, variance=way.variance * by,
                freedom=way.freedom / by,
            )
            for way in self.even
        )  # fmt: skip
        return replace(self, scatter=self.scatter * by, even=even)


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
    whole = n == len(past.there) and _is_whole(there)
    places = None if whole else keep
    grams = [_gram(one, near, there, places, z) for one in BEHAVIOURS]
    told = np.array([one.products[:2, :2].ravel()[[0, 1, 3]] for one in grams])
    misfit = np.maximum(told[:, 2] - told[:, 1] ** 2 / told[:, 0], 0.0)
    sigma = (PRIOR_WEEKS * prior + misfit) / freedom
    scores = -np.array([one.log_root for one in grams]) - np.log(told[:, 0]) / 2
    scores += np.log(_WEIGHTS) - freedom / 2 * np.log(freedom * sigma)
    weights = np.exp(scores - scores.max())
    weights /= weights.sum()
    yearly = float(weights[YEARLY].sum())
    ways = np.flatnonzero(weights >= LEAST_WEIGHT)
    for i in ways[_HOLIDAYS[ways]]:
        grams[i] = _gram(BEHAVIOURS[i], near, there, places, z, shaped=True)
    ahead = [_ahead(BEHAVIOURS[i], near, grams[i]) for i in ways]
    by_chance, even = even_pauses(past) if rate < 1 else (1.0, ())
    return LookingAhead(
        past, level, weights[ways] / weights[ways].sum(), sigma[ways] * (1 + 1.6 / freedom),
        np.array([means for means, _ in ahead]), np.array([doubts for _, doubts in ahead]),
        yearly, by_chance, even,
    )  # fmt: skip


def _is_whole(there: Array) -> bool:
    return bool((there[:SINGLE_WEEKS] == 1).all() and (there[SINGLE_WEEKS:] == 4).all())


def _strength(size: float, near: float) -> float:
    """Return g, in powers of two, so that histories share their factors."""
    return float(2.0 ** round(math.log2(size / near))) if size else 0.0


def _gram(
    way: Behaviour, near: float, there: Array, keep: Any, z: Array, *, shaped: bool = False
) -> Gram:
    # the shape of the holidays has many parts: worked out only where they count
    shaped = shaped or way.kernel != "holidays"
    return gram(way.kernel, _strength(way.size, near), there, keep, z, shaped=shaped)


def _ahead(way: Behaviour, near: float, known: Gram) -> tuple[Array, Array]:
    """Return the mean use up to each horizon, in weeks of the mean, and how unsure it is."""
    told = known.products
    mean = float(told[0, 1] / told[0, 0])
    if not way.size:
        return mean * HORIZONS, HORIZONS**2 / told[0, 0]
    table, strength = tables(way.kernel), _strength(way.size, near)
    reach = strength * table.reach
    spread = (reach * (told[2:, 2:] @ reach)).sum(axis=0)
    means = HORIZONS * mean + (told[1, 2:] - mean * told[0, 2:]) @ reach
    means = np.maximum(np.maximum.accumulate(means), HORIZONS / 20)
    doubts = strength * table.ahead - spread
    doubts += (HORIZONS - told[0, 2:] @ reach) ** 2 / told[0, 0]
    return means, np.maximum(doubts, 1e-9)


def _between(table: Array, after: Any, part: Array) -> Array:
    """Return a table's columns between horizons, on straight lines from 0 at now."""
    before = np.where(after > 0, table[:, np.maximum(after - 1, 0)], 0.0)
    return before + (table[:, after] - before) * part


def _checked(stock: float) -> float:
    if not stock >= 0:
        raise InputError("stock", f"a stock of {stock:g}", "Give what is there, 0 or more")
    return float(stock)


def _cross(x: Array, rising: Array, share: float) -> float:
    """Return where a rising table reaches a share; inf where it does not."""
    at = int(np.searchsorted(rising, share))
    if at == 0:
        return float(x[0])
    if at == len(rising):
        return math.inf
    before, after = rising[at - 1], rising[at]
    return float(x[at - 1] + (x[at] - x[at - 1]) * (share - before) / (after - before))


def _quantile(amounts: Array, below: Array, share: float) -> float:
    """Return the amount below which use stays with a chance; between points by normal scores."""
    from scipy.special import ndtri

    at = int(np.searchsorted(below, share))
    if at == 0:
        return float(amounts[0] * share / below[0]) if below[0] > 0 else 0.0
    if at == len(below):
        return float(amounts[-1])
    ends = [min(max(one, 1e-12), 1 - 1e-12) for one in (below[at - 1], below[at], share)]
    low, high, to = ndtri(ends).tolist()
    part = (to - low) / (high - low) if high > low else 1.0
    return float(amounts[at - 1] + (amounts[at] - amounts[at - 1]) * part)
