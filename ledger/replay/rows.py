"""The rows of the system: which batches and meals there are, and what their lots carry of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.events import CANNING, METHODS
from ledger.replay import _tables
from ledger.replay._columns import Array
from ledger.replay.flows import ORIGINS

if TYPE_CHECKING:
    from ledger.replay.state import State

__all__ = ["Rows"]

_ROLE = {name: code for code, name in enumerate(_tables.ROLES)}
_CANNING = np.array([method in CANNING for method in METHODS])


class Rows:
    """Rows in the order of replay, each with what draws on it and what lots it fills.

    Attributes
    ----------
    count : int
    pot, shared : dict of int to int
        Row of a batch's pot, and of what its jars share, by event.
    entries : dict of ndarray
        Made entries with jars: ``ev, n, jar, jars, day, row`` (their lids and jar wear).
    meal : dict of int to int
        Row of a meal that left something, by event.
    of_draw : ndarray of int64, shape (draws,)
        The row each draw goes into; -1: none.
    made_lots : ndarray of int64
        The lots that rows fill; `number_of_lot` gives their place here.
    gives : lot (number), row, share
        Which share of each row a made lot carries (rule 9).
    loads, canning : dict by event
    """

    def __init__(self, state: State) -> None:
        self.state = state
        journal, moment = state.journal, state.moment
        batches = journal.tables["batches"]
        rows = moment.of(batches["ev"])
        evs = batches["ev"][rows].astype(np.int64)
        self.loads = dict(zip(evs.tolist(), batches["loads"][rows].tolist(), strict=True))
        self.canning = dict(
            zip(evs.tolist(), _CANNING[batches["method"][rows]].tolist(), strict=True)
        )
        supplies = journal.tables["supplies"]
        made = moment.of(supplies["ev"])
        jarred = made[supplies["jars"][made] > 0]
        lots = state.lots
        self.made_lots = np.flatnonzero(lots["origin"] == ORIGINS.index("batch"))
        self.number_of_lot = np.full(lots["ev"].size, -1, np.int64)
        self.number_of_lot[self.made_lots] = np.arange(self.made_lots.size)
        shared_lots = self.made_lots[~np.isnan(lots["share"][self.made_lots])]
        meals = np.unique(lots["ev"][shared_lots])
        self._number(evs, supplies["ev"][jarred].astype(np.int64), supplies["n"][jarred], meals)
        jar = supplies["jar"][jarred]
        canon = state.facts.canon
        self.entries["jar"] = np.where(jar >= 0, canon[np.maximum(jar, 0)], -1) if jar.size else jar
        self.entries["jars"] = supplies["jars"][jarred].astype(np.int64)
        self.entries["day"] = moment.on[self.entries["ev"]]
        self._into()
        self._gives()

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
        self.pot = dict(zip(batches.tolist(), pot.tolist(), strict=True))
        self.shared = dict(zip(batches.tolist(), shared.tolist(), strict=True))
        self.meal = dict(zip(meals.tolist(), meal.tolist(), strict=True))
        self.entries: dict[str, Array] = {
            "ev": entry_ev,
            "n": entry_n.astype(np.int64),
            "row": entry,
        }
        self._entry_row = dict(
            zip(zip(entry_ev.tolist(), entry_n.tolist(), strict=True), entry.tolist(), strict=True)
        )
        size = rank.size
        self._pot_of, self._shared_of, self._meal_of = (
            np.full(size, -1, np.int64) for _ in range(3)
        )
        self._pot_of[batches], self._shared_of[batches], self._meal_of[meals] = pot, shared, meal

    def for_load(self, ev: int) -> int | None:
        """Return the row that bears a batch's fuel and equipment: the jars' when canning."""
        return self.shared.get(ev) if self.canning.get(ev) else self.pot.get(ev)

    def entry_row(self, ev: int, n: int) -> int | None:
        """Return the row of a made entry's lids and jar wear, None where it has no jars."""
        return self._entry_row.get((ev, n))

    def whole_made(self, ev: int) -> int:
        """Return all that a batch made, in whole units."""
        return int(self._whole_made[ev])

    def _into(self) -> None:
        draws = self.state.draws
        ev, role = draws["ev"], draws["role"]
        into = np.full(ev.size, -1, np.int64)
        used = role == _ROLE["used"]
        into[used] = self._pot_of[ev[used]]
        fuel = np.flatnonzero(role == _ROLE["fuel"])
        into[fuel] = np.array([self.for_load(e) for e in ev[fuel].tolist()], np.int64)
        lids = np.flatnonzero(role == _ROLE["lids"])
        keys = zip(ev[lids].tolist(), draws["line"][lids].tolist(), strict=True)
        into[lids] = [self._entry_row[key] for key in keys]
        ate = role == _ROLE["ate"]
        into[ate] = self._meal_of[ev[ate]]
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
        wholes = np.bincount(ev[batch], whole[batch].astype(np.float64), size)
        self._whole_made = wholes
        jarred = np.bincount(ev[batch], jars[batch], size)
        by_whole = whole[batch] / wholes[ev[batch]]
        all_jars = jarred[ev[batch]]
        by_jars = np.divide(jars[batch], all_jars, out=by_whole.copy(), where=all_jars > 0)
        parts = [
            (number[left], self._meal_of[ev[left]], share[left]),
            (number[batch], self._pot_of[ev[batch]], by_whole),
            (number[batch], self._shared_of[ev[batch]], by_jars),
        ]
        in_jars = batch[jars[batch] > 0]
        keys = list(zip(ev[in_jars].tolist(), n[in_jars].tolist(), strict=True))
        of_entry: dict[tuple[int, int], int] = {}
        for key, count in zip(keys, jars[in_jars].tolist(), strict=True):
            of_entry[key] = of_entry.get(key, 0) + count
        rows = np.array([self._entry_row[key] for key in keys], np.int64)
        portions = np.array(
            [count / of_entry[key] for key, count in zip(keys, jars[in_jars].tolist(), strict=True)]
        )
        parts.append((number[in_jars], rows, portions))
        lot, row, part = (np.concatenate([p[i] for p in parts]) for i in range(3))
        keep = part > 0
        self.gives = (lot[keep].astype(np.int64), row[keep].astype(np.int64), part[keep])
