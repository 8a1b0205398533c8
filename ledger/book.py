"""One household's book: the public face of the ledger.

Longer than its kin, as it holds every public method with its docstring; what they do stands in
the rooms that they call.
"""

from __future__ import annotations

import datetime as dt
import os
import re
import threading
from collections.abc import Callable, Collection, Iterator
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from ledger import clock
from ledger.cache import default_path
from ledger.door import Answers, Entry, Written, write
from ledger.door.lots import OPENING, full_key, full_lots
from ledger.door.typed import as_typed
from ledger.errors import BookDamaged, InputError, LedgerError, NotFound
from ledger.kinds import KINDS
from ledger.known import OF_SETTINGS, Catalogue, KeptRows
from ledger.log import Head, Log, open_log
from ledger.messages import Code, Message, Names, Typed, sentence
from ledger.moments import day_text, moment_text
from ledger.questions import ADDRESSED

if TYPE_CHECKING:
    from ledger.checking import Checked
    from ledger.door.importing import Imported
    from ledger.history import HistoryRow
    from ledger.log import Restored
    from ledger.projections import Answer, Node, Projection
    from ledger.projections.base import Assumption
    from ledger.replay import Replay, State

__all__ = ["Book", "default_path"]

_END = "9999-12-31"
_TRIES = 5
_PREFIX = re.compile(r"[0-9a-f-]{4,36}")


class _Undone(Exception):
    """Rolls a trial back."""


class Book:
    """A household's book.

    Parameters
    ----------
    log : Log
        An open log; `Book.open` opens one.

    Examples
    --------
    >>> book = Book.open(getfixture("tmp_path") / "book.sqlite")
    >>> written = book.write("harvested", item="plum", amount="31 lb 8 oz", on="2026-09-02")
    >>> book.show("shelf", as_of="2026-09-02").frame["item"].tolist()
    ['plum']
    """

    def __init__(self, log: Log) -> None:
        self.log = log
        self._catalogue = Catalogue()
        self._settings = Catalogue(OF_SETTINGS)
        self._replay: Replay | None = None
        # Pages ask from several threads at once; what is kept here grows by one at a time.
        self._turn = threading.RLock()
        self._seen = Head(0, "")
        self.generation = 0

    @classmethod
    def open(
        cls,
        where: str | os.PathLike[str] | None = None,
        household: str = "home",
        *,
        create: bool = True,
        wait: float = 30.0,
    ) -> Book:
        """Return the book at a path or SQLAlchemy URL.

        Default: the environment variable CROFTBOOK, else a file in the user's data folder.
        A writer waits `wait` seconds for another one.

        Raises
        ------
        BookError
            NotABook, NewerBook, BookReadOnly or BookLocked.
        """
        chosen = where or os.environ.get("CROFTBOOK") or default_path()
        return cls(open_log(str(chosen), household, create=create, wait=wait))

    def close(self) -> None:
        """Close the book's connections."""
        self.log.close()

    def __enter__(self) -> Book:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    # -- writing ------------------------------------------------------------------------

    def write(
        self,
        kind: str,
        body: dict[str, Any] | None = None,
        *,
        answers: Answers | None = None,
        **fields: Any,
    ) -> Written:
        """Write one event down.

        Parameters
        ----------
        kind : str
            ``harvested``, ``bought``, ... (`ledger.kinds.KINDS`).
        body : dict, optional
            The body as typed; `fields` that are not of the envelope are added to it.
        answers : Answers, optional
            How doubts are settled; default: they are raised.
        **fields
            ``on``, ``at``, ``by`` (``person`` where the body has a ``by`` of its own), ``replaces``,
            ``id`` and fields of the body.

        Raises
        ------
        InputError, NeedsAnswer
            Nothing is written then.
        """
        envelope: dict[str, Any] = {
            name: fields.pop(name)
            for name in ("at", "replaces", "id", "typed_at")
            if name in fields
        }
        writer = KINDS[kind].writer if isinstance(kind, str) and kind in KINDS else "by"
        if writer in fields:
            envelope["by"] = fields.pop(writer)
        on = fields.pop("on", None)
        on = on.isoformat() if isinstance(on, dt.date) else on
        entry = Entry(kind, as_typed({**(body or {}), **fields}), on=on, **envelope)
        return self.enter(entry, answers or Answers())

    def enter(self, entry: Entry, answers: Answers) -> Written:
        """Write an `Entry`: what commands and forms call."""
        return self.enter_all([entry], answers)[0]

    def enter_all(self, entries: list[Entry], answers: Answers) -> list[Written]:
        """Write entries that were said in one breath: all of them, or none.

        Raises
        ------
        InputError, NeedsAnswer
            Nothing is written then.
        """
        for entry in entries:
            self._complete(entry)
            if entry.kind == "counted" and self.log.position():
                self._ask_counted(entry, answers)
            if entry.kind == "checked" and self.log.position():
                from ledger.opened import check_settling

                check_settling(self.state(), entry)
        known = -1
        try:
            # The book's lock first: who waits for it must not hold up those who only ask.
            with self.log.writing(entries[0].kind) as tx, self._turn:
                self._look(tx.head, tx.hash_at)
                self._catalogue.refresh(tx, tx.head.seq)
                self._catalogue.refuse_newer()
                known = self._catalogue.seq
                written = [write(tx, self._catalogue, entry, answers) for entry in entries]
                head = tx.head
        except BaseException as why:
            self._forget(why, known)
            raise
        with self._turn:
            if head.seq > self._seen.seq:
                self._seen = head
        return written

    def _forget(self, why: BaseException, known: int) -> None:
        """Begin the catalogue anew where it may have learnt what was then undone."""
        with self._turn:
            if not isinstance(why, LedgerError) or self._catalogue.seq != known:
                self._catalogue = Catalogue()

    def ask(self, entry: Entry, answers: Answers, *, usual: bool = True) -> None:
        """Ask about what an entry as a whole makes doubtful, before it is written down.

        A jar that bears a mark or shows signs of spoilage, and slips of a digit by published figures, are
        always asked about; what is unlikely by the household's own past only where a person can answer;
        without `usual` only what is eaten or given and not there.

        Raises
        ------
        InputError, NeedsAnswer
            As `enter` would; and where an answer is no, or nobody can be asked.
        """
        if entry.kind == "put_up":
            from ledger.questions.shared.slips import settled_places, slips
            from ledger.replay import day_number

            entry.body = settled_places(entry.body, answers)
            day = day_number(entry.on or self.today())
            for slip in slips(self.state(), self.catalogue(), entry.body, day):
                answers.settle(slip)
        if entry.kind == "discarded" and isinstance(entry.body, dict):
            from ledger.door.seals import settled_seals

            on = entry.on or self.today().isoformat()
            entry.body = settled_seals(self.catalogue(), entry.body, on, answers)
        if isinstance(entry.body, dict) and not answers.spoken:
            from ledger.door.cans import settled_cans

            entry.body = settled_cans(self.catalogue(), entry.kind, entry.body, answers)
        self._ask_spoiled(entry, answers)
        self._ask_marked(entry, answers)
        if answers.ask is None or answers.yes is True:
            return
        if not usual and entry.kind not in ("eaten", "given_away"):
            return
        if entry.kind == "put_up":
            from ledger.questions.shared.slips import strengths

            for doubt in strengths(entry.body):
                answers.settle(doubt)
        from ledger.unlikely import unlikely

        written, then = self.trial(entry, replace(answers, notes=[]))
        if not written.is_new:
            return
        now = self.state(as_of=max(written.event.on, self.today().isoformat()))
        for doubt in unlikely(written, now, then, usual=usual):
            answers.settle(doubt)

    def _ask_spoiled(self, entry: Entry, answers: Answers) -> None:
        """Ask before a jar is eaten, given, fed or kept of which signs of spoilage are told."""
        if not isinstance(entry.body, dict):
            return
        from ledger.published.signs import doubt_of

        catalogue = self.catalogue()
        doubt = doubt_of(
            entry.kind,
            entry.body,
            catalogue.is_item,
            lambda name: catalogue.key(name) in catalogue.batches.jars_of,
        )
        if doubt is not None:
            answers.settle(doubt)

    def _ask_marked(self, entry: Entry, answers: Answers) -> None:
        """Ask before a meal, a gift or a batch opens a jar that bears a mark."""
        if entry.kind not in OPENING or not self.log.position():
            return
        from ledger.opened import jars_meant, jars_or_measure, may_open, questions, says_jars

        day = max(entry.on or "", self.today().isoformat())
        if entry.kind in ("eaten", "given_away"):
            if self._takes_of_made(entry, OPENING[entry.kind]):
                entry.body = jars_or_measure(lambda: self.state(as_of=day), entry, answers)
            if says_jars(entry):
                entry.body = jars_meant(self.state(as_of=day), entry)
        if not self._takes_of_made(entry, OPENING[entry.kind]):
            return  # what was only picked or bought bears no mark, and nothing is replayed
        if not may_open(self.state(as_of=day), entry):
            return
        written, then = self.trial(entry, replace(answers, notes=[]))
        if written.is_new:
            for doubt in questions(then, written.event.seq - 1, entry.kind):
                answers.settle(doubt)

    def _ask_counted(self, entry: Entry, answers: Answers) -> None:
        """Ask about a count that named lots prove too low, and before it takes jars named as the fresh food."""
        from ledger.counts import check_count, from_jars, may_take_jars

        state = self.state(as_of=_END)
        check_count(state, entry, answers, self.today())
        if not may_take_jars(state, entry, self.today()):
            return
        written, then = self.trial(entry, replace(answers, notes=[]))
        if written.is_new:
            for doubt in from_jars(written, then):
                answers.settle(doubt)

    def _takes_of_made(self, entry: Entry, name: str) -> bool:
        """Return whether an entry may take from something that a batch or a meal left."""
        if not isinstance(entry.body, dict):
            return False
        catalogue = self.catalogue()
        made = {catalogue.canonical(key) for key in catalogue.batches.makes}
        lines = entry.body.get(name) or [entry.body]
        for line in lines if isinstance(lines, list) else ():
            item = line.get("item") if isinstance(line, dict) else None
            if not isinstance(item, str):
                continue
            if catalogue.key(item) in made:
                return True
            for said in catalogue.spellings(item) or [item]:
                if self.log.mentioning("eaten", f'"left":[%"{said}"', "-"):
                    return True
        return False

    def _complete(self, entry: Entry) -> None:
        """Give an entry the whole of each id that it names by its beginning."""
        if not isinstance(entry.kind, str):
            raise InputError("kind", Message.of("refusal-not-a-text"))
        if not (entry.on is None or isinstance(entry.on, str)):
            raise InputError("on", Message.of("refusal-field-not-a-day"))
        if entry.replaces:
            entry.replaces = self.find(entry.replaces, "replaces")
        if entry.kind == "struck" and isinstance(entry.body.get("id"), str):
            entry.body = {**entry.body, "id": self.find(entry.body["id"])}
        batch_is_named = entry.kind in ("checked", "meter_read")
        if batch_is_named and isinstance(entry.body.get("batch"), str):
            entry.body = {**entry.body, "batch": self.find(entry.body["batch"], "batch")}
        if isinstance(entry.body, dict):
            entry.body = full_lots(entry.kind, entry.body, self.find)

    def trial(self, entry: Entry, answers: Answers) -> tuple[Written, State]:
        """Return what writing an entry would give, and the book as it would be then; nothing stays.

        Raises
        ------
        InputError, NeedsAnswer
            As `enter` would.
        """
        self._complete(entry)
        replay = self.replay()
        taken_in = len(replay.journal)
        known = -1
        try:
            with self.log.writing("trial") as tx, self._turn:
                before = self._look(tx.head, tx.hash_at)
                self._catalogue.refresh(tx, before.seq)
                self._catalogue.refuse_newer()
                known = self._catalogue.seq
                with self._catalogue.tried():
                    written = write(tx, self._catalogue, entry, answers)
                # with what another process wrote since the replay
                rows = [row for chunk in tx.read(after=taken_in) for row in chunk]
                raise _Undone
        except _Undone:
            pass
        except BaseException as why:
            self._forget(why, known)
            raise
        day = max(written.event.on, self.today().isoformat())
        with self._turn:
            now = len(replay.journal)
            if now <= before.seq and replay is self._replay:
                return written, replay.trial(rows[now - taken_in :], as_of=day)
        # Another thread replayed more meanwhile; a writer who waits for `_turn` has the log's turn.
        return self.trial(entry, answers)

    def strike(self, id: str, why: str, **more: Any) -> Written:
        """Take an entry back; it stays readable in the history."""
        return self.write("struck", {"id": id, "why": why}, **more)

    def catalogue(self) -> Catalogue:
        """Return what the book knows of items, settings and recipes."""
        with self._turn:
            head = self._look(self.log.head(), self.log.hash_at)
            self._catalogue.refresh(self.log, head.seq)
            return self._catalogue

    def setting(self, name: str) -> str | None:
        """Return the newest value of a setting, or None; nothing else of the book is read for it."""
        with self._turn:
            head = self._look(self.log.head(), self.log.hash_at)
            known = self._catalogue if self._catalogue.seq == head.seq else self._settings
            known.refresh(KeptRows(self.log, self.log.hash_at), head.seq)
            return known.setting(name)

    def look(self) -> Head:
        """Return where the log ends, and let go of what was read of another book in its place.

        A restored or copied book has other events under numbers that were read already; then
        `generation` counts one up, and everything is read anew.
        """
        with self._turn:
            return self._look(self.log.head(), self.log.hash_at)

    def _look(self, head: Head, hash_at: Callable[[int], str | None]) -> Head:
        seen = self._seen
        if head != seen:
            if seen.seq and (head.seq <= seen.seq or hash_at(seen.seq) != seen.hash):
                self._catalogue, self._replay = Catalogue(), None
                self._settings = Catalogue(OF_SETTINGS)
                self.generation += 1
            self._seen = head
        return head

    def find(self, id: str, field: str = "id") -> str:
        """Return the full id of an event from its beginning; a refusal names `field`.

        Raises
        ------
        NotFound
            When no event's id begins so, or several do.
        """
        id = id.strip().lower() if isinstance(id, str) else repr(id)
        if not _PREFIX.fullmatch(id):
            raise NotFound(field, Message.of("refusal-not-an-id", text=Typed(id[:60])))
        if len(id) == 36:
            return id
        found = self.log.ids(beginning=id)
        if len(found) != 1:
            problem = (
                Message.of("refusal-ids-begin", n=len(found), text=Typed(id))
                if found
                else Message.of("refusal-no-id-begins", text=Typed(id))
            )
            raise NotFound(field, problem, Message.of("refusal-id-from-history"))
        return found[0]

    def _only(self, beginning: str) -> str:
        """Return the one id that begins so, for an address; several are refused, not passed over."""
        found = self.log.ids(beginning=beginning)
        if len(found) > 1:
            problem = Message.of("refusal-ids-begin", n=len(found), text=Typed(beginning))
            raise InputError("address", problem, Message.of("refusal-more-of-id"))
        return self.find(beginning)

    # -- asking -------------------------------------------------------------------------

    def today(self) -> dt.date:
        """Return the household's today."""
        return clock.today(self.setting("time_zone"))

    def replay(self, progress: Callable[[int], None] | None = None) -> Replay:
        """Return the replay, up to the log's end."""
        from ledger.replay import Replay

        with self._turn:
            for _ in range(_TRIES):
                head = self.look()
                replay = self._replay = self._replay or Replay(self.log, self.log.hash_at)
                replay.refresh(progress, upto=head.seq)
                if self.log.hash_at(head.seq) == head.hash:  # else it was replaced meanwhile
                    break
            return replay

    def state(
        self,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
        progress: Callable[[int], None] | None = None,
    ) -> State:
        """Return the book at a moment (default: today, everything known).

        Parameters
        ----------
        as_of : date or ISO text
            What happened by the end of that day.
        known_at : str
            A day, or an RFC 3339 moment: what was written down by then.
        """
        with self._turn:
            return self.replay(progress).state(
                as_of=day_text(as_of or self.today()), known_at=moment_text(known_at)
            )

    def show(
        self,
        name: str,
        *,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
        against: str | int | dt.date | None = None,
        **options: Any,
    ) -> Answer:
        """Return the answer to a question: ``jar-cost``, ``shelf`` and so on.

        Parameters
        ----------
        against : date, ISO text or year of a season, optional
            Instead, what changed since that day or season, split into its causes.

        Raises
        ------
        NotFound
            When there is no such question.
        """
        if against is not None:
            from ledger.questions.compared.against import Against

            day = day_text(as_of or self.today())
            asked = Against(
                _projection(name), lambda day: self.state(day, known_at), day, str(against), options
            )
            return asked.answer()
        state = self.state(as_of, known_at)
        answer = _projection(name).build(state, **options)
        answer.assumptions += _left_out(state)
        return answer

    def why(
        self,
        address: str,
        field: str | None = None,
        *,
        as_of: str | dt.date | None = None,
        known_at: str | None = None,
    ) -> Node:
        """Return a figure's arithmetic as a tree down to events.

        Parameters
        ----------
        address : str
            As in an answer's `why`; ``on:2025-10-31/`` before it opens it as of that day.
        field : str, optional
            A column of the answer.

        Raises
        ------
        NotFound
            When the address names no figure.
        """
        name, _, key = address.partition("/")
        if name.startswith("on:"):
            return self.why(key, field, as_of=name.removeprefix("on:"), known_at=known_at).of(name)
        if name in ADDRESSED and key:
            part: Node = import_module(ADDRESSED[name]).why(
                self.state(as_of, known_at), f"{name}/{full_key(key, self._only)}", field
            )
            return part
        projection = _projection(name)
        if key.startswith("against:"):
            from ledger.questions.compared.why import why_against

            day = day_text(as_of or self.today())
            return why_against(projection, lambda day: self.state(day, known_at), day, key, field)
        if projection.why is None or not key:
            raise NotFound(
                "address",
                Message.of("refusal-address-no-figure", address=Typed(address)),
            )
        return projection.why(self.state(as_of, known_at), full_key(key, self._only), field)

    def history(
        self, *, kind: str | None = None, item: str | None = None, newest_first: bool = True
    ) -> list[HistoryRow]:
        """Return the events, each with its entry, state and one readable line."""
        from ledger.history import rows

        found = list(rows(self.log, self.catalogue(), kind=kind, item=item))
        return found[::-1] if newest_first else found

    # -- files --------------------------------------------------------------------------

    def import_file(
        self,
        path: str | os.PathLike[str],
        *,
        answers: Answers | None = None,
        mapping: str | os.PathLike[str] | None = None,
        encoding: str = "utf-8",
        dates: str | None = None,
        keep_good: bool = False,
        dry_run: bool = False,
        progress: Callable[[int], None] | None = None,
    ) -> Imported:
        """Import JSON Lines or CSV (by the file's ending), all or nothing unless `keep_good`.

        Raises
        ------
        InputError
            When the file cannot be read at all.
        """
        from ledger.door import Texts
        from ledger.door.chained_lines import head_beside
        from ledger.door.csvfile import csv_lines
        from ledger.door.csvmap import Map

        file = Path(path)
        if not file.is_file():
            raise InputError(
                "file",
                Message.of("refusal-no-file", path=Typed(str(path))),
                Message.of("refusal-check-its-name"),
            )
        answers = answers or Answers()
        catalogue = Catalogue()
        lines: Iterator[tuple[int, int, Any]]
        if file.suffix.lower() in (".csv", ".tsv", ".txt") or mapping is not None:
            lines = csv_lines(
                file,
                lambda: Texts(catalogue, answers),
                encoding=encoding,
                dates=dates,
                mapping=Map.read(Path(mapping)) if mapping else None,
            )
        else:
            from ledger.door.jsonlines import json_lines

            lines = json_lines(file, encoding=encoding, dates=dates)
        return self._import(
            lines, answers, catalogue, keep_good=keep_good, dry_run=dry_run, progress=progress,
            kept=head_beside(file, self.log.household),
        )  # fmt: skip

    def import_events(
        self,
        lines: Iterator[tuple[int, int, Any]],
        *,
        answers: Answers | None = None,
        keep_good: bool = False,
        dry_run: bool = False,
        progress: Callable[[int], None] | None = None,
    ) -> Imported:
        """Import events given as (number, bytes so far, dict or bytes)."""
        return self._import(
            lines, answers or Answers(), Catalogue(),
            keep_good=keep_good, dry_run=dry_run, progress=progress,
        )  # fmt: skip

    def _import(
        self,
        lines: Iterator[tuple[int, int, Any]],
        answers: Answers,
        catalogue: Catalogue,
        **options: Any,
    ) -> Imported:
        from ledger.door.importing import import_lines

        answers.importing = True
        before = self.log.position()
        done = import_lines(self.log, catalogue, lines, answers, **options)
        if done.is_kept and done.has_counts:
            from ledger.counts import contradicted

            for note in contradicted(self.state(as_of=_END), before):
                answers.note(note)
        if done.is_kept and done.opens and next(self.log.read(kinds=["put_up"]), None):
            from ledger.opened import opened_by_import, settles

            state = self.state(as_of=_END)
            for note in (*opened_by_import(state, before), *settles(state, before)):
                answers.note(note)
        done.notes, done.more_notes = answers.notes, answers.more_notes
        return done

    def export_file(
        self,
        path: str | os.PathLike[str],
        *,
        progress: Callable[[int], None] | None = None,
        faults: Collection[str] | None = None,
    ) -> int:
        """Write every event as JSON Lines, with its head kept beside the file; return how many.

        Parameters
        ----------
        faults : collection of str, optional
            What is wrong with the book and is known: what can be read is written all the same.

        Raises
        ------
        InputError
            When the file cannot be written, or is the book itself.
        BookDamaged
            The book does not hold, and nobody said that this is known; the file is as it was.
        """
        if faults is None:
            found = self.faults()
            if found:
                raise BookDamaged(sentence("refusal-book-does-not-hold", found=found[0]))
        if self.log.path and Path(path).resolve() == Path(self.log.path).resolve():
            raise InputError(
                "file",
                Message.of("refusal-book-itself", path=Code(str(path))),
                Message.of("refusal-other-file"),
            )
        from ledger.door.exporting import export_lines

        return export_lines(self.log, Path(path), progress, is_damaged=bool(faults))

    def check(
        self,
        *,
        head: str | os.PathLike[str] | None = None,
        progress: Callable[[int], None] | None = None,
    ) -> Checked:
        """Check the events, the file, the heads, and that what came in is there or went out.

        Parameters
        ----------
        head : path or str, optional
            A backup or export whose kept head this book is held against, or a head as `check`
            shows it (``"61 3f2a 9c01"``).
        """
        from ledger.checking import check

        return check(self, head, progress)

    def check_all(self, household: str | None = None, **options: Any) -> list[Checked]:
        """Check every household of the book, or the one named."""
        from ledger.checking import check_all

        return check_all(self, household, **options)

    def warnings(self) -> list[str]:
        """Return what a look at the book's end and guards finds wrong or worth saying."""
        standing = self.log.standing()
        return [text for text in (standing.fault, standing.note, *self.log.faults) if text]

    def faults(self) -> list[str]:
        """Return what a reading of all events finds wrong, a sentence each; amounts are not added up."""
        from ledger.log import verify

        return verify(self.log).reasons

    @staticmethod
    def restore(
        source: str | os.PathLike[str],
        where: str | os.PathLike[str] | None = None,
        household: str | None = None,
        *,
        dry_run: bool = False,
        progress: Any = None,
    ) -> Restored:
        """Put a backup or an export in a book's place; see `ledger.log.restore`.

        Raises
        ------
        InputError, BookError
            The book is then as it was.
        """
        chosen = where or os.environ.get("CROFTBOOK") or default_path()
        from ledger.log import restore

        return restore(str(chosen), Path(source), household, dry_run=dry_run, progress=progress)

    def backup(
        self, target: str | os.PathLike[str], *, force: bool = False, progress: Any = None
    ) -> Any:
        """Copy the book while it is in use, and read the copy back; `force` replaces a file."""
        from ledger.log import backup

        return backup(self.log, Path(target), progress=progress, force=force)


def _left_out(state: State) -> list[Assumption]:
    """Return that entries are left out of an answer, where this program cannot read them."""
    from ledger.projections.base import Assumption

    known = state.moment.rank.size
    unread = [(ev, why) for ev, why in state.journal.unread.items() if ev < known]
    if not unread:
        return []
    text = sentence("note-unread", n=len(unread), why=unread[0][1])
    return [Assumption("unread", text, tuple(state.event_id(ev) for ev, _ in unread))]


def _projection(name: str) -> Projection:
    from ledger.projections import PROJECTIONS

    if name not in list(PROJECTIONS):
        raise NotFound(
            "name",
            Message.of("refusal-no-question", name=Typed(name), names=Names(tuple(PROJECTIONS))),
        )
    return PROJECTIONS[name]
