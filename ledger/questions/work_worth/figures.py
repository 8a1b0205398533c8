"""The formulas of work-worth: each gives the column for all lines of a season, and the tree for one.

Ways beside each other, never added: our own rate, what a helper would be paid, the pay given up, and what
it brought (US Bureau of Economic Analysis; National Research Council, Beyond the Market, 2005;
Fitzgerald and Wicks, 1990).
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, if_known

if TYPE_CHECKING:
    from ledger.questions.work_worth.gather import Work

__all__ = ["WAGES", "figures"]

WAGES = {"helper": "helper_wage", "pay_given_up": "pay_given_up"}
"""The setting that each way goes by, money an hour."""


def figures(work: Work) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is a line, the total last."""
    hours = work.of("hours")
    return {
        "brought": work.of("net"),
        "hours": hours,
        "own_rate": work.of("labour"),
        **{
            name: (hours * if_known(work.rate(setting), "no-wage")).called("by-wage", unit="money")
            for name, setting in WAGES.items()
        },
        "brought_per_hour": work.of("net_per_hour"),
    }
