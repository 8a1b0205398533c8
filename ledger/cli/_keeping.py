"""Keeping a book: check, backup and restore."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, file_named, read_book
from ledger.errors import InputError

if TYPE_CHECKING:
    from ledger.checking import Checked
    from ledger.log import Restored

__all__ = ["COMMANDS"]

_NEXT = (
    "What to do next: put your newest backup in the book's place with `croftbook restore FILE` (the "
    "old book is set aside, not lost; --dry-run shows what would happen first)."
)


@click.command(
    "check",
    help='Verify the book: its events, its file, that nothing is missing at its end, and that every amount is accounted for. All households, unless one is named.\n\nThe head that it shows is worth writing down on paper: with it you can tell, years later and on another machine, that nothing is missing.\n\n\b\nExamples:\n  croftbook check\n  croftbook check --head backup.sqlite\n  croftbook check --head "61 3f2a 9c01 77b0 d1e2"',
)
@click.option(
    "--head",
    help="Hold the book against this head: a backup or export that has one beside it, or the head as written down.",
)
@click.option(
    "--accept",
    is_flag=True,
    help="Take the book as it stands for whole from now on: keep its head, set missing guards anew.",
)
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@click.option("--book", envvar="CROFTBOOK", help="The book: a file, or an SQLAlchemy URL.")
@click.option("--household", help="Only this household; default all.")
def check(
    head: str | None, accept: bool, as_json: bool, book: str | None, household: str | None
) -> int:
    """Verify the book."""
    from ledger.checking import accept as take
    from ledger.checking import check_all

    if accept:
        _common.forget_empty(book)
    with (
        read_book(book, household or "home", quiet=True) as opened,
        _common.progress("checking", _length(opened)) as step,
    ):
        found = check_all(opened, household, head, step)
        if accept:
            take(opened.log, found)
            found = check_all(opened, household, head)
    is_whole = all(one.is_whole for one in found)
    if as_json:
        _common.print_json(_plain(found))
        return 0 if is_whole else 1
    for one in found:
        _say(one, several=len(found) > 1)
    if not is_whole:
        click.echo(_NEXT, err=True)
    return 0 if is_whole else 1


def _length(opened: Any) -> int:
    from ledger.errors import BookDamaged

    try:
        return int(opened.log.position())
    except BookDamaged:  # the check itself says so
        return 0


def _plain(found: list[Checked]) -> dict[str, Any]:
    households = [_plain_of(one) for one in found]
    worst = min(found, key=lambda one: ("damaged", "end not known", "well").index(one.verdict))
    first = {k: v for k, v in households[0].items() if k != "household"} if found else {}
    return {
        **(first if len(found) == 1 else {}),
        "whole": all(one.is_whole for one in found),
        "verdict": worst.verdict,
        "reasons": list(dict.fromkeys(reason for one in found for reason in one.reasons)),
        "households": households,
    }


def _plain_of(one: Checked) -> dict[str, Any]:
    from ledger.checking import shown_head

    chain = one.chain
    return {
        "household": one.household,
        "events": chain.events,
        "first_bad": chain.first_bad,
        "tail": chain.tail,
        "head": [chain.head.seq, chain.head.hash],
        "head_to_write_down": shown_head(chain.head),
        "head_known": chain.is_head_known,
        "unbalanced": one.unbalanced,
        "balanced": one.is_balanced,
        "unread": one.unread,
        "verdict": one.verdict,
        "whole": one.is_whole,
        "reasons": one.reasons,
        "notes": chain.notes,
    }


def _say(one: Checked, *, several: bool) -> None:
    from ledger.checking import shown_head

    chain = one.chain
    who = f"{one.household}: " if several else ""
    if chain.first_bad is None:
        click.echo(f"{who}{chain.events} events hold together.")
    else:
        click.echo(f"{who}{chain.events} events hold together, from the first on.")
    for reason in one.reasons:
        click.echo(f"{who}{reason.rstrip('.')}.", err=True)
    if one.is_whole and chain.is_head_known:
        click.echo("Nothing is missing at the end: it is the one known here.")
    elif one.is_whole:
        click.echo(
            "Whether any are missing at its end cannot be told: no head of this book is kept here. "
            'If you wrote one down, compare: croftbook check --head "NUMBER DIGITS". '
            "To take this end for the right one from now on: croftbook check --accept"
        )
    for note in chain.notes:
        click.echo(f"Note: {note}.")
    if one.unread:
        click.echo(
            f"Not read, as this program does not know it: {'; '.join(one.unread[:5])}. "
            "Update Croftbook to read it."
        )
    if one.is_balanced and one.is_whole:
        click.echo("Every amount that came in is there or went out.")
    if chain.first_bad is None:
        click.echo(f"Head, to write down: {shown_head(chain.head)}")


@click.command(
    "backup",
    help="Copy the book, every household, while it is in use, and read the copy back.\n\n\b\nExamples:\n  croftbook backup ~/backups/book-2026-11.sqlite\n  croftbook backup ~/backups/newest.sqlite --force",
)
@click.argument("file")
@click.option("--force", is_flag=True, help="Replace a file that is there.")
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@book_options
def backup(file: str, force: bool, as_json: bool, book: str | None, household: str) -> None:
    """Copy the book."""
    from ledger.errors import BookDamaged

    target = file_named(file)
    if target.exists() and not target.is_file() and not target.is_dir():
        raise InputError("target", f"{target} is no plain file", "Name a new file")
    with read_book(book, household, quiet=True) as opened:
        fault = next(iter(opened.faults()), None)
        if fault:
            raise BookDamaged(f"No backup was made, as the book does not hold. {fault}")
        heads = opened.backup(target, force=force)
    events = sum(head.seq for head in heads.values())
    if as_json:
        _common.print_json({"file": file, "events": events})
    else:
        click.echo(f"{events} events copied to {file} and read back; its head is in {file}.head")


@click.command(
    "restore",
    help="Put a backup or an export in the book's place.\n\nThe copy is checked first, from its first event to its last. The old book is set aside under a dated name, and the swap is all or nothing; a dashboard that is open sees it.\n\n\b\nExamples:\n  croftbook restore ~/backups/book-2026-11.sqlite --dry-run\n  croftbook restore ~/backups/book-2026-11.sqlite\n  croftbook restore our-book.jsonl --household home",
)
@click.argument("file")
@click.option(
    "--dry-run", is_flag=True, help="Check the copy, say what would happen, and touch nothing."
)
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@click.option("--yes", "-y", is_flag=True, help="Do not ask before the swap.")
@click.option("--book", envvar="CROFTBOOK", help="The book: a file, or an SQLAlchemy URL.")
@click.option(
    "--household",
    help="Only this household, others stay as they are; default all of a backup, home of an export or on a server.",
)
def restore(
    file: str, dry_run: bool, as_json: bool, yes: bool, book: str | None, household: str | None
) -> int:
    """Put a copy in the book's place."""
    from ledger.book import Book, default_path

    source = file_named(file)
    where = book or str(default_path())
    if not dry_run and not yes and _common.at_terminal():
        _tell(Book.restore(source, where, household, dry_run=True), where, dry_run=True)
        click.confirm("Put it in the book's place?", default=True, abort=True, err=True)
    done = Book.restore(source, where, household, dry_run=dry_run)
    if as_json:
        heads = {name: [head.seq, head.hash] for name, head in done.heads.items()}
        _common.print_json(
            {
                "restored": not dry_run, "heads": heads, "set_aside": done.aside or None,
                "only_in_the_old_book": done.lost, "notes": done.notes,
            }
        )  # fmt: skip
    else:
        _tell(done, where, dry_run=dry_run)
    return 0


def _tell(done: Restored, where: str, *, dry_run: bool) -> None:
    would = "would be" if dry_run else "are"
    for name, head in done.heads.items():
        of = "" if list(done.heads) == ["home"] else f" of {name}"
        click.echo(f"{head.seq} events{of} hold together and {would} in the book.")
    for name, many in done.lost.items():
        of = "" if name == "home" else f" of {name}"
        events = "1 event" if many == 1 else f"{many} events"
        click.echo(
            f"{events}{of} that the copy does not hold {'would be' if dry_run else 'is' if many == 1 else 'are'} "
            "only in the book set aside."
        )
    for note in done.notes:
        click.echo(f"Note: {note}.")
    if dry_run:
        click.echo("Nothing was touched.")
    elif done.aside:
        click.echo(f"The old book is set aside as {done.aside}")


COMMANDS: dict[str, click.Command] = {"check": check, "backup": backup, "restore": restore}
