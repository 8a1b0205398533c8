"""The swap of a restore: the old book set aside, the new one in its place, at once."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import sqlite3
import time
from collections.abc import Iterator
from pathlib import Path

from ledger import clock
from ledger.errors import BookDamaged, BookLocked
from ledger.log._open import open_log
from ledger.log._place import Place
from ledger.log._private import make_file, synced
from ledger.log._sqlite import file_uri
from ledger.log._translate import translated
from ledger.messages import Code, sentence

__all__ = ["into_database", "into_file", "partial_beside", "remove_stale"]

_ENDS = ("", "-journal", "-wal", "-shm", ".writer")
_BUSY = (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
_PARTIAL = re.compile(r"\.(?P<pid>\d+)\.partial(?:-journal|-wal|-shm|\.writer)?$")


@contextlib.contextmanager
def partial_beside(path: Path) -> Iterator[Path]:
    """Give a new, empty file beside another, and leave nothing of it behind, whatever happens."""
    remove_stale(path)
    partial = path.with_name(f".{path.name}.{os.getpid()}.partial")
    try:
        make_file(partial)
        yield partial
    finally:
        for end in _ENDS:
            with contextlib.suppress(OSError):
                os.unlink(f"{partial}{end}")


def remove_stale(path: Path) -> None:
    """Remove what a program that was killed left of a copy beside a file."""
    with contextlib.suppress(OSError):
        for other in list(path.parent.iterdir()):
            match = _PARTIAL.search(other.name)
            if match and other.name.startswith(f".{path.name}.") and not _lives(int(match["pid"])):
                with contextlib.suppress(OSError):
                    other.unlink()


def _lives(pid: int) -> bool:
    if pid == os.getpid():
        return True
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True


def _aside(path: Path) -> Path:
    """Return a dated name beside a file that nothing has yet."""
    day = clock.stamp()[:19].replace("T", "-").replace(":", "")
    for n in range(1, 1_000):
        more = "" if n == 1 else f"-{n}"
        aside = path.with_name(f"{path.name}.set-aside-{day}{more}")
        if not aside.exists():
            return aside
    raise BookLocked(sentence("refusal-too-many-aside", folder=Code(str(path.parent))))


def into_file(copy: Path, path: Path, wait: float) -> str:
    """Put the book at `copy` in the place of the one at `path`; return where the old one stands.

    Others may have the book open: SQLite takes the new pages in as one transaction, and what they
    read stays whole. Where the old file cannot be opened any more, it is replaced as a file.
    """
    if not path.exists() or not path.stat().st_size:
        _replace(copy, path)
        return ""
    aside = _aside(path)
    try:
        with translated(str(path)):
            _overwrite(copy, path, aside, wait)
    except BookLocked:
        raise
    except Exception as error:
        if not _is_beyond_opening(error):
            with contextlib.suppress(OSError):
                for end in ("", "-wal"):
                    os.unlink(f"{aside}{end}")
            raise
        _set_aside(path, aside)
        _replace(copy, path)
    return str(aside)


def _is_beyond_opening(error: BaseException | None) -> bool:
    while error is not None:
        name = str(getattr(error, "sqlite_errorname", ""))
        if name.startswith(("SQLITE_NOTADB", "SQLITE_CORRUPT")):
            return True
        error = error.__cause__
    return False


def _overwrite(copy: Path, path: Path, aside: Path, wait: float) -> None:
    until = time.monotonic() + wait
    is_set_aside = False

    def step(status: int, _remaining: int, _total: int) -> None:
        nonlocal is_set_aside
        if status in _BUSY:
            if time.monotonic() > until:
                raise _StillBusyError
        elif not is_set_aside:
            # The first page is through: the book's lock is held, and nothing is written yet.
            _set_aside(path, aside)
            is_set_aside = True

    with (
        contextlib.closing(sqlite3.connect(copy, isolation_level=None)) as new,
        contextlib.closing(
            sqlite3.connect(
                file_uri(path, "mode=rw"), uri=True, timeout=min(wait, 1.0), isolation_level=None
            )
        ) as old,
    ):
        old.execute("PRAGMA synchronous = FULL")
        old.execute("PRAGMA schema_version").fetchone()
        try:
            new.backup(old, pages=1, progress=step, sleep=0.01)
        except _StillBusyError:
            raise BookLocked(sentence("refusal-book-busy", path=Code(str(path)))) from None
        with contextlib.suppress(sqlite3.Error):
            old.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


class _StillBusyError(Exception):
    """Somebody else writes for longer than is waited."""


def _set_aside(path: Path, aside: Path) -> None:
    """Copy a file and its journal to another name, on the disk before anything goes on."""
    for end in ("", "-wal"):
        source, target = Path(f"{path}{end}"), Path(f"{aside}{end}")
        if source.exists() and (not end or source.stat().st_size):
            make_file(target)
            shutil.copyfile(source, target)
            with open(target, "rb+") as file:
                os.fsync(file.fileno())
    synced(path.parent)


def _replace(copy: Path, path: Path) -> None:
    with contextlib.closing(sqlite3.connect(copy, isolation_level=None)) as file:
        file.execute("PRAGMA journal_mode = DELETE").fetchone()
    with open(copy, "rb+") as file:
        os.fsync(file.fileno())
    for end in _ENDS[1:]:  # what belonged to the old file would be read into the new one
        with contextlib.suppress(FileNotFoundError):
            os.unlink(f"{path}{end}")
    os.replace(copy, path)
    synced(path.parent)


def into_database(place: Place, copy: Path, household: str, wait: float) -> str:
    """Put one household of the book at `copy` in its place on a server, in one transaction.

    The old events move to a table of their own with a dated name. Needs the owner of the tables, as
    only the owner can open the guards for the length of a transaction.

    Returns
    -------
    str
        The table that holds the old events; "" where there were none.
    """
    day = clock.stamp()[:19].replace("-", "").replace("T", "_").replace(":", "")
    aside = f"events_set_aside_{day}"
    with (
        open_log(place.address, household, wait=wait, keeps_head=False) as log,
        open_log(copy, household, create=False, keeps_head=False) as new,
    ):
        with (
            translated(str(place), log._held_by),
            log.store.transaction() as raw,
            log.store.hold(raw, household, "restore"),
        ):
            there = raw.execute(
                "SELECT count(*) FROM events WHERE household = %s", (household,)
            ).fetchone()[0]
            if there:
                raw.execute("ALTER TABLE events DISABLE TRIGGER events_stay")
                raw.execute(f"CREATE TABLE {aside} (LIKE events)")
                raw.execute(
                    f"WITH old AS (DELETE FROM events WHERE household = %s RETURNING *) "
                    f"INSERT INTO {aside} SELECT * FROM old",
                    (household,),
                )
                raw.execute("ALTER TABLE events ENABLE ALWAYS TRIGGER events_stay")
            for chunk in new.read():
                log.store.append(raw, [(household, *row) for row in chunk])
        if log.head() != new.head():
            raise BookDamaged(sentence("refusal-restored-differs", place=Code(str(place))))
    return aside if there else ""
