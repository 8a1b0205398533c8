"""One moment of a book: everything that counted by then, matched and traced.

A `State` is what projections read. Lots and draws are dicts of columns; rows are in the order of
the book. Costs are worked out when first asked for.
"""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, TypeVar

import numpy as np

from ledger.days import day_number, day_text
from ledger.kinds import KINDS
from ledger.labels import split_label
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.costing import Costs
from ledger.replay.durables import Durables
from ledger.replay.facts import Facts, Settings
from ledger.replay.flows import Flows, Moment
from ledger.replay.garden import Input
from ledger.replay.journal import Journal
from ledger.replay.matching import Matched
from ledger.replay.prices import Prices
from ledger.replay.regrown import Before

__all__ = ["State", "day_number", "day_text"]

_KIND = {name: code for code, name in enumerate(KINDS)}
"""Columns of every lot and draw that those of their flows are not, or do not have."""
_Out = TypeVar("_Out")


@dataclass
class State:
    """A book at one moment.

    Attributes
    ----------
    as_of_day : int
        Happened by that day (days since 1970).
    known : int
        How many events were written down by then.
    known_at : str or None
        The moment by which they were, when it was asked for.
    moment : Moment
        Which events count, and in which order.
    facts : Facts
    settings : Settings
    lots : dict of ndarray
        ``ev, n, suffix (0 '', 1 f, 2 u, 3 c), item, whole, origin (ORIGINS), kept, money, jars,
        share, day, pos``.
    draws : dict of ndarray
        ``ev, n, item, whole, role (ROLES; 6: missing at a count), day, line, pos``.
    allocations : draw, lot, amount
        Which draw took how much of which lot, in whole units.
    """

    journal: Journal
    as_of_day: int
    known: int
    moment: Moment
    facts: Facts
    settings: Settings
    flows: Flows
    matched: Matched
    lots: dict[str, Array]
    draws: dict[str, Array]
    allocations: tuple[Array, Array, Array]
    known_at: str | None = None
    priced: tuple[Prices | None, Durables, list[Input]] | None = None
    """Prices and purchases of the moment that this one grew from, as far as none came or went."""
    before: Before | None = None
    """The moment that this one grew from, where batches are the same, too; until costs are known."""
    _lasting: dict[Any, dict[Any, Any]] = field(default_factory=dict, repr=False)
    _made: dict[Any, Any] = field(default_factory=dict, repr=False)

    def lasting(self, of: Callable[..., Any]) -> dict[Any, Any]:
        """Return what `of` keeps from this moment to those grown from it: a dict that is its own.

        Items and settings are the same in all of them, and so is what an event says, by its place;
        whatever else a value follows from must stand beside it and be compared.
        """
        return self._lasting.setdefault(of, {})

    def apart(self) -> State:
        """Return this state with what lasts kept apart: events tried out leave nothing behind."""
        other = copy.copy(self)
        other._lasting = {of: dict(kept) for of, kept in self._lasting.items()}
        return other

    def once(self, make: Callable[[State], _Out]) -> _Out:
        """Return ``make(state)``, worked out at the first asking and kept with this moment.

        What several questions share is asked for so; who asks must not change it.
        """
        if make not in self._made:
            self._made[make] = make(self)
        made: _Out = self._made[make]
        return made

    @cached_property
    def taken(self) -> Array:
        """What was drawn from each lot, in whole units, shape (lots,)."""
        _, lot, amount = self.allocations
        out = np.zeros(self.lots["whole"].size, np.int64)
        np.add.at(out, lot, amount)
        return out

    @cached_property
    def left(self) -> Array:
        """What is left of each lot, in whole units, shape (lots,)."""
        return np.asarray(self.lots["whole"] - self.taken)

    @cached_property
    def costs(self) -> Costs:
        """Costs and figures of every lot."""
        costs = Costs(self)
        self.before = None  # else each moment would hold on to the one before it
        return costs

    def moved(self, journal: Journal, as_of: int, known: int, moment: Moment) -> State:
        """Return this state at another day on which the same events count."""
        other = copy.copy(self)
        other.journal, other.as_of_day, other.known, other.moment = journal, as_of, known, moment
        other.facts, other._made = self.facts.of_journal(journal), {}
        if "costs" in vars(self):
            other.costs = self.costs.moved(other)
        return other

    def event_id(self, ev: int) -> str:
        """Return the id of an event by its place."""
        return self.journal.id_of(int(ev))

    def entry_id(self, ev: int) -> str:
        """Return the id of the entry that an event belongs to."""
        return self.journal.id_of(int(self.moment.root[int(ev)]))

    def lot_id(self, lot: int) -> str:
        """Return a lot's id: ``<entry id>:<n>`` with f, u or c behind it."""
        suffix = ("", "f", "u", "c")[int(self.lots["suffix"][lot])]
        return f"{self.entry_id(self.lots['ev'][lot])}:{int(self.lots['n'][lot])}{suffix}"

    @cached_property
    def lot_ids(self) -> dict[str, int]:
        """Every lot by its id."""
        return {self.lot_id(i): i for i in range(self.lots["ev"].size)}

    def events(self, kind: str) -> Array:
        """Return the counted events of a kind, in the order of the book."""
        table = self.journal.tables["events"]
        rows = np.flatnonzero(
            (self.moment.rank >= 0) & (table["kind"][: self.moment.rank.size] == _KIND[kind])
        )
        return rows[np.argsort(self.moment.rank[rows])]

    def body(self, ev: int) -> dict[str, Any]:
        """Return the body of an event, read from the log where the journal kept only columns."""
        return self.journal.body(int(ev))

    @cached_property
    def went_bad(self) -> Array:
        """Rows of `allocations` that were discarded as seal failed, spoiled or broken."""
        events, ev = self.journal.tables["events"], self.draws["ev"][self.allocations[0]]
        causes = [tables.CAUSES.index(why) for why in ("seal failed", "spoiled", "broken")]
        return np.flatnonzero(
            (events["kind"][ev] == _KIND["discarded"]) & np.isin(events["cause"][ev], causes)
        )

    @cached_property
    def failed(self) -> Array:
        """What was discarded as seal failed, spoiled or broken, in whole units, shape (lots,)."""
        _, lot, amount = self.allocations
        out = np.zeros(self.lots["whole"].size, np.int64)
        np.add.at(out, lot[self.went_bad], amount[self.went_bad])
        return out

    def labels_drawn(self, lot: int) -> set[int]:
        """Return the label numbers by which jars of a lot were drawn."""
        return self._labels_drawn.get(lot, set())

    @cached_property
    def _labels_drawn(self) -> dict[int, set[int]]:
        out: dict[int, set[int]] = {}
        named, said = self.flows.draws["named"], self.flows.draws["lot_text"]
        rows = np.flatnonzero(named >= 0)
        for lot, text in zip(named[rows].tolist(), said[rows].tolist(), strict=True):
            label = self.journal.lots.texts[text]
            number = split_label(label)[1] if ":" not in label else None
            if number is not None:
                out.setdefault(lot, set()).add(number)
        return out

    def allocations_of_lot(self, lot: int) -> Array:
        """Return the rows of `allocations` that take from a lot."""
        return np.asarray(self._by_lot[1][self._by_lot[0][lot] : self._by_lot[0][lot + 1]])

    def allocations_of_draw(self, draw: int) -> Array:
        """Return the rows of `allocations` of a draw."""
        return np.asarray(self._by_draw[1][self._by_draw[0][draw] : self._by_draw[0][draw + 1]])

    @cached_property
    def _by_lot(self) -> tuple[Array, Array]:
        return _index(self.allocations[1], self.lots["ev"].size)

    @cached_property
    def _by_draw(self) -> tuple[Array, Array]:
        return _index(self.allocations[0], self.draws["ev"].size)

    def bodies(self, kind: str) -> list[tuple[int, dict[str, Any]]]:
        """Return (place, body) of the counted events of a kind that states facts."""
        return [(int(ev), self.journal.bodies[int(ev)]) for ev in self.events(kind)]

    def conservation(self) -> list[str]:
        """Return every item for which what came in is not what went out plus what is there."""
        count = len(self.facts)
        supplied = _sum(self.lots["item"], self.lots["whole"], count)
        there = _sum(self.lots["item"], self.left, count)
        drawn = _sum(self.draws["item"], self.draws["whole"], count)
        wrong = (supplied != drawn + there) | (
            _sum(self.lots["item"], np.minimum(self.left, 0), count) < 0
        )
        return [self.facts.names[i] for i in np.flatnonzero(wrong)]


def _index(numbers: Array, count: int) -> tuple[Array, Array]:
    """Return bounds, shape (count + 1,), and the rows of each number, one behind the other."""
    # One sort of one key is a sixth of a stable one that gives the order.
    order = np.sort(numbers << 32 | np.arange(numbers.size)) & 0xFFFFFFFF
    return np.r_[0, np.cumsum(np.bincount(numbers, minlength=count))], order


def _sum(item: Array, whole: Array, count: int) -> Array:
    out = np.zeros(count, np.int64)
    np.add.at(out, item, whole)
    return out
