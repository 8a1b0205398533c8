"""Importing files: all or nothing, streaming, each bad line reported with what would be right."""

from __future__ import annotations

import contextlib
import datetime as dt
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import Any

import msgspec

from ledger import clock
from ledger.door.alike import Alike
from ledger.door.answers import Answers
from ledger.door.chained_lines import ExportedChain
from ledger.door.lots import OPENING
from ledger.door.replacing import lists_of
from ledger.door.writing import UUID, Entry, Written, check_envelope, read_day, write
from ledger.errors import BookError, InputError, LedgerError
from ledger.kinds import check_typed, decode_stored, kind_of, tell, to_stored
from ledger.known.catalogue import Catalogue
from ledger.log import Head, Log, StoredEvent, Writing
from ledger.messages import Day, Message, sentence

__all__ = ["BadLine", "Imported", "import_lines", "json_lines"]

LONGEST = 1_000_000
"""Bytes of one line beyond which it is refused: no household's event is that long."""

MOST_REPORTED = 300
AHEAD = dt.timedelta(days=1)
"""How far a file's `recorded_at` may be ahead of this machine's clock."""

_SETTLING = "checked"
"""The kind by which a batch comes to stand otherwise."""

_PREVIEWED = 20
_AHEAD = 1_000
"""Lines of bytes read before the first of them is taken, so that their ids are looked for at once."""

_LEAST = {"kind", "body", "on"}
_ENVELOPE = {
    "kind",
    "on",
    "body",
    "id",
    "by",
    "at",
    "replaces",
    "typed_at",
    "v",
    "recorded_at",
    "seq",
    "hash",
}


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


def json_lines(
    path: Path, *, encoding: str = "utf-8", dates: str | None = None
) -> Iterator[tuple[int, int, bytes | InputError]]:
    """Return (line number, bytes read so far, line) of a file; an endless line is an InputError.

    Raises
    ------
    InputError
        When another encoding than UTF-8, or an order of dates, is named: JSON Lines know neither.
    """
    if encoding.lower().replace("_", "-") not in ("utf-8", "utf8", "utf-8-sig"):
        raise InputError(
            "encoding",
            f"{encoding!r} is for sheets, and JSON Lines are UTF-8",
            "Save the file as UTF-8, or name it .csv where it is a sheet",
        )
    if dates is not None:
        raise InputError("dates", "is for sheets", "Days in JSON Lines are written 2026-09-02")
    return _json_lines(path)


def _json_lines(path: Path) -> Iterator[tuple[int, int, bytes | InputError]]:
    size = 0
    with path.open("rb") as file:
        for number in range(1, 1 << 62):
            line = file.readline(LONGEST + 1)
            if not line:
                return
            size += len(line)
            if len(line) > LONGEST:
                while line and not line.endswith(b"\n"):
                    line = file.readline(LONGEST)
                    size += len(line)
                yield (
                    number,
                    size,
                    InputError(
                        "line", "is longer than a million bytes", "Split it; one event a line"
                    ),
                )
                continue
            if number == 1:
                line = line.removeprefix(b"\xef\xbb\xbf")
            yield number, size, line


def parse_json(line: bytes) -> dict[str, Any]:
    """Return one line's event; decimals are kept as they were typed.

    Raises
    ------
    InputError
    """
    with contextlib.suppress(msgspec.DecodeError, UnicodeDecodeError, RecursionError):
        event = _DECODER.decode(line)
        if b"\0" not in line and type(event) is dict and _LEAST <= event.keys() <= _ENVELOPE:
            return event
    # What was wrong is found out in order.
    try:
        text = line.decode("utf-8")
    except UnicodeDecodeError as error:
        raise InputError(
            "line", f"is not UTF-8 (byte {error.start + 1})", "Save the file as UTF-8"
        ) from None
    if "\x00" in text:
        raise InputError("line", "holds a NUL character", "Take it out")
    try:
        event = _DECODER.decode(text)
    except (msgspec.DecodeError, RecursionError) as error:
        raise InputError(
            "line", f"is not whole JSON ({error})", "Check where it was cut off"
        ) from None
    if not isinstance(event, dict):
        raise InputError("line", "is not an event", 'Write {"kind": ..., "on": ..., "body": {...}}')
    unknown = sorted(set(event) - _ENVELOPE)
    if unknown:
        raise InputError(
            unknown[0], "is not a field of an event", f"It has: {', '.join(sorted(_ENVELOPE))}"
        )
    for name in ("kind", "body", "on"):
        if name not in event:
            raise InputError(
                name, Message.of("refusal-missing"), 'Write {"kind": ..., "on": ..., "body": {...}}'
            )
    return event


_DECODER = msgspec.json.Decoder(float_hook=str)


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
        with log.writing("import") as tx:
            catalogue.refresh(tx, tx.head.seq)
            catalogue.refuse_newer()
            taking = _Taking(tx, catalogue, answers, out, chain)
            for some in _in_chunks(lines):
                taking.expect([raw for _, _, raw in some])
                for number, size, raw in some:
                    answers.line = number
                    _tried(out, number, partial(taking.take, raw))
                    if progress is not None and number % 500 == 0:
                        progress(size)
            answers.line = None
            taking.alike.settle()
            if chain.lines or kept is not None:
                _tried(out, number, lambda: chain.check_end(kept))
                if kept is None:
                    answers.note(
                        "no head stands beside the file, so nobody can tell whether its end is whole"
                    )
            if dry_run or (out.bad_count and not keep_good):
                raise _Undo
    except _Undo:
        out.is_kept = False
    finally:
        answers.line = None
    out.notes, out.more_notes = answers.notes, answers.more_notes
    return out


def _tried(out: Imported, number: int, take: Callable[[], None]) -> None:
    """Take one line, or report it as a bad one."""
    try:
        take()
    except BookError:
        raise
    except LedgerError as error:
        out.bad_count += 1
        if len(out.bad) < MOST_REPORTED:
            out.bad.append(BadLine(number, str(error)))


def _in_chunks(lines: Iterator[tuple[int, int, Any]]) -> Iterator[list[tuple[int, int, Any]]]:
    """Yield lines some at a time, each of bytes read as the event or the refusal that it is."""
    some = []
    for number, size, raw in lines:
        some.append((number, size, _read(raw)))
        if not isinstance(raw, bytes) or len(some) >= _AHEAD:
            yield some
            some = []
    if some:
        yield some


def _read(raw: Any) -> dict[str, Any] | Exception | None:
    if not isinstance(raw, bytes):
        return raw  # type: ignore[no-any-return]
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
            _verbatim(self.tx, self.catalogue, event, self.answers)
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


class _Exported(msgspec.Struct, forbid_unknown_fields=True):
    """A line of an export, with everything that its hash was made from."""

    seq: int
    id: str
    kind: str
    on: str
    recorded_at: str
    body: dict[str, Any]
    hash: str
    v: int = 1
    at: str | None = None
    typed_at: str | None = None
    by: str | None = None
    replaces: str | None = None


def _verbatim(tx: Writing, catalogue: Catalogue, event: dict[str, Any], answers: Answers) -> None:
    """Append an exported event as it was; it is checked all the same, as anybody can write one."""
    try:
        one = msgspec.convert(event, _Exported)
    except msgspec.ValidationError as error:
        raise InputError(
            "line", f"is no line of an export ({error})", "Leave `seq` and `hash` out"
        ) from None
    kind = kind_of(one.kind)
    text = to_stored(one.body)
    check_typed(kind, decode_stored(one.kind, one.v, text))
    check_envelope(Entry(one.kind, one.body, one.on, one.at, one.by, one.replaces, one.id))
    read_day(one.on)
    if _is_ahead(one.recorded_at):
        answers.note(
            f"recorded_at: {one.recorded_at} is still to come and is kept: the clock that wrote it "
            "was ahead, or this machine's is behind"
        )
    _check_stored(one.body)
    stored = tx.append_verbatim(
        StoredEvent(
            seq=one.seq, id=one.id, kind=one.kind, v=one.v, on=one.on, at=one.at,
            recorded_at=one.recorded_at, typed_at=one.typed_at, by=one.by, replaces=one.replaces,
            body=text, hash=one.hash,
        )
    )  # fmt: skip
    catalogue.learn(msgspec.structs.astuple(stored))


def _check_stored(body: dict[str, Any]) -> None:
    """Refuse lines without what every stored line has."""
    for name, lines in lists_of(body).items():
        for i, line in enumerate(lines):
            if type(line.get("n")) is not int or type(line.get("whole")) is not int:
                raise InputError(
                    f"{name}[{i}]", "lacks its number or whole amount", "Leave `seq` and `hash` out"
                )


def _is_ahead(recorded_at: str) -> bool:
    return recorded_at[:19] > clock.stamp(clock.now() + AHEAD)[:19]


def _not_ahead(recorded_at: str) -> None:
    """Refuse a moment to come: no later event could be written down before it."""
    if _is_ahead(recorded_at):
        raise InputError(
            "recorded_at", f"{recorded_at} is still to come", "Look at the clock that wrote it"
        )


def _through_the_door(
    tx: Writing, catalogue: Catalogue, event: dict[str, Any], answers: Answers
) -> Written:
    entry = Entry(**{name: value for name, value in event.items() if name not in ("seq", "hash")})
    if "v" in event and type(entry.v) is not int:
        raise InputError("v", "is not a whole number", "Leave it out, or write 1")
    if not tx.was_empty:
        entry.recorded_at = None
    elif isinstance(entry.recorded_at, str):
        _not_ahead(entry.recorded_at)
    return write(tx, catalogue, entry, answers)
