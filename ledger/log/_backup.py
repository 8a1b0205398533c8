"""Copy a book while it is in use, and read the copy back before calling it one."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

from ledger.errors import BookDamaged, BookReadOnly, InputError
from ledger.log._chain import Head, StoredEvent
from ledger.log._heads import keep_heads
from ledger.log._open import open_log
from ledger.log._private import make_file, make_folder, synced, why_not
from ledger.log._store import Log
from ledger.log._verify import verify
from ledger.messages import Code, Message, sentence

__all__ = ["backup"]

Progress = Callable[[int, int], None]


def backup(
    log: Log,
    target: str | os.PathLike[str],
    progress: Progress | None = None,
    *,
    force: bool = False,
) -> dict[str, Head]:
    """Write the whole book to a new file, with its heads beside it.

    Of a file it holds every household; of a database, which may be that of many, only the one whose
    log it is. The copy is made under another name, read back and checked event by event, and only
    then given its name. Others may go on writing meanwhile; the copy is of one moment.

    Parameters
    ----------
    log : Log
        Of a file, any household's log of the book; of a database, the household's that is copied.
    target : str or path
        The new file, a SQLite book even where this one is on PostgreSQL.
    progress : callable, optional
        Called with a part done and its whole, first for the copy, then for the check.
    force : bool
        Replace a file that is there.

    Returns
    -------
    dict of str to Head
        Where each household's log ends in the copy; also written to ``<target>.head``.

    Raises
    ------
    InputError
        The target is there already, or is the book itself.
    BookReadOnly
        The target cannot be written, or its disk is full.
    BookDamaged
        The book does not hold; nothing is left at the target.
    """
    target = Path(target).expanduser()
    _check_target(log, target, force)
    temporary = target.with_name(f".{target.name}.{os.getpid()}.partial")
    try:
        make_folder(target.parent)
        with _removed(temporary):
            make_file(temporary)  # says best why a file cannot be made here
            if not log.store.copy_to(temporary, progress):
                _copy_rows(log, temporary, progress)
            heads = _read_back(temporary, progress)
            _name(temporary, target, force)
    except OSError as error:
        raise BookReadOnly(
            sentence("refusal-not-written", target=Code(str(target)), why=Code(why_not(error)))
        ) from error
    keep_heads(target, heads)
    return heads


def _check_target(log: Log, target: Path, force: bool) -> None:
    if target.is_dir():
        raise InputError("target", Message.of("refusal-target-is-folder", target=Code(str(target))))
    if not target.exists():
        return
    if log.path is not None and log.path.exists() and target.samefile(log.path):
        raise InputError(
            "target",
            Message.of("refusal-book-itself", path=Code(str(target))),
            Message.of("refusal-other-file"),
        )
    if not force:
        raise InputError(
            "target",
            Message.of("refusal-target-there", target=Code(str(target))),
            Message.of("refusal-new-or-force"),
        )
    if Path(f"{target}-wal").exists():
        # Its unfinished pages would be read into the new file.
        raise InputError("target", Message.of("refusal-target-in-use", target=Code(str(target))))


@contextlib.contextmanager
def _removed(path: Path) -> Iterator[None]:
    """Leave nothing of the temporary file behind, whatever happens."""
    try:
        yield
    finally:
        for end in ("", "-journal", "-wal", "-shm", ".writer"):
            with contextlib.suppress(OSError):
                os.unlink(f"{path}{end}")


def _copy_rows(log: Log, target: Path, progress: Progress | None) -> None:
    with (
        open_log(target, log.household, keeps_head=False) as copy,
        copy.writing("backup") as writing,
    ):
        total = log.position()
        for rows in log.read(upto=total):
            for row in rows:
                writing.append_verbatim(StoredEvent(*row))
            if progress is not None:
                progress(rows[-1][0], total)
    with contextlib.closing(sqlite3.connect(target, isolation_level=None)) as file:
        file.execute("PRAGMA journal_mode = DELETE")


def _read_back(path: Path, progress: Progress | None) -> dict[str, Head]:
    heads: dict[str, Head] = {}
    with open_log(path, create=False, keeps_head=False) as copy:
        for household in copy.households():
            report = verify(copy.for_household(household), progress=progress)
            if report.first_bad is not None:
                seq, reason = report.first_bad
                raise BookDamaged(
                    sentence(
                        "refusal-copy-not-kept-event", seq=seq, household=household, why=reason
                    )
                )
            if report.file is not None:
                raise BookDamaged(sentence("refusal-copy-not-kept", why=report.file))
            heads[household] = report.head
    return heads


def _name(temporary: Path, target: Path, force: bool) -> None:
    with open(temporary, "rb") as file:
        os.fsync(file.fileno())
    if force:
        os.replace(temporary, target)
    else:
        try:
            os.link(temporary, target)  # unlike a rename, never over a file made meanwhile
        except FileExistsError as error:
            raise InputError(
                "target",
                Message.of("refusal-target-there", target=Code(str(target))),
                Message.of("refusal-new-file"),
            ) from error
        except OSError:  # a file system without hard links
            os.replace(temporary, target)
    synced(target.parent)
