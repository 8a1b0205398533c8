"""What no column holds of an event: its id, and when it was written down.

A replay asks for those of few events, and the log has a key for both ways: they are read when
somebody asks, and kept.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from operator import itemgetter
from typing import Any, Protocol

__all__ = ["Source", "Tried", "Written"]

_PART = 1_000
"""Events whose ids and moments are read together: one answer's are mostly of the same months."""

_BARE = itemgetter(0, 2, 3, 4, 5, 8, 9, 10)
"""Of a stored row: number, kind, version, day, time, who, what it replaces, body."""


class Source(Protocol):
    """Where a journal's events are: a log, or what is tried on one."""

    def numbered(self, numbers: Sequence[int]) -> list[tuple[Any, ...]]:
        """Return the stored rows of some numbers, in their order."""

    def written_between(self, after: int, upto: int) -> list[tuple[str, str]]:
        """Return id and `recorded_at` of the events with a number above `after`, up to `upto`."""

    def numbers_of(self, ids: Sequence[str]) -> dict[str, int]:
        """Return the number of the event with each of some ids, where there is one."""


class Tried:
    """Rows that no log holds behind those of a source; under no hash that a cache could keep.

    Parameters
    ----------
    source : Source
    rows : sequence of tuple
        Stored rows: they stand for those that the source has from their first number on.
    """

    def __init__(self, source: Source, rows: Sequence[tuple[Any, ...]]) -> None:
        self._source = source
        self._rows = {int(row[0]): (*row[:-1], "") for row in rows}
        self._first = min(self._rows, default=1 << 62)

    def read(self) -> list[tuple[Any, ...]]:
        """Return the rows as a log gives them to a replay, bare."""
        return list(map(_BARE, self._rows.values()))

    def numbered(self, numbers: Sequence[int]) -> list[tuple[Any, ...]]:
        """See `Source`."""
        stored = [one for one in numbers if one < self._first]
        rows = self._source.numbered(stored) if stored else []
        return rows + [self._rows[one] for one in sorted(numbers) if one in self._rows]

    def written_between(self, after: int, upto: int) -> list[tuple[str, str]]:
        """See `Source`."""
        stored = self._source.written_between(after, min(upto, self._first - 1))
        own = [(row[1], row[6]) for seq, row in self._rows.items() if after < seq <= upto]
        return stored + own

    def numbers_of(self, ids: Sequence[str]) -> dict[str, int]:
        """See `Source`."""
        own = {row[1]: seq for seq, row in self._rows.items()}
        found = self._source.numbers_of(ids)
        stored = {id_: seq for id_, seq in found.items() if seq < self._first}
        return stored | {one: own[one] for one in ids if one in own}


class Written:
    """Ids and moments of a journal's events, by place: ``seq - 1``.

    Attributes
    ----------
    source : Source
        Where they are read; set by who makes the journal.
    ids : list of str
        Those of the first events, where a file keeps them: a command may name thousands of entries.
    """

    source: Source

    def __init__(self) -> None:
        self.ids: list[str] = []
        self._parts: dict[int, list[tuple[str, str]]] = {}
        self._places: dict[str, int] = {}

    def __len__(self) -> int:
        raise NotImplementedError

    def id_of(self, ev: int) -> str:
        """Return the id of an event by its place."""
        return self.ids[ev] if ev < len(self.ids) else self._written(ev)[0]

    def recorded_at(self, ev: int) -> str:
        """Return when an event was written down."""
        return self._written(ev)[1]

    def _written(self, ev: int) -> tuple[str, str]:
        part, at = divmod(ev, _PART)
        known = self._parts.get(part, ())
        if at >= len(known):
            first = part * _PART
            known = self._parts[part] = self.source.written_between(first, first + _PART)
        return known[at]

    def place_of(self, id_: str) -> int | None:
        """Return the place of an id, or None where it was not taken in."""
        return self.places_of([id_]).get(id_)

    def places_of(self, ids: Iterable[str]) -> dict[str, int]:
        """Return the places of those of some ids that were taken in."""
        return {one: ev for one, ev in self.written_at(ids).items() if ev < len(self)}

    def written_at(self, ids: Iterable[str]) -> dict[str, int]:
        """Return the places that ids have in the log, which may be further on than this journal."""
        wanted = set(ids)
        unread = [one for one in wanted if one and one not in self._places]
        if unread:
            found = self.source.numbers_of(unread)
            self._places.update((id_, seq - 1) for id_, seq in found.items())
        return {one: self._places[one] for one in wanted if one in self._places}

    def row(self, ev: int) -> tuple[Any, ...]:
        """Return an event as it is stored.

        Raises
        ------
        LookupError
            There is none.
        """
        for row in self.source.numbered([ev + 1]):
            return row
        raise LookupError(ev + 1)

    def known(self, known_at: str | None) -> int:
        """Return how many events were written down by `known_at` (a prefix of the log)."""
        if known_at is None:
            return len(self)
        return bisect_right(range(len(self)), known_at, key=self.recorded_at)

    def _branched(self, other: Written) -> None:
        """Give a branch what the first events have: what may come behind them is another there."""
        count = len(self)
        whole = count // _PART
        other.ids = self.ids
        other._parts = {part: known for part, known in self._parts.items() if part < whole}
        other._places = {one: ev for one, ev in self._places.items() if ev < count}
