"""Turn what the databases say into what a person can act on."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from ledger.errors import (
    BookDamaged,
    BookError,
    BookLocked,
    BookReadOnly,
    BookUnreachable,
    NotABook,
)
from ledger.messages import Code, sentence

__all__ = ["translated"]


@contextlib.contextmanager
def translated(name: str, held_by: Callable[[], str] = str) -> Iterator[None]:
    """Raise the package's own errors for those of the databases.

    Parameters
    ----------
    name : str
        The book's file or address, without a password.
    held_by : callable, optional
        Says who holds the lock, asked only when somebody does.
    """
    try:
        yield
    except sqlite3.Error as error:
        raise _ours(name, error, held_by) from error
    except UnicodeDecodeError as error:  # a damaged name, in what the driver wants to say of it
        raise BookDamaged(
            sentence("refusal-damaged", name=Code(name), text=sentence("refusal-no-text-name"))
        ) from error
    except Exception as error:
        # Told by where they come from, as neither package need be there.
        package = type(error).__module__.partition(".")[0]
        cause = getattr(error, "orig", None) if package == "sqlalchemy" else error
        if package not in ("psycopg", "sqlalchemy"):
            raise
        if cause is None:
            raise BookError(
                sentence("refusal-file-fault", path=name, strerror=Code(str(error)))
            ) from error
        raise _ours(name, cause, held_by) from error


# The start of an error's code, the error that it becomes, and the id of what is said.
_Rule = tuple[tuple[str, ...], type[BookError], str]

_FULL = "refusal-disk-full"
_DAMAGED = "refusal-damaged"
_REFUSED = "refusal-event-refused"

_WITH_TEXT = (_DAMAGED, _REFUSED, "refusal-disk-failed", "refusal-unreachable")
"""What also tells what the driver said."""

_SQLITE: tuple[_Rule, ...] = (
    (("SQLITE_BUSY", "SQLITE_LOCKED"), BookLocked, ""),
    (("SQLITE_FULL",), BookReadOnly, _FULL),
    (
        ("SQLITE_READONLY", "SQLITE_PERM", "SQLITE_AUTH"),
        BookReadOnly,
        "refusal-no-permission",
    ),
    (
        ("SQLITE_CANTOPEN",),
        BookError,
        "refusal-cannot-open",
    ),
    (("SQLITE_NOTADB",), NotABook, "refusal-no-croftbook-file"),
    (("SQLITE_CORRUPT",), BookDamaged, _DAMAGED),
    (("SQLITE_IOERR",), BookError, "refusal-disk-failed"),
    (("SQLITE_CONSTRAINT",), BookDamaged, _REFUSED),
)
_POSTGRES: tuple[_Rule, ...] = (
    (("55P03", "40P01"), BookLocked, ""),
    (("53100",), BookReadOnly, _FULL),
    (("25006",), BookReadOnly, "refusal-database-read-only"),
    (("42501",), BookReadOnly, "refusal-user-may-not"),
    (("XX", "22021"), BookDamaged, _DAMAGED),
    (("23", "P0001"), BookDamaged, _REFUSED),
    (
        ("none", "08", "28", "57", "3D"),
        BookUnreachable,
        "refusal-unreachable",
    ),
)


def _ours(name: str, error: Any, held_by: Callable[[], str]) -> BookError:
    text = str(error).strip().partition("\n")[0]
    if isinstance(error, sqlite3.Error):
        code = str(getattr(error, "sqlite_errorname", ""))
        if "Could not decode to UTF-8" in text:  # the driver's own error, without a code
            code = "SQLITE_CORRUPT"
        rules = _SQLITE
    else:
        code = getattr(error, "sqlstate", None) or "none"
        rules = _POSTGRES
    if code.startswith(_ROOMLESS) and _is_full(name):
        code = "SQLITE_FULL"
    for starts, kind, said in rules:
        if code.startswith(starts):
            if not said:
                return _locked(name, held_by())
            more = {"text": Code(text)} if said in _WITH_TEXT else {}
            return kind(sentence(said, name=Code(name), **more))
    return BookError(sentence("refusal-file-fault", path=name, strerror=Code(str(text))))


_ROOMLESS = ("SQLITE_IOERR", "SQLITE_CANTOPEN", "SQLITE_READONLY")
_LITTLE = 300_000
"""Bytes free below which a disk is full for a book: its two files beside it take so many."""


def _is_full(name: str) -> bool:
    """Return whether the disk of a file is full: SQLite says so in several other ways."""
    try:
        found = os.statvfs(Path(name).parent)
    except (OSError, AttributeError):
        return False
    return found.f_bavail * found.f_frsize < _LITTLE or (found.f_files > 0 and not found.f_ffree)


def _locked(name: str, who: str) -> BookLocked:
    return BookLocked(
        sentence("refusal-book-busy-by", name=Code(name), by=Code(who) if who else None)
    )
