"""One predictive distribution of an item's use: until when it lasts, and how much is used.

Ways to behave, weighed by `ledger.methods.looking_ahead`, are mixed. The chance that a stock is gone
within some weeks is the distribution function of F, which for unit uses that come by chance is the
gamma-Poisson predictive. Packs opened at even pauses are mixed in (`ledger.methods.pauses`).
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

import numpy as np
from numpy.typing import ArrayLike

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods.behaviours import HORIZONS
from ledger.methods.nearly import near_fdtr
from ledger.methods.past import Array, Past

if TYPE_CHECKING:
    from ledger.methods.pauses import EvenPauses

__all__ = ["HORIZON", "LookingAhead", "RunOut"]

#: Weeks beyond which nobody says when something runs out.
HORIZON = int(HORIZONS[-1])
_SHARES = (0.1, 0.5, 0.9)
_MOST = 32
"""Answers that one distribution keeps."""
_Out = TypeVar("_Out")
_ZERO = np.zeros(1)
_GRID = np.concatenate([_ZERO, HORIZONS])
_STEPS = np.diff(_GRID)
#: Amounts in parts of the greatest, where use over some weeks is looked for.
_ROUGHLY = np.linspace(0.0, 1.0, 33)[1:]
#: Amounts in parts of each share found roughly, at which it is then worked out.
_CLOSELY = np.array([0.96, 1.04])


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

    @cached_property
    def _kept(self) -> dict[tuple[Any, ...], Any]:
        """What was asked of it lately: an item's weeks stay the same while others are written of."""
        return {}

    def _once(self, key: tuple[Any, ...], make: Callable[[], _Out]) -> _Out:
        """Return what a question of these numbers was answered before, worked out where it was not."""
        kept = self._kept
        if key not in kept:
            if len(kept) >= _MOST:
                kept.clear()
            kept[key] = make()
        out: _Out = kept[key]
        return out

    @cached_property
    def _tabled(self) -> Array:
        """Return means and doubts from now on, shape (2, ways, 1 + horizons)."""
        out = np.zeros((2, len(self.weights), _GRID.size))
        out[0, :, 1:], out[1, :, 1:] = self.means, self.doubts
        return out

    def _gone(self, held: Array, weeks: Array) -> Array:
        """Return the chance that stocks are gone within so many weeks; both of shape (points,)."""
        weeks = np.minimum(np.maximum(weeks, 1e-3), HORIZON)
        after = np.minimum(HORIZONS.searchsorted(weeks), len(HORIZONS) - 1)
        before = self._tabled[:, :, after]
        part = (weeks - _GRID[after]) / _STEPS[after]
        means, doubts = before + (self._tabled[:, :, after + 1] - before) * part
        return self._chance(held, weeks, means, doubts)

    def _chance(
        self, held: Array, weeks: Array, means: Array, doubts: Array, of: Any = None
    ) -> Array:
        """Return the same from means and doubts then, shape (ways, points) each.

        The distribution function of F is `of`, SciPy's where none is given.
        """
        if of is None:
            from scipy.special import fdtr  # half of what other questions would load

            of = fdtr

        scatter = self.scatter[:, None]
        pace = means / weeks
        known = means * means / (scatter * doubts * (pace * np.sqrt(pace)))
        if self.rate < 1:
            # the mean of the rate lies above the rate of the mean where few uses are known
            means = means * (1 + 0.5 / np.maximum(np.minimum(known, 2 * self.past.uses + 1), 0.5))
        s = np.maximum(held / self.level, 1e-12)
        uses = np.maximum(s / scatter, 0.3)
        out = self.weights @ of(2 * uses, 2 * known + 1, means / s)
        if self.even:
            out = self.by_chance * out
            for way in self.even:
                out += way.weight * way.gone_within(held, 7 * weeks, of)
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
        return self._once(("out", float(stock)), lambda: self._run_out(stock))

    def _run_out(self, stock: float) -> RunOut:
        held = np.full(1, float(stock))
        # about where the shares lie first; then the steps there, and all where that was too rough
        rough = self._chance(held, HORIZONS, self.means, self.doubts, near_fdtr)
        near = np.maximum.accumulate(rough).searchsorted(_SHARES)
        some = np.zeros(_GRID.size + 1, bool)
        some[near], some[near + 1] = True, True
        for wanted in (some[1:-1], np.ones(HORIZONS.size, bool)):
            at = np.flatnonzero(wanted)
            gone = self._chance(held, HORIZONS[at], self.means[:, at], self.doubts[:, at])
            table = np.concatenate([_ZERO, np.maximum.accumulate(gone)])
            ends = [_step(np.concatenate([[0], at + 1]), table, share) for share in _SHARES]
            if not any(math.isnan(one) for one in ends):
                break
        return RunOut(*ends)

    def reaches(self, stock: float, waits: ArrayLike) -> float:
        """Return the chance that a stock lasts until the next supply.

        Parameters
        ----------
        stock : float
        waits : array of float, shape (points,)
            Equally likely times of the next supply, in weeks (`ledger.methods.waiting`).
        """
        asked = np.asarray(waits, dtype=np.float64)
        key = "reaches", float(stock), asked.tobytes()
        return self._once(key, lambda: float(1 - self.gone_within(stock, asked).mean()))

    def use_over(self, weeks: int) -> tuple[float, float, float]:
        """Return low, likely and high use over so many weeks (one of `HORIZONS`), in the unit."""
        return self._once(("use", weeks), lambda: self._use_over(weeks))

    def _use_over(self, weeks: int) -> tuple[float, float, float]:
        at = int(np.searchsorted(HORIZONS, weeks - 1e-9))
        ahead, means, doubts = HORIZONS[at : at + 1], self.means[:, [at]], self.doubts[:, [at]]
        top = float((means + 4 * np.sqrt(self.scatter[:, None] * (doubts + ahead))).max())

        def below(amounts: Array, of: Any = None) -> Array:
            return np.maximum.accumulate(1 - self._chance(amounts, ahead, means, doubts, of))

        amounts = _ROUGHLY * (top * self.level)
        rough = below(amounts, near_fdtr)  # where it lies; then seen closely
        found = [_quantile(amounts, rough, share) for share in _SHARES]
        for points in (np.multiply.outer(found, _CLOSELY).ravel(), amounts):
            exact = below(points := np.sort(points))
            if exact[0] <= _SHARES[0] and exact[-1] >= _SHARES[-1]:
                break
        low, likely, high = (_quantile(points, exact, share) for share in _SHARES)
        return low, likely, high

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


def _checked(stock: float) -> float:
    if not stock >= 0:
        raise InputError("stock", Message.of("refusal-stock-of", n=stock))
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


def _step(at: Any, rising: Array, share: float) -> float:
    """Return where a share is reached; inf beyond all; NaN where the steps tabled do not tell."""
    after = int(rising.searchsorted(share))
    if after == len(rising):
        return math.inf if at[-1] == HORIZONS.size else math.nan
    if at[after] - at[after - 1] != 1:
        return math.nan
    weeks = _GRID[at[after - 1] : at[after] + 1]
    return _cross(weeks, rising[after - 1 : after + 1], share)


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
