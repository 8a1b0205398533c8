"""Exporting a book: JSON Lines, one event a line, with the head kept beside the file."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec

from ledger.errors import BookError, InputError
from ledger.log import COLUMNS, Head, Log, keep_heads

__all__ = ["export_lines"]


def export_lines(log: Log, target: Path, progress: Callable[[int], None] | None = None) -> int:
    """Write every event to a file, which is there whole or not at all; return how many.

    The bytes follow from the events alone: an export imported into an empty book and exported
    again is the same file.

    Raises
    ------
    InputError
        When the file cannot be written.
    """
    part = target.with_name(f".{target.name}.{os.getpid()}.part")
    head, written = Head(0, ""), 0
    try:
        with part.open("wb") as file:
            for chunk in log.read():
                file.writelines(map(_line, chunk))
                written += len(chunk)
                head = Head(chunk[-1][0], chunk[-1][11])
                if progress is not None:
                    progress(len(chunk))
            file.flush()
            os.fsync(file.fileno())
        part.replace(target)
    except OSError as error:
        raise InputError(
            "file", f"{target} cannot be written ({error.strerror})", "Name another place"
        ) from None
    finally:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
    with contextlib.suppress(BookError):  # the export itself is whole
        keep_heads(target, {log.household: head})
    return written


def _line(row: tuple[Any, ...]) -> bytes:
    event = {
        name: msgspec.Raw(value.encode()) if name == "body" else value
        for name, value in zip(COLUMNS, row, strict=True)
        if value is not None
    }
    return msgspec.json.encode(event, order="sorted") + b"\n"
