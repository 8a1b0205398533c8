"""Importing files: all or nothing, streaming, each bad line reported with what would be right."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import msgspec

from ledger.door.answers import Answers
from ledger.door.catalogue import Catalogue
from ledger.door.writing import Entry, write
from ledger.errors import InputError, LedgerError, NeedsAnswer, UnknownKind
from ledger.log import Log, StoredEvent, Writing

__all__ = ["BadLine", "Imported", "import_lines", "json_lines"]

LONGEST = 1_000_000
"""Bytes of one line beyond which it is refused: no household's event is that long."""

MOST_REPORTED = 100
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
    """What an import did, or would do (`dry_run`)."""

    written: int = 0
    described: int = 0
    known: int = 0
    bad: list[BadLine] = field(default_factory=list)
    bad_count: int = 0
    notes: list[str] = field(default_factory=list)
    preview: list[str] = field(default_factory=list)
    is_kept: bool = True


class _Undo(Exception):
    """Raised inside the transaction so that nothing of it stays."""


def json_lines(
    path: Path, encoding: str = "utf-8"
) -> Iterator[tuple[int, int, bytes | InputError]]:
    """Yield (line number, bytes read so far, line) of a file; an endless line is an InputError."""
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
    except msgspec.DecodeError as error:
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
            raise InputError(name, "is missing", 'Write {"kind": ..., "on": ..., "body": {...}}')
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
) -> Imported:
    """Write the events of a file in one transaction.

    Parameters
    ----------
    lines : iterator of (number, bytes read so far, event)
        Each event as bytes of JSON, a dict, or the InputError that it is.
    keep_good : bool
        Write the good lines even if there are bad ones; else all or nothing.
    dry_run : bool
        Say what would be written, and write nothing.
    progress : callable, optional
        Called with the bytes read so far, now and then.
    """
    out = Imported()
    before = Catalogue()
    try:
        with log.writing("import") as tx:
            catalogue.refresh(tx, tx.head.seq)
            verbatim = None
            for number, size, raw in lines:
                if not isinstance(raw, Exception) and isinstance(raw, bytes) and not raw.strip():
                    continue
                try:
                    if isinstance(raw, Exception):
                        raise raw
                    event = raw if isinstance(raw, dict) else parse_json(raw)
                    if verbatim is None:
                        verbatim = tx.was_empty and "hash" in event and "seq" in event
                    if verbatim and "hash" in event:
                        _verbatim(tx, event)
                        out.written += 1
                    else:
                        _typed(tx, catalogue, event, answers, out)
                except (InputError, NeedsAnswer, UnknownKind, LedgerError) as error:
                    _refuse(out, number, error)
                if number % 500 == 0 and progress is not None:
                    progress(size)
            out.notes = answers.notes
            if dry_run or (out.bad_count and not keep_good):
                raise _Undo
    except _Undo:
        out.is_kept = False
        catalogue.__dict__.update(before.__dict__)
    return out


def _refuse(out: Imported, number: int, error: Exception) -> None:
    out.bad_count += 1
    if len(out.bad) < MOST_REPORTED:
        out.bad.append(BadLine(number, str(error)))


def _verbatim(tx: Writing, event: dict[str, Any]) -> None:
    from ledger.events import kind_of, to_stored

    kind_of(event["kind"])
    tx.append_verbatim(
        StoredEvent(
            seq=event["seq"], id=event["id"], kind=event["kind"], v=event.get("v", 1), on=event["on"],
            at=event.get("at"), recorded_at=event["recorded_at"], typed_at=event.get("typed_at"),
            by=event.get("by"), replaces=event.get("replaces"), body=to_stored(event["body"]), hash=event["hash"],
        )
    )  # fmt: skip


def _typed(
    tx: Writing, catalogue: Catalogue, event: dict[str, Any], answers: Answers, out: Imported
) -> None:
    entry = Entry(**{name: value for name, value in event.items() if name not in ("seq", "hash")})
    if not tx.was_empty:
        entry.recorded_at = None
    if not isinstance(entry.v, int) or isinstance(entry.v, bool):
        raise InputError("v", "is not a whole number", "Leave it out, or write 1")
    done = write(tx, catalogue, entry, answers)
    if done.is_new:
        out.written += 1
        out.described += len(done.described)
        if len(out.preview) < 20:
            from ledger.events import tell

            out.preview.append(f"{done.event.on} {tell(done.event.kind, done.body)}")
    else:
        out.known += 1
