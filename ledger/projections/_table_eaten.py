"""What the household ate: energy, weight and shop value by origin, period by period (rule 11)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.answers import Assumption
from ledger.projections._table_feed import Feed
from ledger.projections._table_periods import Period
from ledger.projections._table_web import CAUSE, ROLE, Web
from ledger.replay import ORIGINS
from ledger.replay._columns import Array
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["BASES", "SIX", "Eaten", "Mark"]

BASES = ("energy", "weight", "value")
SIX = ORIGINS[:6]
_GROWN = SIX.index("grown")
_COLUMNS = {"weight": slice(8, 14), "energy": slice(14, 20), "value": slice(20, 26)}
_FOOD = SORTS.index("food")

Mark = tuple[str, str, int]
"""Something a figure rests on: kind (``no price``, ``unrecorded`` ...), name, code of the origin."""

_RESTS = {
    "no weight": ("energy", "weight"),
    "no energy": ("energy",),
    "no price": ("value",),
    "later": ("value",),
    "unrecorded": BASES,
    "found": BASES,
    "feed": BASES,
}
_LACKS = ("no weight", "no energy", "no price")
_WORDS = {
    "no weight": "No weight of {name} is known, so it counts 0: `croftbook item` takes what one weighs.",
    "no energy": "No energy of {name} is known, so it counts 0 kcal: `croftbook item` takes kcal_per_100g or a food of the table.",
    "no price": "No shop price of {name} is known, so it counts 0 in value: `croftbook price` takes one.",
    "feed": "Nothing says what the animals were given in season {name}, so what is adjusted for feed is not known.",
}


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
        self._bits: dict[Mark, int] = {}
        self._rest_events: dict[Mark, set[int]] = {}

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
    def price(self) -> tuple[Array, Array, Array]:
        """Shop price of each allocation of a raw lot on its day: price, event, later; 0 for others."""
        web = self.web
        price = np.zeros(web.draw.size)
        ev = np.full(web.draw.size, -1, np.int64)
        later = np.zeros(web.draw.size, bool)
        at = np.union1d(web.raw_in, self.at[~web.made[self.at]])
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

    def _by_lot(self, place: Array) -> tuple[Array, Array, Array]:
        """Return (period, lot, part): which part of each made lot was eaten in each period."""
        web = self.web
        mine = np.flatnonzero((place >= 0) & web.made[self.at])
        lots = max(self.state.lots["ev"].size, 1)
        key, inverse = np.unique(place[mine] * lots + web.lot[self.at[mine]], return_inverse=True)
        part = np.bincount(inverse, web.share[self.at[mine]] * self.factor[mine], key.size)
        return key // lots, key % lots, part

    def amounts(self, periods: list[Period]) -> Array:
        """Return what was eaten: shape (periods, 3 bases, 6 origins), in kcal, g and money."""
        from scipy.sparse import csr_array

        web, count, lots = self.web, len(periods), self.state.costs.lot
        place = self.places(periods)
        period, lot, part = self._by_lot(place)
        eaten = csr_array((part, (period, lot)), shape=(count, lots.shape[0]))
        made = np.asarray(eaten @ lots)
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
        from scipy.sparse import csr_array

        count, web = len(periods), self.web
        off = self._not_own()
        if not off.any():
            return np.zeros((count, 3))
        own = np.zeros((web.count, 3))
        at = web.raw_in[off[web.lot[web.raw_in]] > 0]
        figures = self.raw_figures(at) * off[web.lot[at], None]
        for i in range(3):
            own[:, i] = np.bincount(web.row[at], figures[:, i], web.count)
        _, lots = web.forward(own)
        place = self.places(periods)
        period, lot, part = self._by_lot(place)
        out = np.asarray(csr_array((part, (period, lot)), shape=(count, lots.shape[0])) @ lots)
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

    def _not_own(self) -> Array:
        """Return the part of each raw lot that feed from outside made, shape (lots,)."""
        out = np.zeros(self.state.lots["ev"].size)
        mine = self.own_animal()
        for season, lot in zip(self.seasons(mine), mine.tolist(), strict=True):
            share = self.feed.share(season)
            out[lot] = 0.0 if share is None else 1.0 - min(share, 1.0)
        return out

    def seasons(self, lots: Array) -> list[int]:
        """Return the season in which each lot came in."""
        return list(self.feed.season.of(self.state.lots["day"][lots]).tolist())

    # -- what is not known --------------------------------------------------------------

    def marks(self, periods: list[Period]) -> list[set[Mark]]:
        """Return, for each period, what its figures rest on."""
        web = self.web
        place = self.places(periods)
        bits = self._raw_bits(np.union1d(web.raw_in, self.at[~web.made[self.at]]))
        if not bits:
            return [set() for _ in periods]
        own: dict[int, int] = {}
        inner = [at for at in bits if web.row[at] >= 0]
        for at in inner:
            row = int(web.row[at])
            own[row] = own.get(row, 0) | bits[at]
        made = np.zeros(self.state.lots["ev"].size, object)
        made[web.rows.made_lots] = web.marks(own)
        out = [0] * len(periods)
        period, lot, part = self._by_lot(place)
        for one, mark in zip(period[part > 0].tolist(), made[lot[part > 0]].tolist(), strict=True):
            out[one] |= mark
        for n in np.flatnonzero((place >= 0) & ~web.made[self.at] & (self.factor > 0)).tolist():
            out[int(place[n])] |= bits.get(int(self.at[n]), 0)
        return [{mark for mark, bit in self._bits.items() if bit & one} for one in out]

    def _raw_bits(self, at: Array) -> dict[int, int]:
        """Return what each allocation of a raw lot rests on, where that is anything."""
        state, web = self.state, self.web
        facts, lots = state.facts, state.lots
        price_ev, later = self.price[1], self.price[2]
        food = facts.sort == _FOOD
        lot, item, origin = web.lot[at], lots["item"][web.lot[at]], web.origin[at]
        feedless = self._feedless()
        out: dict[int, int] = {}
        for kind, hit in (
            ("no weight", food[item] & ~self.has_weight[item]),
            ("no energy", food[item] & self.has_weight[item] & ~self.has_energy[item]),
            ("no price", food[item] & (price_ev[at] < 0)),
            ("later", later[at]),
            ("found", origin == SIX.index("found")),
            ("unrecorded", origin == SIX.index("unrecorded")),
            ("feed", np.isin(lot, list(feedless))),
        ):
            for n in np.flatnonzero(hit).tolist():
                name = str(feedless[int(lot[n])]) if kind == "feed" else facts.names[int(item[n])]
                mark = (kind, name, int(origin[n]))
                bit = self._bits.setdefault(mark, 1 << len(self._bits))
                ev = int(price_ev[at[n]]) if kind == "later" else int(lots["ev"][lot[n]])
                self._rest_events.setdefault(mark, set()).add(ev)
                out[int(at[n])] = out.get(int(at[n]), 0) | bit
        return out

    def _feedless(self) -> dict[int, int]:
        """Return our own animal lots of seasons in which nothing says what was fed."""
        mine = self.own_animal()
        return {
            lot: season
            for lot, season in zip(mine.tolist(), self.seasons(mine), strict=True)
            if self.feed.share(season) is None
        }

    @staticmethod
    def rests_on(marks: set[Mark], basis: str, origin: int) -> set[Mark]:
        """Return those marks that concern one basis and origin."""
        return {mark for mark in marks if mark[2] == origin and basis in _RESTS[mark[0]]}

    @staticmethod
    def is_lacking(marks: set[Mark]) -> bool:
        """Return whether a price, weight or energy is not known of something."""
        return any(mark[0] in _LACKS for mark in marks)

    def assumption(self, one: str, marks: set[Mark]) -> Assumption:
        """Return an assumption by its id (``kind:name``), in words."""
        kind, _, name = one.partition(":")
        words = _WORDS.get(kind)
        text = words.format(name=name) if words else self.state.costs.assumption(one).text
        places = {
            ev
            for mark in marks
            if mark[:2] == (kind, name)
            for ev in self._rest_events.get(mark, ())
        }
        events = sorted(places, key=lambda ev: (int(self.state.moment.rank[ev]), ev))
        return Assumption(one, text, tuple(self.state.event_id(ev) for ev in events))
