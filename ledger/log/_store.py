"""The log of one household: reading, and the way to a writing transaction."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from ledger.errors import BookDamaged, BookLocked, BookReadOnly
from ledger.log._chain import Head, StoredEvent
from ledger.log._kept import Keeper
from ledger.log._layout import mend
from ledger.log._private import why_not
from ledger.log._protocol import Store, listed
from ledger.log._standing import Standing, standing_of
from ledger.log._translate import translated
from ledger.log._turns import Turns
from ledger.log._writing import Writing
from ledger.messages import Code, sentence

__all__ = ["Log"]

_NO_END = 2**62


class Log:
    """The events of one household, in the order in which they were written down.

    Made by :func:`ledger.log.open_log`; safe to use from several threads. Use it as a context
    manager, or call :meth:`close`.

    Attributes
    ----------
    household : str
    store : Store
        The database that it is in.
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
        store: Store,
        household: str,
        *,
        wait: float,
        why_read_only: str = "",
        keeper: Keeper | None = None,
    ) -> None:
        self.household = household
        self.store = store
        self.name = str(store.place)
        self.path: Path | None = store.place.path
        self.read_only = bool(why_read_only)
        self.why_read_only = why_read_only
        self.keeper = keeper
        self.faults: list[str] = []
        self.wait = wait
        self._sql = store.sql
        self._turn = Turns()
        self._writer: int | None = None

    def __enter__(self) -> Log:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """Close the connections; the log can still be used, and opens them anew."""
        self.store.close()

    def for_household(self, household: str) -> Log:
        """Return the log of another household of the same book, on the same connections."""
        other = Log(
            self.store, household, wait=self.wait, why_read_only=self.why_read_only,
            keeper=self.keeper,
        )  # fmt: skip
        other.faults = self.faults
        return other

    @contextlib.contextmanager
    def _connected(self) -> Iterator[Any]:
        with translated(self.name, self._held_by), self.store.reading() as raw:
            yield raw

    def _held_by(self) -> str:
        return self.store.held_by(self.household)

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
            with translated(self.name, self._held_by), self.store.transaction() as raw:
                mend(self.store, raw)
            self.faults.clear()
        if self.keeper is not None:
            firsts = {name: self.for_household(name).hash_at(1) or "" for name in heads}
            try:
                self.keeper.accept({name: (head, firsts[name]) for name, head in heads.items()})
            except OSError as error:
                raise BookReadOnly(
                    sentence(
                        "refusal-not-written",
                        target=Code(str(self.keeper.file)),
                        why=Code(why_not(error)),
                    )
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
            All kinds, and of each event only :data:`ledger.log.BARE`: the rest is a third of the
            reading.

        Yields
        ------
        list of tuple
            Rows in the order of :data:`ledger.log.COLUMNS`, or `BARE`. No transaction stays open
            between two lists; as nothing is ever changed, what was yielded is still as it was.
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

    def numbered(self, numbers: Sequence[int]) -> list[tuple[Any, ...]]:
        """Return the events of some numbers, as `read` does, in their order."""
        with self._connected() as raw:
            values = {"household": self.household, "numbers": listed(self.store, numbers)}
            return list(self._sql.numbered.run(raw, **values).fetchall())

    def written_between(self, after: int, upto: int) -> list[tuple[str, str]]:
        """Return id and `recorded_at` of the events with a number above `after`, up to `upto`."""
        with self._connected() as raw:
            values = {"household": self.household, "after": after, "upto": upto}
            return list(self._sql.written.run(raw, **values).fetchall())

    def numbers_of(self, ids: Sequence[str]) -> dict[str, int]:
        """Return the number of the event with each of some ids; what is no id of any is left out."""
        likely = [one for one in ids if one.isascii() and "\0" not in one]
        with self._connected() as raw:
            values = {"household": self.household, "ids": listed(self.store, likely)}
            found = self._sql.numbers.run(raw, **values).fetchall()
        return {row[0]: row[1] for row in found if row[1] is not None}

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
            cursor = self._sql.page_of.run(raw, **values, kinds=listed(self.store, kinds))
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
            self.store.ready()
            with (
                self.store.transaction() as raw,
                self.store.hold(raw, self.household, what),
            ):
                writing = Writing(raw, self)
                self._refuse_doubtful(writing)
                yield writing
                writing.flush()
                first = writing.hash_at(1) or ""
            if writing.written:
                self._settle(writing.head, first)

    def _refuse_doubtful(self, writing: Writing) -> None:
        """Refuse to write behind an end that is not the one known: it would hide what is missing."""
        if self.keeper is None:
            return
        standing = standing_of(self.keeper, self.household, writing.head, writing.hash_at)
        for fault in (standing.fault, *self.faults):
            if fault:
                raise BookDamaged(sentence("refusal-fault-nothing-written", fault=fault))

    def _settle(self, head: Head, first: str) -> None:
        """Keep the new head, and bring what was written into the file itself."""
        if self.keeper is not None:
            self.keeper.keep(self.household, head, first)
        self.store.settle()

    @contextlib.contextmanager
    def _my_turn(self) -> Iterator[None]:
        """Let the threads of this process write one after another, first come, first served."""
        me = threading.get_ident()
        if self._writer == me:
            raise BookLocked(sentence("refusal-writing-already", name=Code(self.name)))
        if not self._turn.acquire(timeout=self.wait):
            raise BookLocked(sentence("refusal-book-busy-itself", name=Code(self.name)))
        self._writer = me
        try:
            yield
        finally:
            self._writer = None
            self._turn.release()
