"""The store in a file: SQLite, with every transaction begun on purpose."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any, NamedTuple
from urllib.parse import quote

from ledger.errors import BookError
from ledger.log._holder import note_holder, read_holder
from ledger.log._place import FileWatch, Place, same_file
from ledger.log._protocol import Row
from ledger.log._statements import Statements
from ledger.log._translate import translated
from ledger.messages import Code, sentence

__all__ = ["SqliteStore", "file_uri"]

_TRIES = 5
_IDLE = 5
"""Connections kept open for the next one who asks."""
_PAGES = 2_000
_SQL = Statements("sqlite")


def file_uri(path: Path, how: str) -> str:
    """Return the address by which SQLite opens a file of any name."""
    return f"file:{quote(os.fsencode(path.absolute()))}?{how}"


class _Open(NamedTuple):
    """A connection, the file that it was opened on, and the process and round that opened it."""

    raw: sqlite3.Connection
    file: tuple[int, int] | None
    of: tuple[int, int]


class SqliteStore:
    """A book's file, see :class:`ledger.log._protocol.Store`; safe to use from several threads.

    Parameters
    ----------
    place : Place
    mode : {'rwc', 'rw', 'ro', 'immutable'}
    wait : float
        Seconds to wait for another writer.
    """

    dialect = "sqlite"
    streams = False

    def __init__(self, place: Place, *, mode: str, wait: float) -> None:
        assert place.path is not None
        self.place = place
        self.sql = _SQL
        self._path = place.path
        self._uri = file_uri(
            place.path, "mode=ro&immutable=1" if mode == "immutable" else f"mode={mode}"
        )
        self._wait = wait
        self._watch = FileWatch(place.path)
        self._is_write_ahead = False
        self._lock = threading.Lock()
        self._idle: list[_Open] = []
        self._round = 0

    # Connections

    def connect(self) -> sqlite3.Connection:
        """Open one more connection."""
        # isolation_level None: the driver begins nothing by itself.
        raw = sqlite3.connect(
            self._uri, uri=True, timeout=self._wait, isolation_level=None, check_same_thread=False
        )
        try:
            raw.execute("PRAGMA synchronous = FULL")
        except BaseException:
            raw.close()
            raise
        return raw

    @contextlib.contextmanager
    def _lent(self) -> Iterator[_Open]:
        """Lend a connection to the file that is there now; what it leaves undone is undone."""
        one = self._taken()
        try:
            yield one
        finally:
            self._given_back(one)

    def _taken(self) -> _Open:
        now = same_file(self._path)
        while True:
            with self._lock:
                one = self._idle.pop() if self._idle else None
                of = os.getpid(), self._round
            if one is None:
                raw = self.connect()
                return _Open(raw, same_file(self._path), of)
            # A backup copied over the book is another file: what the old connection writes is lost.
            if one.of == of and one.file == now:
                return one
            _closed(one)

    def _given_back(self, one: _Open) -> None:
        try:
            if one.raw.in_transaction:
                one.raw.rollback()
        except sqlite3.Error:
            _closed(one)
            return
        with self._lock:
            if one.of == (os.getpid(), self._round) and len(self._idle) < _IDLE:
                self._idle.append(one)
                return
        _closed(one)

    def close(self) -> None:
        """Close the connections; those lent at the moment are closed when they come back."""
        with self._lock:
            idle, self._idle = self._idle, []
            self._round += 1
        for one in idle:
            _closed(one)

    def _look(self) -> None:
        """Let connections go that may remember pages of a file which somebody else wrote to."""
        if self._watch.has_changed():
            self.close()

    @contextlib.contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """Give a connection outside any transaction."""
        self._look()
        with self._lent() as one:
            yield one.raw

    @contextlib.contextmanager
    def transaction(self) -> Iterator[sqlite3.Connection]:
        """Begin on the file that is there now: another may take its place while a writer waits."""
        for _ in range(_TRIES):
            with self._lent() as one:
                one.raw.execute("BEGIN IMMEDIATE")
                if one.file == same_file(self._path):
                    yield one.raw
                    one.raw.commit()
                    return
        raise BookError(sentence("refusal-replaced-again", place=Code(str(self.place))))

    def hold(self, raw: Any, household: str, what: str) -> AbstractContextManager[None]:
        """Note the holder: BEGIN IMMEDIATE holds the lock, and the note goes just before it does."""
        return note_holder(self._path, what)

    def held_by(self, household: str) -> str:
        """Return who notes to be writing to the file."""
        noted = read_holder(self._path)
        if noted is None:
            return ""
        return (
            f"{noted.get('user')} on {noted.get('host')} (process {noted.get('pid')}, "
            f"{noted.get('what')}, since {noted.get('since')})"
        )

    def ready(self) -> None:
        """See that the file is in write-ahead mode, and that no stale page is remembered."""
        self._look()
        if self._is_write_ahead:
            return
        with self._lent() as one:
            # Refused while another connection is busy; the book works all the same until then.
            mode = one.raw.execute("PRAGMA journal_mode").fetchone()[0]
            if mode != "wal":
                mode = one.raw.execute("PRAGMA journal_mode = WAL").fetchone()[0]
            self._is_write_ahead = mode == "wal"

    def settle(self) -> None:
        """Move the journal into the file: what was acknowledged is on the disk already."""
        with contextlib.suppress(Exception), self._lent() as one:
            one.raw.execute("PRAGMA busy_timeout = 0")
            try:
                one.raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
            finally:
                one.raw.execute(f"PRAGMA busy_timeout = {int(self._wait * 1000)}")
        self._watch.looked()

    # Append

    def append(self, raw: Any, rows: Sequence[Row]) -> None:
        """Append rows that are all new."""
        raw.executemany(self.sql.insert, rows)

    def take_in(self, raw: Any, parts: Iterable[Sequence[Row]]) -> bool:
        """Leave it to `append`: nothing is gained by sending rows one part at a time."""
        return False

    # The layout and its guards

    def lock_layout(self, raw: Any) -> None:
        """Do nothing: the transaction holds the whole file."""

    def tables(self, raw: Any) -> set[str]:
        """Return the names of tables and views."""
        found = raw.execute("SELECT name FROM sqlite_master WHERE type IN ('table', 'view')")
        return {row[0] for row in found}

    def columns(self, raw: Any, table: str) -> list[tuple[str, str]]:
        """Return the columns of a plain table."""
        kind = raw.execute("SELECT type FROM sqlite_master WHERE name = ?", (table,)).fetchone()
        if kind is None or kind[0] != "table":
            return []
        return [(row[1], row[2].upper()) for row in raw.execute(f"PRAGMA table_info({table})")]

    def guards(self, raw: Any) -> dict[str, str]:
        """Return the triggers' statements by name."""
        found = raw.execute(
            "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'events'"
        )
        return {row[0]: " ".join((row[1] or "?").split()) for row in found}

    def set_guard(self, raw: Any, statement: str, there: str | None) -> None:
        """Set one trigger anew."""
        if there is not None:
            raw.execute(f"DROP TRIGGER {there}")
        raw.execute(statement)

    def may_open(self, household: str) -> None:
        """Let everybody who can read the file ask for any household of it."""

    # Check and backup

    def damage(self, raw: Any, most: int) -> list[str]:
        """Return what SQLite's own check of pages and indexes finds."""
        rows = raw.execute(f"PRAGMA integrity_check({most})").fetchall()
        found = [str(row[0]).replace("*** in database main ***", "").strip() for row in rows]
        return [] if found == ["ok"] else found

    def unique_keys(self, raw: Any) -> list[list[str]]:
        """Return the columns of each unique index."""
        lists = raw.execute("PRAGMA index_list(events)").fetchall()
        unique = [row[1] for row in lists if row[2]]
        return [[one[2] for one in raw.execute(f'PRAGMA index_info("{name}")')] for name in unique]

    def copy_to(self, target: Path, progress: Callable[[int, int], None] | None) -> bool:
        """Copy the file by SQLite's own backup, of one moment while others write on."""

        def report(_status: int, remaining: int, total: int) -> None:
            if progress is not None:
                progress(total - remaining, total)

        with translated(f"{target} (a copy of {self.place})"), self._lent() as one:
            one.raw.execute("BEGIN")  # a read transaction holds the moment
            one.raw.execute("SELECT count(*) FROM book_layout").fetchone()
            with contextlib.closing(sqlite3.connect(target, isolation_level=None)) as copy:
                one.raw.backup(copy, pages=_PAGES, progress=report)
                # One file that needs none beside it, and can be read from where nothing is written.
                copy.execute("PRAGMA journal_mode = DELETE")
        return True


def _closed(one: _Open) -> None:
    """Close a connection, but for one of the parent of a fork: that is the parent's to close."""
    if one.of[0] == os.getpid():
        with contextlib.suppress(sqlite3.Error):
            one.raw.close()
