"""Opening a book: find it, see that it is one, lay it out where it is new."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

from ledger import clock
from ledger.errors import (
    BookDamaged,
    BookError,
    BookLocked,
    BookReadOnly,
    InputError,
    NewerBook,
    NotABook,
)
from ledger.log._kept import Keeper
from ledger.log._layout import has_tables_of_a_book, wrong_triggers
from ledger.log._place import Place, check_file, find_place, may_write
from ledger.log._private import make_file, make_folder, why_not
from ledger.log._protocol import Store
from ledger.log._schema import NEWEST, STEPS
from ledger.log._standing import ACCEPT, RESTORE
from ledger.log._store import Log
from ledger.log._stores import open_store
from ledger.log._translate import translated
from ledger.messages import Code, Day, Message, sentence

__all__ = ["forget", "has_book", "has_kept", "open_log"]


def open_log(
    url_or_path: str | os.PathLike[str],
    household: str = "home",
    *,
    create: bool = True,
    wait: float = 30.0,
    keeps_head: bool = True,
) -> Log:
    """Return the log of one household in a book, laying the book out where it is new.

    Parameters
    ----------
    url_or_path : str or path
        A file, ``sqlite:///FILE`` or ``postgresql://...``.
    household : str
        Whose events; one database holds many households.
    create : bool
        Make the book where there is none; otherwise a missing one is an error.
    wait : float
        Seconds to wait for another writer before giving up.
    keeps_head : bool
        Keep the head of what is written, and hold the book against it; a copy that is only made
        and read back does not.

    Raises
    ------
    InputError
        The address or the household's name cannot be used.
    NotABook
        There is nothing there, or something else.
    NewerBook
        A newer program laid it out.
    BookReadOnly
        A new book cannot be made there.
    BookDamaged
        The file is empty, and was not.
    BookError
        The database cannot be reached or read.
    """
    if not household or "\0" in household or not _is_text(household):
        raise InputError("household", Message.of("refusal-name-unusable"))
    place = find_place(url_or_path)
    keeper = Keeper(place) if keeps_head else None
    how = _How(place, household, create, wait, keeper)
    if place.path is not None:
        return _open_file(how, place.path)
    return _opened(how, "rw")


class _How(NamedTuple):
    """What is asked for."""

    place: Place
    household: str
    create: bool
    wait: float
    keeper: Keeper | None


def has_book(url_or_path: str | os.PathLike[str]) -> bool:
    """Return whether there is something at a place, a book or not; nothing is made there.

    Raises
    ------
    InputError
        The address cannot be used.
    BookError
        The database cannot be reached.
    """
    place = find_place(url_or_path)
    if place.path is not None:
        return place.path.exists() and (place.path.is_dir() or place.path.stat().st_size > 0)
    store = open_store(place, mode="rw", wait=30.0)
    with translated(str(place)), contextlib.closing(store), store.reading() as raw:
        return _done(store, raw) > 0


def has_kept(url_or_path: str | os.PathLike[str]) -> bool:
    """Return whether a head of a book with events is kept of a place."""
    kept = Keeper(find_place(url_or_path)).read() or {}
    return any(one.head.seq for one in kept.values())


def forget(url_or_path: str | os.PathLike[str]) -> None:
    """Let go of the heads kept of a place, so that a book may begin anew there."""
    Keeper(find_place(url_or_path)).forget()


def _is_text(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _open_file(how: _How, path: Path) -> Log:
    try:
        there = path.exists() and check_file(path)
        if not there:
            _nothing_there(how, path)
            make_folder(path.parent)
            make_file(path)
    except PermissionError as error:
        raise BookError(sentence("refusal-not-yours", path=Code(str(path)))) from error
    except OSError as error:
        raise BookReadOnly(
            sentence("refusal-cannot-be-made", path=Code(str(path)), why=Code(why_not(error)))
        ) from error
    if not there:
        # The log's own store makes no file: a book taken away stays away.
        store = open_store(how.place, mode="rwc", wait=how.wait)
        with translated(str(how.place)), contextlib.closing(store):
            _lay_out(store, create=True)
    if not may_write(path):
        return _only_read(
            how,
            path,
            sentence("refusal-no-permission", name=Code(str(path))),
        )
    try:
        return _opened(how, "rw")
    except (BookDamaged, BookLocked, NotABook, NewerBook):
        raise
    except BookError as error:  # a full disk has no room for the files beside a book, either
        with contextlib.suppress(BookError):
            return _only_read(how, path, str(error))
        raise


def _nothing_there(how: _How, path: Path) -> None:
    """Refuse, or note, that there is no book where there was one.

    Raises
    ------
    BookDamaged
        The file is empty, and was not.
    NotABook
        There is none, and none is to be made.
    """
    kept = (how.keeper.read() if how.keeper else None) or {}
    most = max(kept.values(), key=lambda one: one.head.seq, default=None)
    before: str = ""
    if most is not None and most.head.seq:
        before = sentence("refusal-held-before", n=most.head.seq, day=Day(most.at[:10]))
    if before and path.exists():
        raise BookDamaged(
            sentence(
                "refusal-book-emptied",
                path=Code(str(path)),
                before=before,
                restore=sentence(RESTORE),
                accept=sentence(ACCEPT),
            )
        )
    if not how.create:
        hint = sentence("refusal-stood-there", before=before) if before else None
        raise NotABook(
            sentence(
                "refusal-no-book-hint",
                path=Code(str(path)),
                hint=hint or sentence("refusal-name-or-write"),
            )
        )
    if before and how.keeper is not None:
        how.keeper.begin_anew()


def _only_read(how: _How, path: Path, why: str) -> Log:
    try:
        return _opened(how, "ro", why)
    except BookError:
        # A book in write-ahead mode wants two files beside it even for reading. Where they
        # cannot be made, and no finished work waits in one, the file alone is the book.
        wal = path.with_name(path.name + "-wal")
        if wal.exists() and wal.stat().st_size:
            raise
    return _opened(how, "immutable", why)


def _opened(how: _How, mode: str, why_read_only: str = "") -> Log:
    store = open_store(how.place, mode=mode, wait=how.wait)
    with translated(str(how.place)), _or_close(store):
        faults = _lay_out(store, create=how.create and not why_read_only)
        store.may_open(how.household)
        log = Log(
            store, how.household, wait=how.wait, why_read_only=why_read_only, keeper=how.keeper
        )
        log.faults = faults
        return log


@contextlib.contextmanager
def _or_close(store: Store) -> Iterator[None]:
    try:
        yield
    except BaseException:
        store.close()
        raise


def _lay_out(store: Store, *, create: bool) -> list[str]:
    """See that the place holds a book of this layout or an older one; bring it up to date.

    Returns
    -------
    list of str
        What is wrong with its triggers.
    """
    with store.reading() as raw:
        done = _done(store, raw)
        if done == NEWEST:
            return wrong_triggers(store, raw)
    if done < NEWEST:
        if not done and not create:
            raise NotABook(sentence("refusal-no-book-made", place=Code(str(store.place))))
        for step in STEPS[done:]:
            with store.transaction() as raw:
                store.lock_layout(raw)
                if _done(store, raw) >= step.number:
                    continue  # another process was quicker
                for statement in step.statements(store.dialect):
                    raw.execute(statement)
                store.sql.step_done.run(
                    raw, step=step.number, name=step.name, done_at=clock.stamp()
                )
    return []


def _done(store: Store, raw: Any) -> int:
    """Return the newest step that a database has, 0 for an empty one."""
    place, tables = store.place, store.tables(raw)
    if not tables:
        return 0
    if not {"book_layout", "events"} <= tables or not has_tables_of_a_book(store, raw):
        raise NotABook(sentence("refusal-other-database", place=Code(str(place))))
    newest = raw.execute("SELECT max(step) FROM book_layout").fetchone()[0] or 0
    if newest > NEWEST:
        raise NewerBook(
            sentence("refusal-newer-layout", place=Code(str(place)), newest=newest, known=NEWEST)
        )
    return int(newest)
