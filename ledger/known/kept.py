"""Stored rows of a few kinds, kept in a file of the user's cache folder.

Which language, measures and time zone a book has stands in a few dozen rows of forty years, and each
command would read the whole log for them. What is kept is believed only if it is whole and its last
event is in the log under the same hash; what was written down since is read. It may be deleted.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import msgspec

from ledger.cache import folder, write_whole
from ledger.known.entries import Reader, Row

__all__ = ["KeptRows"]

_LEAST = 1_000
"""Events that are worth a file, or a new one."""
_DIGEST = 32


class _File(msgspec.Struct, array_like=True):
    """Rows of `kinds` up to an event's number, and its hash."""

    kinds: list[str]
    seq: int
    hash: str
    rows: list[Row]


class KeptRows:
    """A reader of a log's few rows that takes those of its first events from the file.

    Parameters
    ----------
    log : Reader
    hash_at : callable
        The stored hash of an event by its number.
    """

    def __init__(self, log: Reader, hash_at: Callable[[int], str | None]) -> None:
        self._log, self._hash_at = log, hash_at
        self.kinds = log.kinds

    def read(
        self, after: int = 0, upto: int | None = None, kinds: Any = None, *more: Any, **by: Any
    ) -> Iterator[list[Row]]:
        """Give stored rows in chunks: of few kinds, from the first event on, with the file."""
        place = None if after or by or kinds is None or (upto or 0) < _LEAST else self._place()
        if place is None:
            yield from self._log.read(after, upto, kinds, *more, **by)
        else:
            yield self._few(place, upto or 0, list(kinds))

    def _few(self, place: Path, upto: int, kinds: list[str]) -> list[Row]:
        head, kept = self._hash_at(upto), self._kept(place, upto, kinds)
        rows, seq = (kept.rows, kept.seq) if kept else ([], 0)
        for chunk in self._log.read(seq, upto, kinds):
            rows += chunk
        # a book put in its place meanwhile ends otherwise: its rows are not these
        if head and upto - seq >= _LEAST and self._hash_at(upto) == head:
            said = msgspec.msgpack.encode(_File(kinds, upto, head, rows))
            write_whole(place, (hashlib.sha256(said).digest(), said))
        return rows

    def _place(self) -> Path | None:
        first = self._hash_at(1)
        return folder("settings") / first[:32] if first else None

    def _kept(self, place: Path, upto: int, kinds: list[str]) -> _File | None:
        try:
            raw = place.read_bytes()
            if hashlib.sha256(raw[_DIGEST:]).digest() != raw[:_DIGEST]:
                return None
            kept = msgspec.msgpack.decode(raw[_DIGEST:], type=_File)
        except (OSError, msgspec.MsgspecError):
            return None
        fits = kept.kinds == kinds and 0 < kept.seq <= upto
        return kept if fits and kept.hash == self._hash_at(kept.seq) else None
