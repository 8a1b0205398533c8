"""Where a book is: a file or a database's address, read and looked at without opening it."""

from __future__ import annotations

import contextlib
import os
import re
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from ledger.errors import InputError, NotABook
from ledger.extras import extra_needed
from ledger.messages import Code, Message, Typed, sentence

if TYPE_CHECKING:
    from sqlalchemy import URL

__all__ = ["FileWatch", "Place", "check_file", "find_place", "may_write", "same_file"]

_WANTED = (
    "Give a file name, sqlite:///FILE or postgresql://USER@HOST/DATABASE "
    "(a file needs no setting up)"
)
_SQLITE_MAGIC = b"SQLite format 3\0"
_OF_A_FILE = re.compile(r"sqlite(?:\+\w+)?://[^/?]*/(?P<file>[^?]+)(?:\?.*)?", re.DOTALL)
_SCHEME = re.compile(r"[\w+]+(?=://)")
_SERVERS = ("postgresql", "postgres")


@dataclass(frozen=True)
class Place:
    """Where a book is: a file (`path`) or a PostgreSQL database (`url`)."""

    path: Path | None = None
    url: URL | None = field(default=None, repr=False)

    @property
    def address(self) -> str:
        """The file, or the database's address with its password."""
        if self.url is not None:
            return self.url.render_as_string(hide_password=False)
        return str(self.path)

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
        raise InputError("book", Message.of("refusal-no-place-named"))
    if "://" not in text:
        return Place(path=_file(text))
    file = _OF_A_FILE.fullmatch(text)
    if file and file["file"] != ":memory:":
        return Place(path=_file(file["file"]))
    scheme = _SCHEME.match(text)
    if scheme and scheme[0].partition("+")[0] in _SERVERS:
        with extra_needed("postgres", "book", "a book on PostgreSQL"):
            from sqlalchemy import make_url
            from sqlalchemy.exc import ArgumentError
        with contextlib.suppress(ArgumentError, ValueError):
            return Place(url=make_url(text).set(drivername="postgresql+psycopg"))
    elif scheme:
        raise InputError("book", Message.of("refusal-no-book-in", scheme=Code(scheme[0])))
    raise InputError("book", Message.of("refusal-address-unreadable"))


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
        raise InputError("book", Message.of("refusal-name-no-utf8", name=Typed(said))) from error
    try:
        return Path(text).expanduser()
    except RuntimeError as error:
        raise InputError("book", Message.of("refusal-no-home", text=Typed(text))) from error


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
        raise NotABook(sentence("refusal-book-is-folder", path=Code(str(path))))
    if not path.is_file():  # reading from a pipe would wait for ever
        raise NotABook(sentence("refusal-book-no-plain-file", path=Code(str(path))))
    with open(path, "rb") as file:
        start = file.read(len(_SQLITE_MAGIC))
    if start and start != _SQLITE_MAGIC:
        raise NotABook(sentence("refusal-not-croftbook", path=Code(str(path))))
    return bool(start)


def may_write(path: Path) -> bool:
    """Return whether `path` and its folder can be written to (SQLite needs both)."""
    return os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)


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
