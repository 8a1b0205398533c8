"""Worth it or not: break-even, pay-back, and what a durable costs a year.

Money is in the book's currency throughout, as plain numbers; periods are whatever the caller
counts in (years, seasons) and the answers are in the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods.ratios import ratio

__all__ = ["break_even", "capital_recovery", "payback"]


def break_even(
    fixed: float, price: float, variable: float, *, target: float = 0.0, tax: float = 0.0
) -> float | None:
    """Return how many units pay for the fixed cost, and for a target beyond it.

    (fixed + target / (1 - tax)) / (price - variable).

    Parameters
    ----------
    fixed : float
        Money that is spent whatever the number (canner, jars).
    price, variable : float
        Money that a unit brings (or saves at the shop), and that one more unit costs.
    target : float
        Money wanted beyond the fixed cost, after tax.
    tax : float
        Share of the target that tax takes, 0 up to 1.

    Returns
    -------
    float or None
        Exact, not rounded up; 0 where nothing has to be paid for. None where a unit brings no
        more than it costs: no number is enough.

    Raises
    ------
    InputError
        When the tax is not from 0 up to 1.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 3.2 and 3.3.

    Examples
    --------
    >>> break_even(18_000, 100, 20)
    225.0
    """
    if not 0 <= tax < 1:
        raise InputError(
            "tax", Message.of("refusal-share-of", n=tax), Message.of("refusal-share-to-one")
        )
    needed = fixed + target / (1 - tax)
    return 0.0 if needed <= 0 else ratio(needed, price - variable)


def payback(cost: float, flows: Sequence[float], *, then: float | None = None) -> float | None:
    """Return after how many periods a cost is earned back, with the part of the last one.

    Parameters
    ----------
    cost : float
        Money spent at the start.
    flows : sequence of float
        Money that came in (or was saved), period by period; evenly within each.
    then : float, optional
        What every period after these brings: the rate so far. Not given: nothing.

    Returns
    -------
    float or None
        0 where nothing was spent; None where it is never earned back.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 11.2.

    Examples
    --------
    >>> payback(150_000, [], then=20_000)
    7.5
    """
    left = cost
    for period, flow in enumerate(flows):
        if left <= 0:
            return float(period)
        if flow >= left:
            return period + left / flow
        left -= flow
    if left <= 0:
        return float(len(flows))
    more = ratio(left, then)
    return None if more is None else len(flows) + more


def capital_recovery(cost: float, salvage: float, years: float, rate: float) -> float:
    """Return what a durable costs a year: its loss of value and the interest on what is tied up.

    (cost - salvage) x rate / (1 - (1 + rate)^-years) + salvage x rate; without interest
    (cost - salvage) / years.

    Parameters
    ----------
    cost : float
        Price, money.
    salvage : float
        What it will still bring at the end, money.
    years : float
        Its life, above 0.
    rate : float
        Interest a year, 0 or more (0.04 is 4 per cent).

    Returns
    -------
    float
        Money a year, the same every year.

    Raises
    ------
    InputError
        When the years are not above 0, or the rate is below 0.

    References
    ----------
    Engineering economy, section 6.2, problem with a first cost of 50,000: both of its formulas
    give 12,371 a year (read on an answers page, sciemce.com/qa/qZBnCelr8xeP).

    Examples
    --------
    >>> round(capital_recovery(50_000, 5_000, 5, 0.10))
    12371
    """
    if not years > 0:
        raise InputError(
            "years",
            Message.of("refusal-life-of-years", n=years),
            Message.of("refusal-life-above-zero"),
        )
    if not rate >= 0:
        raise InputError(
            "rate", Message.of("refusal-the-rate", n=rate), Message.of("refusal-interest-from-zero")
        )
    if rate == 0:
        return (cost - salvage) / years
    factor = rate / -math.expm1(-years * math.log1p(rate))
    return (cost - salvage) * factor + salvage * rate
