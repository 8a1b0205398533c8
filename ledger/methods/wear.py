"""Wear of durables: what a canner, a jar or a freezer loses a year, or by use. Money throughout."""

from __future__ import annotations

from ledger.errors import InputError
from ledger.messages import Message

__all__ = ["straight_line"]


def straight_line(
    cost: float, salvage: float, years: int, *, months_in_first: int = 12
) -> list[float]:
    """Return the wear of each year when a durable loses the same every year.

    Parameters
    ----------
    cost : float
        All that it took to have it ready for use: price, tax, delivery, setting up.
    salvage : float
        What it will still be worth at the end.
    years : int
        Its life, 1 or more.
    months_in_first : int
        Months owned in the first year, 1 to 12; with fewer than 12 there is one more entry.

    Returns
    -------
    list of float
        Money a year; they add up to cost - salvage.

    Raises
    ------
    InputError
        When the years or months are out of range.

    References
    ----------
    OpenStax, Principles of Accounting vol. 1 (2019), 11.3.
    """
    _check_years(years)
    if not 1 <= months_in_first <= 12:
        raise InputError("months", Message.of("refusal-months-of", n=months_in_first))
    yearly = (cost - salvage) / years
    if months_in_first == 12:
        return [yearly] * years
    first = yearly * months_in_first / 12
    return [first, *[yearly] * (years - 1), yearly - first]


def _check_years(years: int) -> None:
    if years < 1:
        raise InputError(
            "years", Message.of("refusal-life-of-years", n=years), Message.of("refusal-one-or-more")
        )
