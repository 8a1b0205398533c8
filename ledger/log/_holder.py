"""Who is writing: a small file beside a SQLite book, so that a waiting program can say it."""

from __future__ import annotations

import contextlib
import functools
import json
import os
import threading
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from ledger import clock
from ledger.files import whole_file

__all__ = ["holder_file", "note_holder", "present", "read_holder"]


@functools.cache
def _host() -> str:
    import socket  # asked for by few commands, as is the name of the user

    return socket.gethostname()


def holder_file(book: Path) -> Path:
    """Return where the writer of `book` notes itself."""
    return book.with_name(book.name + ".writer")


@functools.cache
def user_name() -> str:
    """Return the login name, or the user's number where it has none."""
    import getpass

    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return str(getattr(os, "getuid", lambda: "unknown")())


def present(what: str) -> dict[str, Any]:
    """Return this process as a writer: pid, host, user, since, what."""
    return {
        "pid": os.getpid(),
        "host": _host(),
        "user": user_name(),
        "since": clock.stamp(),
        "what": what,
    }


class _Noter:
    """Notes writers that take their time.

    Making and removing a file costs more than writing an entry does, as the disk has to keep
    that too; so one thread, alive while there is writing, notes only writers that hold on.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._writers: dict[Path, tuple[float, str, str]] = {}
        self._noted: set[Path] = set()
        self._thread: threading.Thread | None = None

    def begin(self, book: Path, what: str) -> None:
        with self._lock:
            self._writers[book] = (time.monotonic(), what, clock.stamp())
            if self._thread is None or not self._thread.is_alive():
                self._thread = threading.Thread(target=self._watch, daemon=True, name="noter")
                self._thread.start()

    def end(self, book: Path) -> None:
        with self._lock:
            self._writers.pop(book, None)
            if book in self._noted:
                self._noted.discard(book)
                with contextlib.suppress(OSError):
                    os.unlink(holder_file(book))

    def _watch(self) -> None:
        last = time.monotonic()
        while True:
            time.sleep(_NOTED_AFTER_S)
            with self._lock:
                now = time.monotonic()
                for book, (began, what, since) in self._writers.items():
                    last = now
                    if book not in self._noted and now - began >= _NOTED_AFTER_S:
                        self._noted.add(book)
                        _write(book, {**present(what), "since": since})
                if now - last > _IDLE_S:
                    self._thread = None
                    return


_NOTED_AFTER_S = 0.1
_IDLE_S = 2.0
_noter = _Noter()
if hasattr(os, "register_at_fork"):
    # The thread and whoever held its lock stay behind in the parent.
    os.register_at_fork(after_in_child=_noter.__init__)  # type: ignore[misc]


def _write(book: Path, noted: dict[str, Any]) -> None:
    """Write the note whole or not at all; a full disk speaks for itself later."""
    with contextlib.suppress(OSError), whole_file(holder_file(book), private=False) as file:
        file.write(json.dumps(noted).encode())


@contextlib.contextmanager
def note_holder(book: Path, what: str) -> Iterator[None]:
    """Note this process beside `book` while the body runs, where that takes a moment or more.

    Entered and left while the write lock is held, so no two writers note themselves at once.
    """
    _noter.begin(book, what)
    try:
        yield
    finally:
        _noter.end(book)


def read_holder(book: Path) -> dict[str, Any] | None:
    """Return who notes to be writing to `book`, or None where nobody living does."""
    try:
        noted = json.loads(holder_file(book).read_bytes())
        pid = int(noted["pid"])
    except (OSError, ValueError, KeyError, TypeError):
        return None
    if not isinstance(noted, dict) or (noted.get("host") == _host() and not _lives(pid)):
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
