"""Replay: stored events to columns, lots, draws, allocations and traced figures.

In the order of the road: `journal` decodes and settles, `facts` folds what is said of items,
`flows` makes lots and draws, `matching` allots first in first out, `prices`, `garden`,
`durables` and `costing` work out costs, `rows` and `tracing` carry them through batches.
`state` is one moment of all that, and `Replay` keeps it growing with the log.
"""

from __future__ import annotations

import gc
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import Any, Protocol

import numpy as np

from ledger.errors import TooLarge
from ledger.replay import derived
from ledger.replay.building import build_state, columns_of, grow_state, state_of
from ledger.replay.flows import ORIGINS
from ledger.replay.growing import is_stating
from ledger.replay.journal import KEPT, Journal
from ledger.replay.state import State, day_number, day_text
from ledger.replay.tables import CAUSES, ROLES
from ledger.replay.tracing import COMPONENTS, COST, GRAMS, KCAL, LABOUR, VALUE
from ledger.replay.written import Source, Tried

__all__ = [
    "CAUSES",
    "COMPONENTS",
    "COST",
    "GRAMS",
    "KCAL",
    "KEPT",
    "LABOUR",
    "ORIGINS",
    "ROLES",
    "VALUE",
    "Replay",
    "State",
    "day_number",
    "day_text",
]

_KEPT_STATES = 4
"""States kept for the next to ask; a new one is grown from the nearest of them."""
_LAST = np.iinfo(np.int32).max
"""A day by which all that was written down has happened."""


class _Log(Source, Protocol):
    def read(
        self,
        after: int = 0,
        upto: int | None = None,
        kinds: Sequence[str] | None = None,
        *,
        bare: bool = False,
    ) -> Any: ...


@contextmanager
def _uncollected() -> Iterator[None]:
    """Keep the garbage collector from walking rows that hold no cycles while many are read."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


class Replay:
    """A book's replay, growing with its log.

    Parameters
    ----------
    log : Log
        A source whose ``read(after=seq, bare=True)`` gives chunks of stored rows in sequence.
    hash_at : callable, optional
        The stored hash of an event by its number: with it the journal is kept in a file
        (`ledger.replay.derived`).
    """

    def __init__(self, log: _Log, hash_at: Callable[[int], str | None] | None = None) -> None:
        self._log, self._hash_at = log, hash_at
        self._take(Journal())
        self._kept: int | None = None
        self._numbers = self.journal.numbers
        self._states: dict[tuple[int, int], State] = {}
        self._lock = threading.RLock()

    def _take(self, journal: Journal) -> None:
        self.journal = journal
        journal.source = self._log

    def refresh(
        self, progress: Callable[[int], None] | None = None, upto: int | None = None
    ) -> int:
        """Take in what was appended since, up to a number; return how many events that were."""
        with self._lock, _uncollected():
            if self._kept is None:
                self._take_kept(upto)
            before = len(self.journal)
            for chunk in self._log.read(after=before, upto=upto, bare=True):
                self.journal.take(chunk)
                if progress is not None:
                    progress(len(chunk))
            if self._hash_at is not None:
                taken = 0 if self._is_stale() else self._kept or 0
                derived.keep(self.journal, taken, self._hash_at, self._moment)
                self._kept, self._numbers = len(self.journal), self.journal.numbers
            return len(self.journal) - before

    def _take_kept(self, upto: int | None) -> None:
        """Begin with what a file keeps of the log's first events."""
        self._kept = 0
        found = derived.kept(self._hash_at) if self._hash_at is not None else None
        if found is not None and (upto is None or len(found[0]) <= upto):
            journal, columns = found
            self._take(journal)
            self._kept, self._numbers = len(journal), journal.numbers
            if columns:  # before more is taken in: what it numbers are the items known by then
                self._hold(state_of(columns, journal, as_of=_LAST, known=len(journal)))

    def _is_stale(self) -> bool:
        """Return whether nothing grows any more from what was kept: new names, or an item said anew."""
        kinds = self.journal.tables["events"]["kind"][self._kept :]
        return self._numbers != self.journal.numbers or is_stating(kinds)

    def _moment(self) -> derived.Columns:
        """Return the columns of the moment at which all events count: others grow from it."""
        try:
            state = build_state(self.journal, as_of=_LAST, known=len(self.journal))
        except TooLarge:  # said by who asks for that day
            return {}
        self._hold(state)
        return columns_of(state)

    def _hold(self, state: State) -> None:
        self._make_room(state.as_of_day, state.known)
        self._states[state.as_of_day, state.known] = state

    def state(self, *, as_of: str, known_at: str | None = None) -> State:
        """Return the book at a moment.

        Parameters
        ----------
        as_of : str
            ISO date: what happened by the end of that day.
        known_at : str, optional
            RFC 3339 in UTC: what was written down by then; default: all.
        """
        with self._lock:
            key = (day_number(as_of), self.journal.known(known_at))
            state = self._states.pop(key, None)
            if state is None:
                state = self._made(self.journal, *key)
                state.known_at = known_at
            self._hold(state)
            return state

    def _made(self, journal: Journal, as_of: int, known: int) -> State:
        """Return a state, grown from the nearest one kept where that is possible."""
        near = sorted(self._states, key=lambda key: (abs(key[0] - as_of), abs(key[1] - known)))
        state = None
        if near:
            state = grow_state(self._states[near[0]], journal, as_of=as_of, known=known)
        return state or build_state(journal, as_of=as_of, known=known)

    def _make_room(self, as_of: int, known: int) -> None:
        """Let go of the oldest state, and of the same day's before the newest entries."""
        for key, state in list(self._states.items()):
            if key[0] == as_of and key[1] < known and state.known_at is None:
                del self._states[key]
        while len(self._states) >= _KEPT_STATES:
            del self._states[next(iter(self._states))]

    def trial(self, rows: Sequence[tuple[Any, ...]], *, as_of: str) -> State:
        """Return the book as it would be with more events, which are then forgotten.

        Parameters
        ----------
        rows : sequence of tuple
            Stored rows that would follow the last one taken in.
        as_of : str
            ISO date.
        """
        with self._lock:
            journal = self.journal.branch()
            journal.source = tried = Tried(self._log, rows)
            journal.take(tried.read())
            return self._made(journal, day_number(as_of), len(journal)).apart()
