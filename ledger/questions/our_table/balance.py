"""The balance of a period: grown, came in, given away, stock change, by energy, weight and value.

The accounts are those of a food balance sheet: production + imports - exports - stock change is
what was used at home. Here value is the shop's price on the day each raw thing came in, so that
what came in, what is there and what went out add up whatever prices did since.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.kinds import KINDS
from ledger.methods.ratios import domestic_supply, self_sufficiency
from ledger.questions.food import BASES, FoodFigures
from ledger.questions.food.web import BATCH, ROLE
from ledger.questions.periods import Period
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Accounts", "Balance"]


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


class _UpTo:
    """Sums of figures by the end of each day."""

    def __init__(self, days: Array, figures: Sequence[Array]) -> None:
        self._first = int(days.min()) if days.size else 0
        day = days - self._first
        count = int(day.max()) + 1 if days.size else 0
        self._sums = np.zeros((len(figures), count + 1)).T
        for column, each in zip(self._sums.T, figures, strict=True):
            np.cumsum(np.bincount(day, each, count), out=column[1:])

    def at(self, day: int) -> Array:
        """Return the sums of what happened by the end of a day."""
        return np.asarray(self._sums[min(max(day - self._first + 1, 0), len(self._sums) - 1)])

    def between(self, period: Period) -> Array:
        """Return the sums of what happened in a period."""
        return np.asarray(self.at(period.end) - self.at(period.start - 1))


class Accounts:
    """The accounts of any period of one state."""

    def __init__(self, state: State) -> None:
        food = state.once(FoodFigures)
        web, lots = food.web, state.lots
        is_food, self._names = food.places.food, state.facts.names
        figures, known = _figures(food)
        gone = [column[web.lot] * web.share for column in figures]
        raw = lots["origin"] != BATCH
        own = lots["origin"] == ORIGINS.index("grown")
        given = (web.role == ROLE["lines"]) & _is_given(food)
        self._grown = _up_to(lots["day"], figures, own)
        self._others = _up_to(lots["day"], figures, raw & ~own)
        self._given = _up_to(web.day, gone, given)
        self._known = [
            _up_to(lots["day"], known, some) for some in (own & is_food, raw & ~own & is_food)
        ]
        self._unknown = np.flatnonzero(is_food & ~np.logical_and.reduce(known))
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
                _change(after[basis], before[basis]),
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
            items = np.unique(self._lots["item"][mine[~self._is_known[i][mine]]])
            out[basis] = sorted(self._names[item] for item in items.tolist())
        return out


def _change(after: float, before: float) -> float:
    """Return what is there less what was; what rounding leaves of two sums is nothing."""
    change = after - before
    return 0.0 if abs(change) <= 1e-12 * (abs(after) + abs(before)) else change


def _by_basis(figures: Array) -> dict[str, float]:
    return dict(zip(BASES, figures.tolist(), strict=True))


def _up_to(days: Array, figures: Sequence[Array], some: Array) -> _UpTo:
    """Return the sums of some rows."""
    at = np.flatnonzero(some)
    return _UpTo(days[at], [column[at] for column in figures])


def _figures(food: FoodFigures) -> tuple[list[Array], list[Array]]:
    """Return energy, weight and value on the day it came in of every whole lot.

    Returns
    -------
    figures : list of ndarray of float, shape (lots,)
        Three.
    known : list of ndarray of bool, shape (lots,)
        Four: whether each is known of a raw lot of food; the last is True of every one.
    """
    state, web, contents = food.state, food.web, food.contents
    lots, some = state.lots, np.flatnonzero(food.places.food)
    item = lots["item"][some]
    price, ev, _ = state.costs.prices.of(item, lots["day"][some])
    count = lots["ev"].size
    raw = [np.zeros(count) for _ in BASES]
    for column, basis in zip(raw, ("energy", "weight"), strict=False):
        column[some] = food.of_raw[basis].values[some]
    raw[2][some] = lots["whole"][some] * np.nan_to_num(price)
    known = [np.zeros(count, bool) for _ in range(4)]
    each = (contents.has_energy[item], contents.has_weight[item], ev >= 0, True)
    for told, one in zip(known, each, strict=True):
        told[some] = one
    at = web.raw_in
    lot, share = web.lot[at], web.share[at]
    own = [np.bincount(web.row[at], column[lot] * share, web.count) for column in raw]
    for column, made in zip(raw, web.carried(np.stack(own, axis=1))[1].T, strict=True):
        column[web.rows.made_lots] = made
    return raw, known


def _is_given(food: FoodFigures) -> Array:
    kind = food.state.journal.tables["events"]["kind"][food.web.ev]
    return np.asarray(kind == list(KINDS).index("given_away"))
