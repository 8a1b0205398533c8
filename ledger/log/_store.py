"""The log of one household: reading, and the way to a writing transaction."""

from __future__ import annotations

import contextlib
import hashlib
import threading
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from sqlalchemy.engine import Connection, Engine

from ledger.errors import BookDamaged, BookError, BookLocked, BookReadOnly
from ledger.log._chain import Head, StoredEvent
from ledger.log._engine import FileWatch, Place, same_file
from ledger.log._holder import note_holder, present, read_holder
from ledger.log._kept import Keeper
from ledger.log._layout import mend
from ledger.log._private import why_not
from ledger.log._standing import Standing, standing_of
from ledger.log._statements import Statements
from ledger.log._translate import translated
from ledger.log._writing import Writing

__all__ = ["Log"]

_NO_END = 2**62
_TRIES = 5


class Log:
    """The events of one household, in the order in which they were written down.

    Made by :func:`ledger.log.open_log`; safe to use from several threads. Use it as a context
    manager, or call :meth:`close`.

    Attributes
    ----------
    household : str
    name : str
        The book's file or address, without a password.
    path : Path or None
        The file, where it is one.
    read_only : bool
        The file or its folder cannot be written to.
    why_read_only : str
        Why that is, with what to do.
    keeper : Keeper or None
        Keeps the head of what is written; None for a copy that nobody writes into.
    faults : list of str
        What was found wrong with the tables and triggers when the book was opened.
    """

    def __init__(
        self,
        engine: Engine,
        place: Place,
        household: str,
        *,
        wait: float,
        why_read_only: str = "",
        keeper: Keeper | None = None,
        watch: FileWatch | None = None,
    ) -> None:
        self.household = household
        self.name = str(place)
        self.path: Path | None = place.path
        self.read_only = bool(why_read_only)
        self.why_read_only = why_read_only
        self.keeper = keeper
        self.faults: list[str] = []
        self.wait = wait
        self._watch = watch or FileWatch(place.path)
        self.is_sqlite = place.path is not None
        self._place = place
        # Reads begin nothing: each is one statement, and so one moment of the book.
        self._engine = engine
        self._reading = (
            engine if self.is_sqlite else engine.execution_options(isolation_level="AUTOCOMMIT")
        )
        self._writing = engine.execution_options(croft_begin="BEGIN IMMEDIATE")
        self._sql = Statements(engine)
        self._turn = threading.Lock()
        self._writer: int | None = None
        self._write_ahead = not self.is_sqlite
        self._lock_key: int | None = None

    def __enter__(self) -> Log:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the connections; the log can still be used, and opens them anew."""
        self._engine.dispose()

    def for_household(self, household: str) -> Log:
        """Return the log of another household of the same book, on the same connections."""
        other = Log(
            self._engine, self._place, household, wait=self.wait,
            why_read_only=self.why_read_only, keeper=self.keeper, watch=self._watch,
        )  # fmt: skip
        other.faults = self.faults
        return other

    @contextlib.contextmanager
    def _connected(self) -> Iterator[Any]:
        self._look()
        with translated(self.name, self._held_by), self._reading.connect() as connection:
            yield connection.connection.driver_connection

    @contextlib.contextmanager
    def _connected_for_check(self) -> Iterator[Connection]:
        self._look()
        with translated(self.name, self._held_by), self._reading.connect() as connection:
            yield connection

    def _look(self) -> None:
        """Let connections go that may remember pages of a file which somebody else wrote to."""
        if self.path is not None and self._watch.has_changed():
            self._engine.dispose()

    # Reading

    def head(self) -> Head:
        """Return the number and hash of the last event, ``Head(0, "")`` when there is none."""
        with self._connected() as raw:
            row = self._sql.head.run(raw, household=self.household).fetchone()
        return Head(row[0], row[1]) if row else Head(0, "")

    def accept(self, heads: Mapping[str, Head]) -> None:
        """Keep these heads of households from now on, and set missing or changed guards anew.

        Raises
        ------
        BookReadOnly
            The book or the data folder cannot be written to.
        """
        if self.faults:
            if self.read_only:
                raise BookReadOnly(self.why_read_only)
            with translated(self.name, self._held_by), self._transaction() as connection:
                mend(connection)
            self.faults.clear()
        if self.keeper is not None:
            firsts = {name: self.for_household(name).hash_at(1) or "" for name in heads}
            try:
                self.keeper.accept({name: (head, firsts[name]) for name, head in heads.items()})
            except OSError as error:
                raise BookReadOnly(
                    f"{self.keeper.file} cannot be written: {why_not(error)}"
                ) from error

    def hash_at(self, seq: int) -> str | None:
        """Return the stored hash of an event by its number: "" for 0, None where there is none."""
        with self._connected() as raw:
            return self._hash_at(raw, seq)

    def _hash_at(self, raw: Any, seq: int) -> str | None:
        if seq == 0:
            return ""
        row = self._sql.hash_at.run(raw, household=self.household, seq=seq).fetchone()
        return row[0] if row else None

    def standing(self) -> Standing:
        """Return how this log stands to the head kept of it, by a look at its end.

        A log whose events do not chain may still end as it should: :func:`verify` reads them all.
        """
        if self.keeper is None:
            return Standing()
        return standing_of(self.keeper, self.household, self.head(), self.hash_at)

    def kinds(self, after: int = 0) -> list[tuple[str, int, int]]:
        """Return each kind and body version behind a number, with the first event that has it."""
        with self._connected() as raw:
            return self._kinds(raw, after)

    def _kinds(self, raw: Any, after: int) -> list[tuple[str, int, int]]:
        found = self._sql.kinds.run(raw, household=self.household, after=after).fetchall()
        return [(row[0], row[1], row[2]) for row in found]

    def position(self) -> int:
        """Return the last event's number: while it stays the same, nothing has changed."""
        with self._connected() as raw:
            return self._sql.last.run(raw, household=self.household).fetchone()[0] or 0

    def count(self) -> int:
        """Return how many events there are; numbers have no gaps, so the last one says it."""
        return self.position()

    def households(self) -> list[str]:
        """Return the names of all households with events in this book, sorted."""
        found: list[str] = []
        with self._connected() as raw:
            while True:
                last = found[-1] if found else ""
                name = self._sql.households.run(raw, household=last).fetchone()[0]
                if name is None:
                    return sorted(found)
                found.append(name)

    def get(self, id: str) -> StoredEvent | None:
        """Return the event with this id, or None."""
        if not id.isascii() or "\0" in id:
            return None  # no id of an event, and half a character is none of a database
        with self._connected() as raw:
            row = self._sql.one.run(raw, household=self.household, id=id).fetchone()
        return StoredEvent(*row) if row else None

    def ids(self, *, beginning: str) -> list[str]:
        """Return the ids that begin with some hexadecimal digits and hyphens, sorted."""
        # "g" follows every character of an id, in plain order and in that of every language.
        with self._connected() as raw:
            found = self._sql.ids.run(
                raw, household=self.household, low=beginning, high=beginning + "g"
            )
            return [row[0] for row in found.fetchall() if row[0].startswith(beginning)]

    def read(
        self,
        after: int = 0,
        upto: int | None = None,
        kinds: Sequence[str] | None = None,
        chunk: int = 20_000,
        *,
        later_words: bool = False,
        bare: bool = False,
    ) -> Iterator[list[tuple[Any, ...]]]:
        """Yield events in their order as lists of plain rows.

        Parameters
        ----------
        after : int
            Only events with a higher number.
        upto : int, optional
            Only events up to this number; by default all that are there when the last chunk
            is read.
        kinds : sequence of str, optional
            Only events of these kinds.
        chunk : int
            Most rows in one list.
        later_words : bool
            Only what says something of an earlier event: corrections and strikes (then `kinds`
            is not looked at).
        bare : bool
            All kinds, with None for `typed_at` and `hash`: a replay reads neither, and they are a
            tenth of the reading.

        Yields
        ------
        list of tuple
            Rows in the order of :data:`ledger.log.COLUMNS`. No transaction stays open between
            two lists; as nothing is ever changed, what was yielded is still as it was.
        """
        while True:
            with self._connected() as raw:
                rows = self._page(
                    raw, after, upto, kinds, chunk, later_words=later_words, bare=bare
                )
            if rows:
                yield rows
            if len(rows) < chunk:
                return
            after = rows[-1][0]

    def mentioning(self, kind: str, text: str, on: str) -> list[tuple[Any, ...]]:
        """Return the events of a kind whose body holds a text, or that happened on a day.

        Parameters
        ----------
        kind, text, on : str
            Of the text, ``%`` and ``_`` stand for anything: who asks looks at what comes back.

        Returns
        -------
        list of tuple
            Rows in the order of :data:`ledger.log.COLUMNS`, oldest first.
        """
        with self._connected() as raw:
            values = {"household": self.household, "kind": kind, "text": text, "on": on}
            return list(self._sql.mentioning.run(raw, **values).fetchall())

    def _page(
        self,
        raw: Any,
        after: int,
        upto: int | None,
        kinds: Sequence[str] | None,
        rows: int,
        *,
        later_words: bool = False,
        bare: bool = False,
    ) -> list[tuple[Any, ...]]:
        values = {
            "household": self.household,
            "after": after,
            "upto": _NO_END if upto is None else upto,
            "rows": rows,
        }
        if later_words:
            cursor = self._sql.page_later.run(raw, **values)
        elif bare:
            cursor = self._sql.page_bare.run(raw, **values)
        elif kinds is None:
            cursor = self._sql.page.run(raw, **values)
        else:
            cursor = self._sql.page_of.run(raw, **values, kinds=self._sql.listed(kinds))
        found: list[tuple[Any, ...]] = cursor.fetchall()
        return found

    # Writing

    @contextlib.contextmanager
    def writing(self, what: str = "write") -> Iterator[Writing]:
        """Run one writing transaction: all of it is kept, or nothing.

        Parameters
        ----------
        what : str
            What is being done, for others who wait: ``"import"``.

        Yields
        ------
        Writing
            Appends, and reads that see what was appended.

        Raises
        ------
        BookLocked
            Another writer held the book for longer than `wait`; the message says who.
        BookReadOnly
            The book cannot be written to, or the disk is full.
        """
        if self.read_only:
            raise BookReadOnly(self.why_read_only)
        with self._my_turn(), translated(self.name, self._held_by):
            self._look()
            if not self._write_ahead:
                self._set_write_ahead()
            with self._transaction() as connection, self._held(connection, what):
                writing = Writing(connection.connection.driver_connection, self)
                self._refuse_doubtful(writing)
                yield writing
                writing.flush()
                first = writing.hash_at(1) or ""
            if writing.written:
                self._settle(writing.head, first)

    @contextlib.contextmanager
    def _transaction(self) -> Iterator[Connection]:
        """Begin on the file that is there now: another may take its place while a writer waits."""
        for _ in range(_TRIES):
            with self._writing.connect() as connection, connection.begin() as begun:
                if self.path is None or connection.info.get("file") == same_file(self.path):
                    yield connection
                    return
                begun.rollback()
        raise BookError(f"{self.name} is being replaced again and again. Try again later")

    def _refuse_doubtful(self, writing: Writing) -> None:
        """Refuse to write behind an end that is not the one known: it would hide what is missing."""
        if self.keeper is None:
            return
        standing = standing_of(self.keeper, self.household, writing.head, writing.hash_at)
        for fault in (standing.fault, *self.faults):
            if fault:
                raise BookDamaged(f"{fault}. Nothing was written")

    def _settle(self, head: Head, first: str) -> None:
        """Keep the new head, and bring what was written into the file itself."""
        if self.keeper is not None:
            self.keeper.keep(self.household, head, first)
        if self.path is not None:
            self._settle_file()
            self._watch.looked()

    def _settle_file(self) -> None:
        """Move the journal into the file: what was acknowledged is on the disk already."""
        with contextlib.suppress(Exception), self._engine.connect() as connection:
            raw: Any = connection.connection.driver_connection
            raw.execute("PRAGMA busy_timeout = 0")
            try:
                raw.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
            finally:
                raw.execute(f"PRAGMA busy_timeout = {int(self.wait * 1000)}")

    @contextlib.contextmanager
    def _my_turn(self) -> Iterator[None]:
        """Let the threads of this process write one after another, in fair turns."""
        me = threading.get_ident()
        if self._writer == me:
            raise BookLocked(f"{self.name}: this program is writing already, in the same thread")
        if not self._turn.acquire(timeout=self.wait):
            raise BookLocked(
                f"{self.name} is being written to by this same program, and it took too long. "
                "Try again later"
            )
        self._writer = me
        try:
            yield
        finally:
            self._writer = None
            self._turn.release()

    def _set_write_ahead(self) -> None:
        with self._engine.connect() as connection:
            # Refused while another connection is busy; the book works all the same until then.
            mode = connection.exec_driver_sql("PRAGMA journal_mode").scalar()
            if mode != "wal":
                mode = connection.exec_driver_sql("PRAGMA journal_mode = WAL").scalar()
            self._write_ahead = mode == "wal"

    @contextlib.contextmanager
    def _held(self, connection: Connection, what: str) -> Iterator[None]:
        """Hold the household's lock, with this process noted as the holder."""
        if self.path is not None:
            # BEGIN IMMEDIATE holds it already. The note goes away just before the lock does.
            with note_holder(self.path, what):
                yield
            return
        me = present(what)
        label = f"croftbook {what}, process {me['pid']}, {me['user']} on {me['host']}"
        connection.exec_driver_sql(
            "SELECT set_config('application_name', %s, true), set_config('lock_timeout', %s, true)",
            (label.encode("ascii", "replace").decode()[:63], f"{max(1, int(self.wait * 1000))}ms"),
        )
        connection.exec_driver_sql("SELECT pg_advisory_xact_lock(%s)", (self._key(connection),))
        yield

    def _key(self, connection: Connection) -> int:
        if self._lock_key is None:
            schema = connection.exec_driver_sql("SELECT current_schema()").scalar()
            digest = hashlib.sha256(f"croftbook\0{schema}\0{self.household}".encode()).digest()
            self._lock_key = int.from_bytes(digest[:8], "big", signed=True)
        return self._lock_key

    def _held_by(self) -> str:
        if self.path is not None:
            noted = read_holder(self.path)
            if noted is None:
                return ""
            return (
                f"{noted.get('user')} on {noted.get('host')} (process {noted.get('pid')}, "
                f"{noted.get('what')}, since {noted.get('since')})"
            )
        return self._held_on_server()

    def _held_on_server(self) -> str:
        if self._lock_key is None:
            return ""
        with contextlib.suppress(Exception), self._reading.connect() as connection:
            row = connection.exec_driver_sql(
                "SELECT a.application_name, a.usename, a.pid, a.xact_start FROM pg_locks l "
                "JOIN pg_stat_activity a ON a.pid = l.pid WHERE l.locktype = 'advisory' "
                "AND l.granted AND l.classid::bigint = %s AND l.objid::bigint = %s",
                ((self._lock_key >> 32) & 0xFFFFFFFF, self._lock_key & 0xFFFFFFFF),
            ).first()
            if row:
                return f"{row[0]} (database user {row[1]}, backend {row[2]}, since {row[3]})"
        return ""
