"""A calendar file of what is to be done."""

from __future__ import annotations

from pathlib import Path

import click

from ledger.cli import _common
from ledger.cli._common import book_options, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._speech import echo
from ledger.errors import InputError
from ledger.messages import Code, Message, Typed

__all__ = ["COMMANDS"]


@command(
    "calendar",
    help="command-calendar",
    examples=[
        "croftbook calendar household.ics",
        "croftbook calendar household.ics --months 6 --risk 0.2",
    ],
)
@argument("file")
@option("--months", metavar="NUMBER", help="option-calendar-months")
@option("--risk", metavar="PART", help="option-calendar-risk")
@option("--json", "as_json", is_flag=True, help="option-json-written")
@book_options
def calendar(
    file: str, months: str | None, risk: str | None, as_json: bool, book: str | None, household: str
) -> None:
    """Write a calendar file."""
    import dataclasses

    from ledger.calendar_file import write_calendar
    from ledger.questions.enough.asked import number_of
    from ledger.questions.month_by_month.question import doings

    if Path(file).suffix.lower() != ".ics":
        raise InputError("file", Message.of("refusal-no-ics", file=Typed(file)))
    ahead = number_of(months, "months", 12.0, most=24)
    with read_book(book, household) as opened:
        first = next(iter(opened.log.read(upto=1)), None)
        if first is None:
            raise InputError("book", Message.of("refusal-book-blank"))
        todo = doings(opened.state(), ahead, risk)
        done = write_calendar(Path(file), str(first[0][1]), todo)
    if as_json:
        _common.print_json({"file": file, **dataclasses.asdict(done)})
        return
    echo(
        "cli-calendar-done",
        file=Code(file),
        new=done.new,
        changed=done.changed,
        cancelled=done.cancelled,
        same=done.same,
    )


COMMANDS: dict[str, click.Command] = {"calendar": calendar}
