"""What commands share: the book, output and progress."""

from __future__ import annotations

import itertools
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ledger.cli._help import Refused, option
from ledger.cli._speech import echo, for_book, say, told
from ledger.messages import Code, Message, Typed

if TYPE_CHECKING:
    from ledger.book import Book

__all__ = [
    "at_terminal",
    "book_options",
    "file_named",
    "forget_empty",
    "nearest",
    "open_book",
    "print_json",
    "progress",
    "read_book",
    "working",
]


def at_terminal() -> bool:
    """Return whether a person sits in front."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def book_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--book`` and ``--household`` to a command."""
    command = option("--household", default="home", show_default=True, help="option-household")(
        command
    )
    return option("--book", envvar="CROFTBOOK", help="option-book")(command)


@contextmanager
def open_book(where: str | None, household: str, *, create: bool = True) -> Iterator[Book]:
    """Open a book for the length of a command."""
    from ledger.book import Book

    with Book.open(where, household, create=create) as book:
        if create:  # what is wrong is said by the writing that is refused
            note = book.log.standing().note
            if note:
                echo("cli-note", err=True, text=told(note))
        for_book(book, where, household)
        yield book


@contextmanager
def read_book(
    where: str | None, household: str, *, blank: bool = False, quiet: bool = False
) -> Iterator[Book]:
    """Open a book that is only read; where there is none, nothing is made.

    Parameters
    ----------
    blank : bool
        Where there is none, give an empty one that is gone afterwards.
    quiet : bool
        Do not say what a look at the book's end finds wrong: the command does.

    Raises
    ------
    BookDamaged
        The file is empty, and was not.
    InputError
        When there is no book at the place named.
    """
    from ledger.book import default_path
    from ledger.errors import InputError
    from ledger.log import has_book

    if has_book(where or default_path()):
        with open_book(where, household, create=False) as book:
            for text in [] if quiet else book.warnings():
                echo("cli-warning", err=True, text=told(text))
            yield book
        return
    if not blank:
        refuse_emptied(where)
    if blank:
        with tempfile.TemporaryDirectory() as folder, open_book(f"{folder}/b", household) as book:
            yield book
    elif where:
        raise InputError("book", Message.of("refusal-no-book", where=Code(where)))
    else:
        raise Refused("cli-book-empty")


def refuse_emptied(where: str | None) -> None:
    """Refuse an empty or missing file that a book stood in, saying what is missing.

    Raises
    ------
    BookDamaged, NotABook
    """
    from ledger.book import default_path
    from ledger.log import has_kept, open_log

    place = str(where or default_path())
    if has_kept(place):
        open_log(place, create=False).close()


def forget_empty(where: str | None) -> None:
    """Let go of the head of a book whose file is empty or gone, as its owner says it is right so."""
    from ledger.book import default_path
    from ledger.log import forget, has_book

    place = str(where or default_path())
    if not has_book(place):
        forget(place)


def file_named(text: str, field: str = "file") -> Path:
    """Return the path that a person names.

    Raises
    ------
    InputError
        It is not UTF-8, is too long, or names a home folder that is not there.
    """
    from ledger.errors import InputError

    try:
        text.encode()
        path = Path(text).expanduser()
        path.exists()
    except UnicodeEncodeError:
        said = text.encode("utf-8", "replace").decode()
        raise InputError(field, Message.of("refusal-name-no-utf8", name=Typed(said))) from None
    except (OSError, RuntimeError, ValueError):
        raise InputError(field, Message.of("refusal-no-file-name", name=Typed(text[:60]))) from None
    return path


def nearest(word: str, known: Iterable[str], otherwise: str) -> str:
    """Return ``Did you mean 'harvest'?``, or `otherwise` where nothing is near."""
    import difflib

    near = difflib.get_close_matches(word, list(known), 1, 0.5)
    return f"Did you mean {near[0]!r}?" if near else otherwise


def print_json(value: Any) -> None:
    """Print a value as JSON on standard output."""
    import json

    pieces = json.JSONEncoder(ensure_ascii=False, indent=2, default=str).iterencode(value)
    while some := "".join(itertools.islice(pieces, 5_000)):
        click.echo(some, nl=False)
    click.echo()


class _Slowly:
    """Says now and then how far a work has come that takes its time, where no bar can be drawn."""

    def __init__(self, label: str, length: int) -> None:
        self._label, self._length, self._done = label, length, 0
        self._said = time.monotonic()

    def __call__(self, more: int) -> None:
        self._done += more
        if time.monotonic() - self._said >= _SLOW_S:
            self._said = time.monotonic()
            part = min(self._done * 100 // self._length, 100)
            click.echo(f"{self._label}: {part} %", err=True)


_SLOW_S = 10.0


@contextmanager
def progress(label: str, length: int) -> Iterator[Callable[[int], None] | None]:
    """Give a function that moves a bar along; None for little work. Off a terminal it speaks seldom."""
    if length < 2000:
        yield None
        return
    if not sys.stderr.isatty():
        yield _Slowly(label, length)
        return
    bar: Any = click.progressbar(length=length, label=label, file=sys.stderr)
    with bar:
        yield bar.update


@contextmanager
def working(label: str) -> Iterator[Callable[[int], None] | None]:
    """Give a function that says how many entries are done, where nobody knows how many there are."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.console import Console

    with Console(stderr=True).status(f"{label} ...") as status:
        yield lambda done: status.update(say("cli-entries-done", label=label, n=done))
