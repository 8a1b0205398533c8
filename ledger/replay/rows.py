"""The rows of the system: which batches and meals there are, and what their lots carry of them."""

from __future__ import annotations

import copy
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import CANNING, METHODS
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.flows import ORIGINS

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["Rows"]

_ROLE = {name: code for code, name in enumerate(tables.ROLES)}
_N_BITS = 24
_CANNING = np.array([method in CANNING for method in METHODS])


class Rows:
    """Rows in the order of replay, each with what draws on it and what lots it fills.

    Attributes
    ----------
    count : int
    pot, shared, meal : dict of int to int
        Row of a batch's pot, of what its jars share, of a meal that left something, by event.
    pot_of, shared_of, meal_of, load_of : ndarray of int64, shape (events,)
        The same by place, -1 where there is none; `load_of` bears fuel and equipment.
    entries : dict of ndarray
        Made entries with jars: ``ev, n, jar, jars, day, row`` (their lids and jar wear).
    of_draw : ndarray of int64, shape (draws,)
        The row each draw goes into; -1: none.
    made_lots : ndarray of int64
        The lots that rows fill; `number_of_lot` gives their place here.
    gives : lot (number), row, share
        Which share of each row a made lot carries (rule 9).
    loads : dict of int to int
        Loads of each batch, by event; `loads_of` by place.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        journal, moment = state.journal, state.moment
        batches = journal.tables["batches"]
        rows = moment.rows(journal, "batches")
        evs = batches["ev"][rows].astype(np.int64)
        self._batches = evs
        self.loads_of = np.zeros(moment.rank.size, np.int64)
        self.loads_of[evs] = batches["loads"][rows]
        supplies = journal.tables["supplies"]
        made = moment.rows(journal, "supplies")
        jarred = made[supplies["jars"][made] > 0]
        lots = state.lots
        self.made_lots = np.flatnonzero(lots["origin"] == ORIGINS.index("batch"))
        self.number_of_lot = np.full(lots["ev"].size, -1, np.int64)
        self.number_of_lot[self.made_lots] = np.arange(self.made_lots.size)
        shared_lots = self.made_lots[~np.isnan(lots["share"][self.made_lots])]
        meals = np.unique(lots["ev"][shared_lots])
        self._number(evs, supplies["ev"][jarred].astype(np.int64), supplies["n"][jarred], meals)
        self.load_of = self.pot_of.copy()
        canning = evs[_CANNING[batches["method"][rows]]]
        self.load_of[canning] = self.shared_of[canning]
        jar = supplies["jar"][jarred]
        canon = state.facts.canon
        self.entries["jar"] = np.where(jar >= 0, canon[np.maximum(jar, 0)], -1) if jar.size else jar
        self.entries["jars"] = supplies["jars"][jarred].astype(np.int64)
        self.entries["day"] = moment.on[self.entries["ev"]]
        self._into()
        self._gives()

    def grown(self, state: State, places: Array) -> Rows:
        """Return the rows of another moment at which the same batches count, and the same was left.

        Parameters
        ----------
        places : ndarray of int64, shape (lots of this moment,)
            Where each lot stands then.
        """
        other = copy.copy(self)
        other.state, size = state, state.moment.rank.size
        for name in ("pot_of", "shared_of", "meal_of", "load_of", "loads_of"):
            column = getattr(self, name)
            nothing = 0 if name == "loads_of" else -1
            more = np.full(max(size - column.size, 0), nothing, np.int64)
            setattr(other, name, np.concatenate([column, more])[:size])
        other.made_lots = places[self.made_lots]
        other.number_of_lot = np.full(state.lots["ev"].size, -1, np.int64)
        other.number_of_lot[other.made_lots] = np.arange(other.made_lots.size)
        other._into()
        return other

    def _number(self, batches: Array, entry_ev: Array, entry_n: Array, meals: Array) -> None:
        """Give the rows numbers in the order of their events: pot, shared, then made entries."""
        rank = self.state.moment.rank
        ev = np.concatenate([batches, batches, entry_ev, meals])
        sub = np.concatenate(
            [np.zeros(batches.size), np.ones(batches.size), 1 + entry_n, np.zeros(meals.size)]
        )
        order = np.lexsort((sub, rank[ev]))
        row = np.empty(ev.size, np.int64)
        row[order] = np.arange(ev.size)
        self.count = int(ev.size)
        ends = np.cumsum([batches.size, batches.size, entry_ev.size])
        pot, shared, entry, meal = np.split(row, ends)
        self._meals = meals
        self.entries: dict[str, Array] = {
            "ev": entry_ev,
            "n": entry_n.astype(np.int64),
            "row": entry,
        }
        key = entry_ev << _N_BITS | self.entries["n"]
        order = np.argsort(key)
        self._entry_key, self._row_of_key = key[order], entry[order]
        size = rank.size
        self.pot_of, self.shared_of, self.meal_of = (np.full(size, -1, np.int64) for _ in range(3))
        self.pot_of[batches], self.shared_of[batches], self.meal_of[meals] = pot, shared, meal

    @cached_property
    def loads(self) -> dict[int, int]:
        """Loads of each batch, by event."""
        return _by_event(self._batches, self.loads_of)

    @cached_property
    def pot(self) -> dict[int, int]:
        """Row of each batch's pot, by event."""
        return _by_event(self._batches, self.pot_of)

    @cached_property
    def shared(self) -> dict[int, int]:
        """Row of what each batch's jars share, by event."""
        return _by_event(self._batches, self.shared_of)

    @cached_property
    def meal(self) -> dict[int, int]:
        """Row of each meal that left something, by event."""
        return _by_event(self._meals, self.meal_of)

    def _entry_rows(self, ev: Array, n: Array) -> Array:
        """Return the rows of made entries with jars: their lids and jar wear."""
        return self._row_of_key[np.searchsorted(self._entry_key, ev << _N_BITS | n)]

    def _into(self) -> None:
        draws = self.state.draws
        ev, role = draws["ev"], draws["role"]
        into = np.full(ev.size, -1, np.int64)
        used = role == _ROLE["used"]
        into[used] = self.pot_of[ev[used]]
        fuel = role == _ROLE["fuel"]
        into[fuel] = self.load_of[ev[fuel]]
        lids = np.flatnonzero(role == _ROLE["lids"])
        into[lids] = self._entry_rows(ev[lids], draws["line"][lids])
        ate = role == _ROLE["ate"]
        into[ate] = self.meal_of[ev[ate]]
        self.of_draw = into

    def _gives(self) -> None:
        lots = self.state.lots
        made = self.made_lots
        ev, n, jars = lots["ev"][made], lots["n"][made], lots["jars"][made]
        whole, share = lots["whole"][made], lots["share"][made]
        number = np.arange(made.size)
        left = ~np.isnan(share)
        batch = np.flatnonzero(~left)
        size = self.state.moment.rank.size
        jarred = np.bincount(ev[batch], jars[batch], size)
        by_whole = self._by_whole(ev[batch], n[batch], whole[batch], lots["item"][made[batch]])
        self.share_of_lot = np.zeros(made.size)
        self.share_of_lot[batch] = by_whole
        all_jars = jarred[ev[batch]]
        by_jars = np.divide(jars[batch], all_jars, out=by_whole.copy(), where=all_jars > 0)
        parts = [
            (number[left], self.meal_of[ev[left]], share[left]),
            (number[batch], self.pot_of[ev[batch]], by_whole),
            (number[batch], self.shared_of[ev[batch]], by_jars),
        ]
        in_jars = batch[jars[batch] > 0]
        rows = self._entry_rows(ev[in_jars], n[in_jars])
        of_entry = np.bincount(rows, jars[in_jars], self.count)
        parts.append((number[in_jars], rows, jars[in_jars] / of_entry[rows]))
        lot, row, part = (np.concatenate([p[i] for p in parts]) for i in range(3))
        keep = part > 0
        self.gives = (lot[keep].astype(np.int64), row[keep].astype(np.int64), part[keep])

    def _by_whole(self, ev: Array, n: Array, whole: Array, strand: Array) -> Array:
        """Return each lot's share of its batch: by amount, where all that was made is of one strand.

        Else made entries share in equal parts, and each entry's lots by amount (rule 13).
        """
        size = self.state.moment.rank.size
        wholes = np.bincount(ev, whole.astype(np.float64), size)
        low, high = np.full(size, np.iinfo(np.int64).max), np.full(size, -1)
        np.minimum.at(low, ev, strand)
        np.maximum.at(high, ev, strand)
        share = whole / wholes[ev]
        mixed = np.flatnonzero(low[ev] < high[ev])
        if mixed.size:
            key = ev[mixed] << _N_BITS | n[mixed]
            _, entry = np.unique(key, return_inverse=True)
            of_entry = np.bincount(entry, whole[mixed])
            entries = np.bincount(np.unique(key) >> _N_BITS, minlength=size)
            share[mixed] = whole[mixed] / of_entry[entry] / entries[ev[mixed]]
        return np.asarray(share)


def _by_event(ev: Array, of: Array) -> dict[int, int]:
    return dict(zip(ev.tolist(), of[ev].tolist(), strict=True))
