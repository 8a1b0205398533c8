"""`croftbook circle`: what a household does at home. What a group does is in `_circle_group`."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, file_named, read_book
from ledger.errors import InputError
from ledger.files import whole_file

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.circle.call import Call

__all__ = ["COMMANDS", "check_place", "last_line", "print_rows", "write_paper"]

_OURS = (
    b'{"call":',
    b'{"format": "croftbook release',
    b"<!DOCTYPE html><!-- croftbook",
    b"figure,product,method,crop",
)


def last_line(**said: Any) -> None:
    """Print what was done as the last line of the output, in JSON."""
    click.echo(json.dumps(said, ensure_ascii=False))


def check_place(path: Path) -> None:
    """Refuse a place where a file of ours cannot stand: only one of the same kind is replaced.

    Raises
    ------
    InputError
    """
    begins = path.read_bytes()[:40] if path.is_file() else b""
    if path.is_dir() or (path.exists() and begins and not begins.startswith(_OURS)):
        raise InputError("out", f"{path} is there and is none of ours", "Name a new file")
    if not path.parent.is_dir():
        raise InputError("out", f"there is no folder {path.parent}", "Make it first")


def write_paper(path: Path, content: bytes) -> None:
    """Write a file whole or not at all, for its owner alone.

    Raises
    ------
    InputError
        Something else stands there.
    """
    check_place(path)
    with whole_file(path) as file:
        file.write(content)


def _call(name: str) -> Call:
    from ledger.circle import Call

    return Call.read(file_named(name, "call"))


def _saying(language: str | None, opened: Book) -> Callable[[str], str]:
    """Return what says a text of the ledger in a language: the one named, else the household's own."""
    language = language or opened.catalogue().setting("language")
    if not language or language.startswith("en"):
        return str
    from ledger.extras import extra_needed

    with extra_needed("dashboard", "language", "another language than English"):
        from dashboard.words import Words  # the phrase book stands with the pages

    said: Callable[[str], str] = Words(language).said
    return said


_language = click.option(
    "--language", type=click.Choice(["en", "de"]), help="Say it in this language; default: yours."
)


class Circle(click.Group):
    """The commands of a group, a file of them read when one is used."""

    _GROUP = ("begin", "cards", "gather", "sheets", "budget", "tell", "page", "work", "demo")

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the commands of the household, then those of the group."""
        return [*super().list_commands(ctx), *self._GROUP]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return a command by its name, or None."""
        if cmd_name in self._GROUP:
            from ledger.cli._circle_group import COMMANDS as more

            return more[cmd_name]
        return super().get_command(ctx, cmd_name)


@click.group(
    "circle",
    cls=Circle,
    help="Compare a class or group of households, without laying one bare.\n\nAt home: `sheet` shows what a group asks for and writes it after your yes, `withdraw` takes it back, `beside` sets you beside the group. The others are for whoever gathers the sheets. Each ends with a line of JSON; there is no --json to ask for it.\n\n\b\nExamples:\n  croftbook circle demo\n  croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\\n      --out sheet.json",
)
def circle() -> None:
    """Do nothing by itself."""


@circle.command(
    "sheet",
    help="Make this household's sheet of a season: shows every figure, asks, and writes the file after a yes.\n\n\b\nExamples:\n  croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\\n      --out sheet.json\n  croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\\n      --out sheet.json --language de",
)
@click.argument("call")
@click.option("--card", required=True, help="The card you drew.")
@click.option("--zone", required=True, help="Your zone, one of those that the group names.")
@click.option("--out", required=True, metavar="FILE", help="Where to write the sheet.")
@click.option("--yes", is_flag=True, help="Do not ask: whoever types this says yes.")
@_language
@book_options
def sheet(
    call: str, card: str, zone: str, out: str, yes: bool, language: str | None,
    book: str | None, household: str,
) -> None:  # fmt: skip
    """Make a sheet."""
    from ledger.circle.reckon import hints_of, sheet_of

    asked, where = _call(call), file_named(out, "out")
    with read_book(book, household) as opened:
        made = sheet_of(opened, asked, card, zone)
        hints, said = hints_of(opened, asked), _saying(language, opened)
    _show(asked, zone, made.figures, hints, said)
    if not yes:
        _ask(where, said)
    write_paper(where, made.to_bytes() + b"\n")
    last_line(written=str(where), figures=len(made.figures))


def _ask(where: Path, said: Callable[[str], str]) -> None:
    if not _common.at_terminal():
        raise InputError(
            "yes",
            "nobody is here to say yes, and nothing was written",
            "Add --yes where you have read the figures and agree",
        )
    question = said("Write these figures to {name}?").format(name=where)
    if not click.confirm(question, default=False, err=True):
        raise click.Abort()


def _show(
    call: Call,
    zone: str,
    figures: dict[str, int | None],
    hints: dict[str, str],
    said: Callable[[str], str],
) -> None:
    from rich.console import Console
    from rich.table import Table

    from ledger.circle.words import CONSENT, asked_lines, sheet_lines

    console = Console(stderr=True, highlight=False)
    for line in asked_lines(call):
        console.print(said(line), markup=False)
    table = Table(box=None, show_header=False, padding=(0, 2, 0, 0))
    for _ in range(3):
        table.add_column(overflow="fold")
    for subject, label, value, meaning in sheet_lines(call, zone, figures, hints):
        named = f"{subject}: {said(label)}" if subject else said(label)
        table.add_row(*(_plain(one) for one in (named, said(value), said(meaning))))
    console.print(table)
    for line in CONSENT:
        console.print(said(line), markup=False)


def _plain(text: str) -> Any:
    from rich.text import Text

    return Text(text)


@circle.command(
    "withdraw",
    help="Take a sheet back: writes a file that deletes it where it is gathered.\n\n\b\nExample:\n  croftbook circle withdraw call.json --card ABCD-EFGH-IJKL-MN23 \\\n      --out withdrawal.json",
)
@click.argument("call")
@click.option("--card", required=True, help="The card you drew.")
@click.option("--out", required=True, metavar="FILE", help="Where to write the withdrawal.")
def withdraw(call: str, card: str, out: str) -> None:
    """Write a withdrawal."""
    from ledger.circle.sheet import Withdrawal

    where = file_named(out, "out")
    write_paper(where, Withdrawal.make(_call(call), card).to_bytes() + b"\n")
    click.echo("Hand it to whoever gathers the sheets: yours is deleted then.", err=True)
    last_line(written=str(where))


@circle.command(
    "beside",
    help="Set this household beside its group: the figures of a release and your own, on your machine alone.\n\n\b\nExample:\n  croftbook circle beside release.json call.json --zone 5 --out ours.html",
)
@click.argument("release")
@click.argument("call")
@click.option("--zone", required=True, help="Your zone.")
@click.option("--out", metavar="FILE", help="Write the page with your own figures marked, too.")
@_language
@book_options
def beside(
    release: str, call: str, zone: str, out: str | None, language: str | None, book: str | None, household: str,
) -> None:  # fmt: skip
    """Show the household beside its group."""
    from ledger.circle.beside import own_figures
    from ledger.circle.page import page_of, rows_of
    from ledger.circle.reckon import figures_of
    from ledger.circle.release import Release
    from ledger.circle.sheet import check_zone

    asked, told = _call(call), Release.read(file_named(release, "release"))
    check_zone(asked, zone)
    with read_book(book, household) as opened:
        own = own_figures(told, asked, figures_of(opened, asked), zone)
        said = _saying(language, opened)
    rows = [row for row in rows_of(told, own) if (row["figure"], row["subject"]) in own]
    print_rows(rows, said, with_own=True)
    if out:
        write_paper(file_named(out, "out"), page_of(told, own).encode())
    last_line(figures=len(rows), written=out)


def print_rows(rows: list[dict[str, Any]], said: Callable[[str], str], *, with_own: bool) -> None:
    """Print a release's figures as a table of at most 80 columns off a terminal."""
    import sys

    from rich.console import Console
    from rich.table import Table

    width = None if sys.stdout.isatty() else 80
    console = Console(file=sys.stdout, highlight=False, width=width)
    table = Table(box=None, padding=(0, 2, 0, 0))
    heads = ["Figure", *(["Yours"] if with_own else []), "Low", "Middle", "High", "Households"]
    for head in heads:
        table.add_column(said(head), overflow="fold", justify="left" if head == "Figure" else "right")  # fmt: skip
    for row in rows:
        name = f"{row['subject']}: {said(row['label'])}" if row["subject"] else said(row["label"])
        own = [said(row["own"] or "not known")] if with_own else []
        values = [said(row[name]) if row[name] else "-" for name in ("low", "middle", "high")]
        many = row["many"] if row["middle"] else said(row["withheld"])
        table.add_row(*(_plain(one) for one in (name, *own, *values, many)))
    console.print(table)


COMMANDS: dict[str, click.Command] = {"circle": circle}
