"""How many plants for an even chance, and for nine years in ten.

A year is good or bad for all plants of a crop together, so what varies is the yield per plant
(or per foot of row, or per square metre) from season to season.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.errors import InputError

__all__ = ["YieldSpread", "chance_short", "from_range", "from_seasons", "plants_for"]

_ALIKE = 1e-10
"""Part of a yield by which two may differ and be alike all the same: what rounding leaves."""


@dataclass(frozen=True)
class YieldSpread:
    """What one plant (or other unit of planting) may bring in a season.

    Attributes
    ----------
    basis : str
        ``own seasons`` or ``published range``.
    likely : float
        The yield that is as often exceeded as missed in a season that does not fail, in the
        unit of the yields given.
    scale : float
        Of own seasons: standard error of a further season's log yield. Of a range: half its
        width, in the unit of the yields, and 0 where one figure says nothing of the spread.
    freedom : int
        Degrees of freedom of own seasons; 0 for a range.
    failed : float
        Share of the seasons that brought nothing.
    seasons : int
        How many own seasons it rests on; 0 for a range.
    """

    basis: str
    likely: float
    scale: float
    freedom: int
    failed: float
    seasons: int

    def quantile(self, chance: float) -> float | None:
        """Return the yield that is missed with this chance; None where the spread is unknown.

        Parameters
        ----------
        chance : float
            Above 0 and below 1.
        """
        _check_chance(chance)
        if chance <= self.failed:
            return 0.0
        within = (chance - self.failed) / (1 - self.failed)
        if math.isclose(within, 0.5):
            return self.likely
        if self.scale == 0:  # seasons that were all alike, or a single published figure
            return self.likely if self.freedom else None
        if self.freedom == 0:
            return self.likely + self.scale * (2 * within - 1)
        from scipy.special import stdtrit

        return self.likely * math.exp(self.scale * float(stdtrit(self.freedom, within)))

    def chance_below(self, amount: float) -> float | None:
        """Return the chance of a season with less than this; None where the spread is unknown."""
        if amount <= 0:
            return 0.0
        if self.scale == 0:
            above = 1.0 if amount > self.likely * (1 + 1e-9) else self.failed
            return above if self.freedom else None
        if self.freedom == 0:
            within = (amount - self.likely + self.scale) / (2 * self.scale)
            within = min(1.0, max(0.0, within))
        else:
            from scipy.special import stdtr

            within = float(stdtr(self.freedom, math.log(amount / self.likely) / self.scale))
        return self.failed + (1 - self.failed) * within


def from_seasons(yields: Sequence[float]) -> YieldSpread | None:
    """Return the spread that the household's own seasons show.

    The log of the yield is taken as normal and a further season as one more draw, so its
    quantiles are mean + t x s x sqrt(1 + 1/n) with Student's t of n - 1 degrees: few seasons
    give a wide range. Seasons that brought nothing count as failures apart.

    Parameters
    ----------
    yields : sequence of float
        Per plant (or unit), one a season, 0 or more, any unit.

    Returns
    -------
    YieldSpread or None
        None from fewer than two seasons with a harvest.

    Raises
    ------
    InputError
        When a yield is negative.

    References
    ----------
    Prediction interval of a normal sample: standard statistics, from memory; the log-normal
    yield is our assumption.
    """
    if any(value < 0 for value in yields):
        raise InputError("yield", "a negative yield", "Give 0 or more for each season")
    logs = [math.log(value) for value in yields if value > 0]
    n = len(logs)
    if n < 2:
        return None
    mean = math.fsum(logs) / n
    sd = math.sqrt(math.fsum((x - mean) ** 2 for x in logs) / (n - 1))
    failed = 1 - n / len(yields)
    # seasons that were all alike have no spread, but for what rounding leaves of their mean
    scale = sd * math.sqrt(1 + 1 / n) if max(logs) - min(logs) > _ALIKE else 0.0
    return YieldSpread("own seasons", math.exp(mean), scale, n - 1, failed, len(yields))


def from_range(low: float, high: float, *, assumed_spread: float | None = None) -> YieldSpread:
    """Return the spread of a published range, every yield within it taken as equally likely.

    Parameters
    ----------
    low, high : float
        As published, 0 or more; equal where one figure is given.
    assumed_spread : float, optional
        For one figure: how far a season may lie from it, as a share of it (0.3 is 30 per cent
        either way). Not given: only the even chance can be told.

    Returns
    -------
    YieldSpread

    Raises
    ------
    InputError
        When the range is reversed, or not above zero.
    """
    if not 0 <= low <= high or high == 0:
        raise InputError("yield", f"a range from {low:g} to {high:g}", "Give low, then high")
    likely = (low + high) / 2
    half = (high - low) / 2
    if half <= _ALIKE * likely:  # one figure, but for rounding
        half = likely * min(assumed_spread or 0.0, 1.0)
    return YieldSpread("published range", likely, half, 0, 0.0, 0)


def plants_for(needed: float, spread: YieldSpread, chance: float = 0.5) -> int | None:
    """Return the fewest plants that bring what is needed with this chance.

    needed / (the yield that is missed with 1 - chance), rounded up.

    Parameters
    ----------
    needed : float
        In the unit of the yields.
    spread : YieldSpread
        From `from_seasons` or `from_range`.
    chance : float
        0.5 is an even chance, 0.9 nine years in ten.

    Returns
    -------
    int or None
        None where the spread is not known, and where the crop fails so often that no number of
        plants is enough.

    Examples
    --------
    >>> plants_for(30, from_range(2.0, 4.0), 0.5), plants_for(30, from_range(2.0, 4.0), 0.9)
    (10, 14)
    """
    _check_chance(chance)
    if needed <= 0:
        return 0
    per_plant = spread.quantile(1 - chance)
    if not per_plant or per_plant <= 0:
        return None
    plants = needed / per_plant
    return math.ceil(plants - 1e-9 * plants)


def chance_short(needed: float, plants: float, spread: YieldSpread) -> float | None:
    """Return the chance that so many plants bring less than what is needed.

    Parameters
    ----------
    needed, spread
        As for `plants_for`.
    plants : float
        Plants, or other units of planting.

    Returns
    -------
    float or None
        0 to 1; None where the spread is not known.
    """
    if needed <= 0:
        return 0.0
    return 1.0 if plants <= 0 else spread.chance_below(needed / plants)


def _check_chance(chance: float) -> None:
    if not 0 < chance < 1:
        raise InputError("chance", f"{chance:g}", "Give a chance above 0 and below 1")
