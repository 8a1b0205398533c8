"""The journal of a book's first events, and the moment at which all of them count, kept in a file.

Reading forty years of events again takes twenty times as long as reading their columns, and other
moments grow from the one that is matched already. It is a file of the user's cache folder,
believed only if it is whole (its checksum), was written by this very program, and its last event is
in the log under the same hash, which covers every event before it. Else it is as if it were not
there. What was written down since is taken in as always, so that late entries, corrections and
earlier moments are what they are without it. It may be deleted at any time.
"""

from __future__ import annotations

import hashlib
import mmap
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import msgspec
import numpy as np

from ledger.cache import folder, made_by, write_whole
from ledger.replay.columns import Array
from ledger.replay.journal import Journal

__all__ = ["keep", "kept"]

_MAGIC = b"croftbook journal 4\n"
_NAMES = ("items", "units", "people", "lots", "garden", "whom")
_LEAST = 1_000
"""Events in a journal that is worth a file."""
_PART = 10
"""A file is written anew where this part of the book is not in it."""
_MOST = 8
"""Files kept, the newest."""
_DIGEST, _SIZE, _ALIGNED = 32, 8, 16

HashAt = Callable[[int], str | None]
Columns = dict[str, dict[str, Array]]
"""Columns by their table and name."""


class _Texts(msgspec.Struct):
    """All of a journal but its columns, and which of those stand behind it: table, name, type, rows."""

    made_by: str
    head: str
    ids: list[str]
    names: dict[str, list[str]]
    ways: tuple[list[int], list[int], list[int]]
    bodies: dict[int, dict[str, Any]]
    unread: dict[int, str]
    labels: list[tuple[int, int, Any, Any]]
    first_said: dict[int, tuple[int, int, str]]
    looked_up: dict[int, int]
    columns: list[tuple[str, str, str, int]]


class _File(NamedTuple):
    texts: _Texts
    data: memoryview


def _path(hash_at: HashAt) -> Path | None:
    first = hash_at(1)
    return folder("journal") / f"{first[:32]}.columns" if first else None


def kept(hash_at: HashAt) -> tuple[Journal, Columns] | None:
    """Return the journal kept of a book's first events, with the columns of their moment.

    None where there is none to be believed.

    Parameters
    ----------
    hash_at : callable
        The stored hash of an event by its number.
    """
    place = _path(hash_at)
    if place is None:
        return None
    try:
        found = _read(place)
    except (OSError, ValueError, msgspec.MsgspecError):  # cut off, or of another make
        return None
    if found is None or found.texts.made_by != made_by():
        return None
    journal, columns = _journal(found)
    if not found.texts.head or hash_at(len(journal)) != found.texts.head:
        return None
    return journal, columns


def keep(journal: Journal, taken: int, hash_at: HashAt, moment: Callable[[], Columns]) -> None:
    """Write a journal to its file, where enough of it is not in there yet.

    Parameters
    ----------
    journal : Journal
    taken : int
        How many events came from the file.
    hash_at : callable
        The stored hash of an event by its number.
    moment : callable
        Gives the columns of the moment at which all events count.
    """
    count = len(journal)
    if count < _LEAST or count - taken < count // _PART:
        return
    place, head = _path(hash_at), hash_at(count)
    if place is None or not head:
        return
    try:
        parts = _parts(journal, moment(), head)
    except OverflowError:  # a number in a body that is longer than the file can hold
        return
    if write_whole(place, parts):
        others = sorted(place.parent.glob("*.columns"), key=lambda one: one.stat().st_mtime)
        for one in others[:-_MOST]:
            one.unlink(missing_ok=True)


def _parts(journal: Journal, moment: Columns, head: str) -> list[Any]:
    own = {
        name: {one: table[one] for one in table.dtypes} for name, table in journal.tables.items()
    }
    columns = [
        (table, name, np.ascontiguousarray(column))
        for table, several in (own | moment).items()
        for name, column in several.items()
    ]
    texts = _Texts(
        made_by(), head, list(map(journal.id_of, range(len(journal)))),
        {name: getattr(journal, name).texts for name in _NAMES},
        (journal.ways.item, journal.ways.measure, journal.ways.unit),
        journal.bodies, journal.unread, journal.labels, journal.first_said,
        journal.looked_up, [(table, name, one.dtype.str, one.size) for table, name, one in columns],
    )  # fmt: skip
    said = msgspec.msgpack.encode(texts)
    parts: list[Any] = [len(said).to_bytes(_SIZE, "little"), said]
    parts.append(bytes(-sum(map(len, (_MAGIC, *parts, bytes(_DIGEST)))) % _ALIGNED))
    for _, _, column in columns:
        parts += [column.view(np.uint8), bytes(-column.nbytes % _ALIGNED)]
    mark = hashlib.sha256()
    for part in parts:
        mark.update(part)
    return [_MAGIC, mark.digest(), *parts]


def _read(place: Path) -> _File | None:
    with place.open("rb") as file:
        # copied where it is written to: a column may be, and the file stays as it is
        data = memoryview(mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_COPY))
    start = len(_MAGIC) + _DIGEST
    if bytes(data[: len(_MAGIC)]) != _MAGIC:
        return None
    if hashlib.sha256(data[start:]).digest() != bytes(data[len(_MAGIC) : start]):
        return None
    size = int.from_bytes(data[start : start + _SIZE], "little")
    texts = msgspec.msgpack.decode(data[start + _SIZE : start + _SIZE + size], type=_Texts)
    end = start + _SIZE + size
    return _File(texts, data[end + -end % _ALIGNED :])


def _journal(found: _File) -> tuple[Journal, Columns]:
    texts, journal = found.texts, Journal()
    journal.ids = texts.ids
    for name in _NAMES:
        getattr(journal, name).codes(texts.names[name])
    for one in zip(*texts.ways, strict=True):
        journal.ways.code(*one)
    journal.bodies, journal.unread, journal.labels = texts.bodies, texts.unread, texts.labels
    journal.first_said, journal.looked_up = texts.first_said, texts.looked_up
    columns: Columns = {}
    at = 0
    for table, name, dtype, rows in texts.columns:
        column = np.frombuffer(found.data, dtype, rows, at)
        columns.setdefault(table, {})[name] = column
        at += column.nbytes + -column.nbytes % _ALIGNED
    for name, mine in journal.tables.items():
        own = columns.pop(name)
        mine.hold(next(iter(own.values())).size, own)
    return journal, columns
