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
from ledger.replay.columns import Array
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.projections._table_eaten import Eaten
    from ledger.replay import State

__all__ = ["BASES", "Accounts", "Balance", "food_lots"]

BASES = ("energy", "weight", "value")


@dataclass(frozen=True)
class Balance:
    """One account of a period, in kcal, g or money.

    Parameters
    ----------
    grown, came_in : float or None
        Harvested; bought, received, foraged, found or never written down. None where such food
        came in and no figure of any of it is known.
    given_away : float
        Given, bartered or sold.
    stock_change : float
        What is there at the end less what was there before the first day.
    """

    grown: float | None
    came_in: float | None
    given_away: float
    stock_change: float

    @property
    def used_at_home(self) -> float | None:
        """What was left to use at home; None where what came in is not known."""
        if self.grown is None or self.came_in is None:
            return None
        return domestic_supply(self.grown, self.came_in, self.given_away, self.stock_change)

    @property
    def ratio(self) -> float | None:
        """The production-based ratio; None where nothing was used at home, or it is not known."""
        home = self.used_at_home
        if home is None or self.grown is None or self.came_in is None:
            return None
        size = self.grown + self.came_in + self.given_away + abs(self.stock_change)
        if abs(home) <= 1e-9 * size:  # what rounding leaves of nothing
            return None
        return self_sufficiency(self.grown, self.came_in, self.given_away, self.stock_change)

    def to_dict(self) -> dict[str, float | None]:
        """Return the account as plain values."""
        return {**vars(self), "used_at_home": self.used_at_home}


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


class _UpTo:
    """Sums of figures by the end of each day."""

    def __init__(self, days: Array, figures: Array) -> None:
        order = np.argsort(days, kind="stable")
        self._days = days[order]
        self._sums = np.zeros((days.size + 1, figures.shape[1]))
        np.cumsum(figures[order], axis=0, out=self._sums[1:])

    def at(self, day: int) -> Array:
        """Return the sums of what happened by the end of a day."""
        return np.asarray(self._sums[np.searchsorted(self._days, day, side="right")])

    def between(self, period: Period) -> Array:
        """Return the sums of what happened in a period."""
        return np.asarray(self.at(period.end) - self.at(period.start - 1))


class Accounts:
    """The accounts of any period of one state."""

    def __init__(self, eaten: Eaten) -> None:
        state, web = eaten.state, eaten.web
        lots = state.lots
        self._food = food_lots(eaten)
        self._names = state.facts.names
        figures, known = _figures(eaten)
        gone = figures[web.lot] * web.share[:, None]
        raw = lots["origin"] != BATCH
        own = lots["origin"] == ORIGINS.index("grown")
        given = (web.role == ROLE["lines"]) & _is_given(state, web)
        self._grown = _UpTo(lots["day"][own], figures[own])
        self._others = _UpTo(lots["day"][raw & ~own], figures[raw & ~own])
        self._given = _UpTo(web.day[given], gone[given])
        self._known = [
            _UpTo(lots["day"][some], known[some].astype(float))
            for some in (own & self._food, raw & ~own & self._food)
        ]
        self._unknown = np.flatnonzero(self._food & ~known.all(axis=1))
        self._lots, self._is_known = lots, known
        self._came = _UpTo(lots["day"], figures)
        self._gone = _UpTo(web.day, gone)

    def there(self, day: int) -> dict[str, float]:
        """Return what is on hand at the end of a day, by basis."""
        return _by_basis(self._came.at(day) - self._gone.at(day))

    def of(self, period: Period) -> dict[str, Balance]:
        """Return the three accounts of a period."""
        after, before = self.there(period.end), self.there(period.start - 1)
        grown, others, given = (
            _by_basis(one.between(period)) for one in (self._grown, self._others, self._given)
        )
        blind = [self._blind(known, period) for known in self._known]
        return {
            basis: Balance(
                None if basis in blind[0] else grown[basis],
                None if basis in blind[1] else others[basis],
                given[basis],
                after[basis] - before[basis],
            )
            for basis in BASES
        }

    @staticmethod
    def _blind(known: _UpTo, period: Period) -> set[str]:
        """Return the bases by which something came in and nothing of it is known."""
        count = known.between(period)
        return {basis for i, basis in enumerate(BASES) if count[3] and not count[i]}

    def not_known(self, period: Period) -> dict[str, list[str]]:
        """Return, by basis, the names of what came in and has no figure."""
        days = self._lots["day"][self._unknown]
        mine = self._unknown[(days >= period.start) & (days <= period.end)]
        out = {}
        for i, basis in enumerate(BASES):
            items = np.unique(self._lots["item"][mine[~self._is_known[mine, i]]])
            out[basis] = sorted(self._names[item] for item in items.tolist())
        return out


def _by_basis(figures: Array) -> dict[str, float]:
    return dict(zip(BASES, figures.tolist(), strict=True))


def _figures(eaten: Eaten) -> tuple[Array, Array]:
    """Return energy, weight and value on the day it came in of every whole lot.

    Returns
    -------
    figures : ndarray of float, shape (lots, 3)
    known : ndarray of bool, shape (lots, 4)
        Whether each is known of a raw lot of food; the last is True of every one.
    """
    state, web = eaten.state, eaten.web
    lots, costs = state.lots, state.costs
    food = np.flatnonzero(food_lots(eaten))
    item, whole = lots["item"][food], lots["whole"][food]
    price, ev, _ = costs.prices.of(item, lots["day"][food])
    raw, known = np.zeros((lots["ev"].size, 3)), np.zeros((lots["ev"].size, 4), bool)
    raw[food] = np.stack(
        [whole * costs.kcal[item], whole * costs.grams[item], whole * np.nan_to_num(price)], axis=1
    )
    known[food] = np.stack(
        [eaten.has_energy[item], eaten.has_weight[item], ev >= 0, np.ones(food.size, bool)], axis=1
    )
    at = web.raw_in
    into = raw[web.lot[at]] * web.share[at, None]
    own = np.stack([np.bincount(web.row[at], into[:, i], web.count) for i in range(3)], axis=1)
    _, made = web.forward(own)
    return np.asarray(raw + made), known


def _is_given(state: State, web: Web) -> Array:
    from ledger.kinds import KINDS

    kind = state.journal.tables["events"]["kind"][state.draws["ev"][web.draw]]
    return np.asarray(kind == list(KINDS).index("given_away"))
