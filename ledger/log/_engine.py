"""Engines for the two databases, made by functions, with every transaction begun on purpose."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import URL, create_engine, event, make_url
from sqlalchemy.engine import Connection, Engine
from sqlalchemy.exc import ArgumentError, DisconnectionError
from sqlalchemy.pool import QueuePool

from ledger.errors import InputError, NotABook

__all__ = ["FileWatch", "Place", "find_place", "make_engine", "same_file"]

_WANTED = (
    "Give a file name, sqlite:///FILE or postgresql://USER@HOST/DATABASE "
    "(a file needs no setting up)"
)
_SQLITE_MAGIC = b"SQLite format 3\0"


@dataclass(frozen=True)
class Place:
    """Where a book is: a file (`path`) or a PostgreSQL database (`url`)."""

    path: Path | None = None
    url: URL | None = field(default=None, repr=False)

    def __str__(self) -> str:
        if self.path is not None:
            return str(self.path)
        assert self.url is not None
        return self.url.render_as_string(hide_password=True)


def find_place(where: str | os.PathLike[str]) -> Place:
    """Return the place that a path or an SQLAlchemy URL names.

    Raises
    ------
    InputError
        It is empty, or a URL of another database.
    """
    text = os.fspath(where)
    if not text or "\0" in text:
        raise InputError("book", "no file or database is named", _WANTED)
    if "://" not in text:
        return Place(path=_file(text))
    try:
        url = make_url(text)
    except (ArgumentError, ValueError) as error:
        raise InputError("book", "the address of the database cannot be read", _WANTED) from error
    backend = url.get_backend_name()
    if backend == "sqlite" and url.database and url.database != ":memory:":
        return Place(path=_file(url.database))
    if backend in ("postgresql", "postgres"):
        return Place(url=url.set(drivername="postgresql+psycopg"))
    raise InputError("book", f"a book cannot be kept in {url.drivername}", _WANTED)


def _file(text: str) -> Path:
    """Return the path that a text names.

    Raises
    ------
    InputError
        It is not UTF-8, which neither messages nor other systems could say.
    """
    try:
        text.encode()
    except UnicodeEncodeError as error:
        said = text.encode("utf-8", "replace").decode()
        raise InputError("book", f"the name {said!r} is not UTF-8", "Rename the file") from error
    try:
        return Path(text).expanduser()
    except RuntimeError as error:
        raise InputError("book", f"{text!r} names no home folder", "Write it out") from error


def check_file(path: Path) -> bool:
    """Return whether the file holds something, looking at its first bytes only.

    Raises
    ------
    NotABook
        It is a folder, a device or pipe, or a file that is no SQLite database.
    OSError
        It cannot be read.
    """
    if path.is_dir():
        raise NotABook(f"{path} is a folder. Name a file in it")
    if not path.is_file():  # reading from a pipe would wait for ever
        raise NotABook(f"{path} is no plain file. Name one")
    with open(path, "rb") as file:
        start = file.read(len(_SQLITE_MAGIC))
    if start and start != _SQLITE_MAGIC:
        raise NotABook(f"{path} is not a Croftbook file. Nothing in it was touched; name another")
    return bool(start)


def may_write(path: Path) -> bool:
    """Return whether `path` and its folder can be written to (SQLite needs both)."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


def make_engine(place: Place, *, mode: str, wait: float) -> Engine:
    """Return the engine of a place.

    Parameters
    ----------
    place : Place
        Where the book is.
    mode : str
        For a file: ``rwc``, ``rw``, ``ro``, or ``immutable`` for one that nobody can write to.
    wait : float
        Seconds to wait for another writer.
    """
    if place.path is not None:
        return _sqlite_engine(place.path, mode, wait)
    assert place.url is not None
    engine = create_engine(
        place.url,
        # What the server would set by default may be a stricter level, in which a read made
        # after the lock still sees the book as it was before.
        isolation_level="READ COMMITTED",
        paramstyle="format",
        pool_pre_ping=True,
        connect_args={"connect_timeout": max(2, int(wait)), "application_name": "croftbook"},
        max_overflow=-1,
    )
    return engine


def _sqlite_engine(path: Path, mode: str, wait: float) -> Engine:
    name = f"file:{quote(os.fsencode(path.absolute()))}?"
    uri = name + ("mode=ro&immutable=1" if mode == "immutable" else f"mode={mode}")

    def connect() -> sqlite3.Connection:
        # isolation_level None: the driver begins nothing by itself.
        raw = sqlite3.connect(
            uri, uri=True, timeout=wait, isolation_level=None, check_same_thread=False
        )
        try:
            raw.execute("PRAGMA synchronous = FULL")
        except BaseException:
            raw.close()
            raise
        return raw

    engine = create_engine(
        "sqlite://", creator=connect, poolclass=QueuePool, max_overflow=-1, paramstyle="qmark"
    )

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        how = connection.get_execution_options().get("croft_begin")
        if how:
            raw: Any = connection.connection.driver_connection
            raw.execute(how)

    @event.listens_for(engine, "connect")
    def connected(_raw: Any, record: Any) -> None:
        record.info["file"] = same_file(path)

    @event.listens_for(engine, "checkout")
    def checked_out(_raw: Any, record: Any, _proxy: Any) -> None:
        # A backup copied over the book is another file: what the old connection writes is lost.
        if record.info.get("file") != same_file(path):
            raise DisconnectionError

    return engine


def same_file(path: Path) -> tuple[int, int] | None:
    """Return which file a path leads to at present, None where there is none."""
    with contextlib.suppress(OSError):
        found = os.stat(path)
        return found.st_dev, found.st_ino
    return None


class FileWatch:
    """Tells whether a file was written to by anybody else since this program last looked.

    A book copied over an open one keeps the file's number, and SQLite goes on with pages that it
    remembers; only what the file system says of it has changed.
    """

    def __init__(self, path: Path | None) -> None:
        self._path = path
        self._seen = self._stat()

    def _stat(self) -> tuple[int, ...] | None:
        if self._path is None:
            return None
        with contextlib.suppress(OSError):
            found = os.stat(self._path)
            return found.st_dev, found.st_ino, found.st_size, found.st_mtime_ns
        return None

    def looked(self) -> None:
        """Take the file as it is for seen."""
        self._seen = self._stat()

    def has_changed(self) -> bool:
        """Return whether the file is another one than when it was last looked at, and look."""
        before, self._seen = self._seen, self._stat()
        return before != self._seen
