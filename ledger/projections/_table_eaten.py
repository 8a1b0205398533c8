"""What the household ate: energy, weight and shop value by origin, period by period (rule 11)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.projections._table_balance import Accounts
from ledger.projections._table_feed import Feed
from ledger.projections._table_marks import Marks
from ledger.projections._table_periods import Period
from ledger.projections._table_web import CAUSE, ROLE, Web
from ledger.replay import ORIGINS
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["BASES", "SIX", "Eaten", "eaten_of"]

BASES = ("energy", "weight", "value")
SIX = ORIGINS[:6]
_GROWN = SIX.index("grown")
_COLUMNS = {"weight": slice(8, 14), "energy": slice(14, 20), "value": slice(20, 26)}


def eaten_of(state: State) -> Eaten:
    """Return what was eaten by a state, worked out once and kept with it."""
    return state.once(Eaten)


class Eaten:
    """What was eaten at home from one day to another.

    Parameters
    ----------
    state : State
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self.web = Web(state)
        self.feed = Feed(self.web)
        events = state.journal.tables["events"]
        web = self.web
        ev = state.draws["ev"][web.draw]
        counted = (web.role == ROLE["missing"]) & (events["cause"][ev] == CAUSE["eaten"])
        self.at = np.flatnonzero((web.role == ROLE["ate"]) | counted)
        self.ev = ev[self.at]
        self.day = web.day[self.at]
        people, guests = events["people"][self.ev], events["guests"][self.ev]
        some = people > 0
        at_table = np.divide(people - guests, people, out=np.ones(people.size), where=some)
        self.kept_by_event = self._kept()
        self.kept = self.kept_by_event[self.ev]
        self.household = np.clip(at_table, 0.0, 1.0)
        self.factor = self.household * (1.0 - self.kept)
        """The household's part of each draw: guests and leftovers taken off."""
        self.item = state.lots["item"][web.lot[self.at]]

    def _kept(self) -> Array:
        """Return the part of each meal that was kept, by event."""
        table = self.state.journal.tables["supplies"]
        rows = self.state.moment.of(table["ev"])
        rows = rows[~np.isnan(table["share"][rows])]
        size = len(self.state.journal)
        return np.minimum(np.bincount(table["ev"][rows], table["share"][rows], size), 1.0)

    def days(self) -> tuple[int, int] | None:
        """Return the first and the last day on which something was eaten, or None."""
        return (int(self.day.min()), int(self.day.max())) if self.day.size else None

    @cached_property
    def has_weight(self) -> Array:
        """Whether a weight is known of each item, shape (items,)."""
        facts = self.state.facts
        return np.array([facts.grams_per_whole(i) is not None for i in range(len(facts))], bool)

    @cached_property
    def has_energy(self) -> Array:
        """Whether weight and energy are known of each item, shape (items,)."""
        facts = self.state.facts
        known = [facts.kcal_per_gram(i) is not None for i in range(len(facts))]
        return np.asarray(self.has_weight & np.array(known, bool))

    # -- amounts ------------------------------------------------------------------------

    @cached_property
    def raw_at(self) -> Array:
        """Allocations of raw lots that were eaten, or went into what was, shape (allocations,)."""
        web = self.web
        some = np.zeros(web.draw.size, bool)
        some[web.raw_in] = True
        some[self.at[~web.made[self.at]]] = True
        return np.flatnonzero(some)

    @cached_property
    def price(self) -> tuple[Array, Array, Array]:
        """Shop price of each allocation of a raw lot on its day: price, event, later; 0 for others."""
        web = self.web
        price = np.zeros(web.draw.size)
        ev = np.full(web.draw.size, -1, np.int64)
        later = np.zeros(web.draw.size, bool)
        at = self.raw_at
        each, ev[at], later[at] = self.state.costs.prices.of(
            self.state.lots["item"][web.lot[at]], web.day[at]
        )
        price[at] = np.nan_to_num(each)
        return price, ev, later

    def raw_figures(self, at: Array) -> Array:
        """Return energy, weight and value of allocations of raw lots, shape (allocations, 3)."""
        costs, web = self.state.costs, self.web
        item, amount = self.state.lots["item"][web.lot[at]], web.amount[at]
        return np.stack(
            [amount * costs.kcal[item], amount * costs.grams[item], amount * self.price[0][at]],
            axis=1,
        )

    def places(self, periods: list[Period]) -> Array:
        """Return the number of the period that each draw falls into; -1: none."""
        if not periods:
            return np.full(self.at.size, -1, np.int64)
        starts = np.array([one.start for one in periods])
        ends = np.array([one.end for one in periods])
        place = np.searchsorted(starts, self.day, side="right") - 1
        inside = (place >= 0) & (self.day <= ends[np.maximum(place, 0)])
        return np.where(inside, place, -1)

    def made_parts(self, place: Array, periods: int) -> Any:
        """Return which part of each made lot was eaten in each period.

        Returns
        -------
        scipy.sparse.csr_array, shape (periods, made lots)
            Made lots in the order of `rows.made_lots`; parts of 0 are left out.
        """
        from scipy.sparse import csr_array

        web = self.web
        mine = np.flatnonzero((place >= 0) & web.made[self.at] & (self.factor > 0))
        lot = web.rows.number_of_lot[web.lot[self.at[mine]]]
        part = web.share[self.at[mine]] * self.factor[mine]
        shape = (periods, web.rows.made_lots.size)
        return csr_array((part, (place[mine], lot)), shape=shape)

    def amounts(self, periods: list[Period]) -> Array:
        """Return what was eaten: shape (periods, 3 bases, 6 origins), in kcal, g and money."""
        web, count = self.web, len(periods)
        place = self.places(periods)
        lots = self.state.costs.lot[web.rows.made_lots]
        made = np.asarray(self.made_parts(place, count) @ lots)
        out = np.stack([made[:, _COLUMNS[basis]] for basis in BASES], axis=1)
        mine = np.flatnonzero((place >= 0) & ~web.made[self.at])
        at = self.at[mine]
        figures = self.raw_figures(at) * self.factor[mine, None]
        key = place[mine] * 6 + web.origin[at]
        for i in range(3):
            out[:, i] += np.bincount(key, figures[:, i], count * 6).reshape(count, 6)
        return out

    def taken_off(self, periods: list[Period]) -> Array:
        """Return what the feed adjustment takes off the grown: shape (periods, 3 bases).

        Where a season's feed is not known the marks say so; here it takes off nothing.
        """
        count, web = len(periods), self.web
        off, lots = self._not_own
        if not off.any():
            return np.zeros((count, 3))
        place = self.places(periods)
        out = np.asarray(self.made_parts(place, count) @ lots)
        mine = np.flatnonzero((place >= 0) & (off[web.lot[self.at]] > 0))
        at = self.at[mine]
        figures = self.raw_figures(at) * (off[web.lot[at]] * self.factor[mine])[:, None]
        for i in range(3):
            out[:, i] += np.bincount(place[mine], figures[:, i], count)
        return out

    def own_animal(self) -> Array:
        """Return the lots that are animal products of our own."""
        lots = self.state.lots
        if not lots["ev"].size:
            return np.zeros(0, np.int64)
        return np.flatnonzero(self.feed.animal[lots["item"]] & (lots["origin"] == _GROWN))

    @cached_property
    def _not_own(self) -> tuple[Array, Array]:
        """What feed from outside made: the part of each raw lot, the figures of each made lot."""
        web = self.web
        off = np.zeros(self.state.lots["ev"].size)
        mine = self.own_animal()
        for season, lot in zip(self.seasons(mine), mine.tolist(), strict=True):
            share = self.feed.share(season)
            off[lot] = 0.0 if share is None else 1.0 - min(share, 1.0)
        own = np.zeros((web.count, 3))
        at = web.raw_in[off[web.lot[web.raw_in]] > 0]
        figures = self.raw_figures(at) * off[web.lot[at], None]
        for i in range(3):
            own[:, i] = np.bincount(web.row[at], figures[:, i], web.count)
        return off, web.forward_made(own)[1] if at.size else np.zeros((web.rows.made_lots.size, 3))

    def seasons(self, lots: Array) -> list[int]:
        """Return the season in which each lot came in."""
        return list(self.feed.season.of(self.state.lots["day"][lots]).tolist())

    @cached_property
    def feedless(self) -> Array:
        """Our own animal lots of seasons in which nothing says what was fed."""
        mine = self.own_animal()
        open_ = [self.feed.share(season) is None for season in self.seasons(mine)]
        return np.asarray(mine[np.array(open_, bool)])

    @cached_property
    def accounts(self) -> Accounts:
        """The accounts of any period."""
        return Accounts(self)

    @cached_property
    def marks(self) -> Marks:
        """What the figures rest on."""
        return Marks(self)
