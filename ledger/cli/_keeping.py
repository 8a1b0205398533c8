"""Keeping a book: check, backup and restore."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import click

from ledger.cli import _common
from ledger.cli._common import book_options, file_named, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._speech import confirm, echo, say, told
from ledger.errors import InputError
from ledger.messages import Choice, Code, Message, sentence

if TYPE_CHECKING:
    from ledger.checking import Checked
    from ledger.log import Restored

__all__ = ["COMMANDS"]


@command(
    "check",
    help="command-check",
    examples=[
        "croftbook check",
        "croftbook check --head backup.sqlite",
        'croftbook check --head "61 3f2a 9c01 77b0 d1e2"',
    ],
)
@option(
    "--head",
    help="option-check-head",
)
@option(
    "--accept",
    is_flag=True,
    help="option-check-accept",
)
@option("--json", "as_json", is_flag=True, help="option-json")
@option("--book", envvar="CROFTBOOK", help="option-book")
@option("--household", help="option-check-household")
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
        _common.progress(say("cli-checking"), _length(opened)) as step,
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
        echo("cli-check-next", err=True)
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
    hold = "cli-check-hold" if chain.first_bad is None else "cli-check-hold-from-first"
    click.echo(f"{who}{say(hold, n=chain.events)}")
    for reason in one.reasons:
        click.echo(f"{who}{told(reason).rstrip('.')}.", err=True)
    if one.is_whole:
        echo("cli-check-end-known" if chain.is_head_known else "cli-check-end-unknown")
    for note in chain.notes:
        echo("cli-check-note", text=told(note))
    if one.unread:
        echo("cli-check-unread", what="; ".join(told(text) for text in one.unread[:5]))
    if one.is_balanced and one.is_whole:
        echo("cli-check-balanced")
    if chain.first_bad is None:
        echo("cli-check-head", head=Code(shown_head(chain.head)))


@command(
    "backup",
    help="command-backup",
    examples=[
        "croftbook backup ~/backups/book-2026-11.sqlite",
        "croftbook backup ~/backups/newest.sqlite --force",
    ],
)
@argument("file")
@option("--force", is_flag=True, help="option-backup-force")
@option("--json", "as_json", is_flag=True, help="option-json")
@book_options
def backup(file: str, force: bool, as_json: bool, book: str | None, household: str) -> None:
    """Copy the book."""
    from ledger.errors import BookDamaged

    target = file_named(file)
    if target.exists() and not target.is_file() and not target.is_dir():
        raise InputError("target", Message.of("refusal-no-plain-target", file=Code(str(target))))
    with read_book(book, household, quiet=True) as opened:
        fault = next(iter(opened.faults()), None)
        if fault:
            raise BookDamaged(sentence("refusal-no-backup-made", fault=fault))
        heads = opened.backup(target, force=force)
    events = sum(head.seq for head in heads.values())
    if as_json:
        _common.print_json({"file": file, "events": events})
    else:
        echo("cli-backup-done", n=events, file=Code(file))


@command(
    "restore",
    help="command-restore",
    examples=[
        "croftbook restore ~/backups/book-2026-11.sqlite --dry-run",
        "croftbook restore ~/backups/book-2026-11.sqlite",
        "croftbook restore our-book.jsonl --household home",
    ],
)
@argument("file")
@option("--dry-run", is_flag=True, help="option-restore-dry-run")
@option("--json", "as_json", is_flag=True, help="option-json")
@option("--yes", "-y", is_flag=True, help="option-restore-yes")
@option("--book", envvar="CROFTBOOK", help="option-book")
@option(
    "--household",
    help="option-restore-household",
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
        if not confirm(say("cli-restore-ask"), default=True):
            raise click.Abort
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
    doing = Choice("would" if dry_run else "did")
    for name, head in done.heads.items():
        of = None if list(done.heads) == ["home"] else name
        echo("cli-restore-hold", doing=doing, n=head.seq, of=of)
    for name, many in done.lost.items():
        echo("cli-restore-lost", doing=doing, n=many, of=None if name == "home" else name)
    for note in done.notes:
        echo("cli-check-note", text=told(note))
    if dry_run:
        echo("cli-restore-nothing")
    elif done.aside:
        echo("cli-restore-aside", file=Code(str(done.aside)))


COMMANDS: dict[str, click.Command] = {"check": check, "backup": backup, "restore": restore}
