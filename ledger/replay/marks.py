"""What a figure rests on: bit sets carried from lots through batches, at any depth.

A mark is an int whose bits stand for assumptions; it is followed up only from the lots that
somebody asks about, which are a few of the many that a book has.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.answers import Assumption, ReadLater
from ledger.messages import sentence
from ledger.replay.columns import Array
from ledger.replay.flows import ORIGINS

if TYPE_CHECKING:
    from ledger.replay.costing import Costs
    from ledger.replay.regrown import Before
    from ledger.replay.state import State

__all__ = ["PROVISIONAL", "Marks"]

PROVISIONAL = 1
"""The first mark: rests on a season that is still running. The others name unpriced things."""

_FOUND, _BATCH = ORIGINS.index("found"), ORIGINS.index("batch")
_BOUGHT = ORIGINS.index("bought")
_GROWN, _UNRECORDED = ORIGINS.index("grown"), ORIGINS.index("unrecorded")
_ASSUMED = {
    "unpriced": "cost-unpriced",
    "unrecorded": "cost-unrecorded",
    "found": "cost-found",
    "unpaid": "cost-unpaid",
    "later": "cost-price-later",
    "provisional": "cost-provisional",
}
_NO_PRICE = {
    "unrecorded": "cost-unrecorded-unpriced",
    "found": "cost-found-unpriced",
    "unpaid": "cost-unpaid-unpriced",
}
"""The same where no price of any of it is known, so that no line says that it has one."""


class Marks:
    """The marks of one state's lots."""

    def __init__(self, costs: Costs, state: State, before: Marks | None = None) -> None:
        self._costs, self._state = costs, state
        # Seasons were marked by the bits of the marks they were worked out with.
        self._bits: dict[tuple[str, str], int] = {} if before is None else dict(before._bits)
        self._read: dict[int, list[tuple[str, str]]] = {}
        self._later: dict[str, list[int]] = {}
        self._of_lot: dict[int, int] = {}
        self._ways: tuple[list[int], list[int], list[int], dict[int, int]] | None = None

    def take_over(self, was: Marks, before: Before, changed: Array) -> None:
        """Take over the marks of lots that nothing changed, from a moment of the same day.

        Parameters
        ----------
        changed : ndarray of bool, shape (rows,)
            Which rows of the system may hold something else than before.
        """
        garden, earlier = self._costs.garden, was._costs.garden
        same_day = self._state.as_of_day == was._state.as_of_day
        if not same_day or (garden.marks, garden.unshared) != (earlier.marks, earlier.unshared):
            return
        old = np.fromiter(was._of_lot, np.int64, len(was._of_lot))
        lots, rows = before.lots[old], self._costs.rows
        given, giver, _ = rows.gives
        is_other = np.zeros(rows.made_lots.size + 1, bool)  # the last stands for what is not made
        is_other[given[changed[giver]]] = True
        there = np.flatnonzero(
            lots >= 0
        )  # of those, others are gone: a last entry taken back leaves none
        stays = np.zeros(lots.size, bool)
        stays[there] = ~before.touched[self._state.lots["item"][lots[there]]]
        stays[there] &= ~is_other[rows.number_of_lot[lots[there]]]
        places = np.where(stays, lots, -1).tolist()
        marks = zip(places, was._of_lot.values(), strict=True)
        self._of_lot = {lot: mark for lot, mark in marks if lot >= 0}

    # -- bits ---------------------------------------------------------------------------

    def bit(self, kind: str, name: str) -> int:
        """Return the bit of something a figure rests on: ``unpriced``, ``unrecorded``, ``later``."""
        bit = self._bits.get((kind, name))
        if bit is None:
            bit = self._bits[kind, name] = 1 << (len(self._bits) + 1)
        return bit

    def later(self, name: str, ev: int) -> int:
        """Return the bit of a price first seen only after the day of an event."""
        self._later.setdefault(name, []).append(ev)
        return self.bit("later", name)

    def names_of(self, mark: int) -> list[str]:
        """Return the unpriced things named in a mark, sorted."""
        return [name for kind, name in self._said(mark) if kind == "unpriced"]

    def assumed(self, mark: int) -> list[str]:
        """Return the ids of the assumptions in a mark, sorted."""
        ids = [f"{kind}:{name}" for kind, name in self._said(mark)]
        return sorted([*ids, *(["provisional"] if mark & PROVISIONAL else [])])

    def _said(self, mark: int) -> list[tuple[str, str]]:
        """Return the kinds and names in a mark, sorted; a mark is read once, as many share one."""
        if mark not in self._read:
            self._read[mark] = sorted(pair for pair, bit in self._bits.items() if mark & bit)
        return self._read[mark]

    def assumption(self, one: str) -> Assumption:
        """Return an assumption by its id, in words, with the events it comes from."""
        kind, _, name = one.partition(":")
        ids = ReadLater(lambda: map(self._state.event_id, self._events(kind, name)))
        words = _NO_PRICE if kind in _NO_PRICE and not self._has_price(kind, name) else _ASSUMED
        return Assumption(one, sentence(words[kind], name=name), ids)

    def _has_price(self, kind: str, name: str) -> bool:
        """Return whether any lot behind an assumption counts at a price."""
        lots = self._guessed(name, "bought" if kind == "unpaid" else kind)
        return bool((~self._costs.no_price[lots]).any())

    def _guessed(self, name: str, origin: str | None = None) -> Array:
        """Return the lots of a name that were guessed, of one origin or of all."""
        lots, costs = self._state.lots, self._costs
        item = [i for i, known in enumerate(self._state.facts.names) if known == name]
        guessed = costs.guessed[np.isin(lots["item"][costs.guessed], item)]
        return (
            guessed if origin is None else guessed[lots["origin"][guessed] == ORIGINS.index(origin)]
        )

    def _events(self, kind: str, name: str) -> list[int]:
        if kind == "later":
            return self._later.get(name, [])
        if kind == "provisional":
            return []
        lots, costs = self._state.lots, self._costs
        if kind == "unpriced":
            guessed = self._guessed(name)
            lines: list[int] = lots["ev"][guessed[costs.no_price[guessed]]].tolist()
            return lines + [ev for _, what, ev in costs.own.unpriced() if what == name]
        origin = "bought" if kind == "unpaid" else kind
        return list(lots["ev"][self._guessed(name, origin)].tolist())

    # -- lots ---------------------------------------------------------------------------

    def of_guessed(self, lot: int) -> int:
        """Return the marks of a found, unrecorded or unpaid lot; 0 for any other."""
        origin = self._state.lots["origin"][lot]
        unpaid = origin == _BOUGHT and np.isnan(self._state.lots["money"][lot])
        if origin not in (_FOUND, _UNRECORDED) and not unpaid:
            return 0
        name = self._state.facts.names[int(self._state.lots["item"][lot])]
        mark = self.bit("unpaid" if unpaid else ORIGINS[origin], name)
        return mark | self.bit("unpriced", name) if self._costs.no_price[lot] else mark

    def of(self, lot: int) -> int:
        """Return the marks of a lot, its batches' and those of what went into them."""
        if self._plain[lot]:
            return 0
        known = self._of_lot.get(lot)
        return self._follow(lot) if known is None else known

    @cached_property
    def _plain(self) -> Array:
        """Which lots rest on nothing, whatever is asked: most of what was bought, given or picked."""
        lots, garden = self._state.lots, self._costs.garden
        plain = lots["origin"] != _BATCH
        plain[self._costs.guessed] = False
        grown = self._costs.harvest_lots
        plain[grown] = ~self._provisional
        if garden.unshared or any(garden.marks.values()):
            years, strands = (garden.key >> 24).tolist(), (garden.key & 0xFFFFFF).tolist()
            marked = [
                garden.marks.get(of, 0) != 0 or of in garden.unshared
                for of in zip(years, strands, strict=True)
            ]
            plain[grown] &= ~np.array(marked, bool)[garden.which]
        return np.asarray(plain)

    @cached_property
    def _provisional(self) -> Array:
        return self._costs.garden.provisional(self._state.as_of_day)

    def _raw(self, lot: int) -> int:
        if self._state.lots["origin"][lot] != _GROWN:
            return self.of_guessed(lot)
        garden = self._costs.garden
        at = int(np.searchsorted(self._costs.harvest_lots, lot))
        of = int(garden.season_of[at]), int(garden.item[at])
        mark = garden.marks.get(of, 0)
        if of in garden.unshared:
            mark |= self.bit("unpriced", self._state.facts.names[of[1]])
        return mark | PROVISIONAL if self._provisional[at] else mark

    def _follow(self, lot: int) -> int:
        """Walk down to what a lot was made of, without recursion: a starter's chain is long."""
        if self._ways is None:
            self._ways = self._find_ways()
        numbers, ends, sources, own = self._ways
        stack, known = [lot], self._of_lot
        while stack:
            one = stack[-1]
            number = numbers[one]
            if number < 0:
                known[one] = self._raw(one)
                stack.pop()
                continue
            mark, waiting = own.get(number, 0), []
            for source in sources[ends[number] : ends[number + 1]]:
                found = known.get(source)
                if found is None:
                    waiting.append(source)
                else:
                    mark |= found
            if waiting:
                stack += waiting
            else:
                known[one] = mark
                stack.pop()
        return known[lot]

    def _find_ways(self) -> tuple[list[int], list[int], list[int], dict[int, int]]:
        """Return what each made lot was made of that rests on something.

        The number of each made lot (-1: raw), where its sources begin and end, those lots, and the
        marks that it has of its own.
        """
        rows = self._costs.rows
        draw, lot, _ = self._state.allocations
        into = rows.of_draw[draw]
        taken = np.flatnonzero((into >= 0) & ~self._plain[lot])
        taken = taken[np.argsort(into[taken], kind="stable")]
        bounds = np.searchsorted(into[taken], np.arange(rows.count + 1))
        made, given, _ = rows.gives
        order = np.argsort(made, kind="stable")
        made, given = made[order], given[order]
        own: dict[int, int] = {}
        unpriced: dict[int, int] = {}
        for row, name, _ in self._costs.own.unpriced():
            unpriced[row] = unpriced.get(row, 0) | self.bit("unpriced", name)
        for at in np.flatnonzero(np.isin(given, list(unpriced))).tolist():
            own[int(made[at])] = own.get(int(made[at]), 0) | unpriced[int(given[at])]
        many = (bounds[1:] - bounds[:-1])[given]
        ends = np.r_[0, np.cumsum(many)]
        sources = lot[taken[np.repeat(bounds[given] - ends[:-1], many) + np.arange(ends[-1])]]
        mine = np.searchsorted(made, np.arange(rows.made_lots.size + 1))
        return rows.number_of_lot.tolist(), ends[mine].tolist(), sources.tolist(), own
