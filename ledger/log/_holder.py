"""Who is writing: a small file beside a SQLite book, so that a waiting program can say it."""

from __future__ import annotations

import contextlib
import getpass
import json
import os
import socket
from pathlib import Path
from typing import Any

from ledger import clock

__all__ = ["holder_file", "note_holder", "present", "read_holder"]

_HOST = socket.gethostname()


def holder_file(book: Path) -> Path:
    """Return where the writer of `book` notes itself."""
    return book.with_name(book.name + ".writer")


def user_name() -> str:
    """Return the login name, or the user's number where it has none."""
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return str(getattr(os, "getuid", lambda: "unknown")())


_USER = user_name()


def present(what: str) -> dict[str, Any]:
    """Return this process as a writer: pid, host, user, since, what."""
    return {
        "pid": os.getpid(),
        "host": _HOST,
        "user": _USER,
        "since": clock.stamp(),
        "what": what,
    }


@contextlib.contextmanager
def note_holder(book: Path, what: str) -> Any:
    """Note this process beside `book` while the body runs.

    Called while the write lock is held, so no two writers note themselves at once. Failing to
    note is no reason not to write: a full disk speaks for itself later.
    """
    target = holder_file(book)
    temporary = f"{target}.{os.getpid()}"
    try:
        with open(temporary, "wb", buffering=0) as file:
            file.write(json.dumps(present(what)).encode())
        os.replace(temporary, target)
    except OSError:
        with contextlib.suppress(OSError):
            os.unlink(temporary)
    try:
        yield
    finally:
        with contextlib.suppress(OSError):
            os.unlink(target)


def read_holder(book: Path) -> dict[str, Any] | None:
    """Return who notes to be writing to `book`, or None where nobody living does."""
    try:
        noted = json.loads(holder_file(book).read_bytes())
        pid = int(noted["pid"])
    except (OSError, ValueError, KeyError, TypeError):
        return None
    if not isinstance(noted, dict) or (noted.get("host") == _HOST and not _lives(pid)):
        return None
    return noted


def _lives(pid: int) -> bool:
    if os.name == "nt":  # signal 0 would be sent there, not asked about
        return True
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True  # it lives, and belongs to somebody else
    return True
