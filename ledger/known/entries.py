"""Entries: an event with all that correct or strike it, and which word on it is the newest."""

from __future__ import annotations

import contextlib
from collections.abc import Iterator
from typing import Any, Protocol

import msgspec

from ledger.errors import NewerEvent
from ledger.kinds import read_stored

__all__ = ["Entries", "Reader"]

Row = tuple[Any, ...]


class Reader(Protocol):
    """A log, or a writing transaction of one."""

    def read(
        self,
        after: int = 0,
        upto: int | None = None,
        kinds: Any = None,
        chunk: int = 20_000,
        *,
        later_words: bool = False,
    ) -> Iterator[list[Row]]:
        """Give stored rows in chunks."""

    def kinds(self, after: int = 0) -> list[tuple[str, int, int]]:
        """Give each kind and body version with the first event that has it."""


class Entries:
    """Read from the log when first asked for; only entries with a later word take memory."""

    def __init__(self) -> None:
        self._root: dict[str, str] = {}
        self._words: dict[str, list[str]] = {}
        self._struck: set[str] = set()

    def read(self, reader: Reader, after: int = 0) -> None:
        """Take in every correction and strike that stands behind the event `after`."""
        for chunk in reader.read(after=after, later_words=True):
            for row in chunk:
                self.take(row)

    def take(self, row: Row) -> None:
        """Take in one stored row."""
        if row[2] == "struck":
            with contextlib.suppress(NewerEvent, msgspec.DecodeError):  # set aside, and told of
                self._struck.add(self.root(read_stored("struck", row[3], row[10])["id"]))
        elif row[9] is not None:
            root = self._root[row[1]] = self.root(row[9])
            self._struck.discard(root)
            self._words.setdefault(root, [root]).append(row[1])

    def root(self, id_: str) -> str:
        """Return the id of the first event of an event's entry."""
        return self._root.get(id_, id_)

    def words(self, id_: str) -> list[str]:
        """Return the ids of an entry's events in their order, strikes left out."""
        root = self.root(id_)
        return self._words.get(root, [root])

    def newest(self, id_: str) -> str:
        """Return the id of the newest body of an event's entry."""
        return self.words(id_)[-1]

    def is_struck(self, id_: str) -> bool:
        """Return whether an event's entry was taken back, and not written again since."""
        return self.root(id_) in self._struck
