"""How long a stock lasts at a steady use, and when and how much to fetch again."""

from __future__ import annotations

import math
from collections.abc import Sequence

from ledger.errors import InputError
from ledger.methods.ratios import ratio

__all__ = [
    "average_stock",
    "order_size",
    "past_best",
    "reorder_point",
    "safety_stock",
    "service_factor",
    "time_of_supply",
    "turnover",
]


def average_stock(opening: float, closing: float) -> float:
    """Return the mean of the stock at both ends of a period.

    References
    ----------
    OpenStax, Principles of Accounting vol. 1 (2019), 10.5.
    """
    return (opening + closing) / 2


def turnover(used: float, stock: float) -> float | None:
    """Return how often a stock was used up in the period: used / average stock.

    Returns
    -------
    float or None
        None without stock.

    References
    ----------
    OpenStax, Principles of Accounting vol. 1 (2019), 10.5.
    """
    return ratio(used, stock)


def time_of_supply(stock: float, used: float, periods: float) -> float | None:
    """Return how long a stock lasts: stock / (used / periods).

    Parameters
    ----------
    stock : float
        What is there, in the unit of `used` (an amount or money).
    used : float
        What was used (or cost) in the whole time looked at.
    periods : float
        How many days or weeks that time had; the answer is in the same.

    Returns
    -------
    float or None
        None when nothing was used: it lasts for ever, or rather nobody knows.

    References
    ----------
    OpenStax, Principles of Accounting vol. 1 (2019), 10.5 (days' sales in stock);
    Krajewski and others, Operations Management (weeks of supply), from memory.

    Examples
    --------
    >>> time_of_supply(2_000_000, 10_000_000, 52)
    10.4
    """
    return ratio(stock * periods, used)


def service_factor(chance: float) -> float:
    """Return z, the normal quantile of the chance of not running out.

    Parameters
    ----------
    chance : float
        Above 0 and below 1.

    Raises
    ------
    InputError
        When the chance is not between 0 and 1.
    """
    if not 0 < chance < 1:
        raise InputError("chance", f"{chance:g}", "Give a chance above 0 and below 1")
    from statistics import NormalDist

    return NormalDist().inv_cdf(chance)


def safety_stock(sd: float, z: float) -> float:
    """Return what to hold beyond the expected use while waiting: z x sd.

    Parameters
    ----------
    sd : float
        Standard deviation of the use over the whole wait, in the item's unit.
    z : float
        From `service_factor`, or a rounded table value.
    """
    return z * sd


def reorder_point(
    per_period: float, wait: float, *, sd_use: float = 0.0, sd_wait: float = 0.0, z: float = 0.0
) -> float:
    """Return the stock at which to fetch more.

    per_period x wait + z x sqrt(wait x sd_use^2 + per_period^2 x sd_wait^2).

    Parameters
    ----------
    per_period : float
        Mean use a period.
    wait : float
        Mean periods until the new supply is there.
    sd_use : float
        Standard deviation of the use in one period.
    sd_wait : float
        Standard deviation of the wait, in periods.
    z : float
        From `service_factor`.

    References
    ----------
    Textbook problems on reorder points (bike shop; constant demand with variable lead time),
    as listed in tests/published/test_stock.py. The combined root is from memory.
    """
    spread = math.sqrt(max(wait, 0.0) * sd_use**2 + (per_period * sd_wait) ** 2)
    return per_period * wait + safety_stock(spread, z)


def order_size(per_year: float, per_order: float, holding: float) -> float | None:
    """Return the economic order quantity, sqrt(2 x yearly use x cost per order / holding cost).

    Parameters
    ----------
    per_year : float
        Units used a year.
    per_order : float
        Money that fetching costs each time.
    holding : float
        Money that one unit costs to hold for a year.

    Returns
    -------
    float or None
        Units at a time; None where holding costs nothing.

    References
    ----------
    Textbook problems listed in tests/published/test_stock.py.
    """
    square = ratio(2 * per_year * per_order, holding)
    return None if square is None or square < 0 else math.sqrt(square)


def past_best(
    amounts: Sequence[float], weeks_left: Sequence[float], per_week: float
) -> list[float]:
    """Return how much of each lot passes its best-quality period before it would be eaten.

    The lot whose period ends first is eaten first, at an even pace; what is past its period is
    left standing. Both are assumptions, to be told beside the figure.

    Parameters
    ----------
    amounts : sequence of float
        What is left of each lot, in the item's unit.
    weeks_left : sequence of float
        Weeks until its period ends (inf: it has none; negative: it is over).
    per_week : float
        Use a week, in the same unit.

    Returns
    -------
    list of float
        In the order given; their sum is what would be eaten too late.

    Examples
    --------
    >>> past_best([6.0, 10.0], [2.0, 4.0], 2.0)
    [2.0, 6.0]
    """
    late = [0.0] * len(amounts)
    eaten = 0.0
    for i in sorted(range(len(amounts)), key=lambda i: weeks_left[i]):
        if math.isinf(weeks_left[i]):
            continue
        in_time = max(0.0, per_week * max(weeks_left[i], 0.0) - eaten)
        taken = min(amounts[i], in_time)
        late[i] = amounts[i] - taken
        eaten += taken
    return late
