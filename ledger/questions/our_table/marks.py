"""What the figures of our-table rest on: prices, weights and energies not known, lots nobody wrote down.

Each is carried like a figure, as a number above 0 where it enters, so that books of any size are
marked without a loop over their events.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.answers import Assumption, ReadLater
from ledger.figures import Array
from ledger.kinds.counted import OPENING_DAYS
from ledger.messages import sentence
from ledger.questions.food import FoodFigures
from ledger.questions.periods import Period, places_of
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.questions.food.portions import Portions
    from ledger.replay import State

__all__ = ["Mark", "Marks", "is_lacking", "rests_on"]

Mark = tuple[str, str, int]
"""Something a figure rests on: kind (``no price``, ``unrecorded`` ...), name, code of the origin."""

_WORDS = {
    "no weight": "eaten-no-weight",
    "no energy": "eaten-no-energy",
    "no price": "eaten-no-price",
    "later": "eaten-price-later",
    "found": "eaten-found",
    "opening": "eaten-from-opening",
    "unrecorded": "eaten-unrecorded",
    "feed": "eaten-feed-unknown",
}
_KINDS = tuple(_WORDS)
_BASES_OF = {
    "no weight": ("energy", "weight"),
    "no energy": ("energy",),
    "no price": ("value",),
    "later": ("value",),
}
_AT_ONCE = 64
"""Marks carried in one solve, so that many of them do not fill the memory."""


def rests_on(marks: set[Mark], basis: str, origin: int) -> set[Mark]:
    """Return those marks that concern one basis and origin."""
    return {
        mark for mark in marks if mark[2] == origin and basis in _BASES_OF.get(mark[0], (basis,))
    }


def is_lacking(marks: set[Mark]) -> bool:
    """Return whether a price, weight or energy is not known of something."""
    return any(mark[0].startswith("no ") for mark in marks)


class Marks:
    """Marks of what was eaten.

    Attributes
    ----------
    names : list of Mark
        Every mark that some use of a raw lot has.
    at, number : ndarray of int64, shape (hits,)
        Which allocation has which mark (place in `names`).
    """

    def __init__(self, state: State) -> None:
        self._state, self._food = state, state.once(FoodFigures)
        self._web = self._food.web
        # a raw lot that is eaten from a meal's leftovers goes into a row and is eaten, both
        several = [self._hits(one) for one in (self._food.on_table, self._food.inner)]
        self.at, key, self._ev = (np.concatenate(one) for one in zip(*several, strict=True))
        keys, self.number = np.unique(key, return_inverse=True)
        self.names = [self._name(one) for one in keys.tolist()]

    def _hits(self, portions: Portions) -> tuple[Array, Array, Array]:
        """Return allocation, key of the mark, and event, of everything to say."""
        food, lots = self._food, self._state.lots
        contents, at = food.contents, portions.raw_at
        _, price_ev, later = portions.prices
        lot, origin = portions.raw_lot, portions.origin
        item = lots["item"][lot]
        is_food, weighed = contents.is_food, contents.has_weight
        hits = {
            "no weight": (is_food & ~weighed)[item],
            "no energy": (is_food & weighed & ~contents.has_energy)[item],
            "no price": is_food[item] & (price_ev < 0),
            "later": later,
            "found": origin == ORIGINS.index("found"),
            "unrecorded": origin == ORIGINS.index("unrecorded"),
            "feed": food.feed.is_open[lot],
        }
        begins = lots["day"].min() if lots["day"].size else 0
        early = hits["found"] & (lots["day"][lot] < begins + OPENING_DAYS)
        hits["found"], hits["opening"] = hits["found"] & ~early, early
        parts = []
        for code, kind in enumerate(_KINDS):
            some = np.flatnonzero(hits[kind])
            name = food.feed.season_by_day(lots["day"][lot[some]]) if kind == "feed" else item[some]
            key = (name.astype(np.int64) * 6 + origin[some]) * len(_KINDS) + code
            ev = price_ev[some] if kind == "later" else lots["ev"][lot[some]]
            parts.append((at[some], key, ev))
        where, key, ev = (np.concatenate(several) for several in zip(*parts, strict=True))
        return where, key, ev

    def _name(self, key: int) -> Mark:
        rest, code = divmod(key, len(_KINDS))
        name, origin = divmod(rest, 6)
        kind = _KINDS[code]
        return kind, str(name) if kind == "feed" else self._state.facts.names[name], origin

    def of(self, periods: list[Period]) -> list[set[Mark]]:
        """Return, for each period, what its figures rest on."""
        if not self.names:
            return [set() for _ in periods]
        eaten, web, count = self._food.eaten, self._web, len(self.names)
        place = places_of(periods, eaten.day)
        found = np.zeros((len(periods), count), bool)
        here = np.full(web.draw.size, -1, np.int64)
        some = (place >= 0) & (eaten.factor > 0)
        here[eaten.at[some]] = place[some]
        direct = here[self.at] >= 0
        found[here[self.at[direct]], self.number[direct]] = True
        mine = np.flatnonzero(some & web.made[eaten.at])
        lot = web.rows.number_of_lot[web.lot[eaten.at[mine]]]
        for first, lots in self._carried:
            for number, carries in enumerate(lots.T, first):
                found[place[mine[carries[lot]]], number] = True
        out: list[set[Mark]] = [set() for _ in periods]
        for period, number in np.argwhere(found).tolist():
            out[period].add(self.names[number])
        return out

    @cached_property
    def _carried(self) -> list[tuple[int, Array]]:
        """Which made lots carry which marks: (first mark, ndarray of bool (made lots, marks))."""
        web, count = self._web, len(self.names)
        inner = web.row[self.at] >= 0
        out = []
        for first in range(0, count, _AT_ONCE):
            mine = inner & (self.number >= first) & (self.number < first + _AT_ONCE)
            if mine.any():
                own = np.zeros((web.count, min(_AT_ONCE, count - first)))
                own[web.row[self.at[mine]], self.number[mine] - first] = 1.0
                out.append((first, web.carried(own)[1] > 0))
        return out

    def _events(self, kind: str, name: str) -> list[int]:
        """Return the events behind a mark, whatever its origin, in the order of replay."""
        mine = [number for number, mark in enumerate(self.names) if mark[:2] == (kind, name)]
        found = np.unique(self._ev[np.isin(self.number, mine)])
        return found[np.argsort(self._state.moment.rank[found], kind="stable")].tolist()  # type: ignore[no-any-return]

    def assumption(self, one: str) -> Assumption:
        """Return an assumption by its id (``kind:name``), in words."""
        kind, _, name = one.partition(":")
        ids = ReadLater(lambda: map(self._state.event_id, self._events(kind, name)))
        return Assumption(one, sentence(_WORDS[kind], name=name), ids)
