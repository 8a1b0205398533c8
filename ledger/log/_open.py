"""Opening a book: find it, see that it is one, lay it out where it is new."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path

from sqlalchemy.engine import Connection, Engine
from sqlalchemy.exc import DBAPIError

from ledger import clock
from ledger.errors import BookError, BookReadOnly, InputError, NewerBook, NotABook
from ledger.log._engine import Place, check_file, find_place, make_engine, may_write
from ledger.log._roles import check_role
from ledger.log._schema import NEWEST, STEPS, layout
from ledger.log._store import Log
from ledger.log._translate import translated

__all__ = ["has_book", "open_log"]

# One number for all books: laying out happens once in a book's life.
_LAYOUT_LOCK = 0x43424F4B00000000


def open_log(
    url_or_path: str | os.PathLike[str],
    household: str = "home",
    *,
    create: bool = True,
    wait: float = 30.0,
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
    BookError
        The database cannot be reached or read.
    """
    if not household or "\0" in household or not _is_text(household):
        raise InputError("household", "the name cannot be used", "Give a plain name")
    place = find_place(url_or_path)
    if place.path is not None:
        return _open_file(place, place.path, household, create, wait)
    return _opened(place, household, "rw", create=create, wait=wait)


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
    engine = make_engine(place, mode="rw", wait=30.0)
    try:
        with translated(str(place)), engine.connect() as connection:
            return _done(connection, place) > 0
    finally:
        engine.dispose()


def _is_text(text: str) -> bool:
    try:
        text.encode()
    except UnicodeEncodeError:
        return False
    return True


def _open_file(place: Place, path: Path, household: str, create: bool, wait: float) -> Log:
    try:
        there = path.exists() and check_file(path)
        if not there and not create:
            raise NotABook(f"There is no book at {path}. Name another, or write a first entry")
        if not there:
            path.parent.mkdir(parents=True, exist_ok=True)
    except PermissionError as error:
        raise BookError(f"{path} cannot be opened: it is not yours to read") from error
    except OSError as error:
        raise BookReadOnly(f"{path} cannot be made there: {error.strerror}") from error
    if not there:
        engine = make_engine(place, mode="rwc", wait=wait)
        with translated(str(place)), _or_dispose(engine):
            _lay_out(engine, place, create=True)
        engine.dispose()  # the log's own engine makes no file: a book taken away stays away
    if may_write(path):
        return _opened(place, household, "rw", create=create, wait=wait)
    try:
        return _opened(place, household, "ro", create=False, wait=wait)
    except BookError:
        # A book in write-ahead mode wants two files beside it even for reading. Where they
        # cannot be made, and no finished work waits in one, the file alone is the book.
        wal = path.with_name(path.name + "-wal")
        if wal.exists() and wal.stat().st_size:
            raise
    return _opened(place, household, "immutable", create=False, wait=wait)


def _opened(place: Place, household: str, mode: str, *, create: bool, wait: float) -> Log:
    engine = make_engine(place, mode=mode, wait=wait)
    with translated(str(place)), _or_dispose(engine):
        _lay_out(engine, place, create=create)
        with engine.connect() as connection:
            check_role(connection, household)
        return Log(engine, place, household, wait=wait, read_only=mode in ("ro", "immutable"))


@contextlib.contextmanager
def _or_dispose(engine: Engine) -> Iterator[None]:
    try:
        yield
    except BaseException:
        engine.dispose()
        raise


def _lay_out(engine: Engine, place: Place, *, create: bool) -> None:
    """See that the place holds a book of this layout or an older one; bring it up to date."""
    with engine.connect() as connection:
        done = _done(connection, place)
    if done < NEWEST:
        if not done and not create:
            raise NotABook(f"{place} holds no book yet. Write a first entry to make one")
        for step in STEPS[done:]:
            how = {"croft_begin": "BEGIN IMMEDIATE"}
            with engine.connect().execution_options(**how) as connection, connection.begin():
                if engine.dialect.name == "postgresql":
                    connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_LAYOUT_LOCK})")
                if _done(connection, place) >= step.number:
                    continue  # another process was quicker
                for statement in step.statements(engine.dialect):
                    connection.exec_driver_sql(statement)
                connection.execute(
                    layout.insert(),
                    {"step": step.number, "name": step.name, "done_at": clock.stamp()},
                )


def _done(connection: Connection, place: Place) -> int:
    """Return the newest step that a database has, 0 for an empty one."""
    if connection.dialect.name == "sqlite":
        names = "SELECT name FROM sqlite_master WHERE type IN ('table', 'view')"
    else:
        names = (
            "SELECT c.relname FROM pg_class c WHERE c.relnamespace = "
            "(SELECT oid FROM pg_namespace WHERE nspname = current_schema()) "
            "AND c.relkind IN ('r', 'v', 'm', 'p', 'f') AND NOT EXISTS "
            "(SELECT 1 FROM pg_depend d WHERE d.objid = c.oid AND d.deptype = 'e')"
        )
    tables = {row[0] for row in connection.exec_driver_sql(names)}
    if not tables:
        return 0
    if not {"book_layout", "events"} <= tables:
        raise NotABook(f"{place} is a database of something else. Name one of its own for the book")
    try:
        newest = connection.exec_driver_sql("SELECT max(step) FROM book_layout").scalar() or 0
    except DBAPIError as error:
        if connection.dialect.name == "sqlite" and "no such column" not in str(error):
            raise
        raise NotABook(f"{place} is a database of something else") from error
    if newest > NEWEST:
        raise NewerBook(
            f"{place} was laid out by a newer Croftbook (layout {newest}; this one knows "
            f"{NEWEST}). Update Croftbook to open it"
        )
    return int(newest)
