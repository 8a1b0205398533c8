"""Exporting a book: JSON Lines, one event a line, with the head kept beside the file."""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import msgspec

from ledger.errors import BookDamaged, BookError, InputError
from ledger.files import whole_file
from ledger.log import COLUMNS, Head, Log, keep_heads, why_not
from ledger.messages import Code, Message, sentence

__all__ = ["export_lines"]

_MOST_MISSED = 100_000


def export_lines(
    log: Log,
    target: Path,
    progress: Callable[[int], None] | None = None,
    *,
    is_damaged: bool = False,
) -> int:
    """Write every event to a file, which is there whole or not at all; return how many.

    Of a damaged book what can be read is written; a file that is there already is then not replaced.

    The bytes follow from the events alone: an export imported into an empty book and exported
    again is the same file.

    Raises
    ------
    InputError
        When the file cannot be written.
    """
    head, written = Head(0, ""), 0
    if is_damaged and target.exists():
        raise BookDamaged(sentence("refusal-export-left", target=Code(str(target))))
    try:
        with whole_file(target, synced=True) as file:
            for chunk in _readable(log) if is_damaged else log.read():
                file.writelines(map(_line, chunk))
                written += len(chunk)
                head = Head(chunk[-1][0], chunk[-1][11])
                if progress is not None:
                    progress(len(chunk))
    except OSError as error:
        raise InputError(
            "file",
            Message.of(
                "refusal-target-unwritable", target=Code(str(target)), error=Code(why_not(error))
            ),
        ) from None
    with contextlib.suppress(BookError):  # the export itself is whole
        keep_heads(target, {log.household: head})
    return written


def _readable(log: Log) -> Iterator[list[tuple[Any, ...]]]:
    """Yield one by one what can be read, past what cannot."""
    done, missed = 0, 0
    last = log.position()
    while done < last and missed < _MOST_MISSED:
        try:
            for chunk in log.read(after=done, chunk=1):
                yield chunk
                done = chunk[-1][0]
            return
        except BookDamaged:
            done, missed = done + 1, missed + 1


def _line(row: tuple[Any, ...]) -> bytes:
    event = {
        name: msgspec.Raw(value.encode()) if name == "body" else value
        for name, value in zip(COLUMNS, row, strict=True)
        if value is not None
    }
    return msgspec.json.encode(event, order="sorted") + b"\n"
