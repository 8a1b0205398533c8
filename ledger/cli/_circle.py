"""`croftbook circle`: what a household does at home. What a group does is in `_circle_group`."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from ledger.cli import _common, _speech
from ledger.cli._common import book_options, file_named, read_book
from ledger.cli._help import Group, argument, command, group, option
from ledger.cli._papers import last_line, plain, print_rows, write_paper
from ledger.errors import InputError
from ledger.messages import Code, Message

if TYPE_CHECKING:
    from ledger.circle.call import Call

__all__ = ["COMMANDS"]


def _call(name: str) -> Call:
    from ledger.circle import Call

    return Call.read(file_named(name, "call"))


class Circle(Group):
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


@group(
    "circle",
    cls=Circle,
    help="command-circle",
    examples=[
        "croftbook circle demo",
        "croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\",
        "    --out sheet.json",
    ],
)
def circle() -> None:
    """Do nothing by itself."""


@command(
    "sheet",
    help="command-circle-sheet",
    examples=[
        "croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\",
        "    --out sheet.json",
        "croftbook circle sheet call.json --card ABCD-EFGH-IJKL-MN23 --zone 5 \\",
        "    --out sheet.json --language de",
    ],
)
@argument("call")
@option("--card", required=True, help="option-card")
@option("--zone", required=True, help="option-circle-sheet-zone")
@option("--out", required=True, metavar="FILE", help="option-circle-sheet-out")
@option("--yes", is_flag=True, help="option-circle-sheet-yes")
@book_options
def sheet(
    call: str, card: str, zone: str, out: str, yes: bool, book: str | None, household: str,
) -> None:  # fmt: skip
    """Make a sheet."""
    from ledger.circle.reckon import hints_of, sheet_of

    asked, where = _call(call), file_named(out, "out")
    with read_book(book, household) as opened:
        made = sheet_of(opened, asked, card, zone)
        hints, said = hints_of(opened, asked), _speech.told
    _show(asked, zone, made.figures, hints, said)
    if not yes:
        _ask(where)
    write_paper(where, made.to_bytes() + b"\n")
    last_line(written=str(where), figures=len(made.figures))


def _ask(where: Path) -> None:
    if not _common.at_terminal():
        raise InputError(
            "yes",
            Message.of("refusal-nobody-here"),
        )
    if not _speech.confirm(_speech.say("cli-circle-ask", file=Code(str(where)))):
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
        table.add_row(*(plain(one) for one in (named, said(value), said(meaning))))
    console.print(table)
    for id_ in CONSENT:
        console.print(_speech.say(id_), markup=False)


@command(
    "withdraw",
    help="command-circle-withdraw",
    examples=[
        "croftbook circle withdraw call.json --card ABCD-EFGH-IJKL-MN23 \\",
        "    --out withdrawal.json",
    ],
)
@argument("call")
@option("--card", required=True, help="option-card")
@option("--out", required=True, metavar="FILE", help="option-circle-withdraw-out")
def withdraw(call: str, card: str, out: str) -> None:
    """Write a withdrawal."""
    from ledger.circle.sheet import Withdrawal

    where = file_named(out, "out")
    write_paper(where, Withdrawal.make(_call(call), card).to_bytes() + b"\n")
    _speech.echo("cli-circle-hand-over", err=True)
    last_line(written=str(where))


@command(
    "beside",
    help="command-circle-beside",
    examples=["croftbook circle beside release.json call.json --zone 5 --out ours.html"],
)
@argument("release")
@argument("call")
@option("--zone", required=True, help="option-circle-beside-zone")
@option("--out", metavar="FILE", help="option-circle-beside-out")
@book_options
def beside(
    release: str, call: str, zone: str, out: str | None, book: str | None, household: str,
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
        said = _speech.told
    rows = [row for row in rows_of(told, own) if (row["figure"], row["subject"]) in own]
    print_rows(rows, said, with_own=True)
    if out:
        write_paper(file_named(out, "out"), page_of(told, own).encode())
    last_line(figures=len(rows), written=out)


for one in (sheet, withdraw, beside):
    circle.add_command(one)

COMMANDS: dict[str, click.Command] = {"circle": circle}
