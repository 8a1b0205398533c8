"""A calendar file of what is to be done."""

from __future__ import annotations

from pathlib import Path

import click

from ledger.cli import _common
from ledger.cli._common import book_options, read_book
from ledger.errors import InputError

__all__ = ["COMMANDS"]


@click.command(
    "calendar",
    help="Write what is to be done into a calendar file: sowing, canner days, what to eat first, gauge tests, skills.\n\nA file that is there is brought up to date in place; what others put into it stays.\n\n\b\nExamples:\n  croftbook calendar household.ics\n  croftbook calendar household.ics --months 6 --risk 0.2",
)
@click.argument("file")
@click.option("--months", metavar="NUMBER", help="How many months ahead; default 12.")
@click.option(
    "--risk", metavar="PART", help="Part of years whose frost comes later in spring; default 0.1."
)
@click.option("--json", "as_json", is_flag=True, help="Print what was written as JSON.")
@book_options
def calendar(
    file: str, months: str | None, risk: str | None, as_json: bool, book: str | None, household: str
) -> None:
    """Write a calendar file."""
    import dataclasses

    from ledger.calendar_file import write_calendar
    from ledger.projections._enough_asked import number_of
    from ledger.projections.month_by_month import doings

    if Path(file).suffix.lower() != ".ics":
        raise InputError("file", f"{file!r} does not end in .ics", "Write it like household.ics")
    ahead = number_of(months, "months", 12.0, most=24)
    with read_book(book, household) as opened:
        first = next(iter(opened.log.read(upto=1)), None)
        if first is None:
            raise InputError(
                "book", "nothing is written in it yet", "Write down what happens first"
            )
        todo = doings(opened.state(), ahead, risk)
        done = write_calendar(Path(file), str(first[0][1]), todo)
    if as_json:
        _common.print_json({"file": file, **dataclasses.asdict(done)})
        return
    click.echo(
        f"{file}: {done.new} new, {done.changed} changed, {done.cancelled} cancelled, {done.same} as they were."
    )


COMMANDS: dict[str, click.Command] = {"calendar": calendar}
