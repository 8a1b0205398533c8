"""How much to put up when there is no record yet: a published plan, mixed with one's own as it grows."""

from __future__ import annotations

__all__ = ["K_MONTHS", "mixed", "quarts_wanted"]

K_MONTHS = 6.0
"""How many months of own record weigh as much as the plan: our own choice."""


def quarts_wanted(
    people: float, servings_a_week: float, weeks: float, serving_cups: float
) -> float:
    """Return quarts: people x servings x weeks x size, four cups to the quart."""
    return people * servings_a_week * weeks * serving_cups / 4


def mixed(plan: float, own: float, months: float, k: float = K_MONTHS) -> float:
    """Return plan x k / (k + n) + own x n / (k + n), n months of own record.

    Parameters
    ----------
    plan, own : float
        A year's amount by the plan, and by one's own rate.
    months : float
        Of own record, 0 or more.
    """
    return plan * k / (k + months) + own * months / (k + months)
