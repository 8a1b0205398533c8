"""One writing transaction: numbering, chaining, and saying the same thing twice only once."""

from __future__ import annotations

import datetime as dt
import itertools
import re
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.errors import BookError, InputError
from ledger.log._chain import Head, NewEvent, StoredEvent, canonical_bodies, chained
from ledger.log._protocol import Row, listed
from ledger.messages import Code, Message, Typed, sentence

if TYPE_CHECKING:
    from ledger.log._store import Log

__all__ = ["Writing"]

_BUFFERED = 5_000
"""Events held before they go to the database: enough for its speed, few enough for memory."""

_AT_ONCE = 500
"""Rows chained before they go to a server that takes them in meanwhile."""

_FEW = 20
"""Rows below which sending them on as they are made is not worth the look at each id."""

_FIXED_WIDTH = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z", re.ASCII)


class Writing:
    """What :meth:`ledger.log.Log.writing` yields.

    Attributes
    ----------
    head : Head
        The log's end, with everything appended so far.
    was_empty : bool
        The book held no event of this household when the transaction began.
    began : str
        When the transaction began, by this machine's clock, RFC 3339 in UTC.
    written, repeated : int
        Events appended anew, and those that were there already.
    """

    def __init__(self, raw: Any, log: Log) -> None:
        self._raw = raw
        self._log = log
        self._sql = log._sql
        self._household = log.household
        row = self._sql.head.run(raw, household=self._household).fetchone()
        self._seq: int = row[0] if row else 0
        self._hash: str = row[1] if row else ""
        self._last_at: str = row[2] if row else ""
        self.was_empty = row is None
        # One moment for the whole transaction: what was known at a moment holds all or none.
        self.began = clock.stamp()
        self._now = max(self.began, self._last_at)
        self._absent: set[str] = set()
        self._pending: dict[str, Row] = {}
        self._in_database = not self.was_empty
        self.written = 0
        self.repeated = 0

    @property
    def head(self) -> Head:
        """The log's end, with everything appended so far."""
        return Head(self._seq, self._hash)

    @property
    def last_recorded_at(self) -> str:
        """When the last event was written down, "" where there is none."""
        return self._last_at

    # Appending

    def append(self, event: NewEvent) -> StoredEvent:
        """Append one event, or return the one that is there with the same id and content.

        Raises
        ------
        InputError
            The id is there with other content, the body is not canonical, or `recorded_at`
            goes back.
        """
        canonical_bodies((event,))
        there = self.get(event.id)
        if there is not None:
            return self._repeat(event, there)
        row = self._seal(event)
        if len(self._pending) >= _BUFFERED:
            self.flush()
        return StoredEvent(*row[1:])

    def append_new(self, events: Sequence[NewEvent]) -> list[tuple[Any, ...]]:
        """Append events whose ids nobody has: they were looked for with `get`, or just made.

        Returns
        -------
        list of tuple
            Their rows, in the order of :data:`ledger.log.COLUMNS`.

        Raises
        ------
        InputError
            As :meth:`append`; nothing of `events` is appended then.
        """
        canonical_bodies(events)
        before, pending = len(self._pending), self._pending
        self._seal_all(events)
        if len(pending) != before + len(events):
            raise BookError(sentence("refusal-id-twice-at-once", name=Code(self._log.name)))
        rows = [pending[event.id][1:] for event in events]
        if len(pending) >= _BUFFERED:
            self.flush()
        return rows

    def look_ahead(self, ids: Sequence[str]) -> None:
        """Look for many ids at once, so that `get` need not ask for each that is not there."""
        there = self._stored([*ids]) if self._in_database else {}
        self._absent = {one for one in ids if one not in there}

    def append_many(self, events: Iterable[NewEvent]) -> int:
        """Append events as they come, in memory that does not grow with their number.

        Returns
        -------
        int
            How many were new; the rest were there already with the same content.

        Raises
        ------
        InputError
            As :meth:`append`, naming the id.
        """
        before = self.written
        self._absent.clear()
        source = iter(events)
        while chunk := list(itertools.islice(source, _BUFFERED)):
            self.flush()
            canonical_bodies(chunk)
            if not self._copied(chunk):
                self._sort_out(chunk)
        return self.written - before

    def _copied(self, chunk: Sequence[NewEvent]) -> bool:
        """Send a chunk straight on, and return True; or undo that and return False.

        Only to a store that takes rows in while the next ones are chained here, and only while every
        event was new: looking for each id beforehand costs as much as writing it, and the unique key
        looks anyway.
        """
        store = self._log.store
        if not store.streams or self.repeated or len(chunk) < _FEW:
            return False
        if len({event.id for event in chunk}) < len(chunk):
            return False
        state = self._seq, self._hash, self._last_at, self.written
        if store.take_in(self._raw, self._sealed_parts(chunk)):
            self._in_database = True
            return True
        self._pending.clear()
        self._seq, self._hash, self._last_at, self.written = state
        return False

    def _sealed_parts(self, chunk: Sequence[NewEvent]) -> Iterator[list[Row]]:
        for start in range(0, len(chunk), _AT_ONCE):
            self._seal_all(chunk[start : start + _AT_ONCE])
            rows = list(self._pending.values())
            self._pending.clear()
            yield rows

    def _sort_out(self, chunk: Sequence[NewEvent]) -> None:
        """Append what is new in a chunk, and compare the rest with what is there."""
        ids = [event.id for event in chunk]
        there = self._stored(ids) if self._in_database else {}
        if not there and len(set(ids)) == len(ids):
            self._seal_all(chunk)
            return
        for event in chunk:
            row = self._pending.get(event.id)
            known = StoredEvent(*row[1:]) if row else there.get(event.id)
            if known is None:
                self._seal(event)
            else:
                self._repeat(event, known)

    def append_verbatim(self, event: StoredEvent) -> StoredEvent:
        """Append an exported event as it was, number, times and hash, into an empty book.

        Raises
        ------
        InputError
            The book was not empty, the number is not the next, `recorded_at` goes back, or the
            hash does not follow from the content.
        """
        row = (
            event.seq,
            event.id,
            event.kind,
            event.v,
            event.on,
            event.at,
            event.recorded_at,
            event.typed_at,
            event.by,
            event.replaces,
            event.body,
        )
        field = f"event {event.seq}"
        if not self.was_empty:
            raise InputError(field, Message.of("refusal-only-empty-book"))
        if event.seq != self._seq + 1:
            raise InputError(field, Message.of("refusal-next-event", n=self._seq + 1))
        if event.recorded_at < self._last_at or not _FIXED_WIDTH.fullmatch(event.recorded_at):
            raise InputError(
                field, Message.of("refusal-recorded-no-follow", at=Typed(event.recorded_at))
            )
        if event.id in self._pending:
            raise InputError(field, Message.of("refusal-id-there-twice", id=Code(event.id)))
        if chained(self._hash, row) != event.hash:
            raise InputError(field, Message.of("refusal-hash-no-follow"))
        self._seq, self._hash, self._last_at = event.seq, event.hash, event.recorded_at
        self._pending[event.id] = (self._household, *row, event.hash)
        self.written += 1
        if len(self._pending) >= _BUFFERED:
            self.flush()
        return event

    def _seal(self, event: NewEvent) -> Row:
        """Give one new event its number, moment and hash, and buffer it."""
        self._seal_all((event,))
        return self._pending[event.id]

    def _seal_all(self, events: Sequence[NewEvent]) -> None:
        """Do the same for many, none of which is known: the inmost loop of an import."""
        household, seq, before = self._household, self._seq, self._hash
        keep_moments = self.was_empty
        recorded_at = max(self._now, self._last_at)
        pending = self._pending
        for event in events:
            if keep_moments:
                recorded_at = self._last_at = self._given_moment(event)
            if not event.id or not event.kind or type(event.v) is not int:
                raise InputError(f"event {event.id!r}", Message.of("refusal-needs-id-kind-version"))
            seq += 1
            fields = (
                seq,
                event.id,
                event.kind,
                event.v,
                event.on,
                event.at,
                recorded_at,
                event.typed_at,
                event.by,
                event.replaces,
                event.body,
            )
            before = chained(before, fields)
            pending[event.id] = (household, *fields, before)
        self._seq, self._hash, self._last_at = seq, before, recorded_at
        self.written += len(events)

    def _given_moment(self, event: NewEvent) -> str:
        """Return the moment that an event brings along, or the present one."""
        if event.recorded_at is None:
            return max(self._now, self._last_at)
        moment = event.recorded_at
        field = f"event {event.id!r}, recorded_at"
        if not _FIXED_WIDTH.fullmatch(moment):
            try:
                read = dt.datetime.fromisoformat(moment)
            except ValueError as error:
                raise InputError(
                    field, Message.of("refusal-no-moment", text=Typed(moment))
                ) from error
            if read.tzinfo is None:
                raise InputError(field, Message.of("refusal-no-time-zone", text=Typed(moment)))
            moment = clock.stamp(read)
        if moment < self._last_at:
            raise InputError(
                field,
                Message.of(
                    "refusal-moment-before", moment=Code(moment), before=Code(self._last_at)
                ),
            )
        return moment

    def _repeat(self, event: NewEvent, there: StoredEvent) -> StoredEvent:
        for name in ("kind", "v", "on", "at", "by", "replaces", "body"):
            if getattr(event, name) != getattr(there, name):
                raise InputError(
                    f"event {event.id}",
                    Message.of("refusal-id-written", seq=there.seq, name=Code(name)),
                )
        self.repeated += 1
        return there

    # Reading

    def hash_at(self, seq: int) -> str | None:
        """Return the hash of an event by its number: "" for 0, None where there is none."""
        if seq == self._seq:
            return self._hash
        self.flush()
        return self._log._hash_at(self._raw, seq)

    def kinds(self, after: int = 0) -> list[tuple[str, int, int]]:
        """Return kinds as :meth:`ledger.log.Log.kinds` does, with those appended here."""
        self.flush()
        return self._log._kinds(self._raw, after)

    def get(self, id: str) -> StoredEvent | None:
        """Return the event with this id, appended in this transaction or before, or None."""
        row = self._pending.get(id)
        if row is not None:
            return StoredEvent(*row[1:])
        if not self._in_database or id in self._absent:
            return None
        found = self._sql.one.run(self._raw, household=self._household, id=id).fetchone()
        return StoredEvent(*found) if found else None

    def read(
        self,
        after: int = 0,
        upto: int | None = None,
        kinds: Sequence[str] | None = None,
        chunk: int = 20_000,
        *,
        later_words: bool = False,
    ) -> Iterator[list[tuple[Any, ...]]]:
        """Yield events as :meth:`ledger.log.Log.read` does, with those appended here."""
        self.flush()
        while True:
            rows = self._log._page(self._raw, after, upto, kinds, chunk, later_words=later_words)
            if rows:
                yield rows
            if len(rows) < chunk:
                return
            after = rows[-1][0]

    def _stored(self, ids: list[str]) -> dict[str, StoredEvent]:
        found = self._sql.known.run(
            self._raw, household=self._household, ids=listed(self._log.store, ids)
        )
        return {row[1]: StoredEvent(*row) for row in found}

    # To the database

    def flush(self) -> None:
        """Send what is buffered to the database, inside the transaction."""
        if not self._pending:
            return
        self._log.store.append(self._raw, list(self._pending.values()))
        self._absent -= self._pending.keys()
        self._pending.clear()
        self._in_database = True
