"""What commands share: the book, doubts at a terminal, output and progress."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Answers

__all__ = ["answers", "at_terminal", "book_options", "open_book", "print_json", "progress"]


def at_terminal() -> bool:
    """Return whether a person sits in front."""
    return sys.stdin.isatty() and sys.stderr.isatty()


def book_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """Add ``--book`` and ``--household`` to a command."""
    command = click.option(
        "--household", default="home", show_default=True, help="Which household in that book."
    )(command)
    return click.option(
        "--book", envvar="CROFTBOOK", help="The book: a file, or an SQLAlchemy URL."
    )(command)


@contextmanager
def open_book(where: str | None, household: str, *, create: bool = True) -> Iterator[Book]:
    """Open a book for the length of a command."""
    from ledger.book import Book

    with Book.open(where, household, create=create) as book:
        yield book


def answers(*, yes: bool) -> Answers:
    """Return how doubts are settled: asked at a terminal, taken with --yes, else refused."""
    from ledger.door import Answers
    from ledger.errors import NeedsAnswer

    def ask(doubt: NeedsAnswer) -> bool:
        offered = f" [{doubt.offered}]" if doubt.offered else ""
        return click.confirm(f"{doubt.field}: {doubt.question}{offered}", err=True)

    return Answers(ask=ask if at_terminal() else None, yes=yes)


def print_json(value: Any) -> None:
    """Print a value as JSON on standard output."""
    click.echo(json.dumps(value, ensure_ascii=False, indent=2, default=str))


@contextmanager
def progress(label: str, length: int | None) -> Iterator[Callable[[int], None] | None]:
    """Give a function that moves a bar along; off a terminal, and for little work, None."""
    if not sys.stderr.isatty() or length is None or length < 2000:
        yield None
        return
    bar: Any = click.progressbar(length=length, label=label, file=sys.stderr)
    with bar:
        yield bar.update
