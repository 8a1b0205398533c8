"""Why one season's money differs from another's: price, amount, mix; exactly adding up.

Sums are kept in Decimal, so that the causes of a difference add up to it to the last digit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from ledger.errors import InputError
from ledger.messages import Code, Message

__all__ = [
    "Causes",
    "Change",
    "causes_of_change",
]

Number = int | float | Decimal | Fraction
STEP = Decimal("0.000001")


@dataclass(frozen=True)
class Causes:
    """The causes of one difference in money; `price` + `amount` + `mix` == `total`, exactly.

    Attributes
    ----------
    total : Decimal
        After less before.
    price : Decimal
        From paying (or being worth) another price for the same thing.
    amount : Decimal
        From more or less in all, at the old mix and prices.
    mix : Decimal
        From a shift among things of different price.
    """

    total: Decimal
    price: Decimal
    amount: Decimal
    mix: Decimal


@dataclass(frozen=True)
class Change:
    """The causes in all, and item by item (whose parts add up to those in all, exactly)."""

    all: Causes
    items: dict[str, Causes]


def causes_of_change(
    before: Mapping[str, tuple[Number, Number]], after: Mapping[str, tuple[Number, Number]]
) -> Change:
    """Split the difference in money between two periods into its causes.

    With amounts q, prices p and Q the sum of the amounts, an item's part is: price
    q1 (p1 - p0); amount (Q1 / Q0 - 1) q0 p0; mix (q1 - q0 Q1 / Q0) p0. An item new in the second
    period has no old price: it is all mix; where there was nothing before, it is all amount.

    Parameters
    ----------
    before, after : mapping of str to (amount, price)
        Amounts in one unit for all items (or one item in its own), 0 or more; prices per unit.

    Returns
    -------
    Change
        Rounded to a millionth of the currency's unit, the mix taking the rounding.

    Raises
    ------
    InputError
        When an amount is negative.

    References
    ----------
    OpenStax, Principles of Accounting vol. 2 (2019), 8.2, for price and quantity; the split of
    the quantity into amount and mix is the sales mix variance of the trade, from memory.
    """
    names = list(dict.fromkeys((*before, *after)))
    old = {name: _pair(name, before) for name in names}
    new = {name: _pair(name, after) for name in names}
    all_old = sum((q for q, _ in old.values()), Fraction(0))
    all_new = sum((q for q, _ in new.values()), Fraction(0))
    items = {}
    for name in names:
        (q0, p0), (q1, p1) = old[name], new[name]
        if name not in before:
            p0 = p1
        total = _snap(q1 * p1 - q0 * p0)
        price = _snap(q1 * (p1 - p0))
        amount = _snap((all_new / all_old - 1) * q0 * p0) if all_old else total - price
        items[name] = Causes(total, price, amount, total - price - amount)
    zero = Decimal(0)
    return Change(
        Causes(
            sum((c.total for c in items.values()), zero),
            sum((c.price for c in items.values()), zero),
            sum((c.amount for c in items.values()), zero),
            sum((c.mix for c in items.values()), zero),
        ),
        items,
    )


def _pair(name: str, table: Mapping[str, tuple[Number, Number]]) -> tuple[Fraction, Fraction]:
    amount, price = table.get(name, (0, 0))
    if amount < 0:
        raise InputError(name, Message.of("refusal-amount-of", amount=Code(str(amount))))
    return _exact(amount), _exact(price)


def _exact(value: Number) -> Fraction:
    # a float stands for the decimal that it prints as: 0.84 is 84 hundredths
    return Fraction(repr(value)) if isinstance(value, float) else Fraction(value)


def _snap(value: Fraction) -> Decimal:
    return Decimal(round(value / Fraction(STEP))) * STEP
