"""The one data door: a book, and its answers kept until something new is written down."""

from __future__ import annotations

import contextlib
import datetime as dt
import json
import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from dashboard.watch import Watch
from ledger.book import Book
from ledger.errors import BookError
from ledger.history import HistoryRow, newer_rows
from ledger.projections import Answer, Node

__all__ = ["NOW", "Data", "Moment"]

_KEPT = 64
_TREES = 8
"""Whole trees of figures that are kept: the largest has ten thousand lines and takes 11 MB."""
_A_GENERATION = 10**9
_Out = TypeVar("_Out")


@dataclass(frozen=True)
class Moment:
    """Which moment is looked at: what happened by a day, written down by a moment; None: now."""

    as_of: str | None = None
    known_at: str | None = None

    @property
    def is_now(self) -> bool:
        """Whether nothing is held back."""
        return self.as_of is None and self.known_at is None


NOW = Moment()
"""What holds now, nothing held back."""


class Data:
    """What pages ask. Safe to be asked from several threads.

    Parameters
    ----------
    book : Book
    """

    def __init__(self, book: Book) -> None:
        self.book = book
        self.watch = Watch(book)
        self._kept: OrderedDict[tuple[Any, ...], Any] = OrderedDict()
        self._trees: OrderedDict[tuple[Any, ...], Any] = OrderedDict()
        self._history: list[HistoryRow] = []
        self._bodies: dict[int, tuple[int, int, list[tuple[str, dict[str, Any]]]]] = {}
        self._upto = 0
        self._generation = 0
        self._settings: dict[str, str | None] = {}
        self._turn = threading.RLock()
        self.has_sample = False
        """Whether the server opens the invented household beside this book."""

    def position(self) -> int:
        """Return the number of the last event written down."""
        return int(self.book.log.position())

    def mark(self) -> int:
        """Return a number that stays the same as long as the book does.

        It is the last event's, and another one where the book was restored meanwhile.
        """
        seq = self.book.look().seq
        return seq + self.book.generation * _A_GENERATION

    def today(self) -> dt.date:
        """Return the household's today."""
        return self.book.today()

    def setting(self, name: str, otherwise: str) -> str:
        """Return a setting as it holds now; as it was last known while the book cannot be read."""
        with contextlib.suppress(BookError):
            self._settings[name] = self.book.setting(name)
        return self._settings.get(name) or otherwise

    def show(self, name: str, moment: Moment = NOW, **options: Any) -> Answer:
        """Return the answer to a question, worked out once for each moment and end of the log."""
        said = tuple(sorted((key, repr(value)) for key, value in options.items()))
        return self.kept(
            ("show", name, moment, said),
            lambda: self.book.show(name, as_of=moment.as_of, known_at=moment.known_at, **options),
        )

    def why(self, address: str, field: str | None, moment: Moment = NOW) -> Node:
        """Return a figure's arithmetic, worked out once for as long as its branches are opened."""
        return self._once(
            self._trees,
            _TREES,
            (address, field, moment),
            lambda: self.book.why(address, field, as_of=moment.as_of, known_at=moment.known_at),
        )

    def history(self) -> list[HistoryRow]:
        """Return every event, newest first."""
        return self.kept(("history",), self._told)

    def _told(self) -> list[HistoryRow]:
        """Return the history; what is new and changes nothing earlier is put before the old."""
        is_same = self._generation == self.book.generation
        new = newer_rows(self.book.log, self._upto) if self._upto and is_same else None
        self._generation = self.book.generation
        self._history = self.book.history() if new is None else [*new[::-1], *self._history]
        self._upto = self._history[0].seq if self._history else 0
        return self._history

    def newest(self, many: int) -> list[tuple[str, dict[str, Any]]]:
        """Return kinds and bodies of the newest events, newest first; those read before are kept."""

        def make() -> list[tuple[str, dict[str, Any]]]:
            upto, generation, known = self._bodies.get(many, (0, -1, []))
            end = self.position()
            if generation != self.book.generation or end < upto:
                upto, known = 0, []
            start = max(upto, end - many)
            rows = self.book.log.read(after=start)
            new = [(row[2], json.loads(row[10])) for chunk in rows for row in chunk]
            found = [*new[::-1], *known][:many]
            self._bodies[many] = start + len(new), self.book.generation, found
            return found

        return self.kept(("newest", many), make)

    def kept(self, key: tuple[Any, ...], make: Callable[[], _Out]) -> _Out:
        """Return something made once for the present end of the log and day.

        One thread at a time makes it: what two phones ask at once is worked out once.
        """
        return self._once(self._kept, _KEPT, key, make)

    def _once(
        self,
        kept: OrderedDict[tuple[Any, ...], Any],
        most: int,
        key: tuple[Any, ...],
        make: Callable[[], _Out],
    ) -> _Out:
        with self._turn:
            whole = (self.mark(), self.today(), *key)
            if whole in kept:
                kept.move_to_end(whole)
                return kept[whole]
            made = kept[whole] = make()
            while len(kept) > most:
                kept.popitem(last=False)
            return made
