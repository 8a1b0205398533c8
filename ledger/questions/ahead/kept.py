"""Where what was said is kept: in memory, and in a file of the user's cache folder.

Each moment is kept under the hash of the last event known then. The hash covers every event before
it, so what is kept is believed only of the very same beginning of the log, whoever's file it is. The
file may be deleted at any time; what is missing is asked again.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any
from weakref import WeakKeyDictionary

import msgspec

from ledger.cache import folder, made_by, write_whole
from ledger.replay.journal import Journal

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Kept", "Ranges", "Said"]

_MOST = 16
"""Books whose moments are held in memory."""
_MOMENTS = 130
"""Moments kept of one book, the newest: those of five years, twice."""


class Ranges(msgspec.Struct):
    """What was said of one item; amounts are whole units / 1000, None where nothing was said."""

    item: str
    measure: str
    stock: float
    use: list[float | None]
    weeks: list[float | None]
    chance: float | None
    plain: float
    """Plain mean of use a week over the year before: the base that scores are compared with."""


class Said(msgspec.Struct):
    """What was said at one moment."""

    day: int
    known: int
    ranges: list[Ranges]
    keeps: dict[str, dict[str, str]]
    """How long things keep by the household's word: by item and place."""
    factor: float | None = None
    """By how much the ranges were widened; None: not worked out."""
    plants: list[dict[str, Any]] | None = None
    """Records of next-season; None: not asked at this moment."""


class _File(msgspec.Struct):
    made_by: str
    said: dict[str, Said]


class Kept:
    """What was said at the moments of one book.

    Parameters
    ----------
    book : str
        The hash of its first event; '' where the log has none: kept for one question only.
    """

    def __init__(self, book: str) -> None:
        self.book = book
        self._said: dict[str, Said] = {}
        self._head: Any = lambda known: ""
        self._is_new = False
        if book:
            self._read()

    @classmethod
    def of(cls, state: State) -> Kept:
        """Return what is kept of a state's book."""

        def head(known: int) -> str:
            return _hash(state, known)

        book = head(1) if state.known else ""
        kept = _BOOKS.get(book) if book else state.once(_of_one)
        if kept is None:
            kept = cls(book)
            while len(_BOOKS) >= _MOST:
                del _BOOKS[next(iter(_BOOKS))]
            _BOOKS[book] = kept
        kept._head = head
        return kept

    def get(self, day: int, known: int) -> Said | None:
        """Return what was said at a moment, if it is kept of this very beginning of the log."""
        return self._said.get(self._key(day, known))

    def put(self, said: Said) -> None:
        """Keep what was said at a moment."""
        self._said.pop(key := self._key(said.day, said.known), None)
        self._said[key] = said
        while len(self._said) > _MOMENTS:
            del self._said[next(iter(self._said))]
        self._is_new = True

    def save(self) -> None:
        """Write what is new to the file; where that cannot be, it is held in memory alone."""
        if not self._is_new or not self.book:
            return
        self._is_new = False
        data = msgspec.msgpack.encode({"made_by": made_by(), "said": self._said})
        write_whole(self._path(), [data])

    def _key(self, day: int, known: int) -> str:
        return f"{day} {known} {self._head(known)}"

    def _path(self) -> Path:
        return folder("said") / f"{self.book[:32]}.msgpack"

    def _read(self) -> None:
        try:
            found = msgspec.msgpack.decode(self._path().read_bytes(), type=_File)
        except (OSError, msgspec.MsgspecError, UnicodeDecodeError):
            return
        if found.made_by == made_by():
            self._said = found.said


_BOOKS: dict[str, Kept] = {}


def _of_one(_: State) -> Kept:
    return Kept("")


_HEADS: WeakKeyDictionary[Journal, dict[int, str]] = WeakKeyDictionary()
"""Hashes read so far, by what they were read for: a log only grows, but two may begin alike."""


def _hash(state: State, known: int) -> str:
    """Return the hash of the last of so many events; '' where the log has none."""
    heads = _HEADS.setdefault(state.journal, {})
    if known not in heads:
        value = state.journal.row(known - 1)[-1]
        heads[known] = value if isinstance(value, str) and len(value) >= 32 else ""
    return heads[known]
