"""Worth it or not: break-even, pay-back, present value, make or buy.

Money is in the book's currency throughout, as plain numbers; periods are whatever the caller
counts in (years, seasons) and the answers are in the same.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods.ratios import ratio

__all__ = [
    "MakeOrBuy",
    "accounting_return",
    "annuity_factor",
    "break_even",
    "capital_recovery",
    "composite_margin",
    "energy_cost",
    "further_gain",
    "internal_rate",
    "make_or_buy",
    "margin_of_safety",
    "net_present_value",
    "payback",
    "present_value",
]


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


def composite_margin(
    prices: Sequence[float], variables: Sequence[float], mix: Sequence[float]
) -> float:
    """Return what one basket of several products brings beyond its own cost.

    Parameters
    ----------
    prices, variables : sequence of float
        Of one unit of each product.
    mix : sequence of float
        Units of each in a basket.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 3.4.
    """
    return math.fsum((p - v) * n for p, v, n in zip(prices, variables, mix, strict=True))


def margin_of_safety(sales: float, at_break_even: float) -> tuple[float, float | None]:
    """Return how far sales may fall until they break even: in money, and as a share of them.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 3.5.
    """
    return sales - at_break_even, ratio(sales - at_break_even, sales)


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


def accounting_return(gain: float, cost: float) -> float | None:
    """Return the accounting rate of return: yearly gain after costs / first cost.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 11.2.
    """
    return ratio(gain, cost)


def present_value(rate: float, flows: Sequence[float]) -> float:
    """Return what coming money is worth now: the sum of flow / (1 + rate)^period.

    Parameters
    ----------
    rate : float
        Interest a period, above -1 (0.08 is 8 per cent).
    flows : sequence of float
        Money at the end of each period.

    Raises
    ------
    InputError
        When the rate is -1 or less.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 11.3 and 11.4.
    """
    if not rate > -1:
        raise InputError(
            "rate", Message.of("refusal-the-rate", n=rate), Message.of("refusal-interest-above")
        )
    return math.fsum(flow / (1 + rate) ** n for n, flow in enumerate(flows, start=1))


def net_present_value(rate: float, cost: float, flows: Sequence[float]) -> float:
    """Return the present value of the flows less the cost.

    References
    ----------
    As for `present_value`.
    """
    return present_value(rate, flows) - cost


def annuity_factor(rate: float, periods: int) -> float:
    """Return the present value of 1 a period.

    References
    ----------
    As for `present_value`.
    """
    return present_value(rate, [1.0] * periods)


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


def internal_rate(cost: float, flows: Sequence[float]) -> float | None:
    """Return the rate at which the present value of the flows is the cost.

    Parameters
    ----------
    cost : float
        Money spent at the start.
    flows : sequence of float
        Money at the end of each period.

    Returns
    -------
    float or None
        Between -99 per cent and 1,000 per cent a period; None where there is none such.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 11.4; solved with scipy.optimize.brentq.
    """
    from scipy.optimize import brentq

    low, high = -0.99, 10.0
    at_low, at_high = (net_present_value(rate, cost, flows) for rate in (low, high))
    if at_low * at_high > 0:
        return None
    return float(brentq(net_present_value, low, high, args=(cost, flows)))


@dataclass(frozen=True)
class MakeOrBuy:
    """Making against buying the same number; money.

    Attributes
    ----------
    make, buy : float
        What each costs, only what differs counted.
    better : str
        ``make``, ``buy`` or ``either``.
    saves : float
        What the better one saves.
    """

    make: float
    buy: float
    better: str
    saves: float


def make_or_buy(
    units: float, *, make_each: float, buy_each: float, avoidable: float = 0.0
) -> MakeOrBuy:
    """Compare making with buying, by the costs that the choice changes.

    Parameters
    ----------
    units : float
        How many are needed.
    make_each : float
        What one more unit costs to make: no share of what is spent anyway.
    buy_each : float
        Its price.
    avoidable : float
        Fixed money that would not be spent if nothing were made.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 10.3.
    """
    make, buy = units * make_each + avoidable, units * buy_each
    better = "either" if make == buy else "make" if make < buy else "buy"
    return MakeOrBuy(make, buy, better, abs(make - buy))


def further_gain(as_is: float, after: float, cost: float) -> float:
    """Return what working a product further gains over leaving it as it is.

    What was spent up to here is the same either way and does not count.

    Parameters
    ----------
    as_is, after : float
        Value now, and after the further work.
    cost : float
        Of the further work alone.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 10.5.
    """
    return after - cost - as_is


def energy_cost(watts: float, hours: float, price_per_kwh: float) -> tuple[float, float]:
    """Return the kWh that an appliance takes, and what they cost.

    Parameters
    ----------
    watts, hours : float
        Power, and for how long.
    price_per_kwh : float
        Money.

    References
    ----------
    Michigan State University Extension, Preserving Food Safely, item 01600534 (1997).
    """
    kwh = watts * hours / 1000
    return kwh, kwh * price_per_kwh
