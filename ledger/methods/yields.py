"""How many plants for an even chance, and for nine seasons in ten, from the first year on.

A year is good or bad for all plants of a crop together, so what varies is the yield per plant (or
per foot of row) from season to season. The household's seasons and the published yield are weighed
by how far each can be trusted (empirical Bayes: Efron and Morris, Journal of the American
Statistical Association 70, 1975, from memory); with few seasons the published one counts more.
Failed seasons are counted apart.

`BETWEEN` is the spread in logs of the averages of six garden studies and guides (0.47), of which the
crops of one plot have less; `WITHIN` is read from the published excellent / average of 17 field crops
(Midwest Vegetable Production Guide 2022: middle 1.77, taken as the ninetieth of a hundred), less what
farms differ by. How many seasons or crops each is worth, and the failures, are our own choice.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["Household", "Seasons", "YieldAhead", "household_of", "need_spread", "yield_ahead"]

#: Spread in logs of crops about the household's own level, and how many crops that is worth.
BETWEEN, BETWEEN_WORTH = 0.40, 8
#: Spread in logs of seasons of one crop, and how many seasons that is worth.
WITHIN, WITHIN_WORTH = 0.35, 6
#: Spread in logs of households about the published yields.
HOUSEHOLDS = 0.2
#: Failures before any are known: half a season in ten.
FAILED, FAILED_OF = 0.5, 10
#: Spread in logs of what is needed from year to year, and how many years that is worth.
NEED, NEED_WORTH = 0.25, 3
#: However often a crop fails, no more is left out than the worst so many good seasons.
LEAST_TAIL = 0.03
_LEAST_BETWEEN = 0.05


@dataclass(frozen=True)
class Seasons:
    """The finished seasons of one crop.

    Attributes
    ----------
    yields : tuple of float
        Per plant (or other unit of planting), one a season, 0 or more; 0 is a failed season.
    published : float or None
        The published yield of the same unit, above 0; None where there is none.
    """

    yields: tuple[float, ...]
    published: float | None = None

    def __post_init__(self) -> None:
        if any(not value >= 0 for value in self.yields):
            raise InputError("yield", Message.of("refusal-negative-yield"))
        if self.published is not None and not self.published > 0:
            raise InputError("yield", Message.of("refusal-published-yield", n=self.published))

    @property
    def logs(self) -> list[float]:
        """Logs of the good seasons, against the published yield where there is one."""
        base = self.published or 1.0
        return [math.log(value / base) for value in self.yields if value > 0]

    @property
    def failures(self) -> int:
        """How many brought nothing."""
        return sum(value == 0 for value in self.yields)


@dataclass(frozen=True)
class Household:
    """What all crops of a household say together.

    Attributes
    ----------
    offset : float
        Log of its level against the published one, drawn towards none (eta).
    between : float
        Variance in logs of its crops about that (tau^2).
    within : float
        Variance in logs of the seasons of a crop (s0^2).
    seasons, failures : int
        Of all its crops.
    """

    offset: float
    between: float
    within: float
    seasons: int
    failures: int


def household_of(crops: Sequence[Seasons]) -> Household:
    """Return what all crops of a household say together; none say the priors.

    Parameters
    ----------
    crops : sequence of Seasons
    """
    logs = [crop.logs for crop in crops]
    squares = math.fsum(_squares(one) for one in logs)
    freedom = sum(len(one) - 1 for one in logs if one)
    known = [one for crop, one in zip(crops, logs, strict=True) if crop.published and one]
    means = [math.fsum(one) / len(one) for one in known]
    k = len(means)
    spread = _LEAST_BETWEEN**2
    if k > 1:
        each = sum(len(one) for one in known) / k
        spread = max(_squares(means) / (k - 1) - WITHIN**2 / each, spread)
    between = (BETWEEN_WORTH * BETWEEN**2 + k * spread) / (BETWEEN_WORTH + k)
    return Household(
        math.fsum(means) / (k + between / HOUSEHOLDS**2),
        between,
        (WITHIN_WORTH * WITHIN**2 + squares) / (WITHIN_WORTH + freedom),
        sum(len(crop.yields) for crop in crops),
        sum(crop.failures for crop in crops),
    )


@dataclass(frozen=True)
class YieldAhead:
    """What one plant (or other unit of planting) may bring in one further season.

    Attributes
    ----------
    likely : float
        The yield that is as often exceeded as missed in a season that does not fail, in the unit of
        the yields given.
    scale : float
        Standard deviation of a further good season's log yield.
    freedom : float
        Degrees of freedom of its Student's t.
    failure : float
        Chance of a season that brings nothing.
    seasons, failures : int
        How many own seasons it rests on, and how many of them failed.
    weight : float
        How far the own seasons count against the published yield, 0 to 1.
    """

    likely: float
    scale: float
    freedom: float
    failure: float
    seasons: int
    failures: int
    weight: float

    def missed_once_in_ten(self, spread: float = 0.0) -> float:
        """Return the yield that nine seasons in ten bring, failed ones counted.

        Where it fails about that often, what all but the worst of a hundred good seasons bring.

        Parameters
        ----------
        spread : float
            Standard deviation of the log of what is needed (`need_spread`); 0 for a fixed target.
        """
        from scipy.special import stdtrit

        tail = max((0.1 - self.failure) / (1 - self.failure), LEAST_TAIL)
        scale = math.hypot(self.scale, spread)
        return self.likely * math.exp(scale * float(stdtrit(self.freedom, tail)))

    def units(self, needed: float, *, nine: bool = False, spread: float = 0.0) -> float:
        """Return how many plants bring what is needed: as likely as not, or nine times in ten.

        Parameters
        ----------
        needed : float
            0 or more, in the unit of the yields.
        nine : bool
        spread : float
            As for `missed_once_in_ten`.

        Returns
        -------
        float
            Not rounded; always finite.
        """
        each = self.missed_once_in_ten(spread) if nine else self.likely
        return max(needed, 0.0) / each

    def chance_short(self, needed: float, units: float, spread: float = 0.0) -> float:
        """Return the chance of a season that brings less than is needed, failed ones counted."""
        if needed <= 0:
            return 0.0
        if units <= 0:
            return 1.0
        from scipy.special import stdtr

        scale = math.hypot(self.scale, spread)
        below = float(stdtr(self.freedom, math.log(needed / (units * self.likely)) / scale))
        return self.failure + (1 - self.failure) * below


def yield_ahead(crop: Seasons, household: Household) -> YieldAhead | None:
    """Return what a crop may bring in one further season.

    Parameters
    ----------
    crop : Seasons
        One of the household's.
    household : Household
        From `household_of`, of all its crops, this one among them.

    Returns
    -------
    YieldAhead or None
        None without a published yield and without a good season.

    References
    ----------
    Student's t of a further observation: standard statistics, from memory; the log-normal yield
    is our assumption.
    """
    logs, n = crop.logs, len(crop.logs)
    if not n and not crop.published:
        return None
    spread = household.within
    if n:
        spread = (WITHIN_WORTH * household.within + _squares(logs)) / (WITHIN_WORTH + n - 1)
    if not n:
        mean, doubt, weight = household.offset, household.between, 0.0
    else:
        own, error = math.fsum(logs) / n, spread / n
        weight = household.between / (household.between + error) if crop.published else 1.0
        mean = weight * own + (1 - weight) * household.offset
        doubt = weight * error
    return YieldAhead(
        (crop.published or 1.0) * math.exp(mean),
        math.sqrt(spread + doubt),
        WITHIN_WORTH + max(n - 1, 0),
        _failure(crop, household),
        len(crop.yields),
        crop.failures,
        weight,
    )


def need_spread(needs: Sequence[float]) -> float:
    """Return the standard deviation of the log of a further year's need.

    sqrt((3 x 0.25^2 + SS) / (3 + k - 1) x (1 + 1/k)).

    Parameters
    ----------
    needs : sequence of float
        What earlier years took, above 0; without any, the prior is that of one year.
    """
    logs = [math.log(need) for need in needs if need > 0]
    k = max(len(logs), 1)
    variance = (NEED_WORTH * NEED**2 + _squares(logs)) / (NEED_WORTH + k - 1)
    return math.sqrt(variance * (1 + 1 / k))


def _failure(crop: Seasons, household: Household) -> float:
    others = household.seasons - len(crop.yields), household.failures - crop.failures
    seasons, failures = (max(one, 0) / 2 for one in others)
    return (crop.failures + failures + FAILED) / (len(crop.yields) + seasons + FAILED_OF)


def _squares(values: Sequence[float]) -> float:
    if not values:
        return 0.0
    mean = math.fsum(values) / len(values)
    return math.fsum((value - mean) ** 2 for value in values)
