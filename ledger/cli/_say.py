"""`croftbook say`: what happened, in the household's own words."""

from __future__ import annotations

import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from ledger.cli import _common
from ledger.cli._common import book_options, open_book, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._speech import echo, refused, told
from ledger.cli._speech import say as say_
from ledger.errors import InputError, LedgerError
from ledger.saying.settled import Settled

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Written
    from ledger.saying.asking import Reading

__all__ = ["COMMANDS"]


@command(
    "say",
    help="command-say",
    examples=[
        "root-example-say-quoted",
        "root-example-say-bought",
        "croftbook say --on friday < notes.txt",
        "root-example-say-ate",
    ],
    context_settings={"ignore_unknown_options": True},
)
@argument("words", nargs=-1, metavar="TEXT", type=click.UNPROCESSED)
@option("--on", metavar="DAY", help="option-say-on")
@option("--dry-run", is_flag=True, help="option-say-dry-run")
@option("--json", "as_json", is_flag=True, help="option-say-json")
@option("--yes", "-y", is_flag=True, help="option-yes")
@option("--by", metavar="NAME", help="option-by")
@book_options
def say(
    words: tuple[str, ...],
    on: str | None,
    dry_run: bool,
    as_json: bool,
    yes: bool,
    by: str | None,
    book: str | None,
    household: str,
) -> int:
    """Read a text, ask what it leaves open, and write it."""
    if not words and not dry_run and _common.at_terminal():
        return _one_by_one(on, as_json=as_json, yes=yes, by=by, where=(book, household))
    text = _text(words)
    into = read_book(book, household, blank=True) if dry_run else open_book(book, household)
    with into as opened:
        read = _reader(opened, text, on)
        if dry_run:
            _show(read(Settled()), as_json=as_json)
            return 0
        return _write(opened, read, yes=yes, as_json=as_json, by=by)


def _one_by_one(
    on: str | None, *, as_json: bool, yes: bool, by: str | None, where: tuple[str | None, str]
) -> int:
    """Take one happening a line at the terminal, until an empty one."""
    with open_book(*where) as opened:
        while True:
            text = click.prompt(
                say_("cli-what-happened-next"), default="", show_default=False, err=True
            )
            if not text.strip():
                return 0
            try:
                _write(opened, _reader(opened, text, on), yes=yes, as_json=as_json, by=by)
            except LedgerError as error:
                click.echo(refused(error), err=True)


def _write(
    book: Book, read: Callable[[Settled], Reading], *, yes: bool, as_json: bool, by: str | None
) -> int:
    """Ask what has to be asked, write, and say what was written."""
    from ledger.cli._asking import Doubts
    from ledger.cli._settling import settle, write_all
    from ledger.cli._written import report

    settled = Settled()
    _warn_signs(read(settled))
    try:
        reading = settle(read, settled, yes=yes)
    except InputError:
        _show(read(settled), as_json=as_json)
        raise
    doubts = Doubts(yes=yes)
    doubts.answers.spoken = True
    caution = _cautions(book, reading, yes=yes)
    written = write_all(book, reading, doubts, by)
    if not written:
        echo("cli-nothing-to-write", err=True)
    if as_json:
        results = [
            {"id": one.event.id, "kind": one.event.kind, "on": one.event.on, "body": one.body}
            for one in written
        ]
        asked = [one.as_json() for one in reading.questions]
        _common.print_json({"written": results, "questions": asked})
        return 0
    for one in written:
        if one.event.kind != "item_described" or len(written) == 1:
            report(
                book, one, as_json=False, caution=caution if one.event.kind == "put_up" else None
            )
            for text in _gone_bad(one):
                click.echo(f"  ! {told(text)}", err=True)
    for question in reading.questions:
        echo("cli-say-open", err=True, question=told(question.text))
    return 0


def _warn_signs(reading: Reading) -> None:
    """Say before any question what is published of a jar that shows signs of spoilage; else the door says it."""
    if reading.signs and reading.blocks:
        from ledger.published.signs import cautions_on_signs

        text = " ".join(map(told, cautions_on_signs(reading.signs)))
        click.secho(f"{text}\n", fg="red", bold=True, err=True)


def _gone_bad(one: Written) -> list[str]:
    from ledger.published.cautions import cautions_on

    return cautions_on(one.event.kind, one.body)


def _cautions(book: Book, reading: Reading, *, yes: bool) -> str | None:
    """Say before anything is written what a batch that is told may hurt; return the first batch's cautions."""
    from ledger.cli import _putup
    from ledger.saying.entries import entries_of

    caution = None
    for entry in entries_of(book.catalogue(), reading):
        if entry.kind == "put_up" and isinstance(entry.body, dict):
            _putup.warn_low_acid(entry.body, {"yes": yes})
            caution = caution or _putup.caution_of(book, entry.body)
    return caution


def _text(words: tuple[str, ...]) -> str:
    """Return what was said: the words of the command, else standard input."""
    if words:
        text = " ".join(words)
    elif sys.stdin.isatty():
        text = click.prompt(say_("cli-what-happened"), err=True)
    else:
        text = sys.stdin.buffer.read().decode("utf-8-sig", "replace")
    return text.encode("utf-8", "replace").decode()


def _reader(book: Book, text: str, on: str | None) -> Callable[[Settled], Reading]:
    import datetime as dt

    from ledger.door.when import day_of
    from ledger.saying.known import Known
    from ledger.saying.reading import read

    today = book.today()
    day = day_of(on, today)
    known = Known(book.catalogue(), today, book.log)
    default = dt.date.fromisoformat(day) if day else None
    return lambda settled: read(text, known, on=default, settled=settled)


def _show(reading: Reading, *, as_json: bool) -> None:
    if as_json:
        _common.print_json(reading.as_json())
        return
    from ledger.saying.echo import told as lines_of

    for line in lines_of(reading):
        click.echo(told(line))


COMMANDS: dict[str, click.Command] = {"say": say}
