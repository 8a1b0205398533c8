"""Importing files: all or nothing, streaming, each bad line reported with what would be right."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from ledger.door.alike import Alike
from ledger.door.answers import Answers
from ledger.door.chained_lines import ExportedChain
from ledger.door.jsonlines import parse_json
from ledger.door.lots import OPENING
from ledger.door.verbatim import not_ahead, verbatim
from ledger.door.writing import UUID, Entry, Written, write
from ledger.errors import BookError, InputError, LedgerError
from ledger.kinds import tell
from ledger.known.catalogue import Catalogue
from ledger.log import Head, Log, Writing
from ledger.messages import Day, Message, sentence

__all__ = ["BadLine", "Imported", "import_lines"]

MOST_REPORTED = 300
_SETTLING = "checked"
"""The kind by which a batch comes to stand otherwise."""

_PREVIEWED = 20
_AHEAD = 1_000
"""Lines of bytes read before the first of them is taken, so that their ids are looked for at once."""


@dataclass(frozen=True)
class BadLine:
    """A line that was refused, with its number from 1 and why."""

    number: int
    problem: str


@dataclass
class Imported:
    """What an import did, or would do (`dry_run`).

    At most 300 bad lines and a thousand notes are kept; `bad_count` and `more_notes` count.
    `has_counts` says that a count of the shelf was among what was written, `opens` that something
    was which may open a jar or settle a batch.
    """

    written: int = 0
    described: int = 0
    known: int = 0
    bad: list[BadLine] = field(default_factory=list)
    bad_count: int = 0
    notes: list[str] = field(default_factory=list)
    preview: list[str] = field(default_factory=list)
    is_kept: bool = True
    more_notes: int = 0
    has_counts: bool = False
    opens: bool = False


class _Undo(Exception):
    """Raised inside the transaction so that nothing of it stays."""


def import_lines(
    log: Log,
    catalogue: Catalogue,
    lines: Iterator[tuple[int, int, Any]],
    answers: Answers,
    *,
    keep_good: bool = False,
    dry_run: bool = False,
    progress: Callable[[int], None] | None = None,
    kept: Head | None = None,
) -> Imported:
    """Write the events of a file in one transaction.

    Parameters
    ----------
    lines : iterator of (number, bytes read so far, event)
        Each event as bytes of JSON, a dict, or the InputError that it is. Bytes are read ahead,
        a thousand lines at a time; a dict may rest on what stands in the book at its line.
    keep_good : bool
        Write the good lines even if there are bad ones; else all or nothing.
    dry_run : bool
        Say what would be written, and write nothing.
    progress : callable, optional
        Called with the bytes read so far, now and then.
    kept : Head, optional
        The head written beside an export: the file has to end there.
    """
    out, chain, number = Imported(), ExportedChain(), 0
    try:
        with _seldom_collected(), log.writing("import") as tx:
            catalogue.refresh(tx, tx.head.seq)
            catalogue.refuse_newer()
            taking = _Taking(tx, catalogue, answers, out, chain)
            for some in _in_chunks(lines):
                if len(some) > 1:
                    taking.expect([raw for _, _, raw in some])
                for number, size, raw in some:
                    answers.line = number
                    _tried(out, number, taking.take, raw)
                    if progress is not None and number % 500 == 0:
                        progress(size)
            answers.line = None
            taking.alike.settle()
            if chain.lines or kept is not None:
                _tried(out, number, chain.check_end, kept)
                if kept is None:
                    answers.note(sentence("doubt-no-head-beside"))
            if dry_run or (out.bad_count and not keep_good):
                raise _Undo
    except _Undo:
        out.is_kept = False
    finally:
        answers.line = None
    out.notes, out.more_notes = answers.notes, answers.more_notes
    return out


@contextmanager
def _seldom_collected() -> Iterator[None]:
    """Let the garbage collector walk less often: a line leaves much behind, but few cycles."""
    before = gc.get_threshold()
    gc.set_threshold(max(before[0], 100_000), *before[1:])
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _tried(out: Imported, number: int, take: Callable[..., None], *given: Any) -> None:
    """Take one line, or report it as a bad one."""
    try:
        take(*given)
    except BookError:
        raise
    except LedgerError as error:
        out.bad_count += 1
        if len(out.bad) < MOST_REPORTED:
            out.bad.append(BadLine(number, str(error)))


def _in_chunks(lines: Iterator[tuple[int, int, Any]]) -> Iterator[list[tuple[int, int, Any]]]:
    """Yield lines some at a time, each of bytes read as the event or the refusal that it is."""
    some: list[tuple[int, int, Any]] = []
    for line in lines:
        number, size, raw = line
        if not isinstance(raw, bytes):
            some.append(line)
        else:
            some.append((number, size, _read(raw)))
            if len(some) < _AHEAD:
                continue
        yield some
        some = []
    if some:
        yield some


def _read(raw: bytes) -> dict[str, Any] | Exception | None:
    if not raw.strip():
        return None
    try:
        return parse_json(raw)
    except LedgerError as error:
        return error


class _Taking:
    """Takes the lines of one file."""

    def __init__(
        self,
        tx: Writing,
        catalogue: Catalogue,
        answers: Answers,
        out: Imported,
        chain: ExportedChain,
    ) -> None:
        self.tx, self.catalogue, self.answers = tx, catalogue, answers
        self.out, self.chain = out, chain
        self.alike = Alike(tx, catalogue)

    def expect(self, events: list[Any]) -> None:
        """Look for the ids that some events bring along, all at once."""
        ids = [one["id"] for one in events if type(one) is dict and type(one.get("id")) is str]
        if len(ids) > 1:
            self.tx.look_ahead([one for one in ids if UUID.fullmatch(one)])

    def take(self, event: dict[str, Any] | Exception | None) -> None:
        """Write one line's event; nothing of it stays when it is refused."""
        if isinstance(event, Exception):
            raise event
        if event is None:
            return
        out = self.out
        is_exported = "hash" in event and "seq" in event
        if is_exported:
            self.chain.follow(event)
        # Behind a line that is left out, the rest of an export is written down anew.
        if self.tx.was_empty and is_exported and not out.bad_count:
            self.alike.settle()
            verbatim(self.tx, self.catalogue, event, self.answers)
            out.written += 1
        else:
            self._typed(event)
            out.opens = out.opens or event["kind"] in (*OPENING, _SETTLING)
        out.has_counts = out.has_counts or event["kind"] == "counted"

    def _typed(self, event: dict[str, Any]) -> None:
        """Write an event as it was typed: like one before it, or through the door."""
        out, answers = self.out, self.answers
        # The first ones are shown; a person who is asked may answer otherwise each time.
        may_be_alike = len(out.preview) >= _PREVIEWED and answers.ask is None
        if may_be_alike and self.alike.take(event):
            out.written += 1
            return
        self.alike.settle()
        noted = len(answers.notes) + answers.more_notes
        done = _through_the_door(self.tx, self.catalogue, event, answers)
        plainly = len(answers.notes) + answers.more_notes == noted and answers.ask is None
        self.alike.learn(event, done, plainly=plainly)
        if not done.is_new:
            out.known += 1
            return
        out.written += 1
        out.described += len(done.described)
        if len(out.preview) < _PREVIEWED:
            line = tell(done.event.kind, done.body)
            out.preview.append(sentence("told-on", day=Day(done.event.on), line=line))


def _through_the_door(
    tx: Writing, catalogue: Catalogue, event: dict[str, Any], answers: Answers
) -> Written:
    entry = Entry(**{name: value for name, value in event.items() if name not in ("seq", "hash")})
    if "v" in event and type(entry.v) is not int:
        raise InputError("v", Message.of("refusal-not-a-whole-number"))
    if not tx.was_empty:
        entry.recorded_at = None
    elif isinstance(entry.recorded_at, str):
        not_ahead(entry.recorded_at)
    return write(tx, catalogue, entry, answers)
