"""The balance of a period: grown, came in, given away, stock change, by energy, weight and value.

The accounts are those of a food balance sheet: production + imports - exports - stock change is
what was used at home. Here value is the shop's price on the day each raw thing came in, so that
what came in, what is there and what went out add up whatever prices did since.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.methods.ratios import domestic_supply, self_sufficiency
from ledger.projections._table_periods import Period
from ledger.projections._table_web import BATCH, ROLE, Web
from ledger.replay import ORIGINS
from ledger.replay._columns import Array
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.projections._table_eaten import Eaten
    from ledger.replay import State

__all__ = ["BASES", "Balance", "balance_of", "food_lots", "there_before"]

BASES = ("energy", "weight", "value")


@dataclass(frozen=True)
class Balance:
    """One account of a period, in kcal, g or money.

    Parameters
    ----------
    grown, came_in, given_away : float
        Harvested; bought, received, foraged, found or never written down; given, bartered, sold.
    stock_change : float
        What is there at the end less what was there before the first day.
    """

    grown: float
    came_in: float
    given_away: float
    stock_change: float

    @property
    def used_at_home(self) -> float:
        """What was left to use at home."""
        return domestic_supply(self.grown, self.came_in, self.given_away, self.stock_change)

    @property
    def ratio(self) -> float | None:
        """The production-based ratio; None where nothing was used at home."""
        size = self.grown + self.came_in + self.given_away + abs(self.stock_change)
        if abs(self.used_at_home) <= 1e-9 * size:  # what rounding leaves of nothing
            return None
        return self_sufficiency(self.grown, self.came_in, self.given_away, self.stock_change)


def food_lots(eaten: Eaten) -> Array:
    """Return which raw lots are food, or went into food all the same: bool, shape (lots,)."""
    state, web = eaten.state, eaten.web
    lots = state.lots
    raw = lots["origin"] != BATCH
    food = np.zeros(raw.size, bool)
    food[raw] = state.facts.sort[lots["item"][raw]] == SORTS.index("food") if raw.any() else False
    inner = web.role == ROLE["used"]
    inner[eaten.at] = True
    food[web.lot[inner & ~web.made]] = True
    return food


def balance_of(eaten: Eaten, period: Period) -> dict[str, Balance]:
    """Return the three accounts of a period."""
    state, web = eaten.state, eaten.web
    lots = state.lots
    figures = _figures(eaten)
    came = (lots["day"] >= period.start) & (lots["day"] <= period.end) & (lots["origin"] != BATCH)
    own = came & (lots["origin"] == ORIGINS.index("grown"))
    given = (web.role == ROLE["lines"]) & _kind_is(state, web, "given_away")
    given &= (web.day >= period.start) & (web.day <= period.end)
    grown = figures[own].sum(axis=0)
    others = figures[came & ~own].sum(axis=0)
    away = (figures[web.lot[given]] * web.share[given, None]).sum(axis=0)
    change = _there(web, figures, period.end) - _there(web, figures, period.start - 1)
    return {
        basis: Balance(float(grown[i]), float(others[i]), float(away[i]), float(change[i]))
        for i, basis in enumerate(BASES)
    }


def there_before(eaten: Eaten, period: Period) -> dict[str, float]:
    """Return what was on hand before the first day of a period, in the units of a balance."""
    there = _there(eaten.web, _figures(eaten), period.start - 1)
    return {basis: float(there[i]) for i, basis in enumerate(BASES)}


def _figures(eaten: Eaten) -> Array:
    """Return energy, weight and value on the day it came in of every whole lot."""
    state, web = eaten.state, eaten.web
    lots, costs = state.lots, state.costs
    food = np.flatnonzero(food_lots(eaten))
    item, whole = lots["item"][food], lots["whole"][food]
    price, _, _ = costs.prices.of(item, lots["day"][food])
    raw = np.zeros((lots["ev"].size, 3))
    raw[food] = np.stack(
        [whole * costs.kcal[item], whole * costs.grams[item], whole * np.nan_to_num(price)], axis=1
    )
    at = web.raw_in
    into = raw[web.lot[at]] * web.share[at, None]
    own = np.stack([np.bincount(web.row[at], into[:, i], web.count) for i in range(3)], axis=1)
    _, made = web.forward(own)
    return np.asarray(raw + made)


def _there(web: Web, figures: Array, day: int) -> Array:
    """Return what is on hand at the end of a day: energy, weight and value."""
    came = web.state.lots["day"] <= day
    gone = web.day <= day
    there = figures[came].sum(axis=0)
    return np.asarray(there - (figures[web.lot[gone]] * web.share[gone, None]).sum(axis=0))


def _kind_is(state: State, web: Web, name: str) -> Array:
    from ledger.events import KINDS

    kind = state.journal.tables["events"]["kind"][state.draws["ev"][web.draw]]
    return np.asarray(kind == list(KINDS).index(name))
