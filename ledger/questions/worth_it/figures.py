"""The formulas of worth-it: what a line of the season comes to, by column."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Array, Figure, known_where, total
from ledger.questions.costs.sources import unit_factor

if TYPE_CHECKING:
    from collections.abc import Mapping

__all__ = ["SUMS", "figures"]

SUMS = ("money_in", "money_out", "worth", "cost", "labour")
"""Columns that are sums of postings in money."""


def figures(money: Mapping[str, Figure], is_rated: Array) -> dict[str, Figure]:
    """Return every figure from the sums of the postings, by the name of its column.

    Parameters
    ----------
    money : mapping of str to Figure
    is_rated : ndarray of bool, shape (rows,)
        Where some work has a rate.
    """
    worked = (
        money["minutes"].called("minutes") / unit_factor(60.0, "minutes per hour", "per-hour")
    ).called("hours")
    hours = known_where(worked.values > 0, worked, "no-work")
    gains = total(money["money_in"], money["worth"]).called("gains")
    net = (gains - money["cost"]).called("net")
    return {
        **{name: money[name] for name in SUMS},
        "labour": known_where(is_rated, money["labour"], "no-rate"),
        "net": net,
        "hours": hours,
        "net_per_hour": (net / hours).called("net_per_hour"),
        "after_labour": known_where(
            is_rated, (net - money["labour"]).called("after_labour"), "no-rate"
        ),
        "for_other_seasons": (money["money_out"] - money["cost"]).called("for_other_seasons"),
    }
