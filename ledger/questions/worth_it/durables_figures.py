"""The formulas of what lasts: each gives the column for all durables, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, choose, known_where
from ledger.questions.telling import label_day
from ledger.questions.worth_it.durables_gather import Durables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]


def figures(state: State) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is a durable."""
    of = state.once(Durables)
    paid = of.paid.called("all-paid")
    earned = known_where(of.served, of.earned.called("earned"), "not-served")
    counting = of.counting.called("whole-years")
    rate = (of.earned_by_year.called("these-years") / counting).called(
        "a-year", unit="money per year"
    )
    rate = known_where(of.served, rate, "not-served")
    yearly = (paid * of.recovery.called("recovery")).called("yearly-cost", unit="money per year")
    to_come = ((paid - earned).called("still-to-earn") / rate).called("to-come", unit="years")
    ahead = known_where(
        rate.values > 0, of.gone.called("gone-years") + to_come, "never-at-this-rate"
    )
    is_back = np.array([day is not None for day in of.back_on], bool)
    back = of.years_to_back.called("earned-on", day=lambda row: label_day(of.back_on[row] or 0))
    payback = choose(is_back, back, ahead.called("payback"))
    return {
        "earned": earned,
        "paid": paid,
        "pieces": known_where(of.counted, of.pieces.called("pieces"), "not-by-count"),
        "uses": of.used.called("used"),
        "share_back": known_where(paid.values > 0, (earned / paid).called("share-back"), "not-paid", "0 to 1"),
        "earned_per_year": rate,
        "yearly_cost": yearly,
        "gain_per_year": known_where(of.served, (rate - yearly).called("gain-a-year"), "not-served"),
        "payback_years": known_where(of.served, payback, "not-served"),
        "charged": of.charged.called("all-charged"),
        "worn_by_age": (paid * of.worn_part.called("worn-part")).called("worn"),
        "life_years": of.years,
    }  # fmt: skip
