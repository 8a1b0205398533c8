"""Open questions and their answers, taking back, and two names for one thing."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from ledger.cli import _common
from ledger.cli._common import book_options, open_book, read_book
from ledger.cli._help import argument, command, option
from ledger.cli._numbers import numbered, question_of
from ledger.cli._speech import ask, echo, refused, say, told
from ledger.cli._values import day, entry
from ledger.errors import InputError
from ledger.messages import Code, Day, Message, Typed

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Written
    from ledger.saying.known import Known
    from ledger.saying.waiting import Waiting

__all__ = ["COMMANDS"]

_NO_ENTRY = ("struck", "item_described")


def _known(book: Book) -> Known:
    from ledger.saying.known import Known

    return Known(book.catalogue(), book.today(), book.log)


@command(
    "questions",
    help="command-questions",
    examples=["croftbook questions"],
)
@option("--json", "as_json", is_flag=True, help="option-json-list")
@book_options
def questions(as_json: bool, book: str | None, household: str) -> None:
    """List the open questions."""
    from ledger.saying.waiting import waiting

    with read_book(book, household) as opened:
        found = numbered(opened, waiting(_known(opened)))
    if as_json:
        _common.print_json(
            [
                {
                    "number": n,
                    "about": one.code,
                    "text": one.text,
                    "entries": [e[1] for e in one.entries],
                }
                for n, one in found
            ]
        )
        return
    for n, one in found:
        click.echo(f"{n:3}  {told(one.text)}")
    if not found:
        echo("cli-none-open")
    else:
        click.echo("")
        echo("cli-answer-how")


@command(
    "answer",
    help="command-answer",
    examples=['croftbook answer 1 "18 lb"', "croftbook answer 2 7.90", "croftbook answer"],
)
@argument("number", required=False, type=click.IntRange(min=1))
@argument("words", nargs=-1, metavar="ANSWER")
@option("--json", "as_json", is_flag=True, help="option-json-written")
@book_options
def answer(
    number: int | None, words: tuple[str, ...], as_json: bool, book: str | None, household: str
) -> None:
    """Answer open questions."""
    from ledger.saying.waiting import waiting

    with open_book(book, household) as opened:
        found = waiting(_known(opened))
        if number is None:
            _ask_all(opened, found)
            return
        one = question_of(opened, found, number)
        text = " ".join(words)
        if not text and not _common.at_terminal():
            raise InputError("answer", Message.of("refusal-missing"), one.text)
        said = text or ask(told(one.text))
        _answer(opened, one, said, as_json=as_json)


def _ask_all(book: Book, found: list[Waiting]) -> None:
    if not _common.at_terminal():
        raise InputError("number", Message.of("refusal-question-missing"))
    for one in found:
        asked = say("cli-answer-later", question=told(one.text))
        said = click.prompt(asked, default="", show_default=False, err=True)
        while said.strip():
            try:
                _answer(book, one, said)
                break
            except InputError as error:
                click.echo(refused(error), err=True)
                said = click.prompt(told(one.text), default="", show_default=False, err=True)
    if not found:
        echo("cli-none-open")


def _answer(book: Book, one: Waiting, text: str, *, as_json: bool = False) -> None:
    from ledger.cli._asking import Doubts
    from ledger.saying.answering import answer as entries_of

    entries = entries_of(one, text, _known(book))
    doubts = Doubts(yes=False)
    doubts.answers.spoken = True
    written = doubts.settle(lambda: book.enter_all(entries, doubts.answers))
    _say(book, written, as_json=as_json)


def _say(book: Book, written: list[Written], *, as_json: bool) -> None:
    from ledger.kinds import tell

    if as_json:
        _common.print_json(
            [{"id": one.event.id, "kind": one.event.kind, "body": one.body} for one in written]
        )
        return

    for one in written:
        line = entry(tell(one.event.kind, one.body), book)
        click.echo(f"{day(one.event.on)}  {line}   [{one.event.id[:8]}]")


@command(
    "undo",
    help="command-undo",
    examples=["croftbook undo"],
)
@option("--json", "as_json", is_flag=True, help="option-json-written")
@book_options
def undo(as_json: bool, book: str | None, household: str) -> None:
    """Strike the last entry, or bring back what stood before its last correction."""
    from ledger.kinds import decode_stored, tell

    with open_book(book, household, create=False) as opened:
        written = _undone(opened)
        if written is None:
            raise InputError("undo", Message.of("refusal-nothing-to-undo"))
        _say(opened, [written], as_json=as_json)
        if written.event.kind == "struck" and not as_json:
            gone = opened.log.get(written.body["id"])
            if gone is not None:
                body = decode_stored(gone.kind, gone.v, gone.body)
                what = entry(tell(gone.kind, body), opened)
                click.echo(f"  {say('cli-taken-back', day=Day(gone.on), what=what)}")
                if more := _still_there(opened, gone.recorded_at):
                    echo("cli-undo-more", n=more, command=Code("croftbook undo"), err=True)


def _still_there(book: Book, moment: str) -> int:
    """Return how many entries that were written in one go, at a moment, still hold."""
    entries = book.catalogue().entries(book.log)
    rows = (row for chunk in book.log.read() for row in chunk if row[6] == moment)
    roots = {entries.root(row[1]) for row in rows if row[2] not in _NO_ENTRY}
    return sum(not entries.is_struck(root) for root in roots)


def _undone(book: Book) -> Written | None:
    from ledger.door import Entry
    from ledger.door.answers import Answers
    from ledger.kinds import decode_stored
    from ledger.saying.plain import typed

    rows = [row for chunk in book.log.read() for row in chunk]
    entries = book.catalogue().entries(book.log)
    for row in reversed(rows):
        if row[2] in _NO_ENTRY or entries.is_struck(entries.root(row[1])):
            continue
        if entries.newest(entries.root(row[1])) != row[1]:
            continue
        if not row[9]:
            return book.strike(row[1], "undone")
        before = _before(book, rows, row)
        if before is None:
            return book.strike(row[1], "undone")
        body = typed(decode_stored(before[2], before[3], before[10], seq=before[0]))
        entry = Entry(before[2], body, on=before[4], at=before[5], replaces=row[1])
        return book.enter(entry, Answers(spoken=True, yes=True))
    return None


def _before(book: Book, rows: list[tuple[object, ...]], row: tuple[object, ...]) -> tuple | None:  # type: ignore[type-arg]
    """Return the event of an entry that a correction took the place of; None where that was struck."""
    entries = book.catalogue().entries(book.log)
    root = entries.root(str(row[1]))
    mine = [one for one in rows if one[2] == row[2] and entries.root(str(one[1])) == root]
    # What an undo wrote stands for the event that it brought back.
    place = next(n for n, one in enumerate(mine) if (one[4], one[10]) == (row[4], row[10]))
    if any(_was_struck(rows, one, root) for one in (mine[place], row)):
        return None
    return mine[place - 1] if place else None


def _was_struck(rows: list[tuple[object, ...]], row: tuple[object, ...], root: str) -> bool:
    """Return whether an entry was taken back when an event came to correct it."""
    from ledger.known.entries import Entries

    entries = Entries()
    for one in rows[: rows.index(row)]:
        entries.take(one)
    return entries.is_struck(root)


@command(
    "same",
    help="command-same",
    examples=["croftbook same tomatoe tomato", 'croftbook same "canned tomato" "tomato quart"'],
)
@argument("old")
@argument("new")
@option("--json", "as_json", is_flag=True, help="option-json-written")
@book_options
def same(as_json: bool, old: str, new: str, book: str | None, household: str) -> None:
    """Make one name another name of an item."""
    with open_book(book, household, create=False) as opened:
        catalogue = opened.catalogue()
        facts = catalogue.facts(new) or catalogue.facts(old)
        if facts is None:
            raise InputError(
                "old", Message.of("refusal-neither-name", old=Typed(old), new=Typed(new))
            )
        also = [*((catalogue.facts(new) or facts).also or []), catalogue.name(old)]
        also = list(dict.fromkeys(one for one in also if one != new))
        body = {"item": new, "sort": facts.sort or "food", "also": also}
        from ledger.door.answers import Answers

        written = opened.write("item_described", body, answers=Answers(yes=True))
        _say(opened, [written], as_json=as_json)


COMMANDS: dict[str, click.Command] = {
    "questions": questions, "answer": answer, "undo": undo, "same": same,
}  # fmt: skip
