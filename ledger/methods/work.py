"""What household work is worth: three ways beside each other, never added.

By one's own rate, by what a helper would be paid, by the pay given up, and by what it brought: amount made
x shop price - bought inputs - wear (US Bureau of Economic Analysis; National Research Council, Beyond
the Market, 2005; Fitzgerald and Wicks, 1990).
"""

from __future__ import annotations

__all__ = ["brought", "by_hours"]


def by_hours(hours: float, rate: float) -> float:
    """Return hours x money an hour."""
    return hours * rate


def brought(amount: float, shop_price: float, inputs: float, wear: float) -> float:
    """Return amount x shop price - bought inputs - wear, in money."""
    return amount * shop_price - inputs - wear
