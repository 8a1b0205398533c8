"""Frost days at a chosen risk, warmth in degree-days, seed that sprouts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import NormalDist, mean, stdev

from ledger.errors import InputError
from ledger.messages import Code, Message

__all__ = [
    "LEAST_YEARS",
    "FrostDay",
    "Sprouts",
    "frost_day",
    "seeds_wanted",
    "sprouts",
]

LEAST_YEARS = 10
"""Below so many years the latest (or earliest) seen is taken instead of a share of years."""
_Z95 = NormalDist().inv_cdf(0.975)


@dataclass(frozen=True)
class FrostDay:
    """A day of the year, from 1, and how it was found: ``share of years`` or ``latest seen``."""

    day: float
    how: str
    mean: float
    spread: float | None


def frost_day(days: Sequence[float], risk: float, *, spring: bool) -> FrostDay | None:
    """Return the day after (in spring) or before (in fall) which frost comes in `risk` of the years.

    Mean + z(1 - risk) x standard deviation in spring, mean - z x s in fall; a normal spread is
    assumed. Of fewer than ten years the latest (earliest) seen.

    Parameters
    ----------
    days : sequence of float
        Day of the year of each year's frost; one a year.
    risk : float
        Of a later spring frost, or an earlier one in fall: 0.1 is one year in ten.

    Raises
    ------
    InputError
        When the risk is not between 0 and 1.
    """
    if not 0 < risk < 1:
        raise InputError("risk", Message.of("refusal-risk-outside", text=Code(repr(risk))))
    if not days:
        return None
    middle = mean(days)
    if len(days) < LEAST_YEARS:
        seen = max(days) if spring else min(days)
        return FrostDay(seen, "latest seen" if spring else "earliest seen", middle, None)
    spread = stdev(days)
    z = NormalDist().inv_cdf(1 - risk) * spread
    return FrostDay(middle + z if spring else middle - z, "share of years", middle, spread)


@dataclass(frozen=True)
class Sprouts:
    """A germination test: rate with its 95 per cent range (Wilson)."""

    rate: float
    low: float
    high: float


def sprouts(sprouted: int, sown: int) -> Sprouts:
    """Return the rate of a germination test with Wilson's interval.

    Raises
    ------
    InputError
        When nothing was sown, or more sprouted than were.

    References
    ----------
    E. B. Wilson, Journal of the American Statistical Association 22, 1927 (from memory).
    """
    if sown <= 0 or not 0 <= sprouted <= sown:
        raise InputError(
            "sprouted", Message.of("refusal-sprouted-of-sown", sprouted=sprouted, sown=sown)
        )
    rate, z2 = sprouted / sown, _Z95**2
    middle = (rate + z2 / (2 * sown)) / (1 + z2 / sown)
    half = _Z95 * math.sqrt(rate * (1 - rate) / sown + z2 / (4 * sown**2)) / (1 + z2 / sown)
    return Sprouts(rate, max(middle - half, 0.0), min(middle + half, 1.0))


def seeds_wanted(plants: float, rate: float) -> int | None:
    """Return plants / rate, whole seeds; None where nothing sprouts."""
    return math.ceil(plants / rate - 1e-9) if rate > 0 else None
