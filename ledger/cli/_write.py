"""The writing commands, made from the descriptions of the kinds."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Callable
from typing import Any

import click

from ledger.cli import _common
from ledger.cli._asking import Doubts, ask_missing, in_words
from ledger.cli._help import Argument, Command, Option
from ledger.cli._options import click_options
from ledger.cli._speech import for_book, knows
from ledger.cli._written import report
from ledger.door import Entry
from ledger.door.choosing import choice, chosen
from ledger.door.filling import fill, fill_sort
from ledger.door.texts import PARTS, Texts
from ledger.door.when import day_of
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import Kind
from ledger.kinds.describing import Field, fields_of
from ledger.kinds.methods import METHODS
from ledger.messages import Code, Message, Typed

__all__ = ["make_command"]


def make_command(kind: Kind) -> click.Command:
    """Return the command that writes a kind."""
    fields = fields_of(kind)
    params: list[click.Parameter] = [
        Argument(["words"], nargs=-1, required=False, metavar=_metavar(kind))
    ]
    skip = _without_name(kind)
    keep = [f for f in fields if f.name not in skip]
    params += click_options(kind, keep)
    params += _envelope(kind)
    if kind.opening is not None or kind.name == "counted":
        params.append(Option(["--knowingly"], is_flag=True, help="option-knowingly"))
    if kind.name == "put_up":
        params.append(Option(["--before"], is_flag=True, help="option-putup-before"))
        params.append(
            Option(["--strained"], multiple=True, metavar="ITEM", help="option-putup-strained")
        )

    def callback(**given: Any) -> None:
        _run(kind, keep, given)

    return _Writing(
        kind.command,
        params=params,
        callback=callback,
        help=f"command-{kind.command}" if knows(f"command-{kind.command}") else kind.summary,
        examples=[_example(kind, n) for n in range(len(kind.typed))],
        no_args_is_help=not _asks(),
    )


def _example(kind: Kind, n: int) -> str:
    """Return the id of an example, or the example itself where it is alike in every language."""
    id_ = f"example-{kind.command}-{n + 1}"
    return id_ if knows(id_) else f"croftbook {kind.typed[n]}"


class _Writing(Command):
    """A command whose words may begin with a minus, so that the door can say what is wrong."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Read ``-3 lb plum`` as words, not as an option."""
        try:
            return super().parse_args(ctx, [*args])
        except click.NoSuchOption as error:
            below = [word for word in args if re.match(r"-[\d.½¼¾]", word)]
            if not below or not any(word.startswith(error.option_name) for word in below):
                raise
            plain = [word for word in args if word not in below]
            return super().parse_args(ctx, [*plain, "--", *below])


def _asks() -> bool:
    return _common.at_terminal()


def _is_list(kind: Kind, name: str) -> bool:
    """Return whether a field takes any number of words."""
    return name in kind.lists


def _without_name(kind: Kind) -> set[str]:
    """Return the fields that stand without an option's name, and have no option besides."""
    needed = {field.encode_name for field in kind.fields if field.required}
    out = {name for name in kind.words if not _is_list(kind, name)}
    return out | ({"item", "amount"} & needed if "line" in out else set())


def _metavar(kind: Kind) -> str:
    first, *more = kind.words
    if first == "line":
        return " ".join(['"AMOUNT ITEM"', *(f"[{name.upper()}]" for name in more)])
    if _is_list(kind, first):
        return '"AMOUNT ITEM"...' if first == "lines" else '["AMOUNT ITEM"]...'
    return " ".join(name.upper() for name in kind.words)


def _envelope(kind: Kind) -> list[click.Parameter]:
    # A body may have a `by` of its own, so whoever writes it down goes by another name.
    writer = f"--{kind.writer}"
    return [
        Option(
            ["--on"],
            metavar="DAY",
            help="option-write-on",
        ),
        Option(["--at"], metavar="HH:MM", help="option-write-at"),
        Option([writer, "by"], metavar="NAME", help="option-by"),
        Option(["--replaces"], metavar="ID", help="option-write-replaces"),
        Option(["--book"], envvar="CROFTBOOK", help="option-book"),
        Option(["--household"], default="home", help="option-household"),
        Option(["--json", "as_json"], is_flag=True, help="option-json-written"),
        Option(["--yes", "-y"], is_flag=True, help="option-yes"),
    ]


def _run(kind: Kind, fields: list[Field], given: dict[str, Any]) -> None:
    before = given.get("before", False)
    where = given["book"], given["household"]
    with _common.read_book(*where, blank=True) if before else _common.open_book(*where) as book:
        doubts = Doubts(yes=given["yes"], knowingly=given.get("knowingly", False))

        def read(make: Callable[[Texts], Any]) -> Any:
            return doubts.settle(lambda: make(Texts(book.catalogue(), doubts.answers)))

        warned = kind.name == "put_up" and _warned(given, Texts(book.catalogue()))
        body = read(lambda texts: _body(kind, fields, given, texts))
        _days(body, fields, book.today())
        if kind.name == "item_described":
            fill_sort(body, book.catalogue(), needed=not _common.at_terminal())
        on = day_of(given["on"], book.today())
        if kind.name == "put_up":
            from ledger.cli import _putup

            if before:
                _putup.show_before(book, body, on, as_json=given["as_json"])
                return
            body = _putup.batch_from_recipe(book, body, given, warned=warned)
        try:
            body = ask_missing(
                kind, body, fields, lambda name, text: read(lambda t: PARTS[name](t, text, name))
            )
            entry = Entry(
                kind.name, body, on=on, at=given["at"], by=given["by"], replaces=given["replaces"]
            )
            doubts.settle(lambda: book.ask(entry, doubts.answers))
            caution = _putup.caution_of(book, body) if kind.name == "put_up" else None
            written = doubts.settle(lambda: book.enter(entry, doubts.answers))
        except (InputError, NeedsAnswer) as error:
            raise in_words(error, body, fields) from None
        written.notes = list(doubts.answers.notes)  # what was taken while words were read, too
        if kind.name == "setting_changed":
            for_book(book, *where)
        report(book, written, as_json=given["as_json"], caution=caution)


def _warned(given: dict[str, Any], texts: Texts) -> bool:
    """Look at a batch's words as they were typed: a caution goes before any question on amounts."""
    from ledger.cli import _putup

    names = ("method", "used", "schedule", "acid", "pack", "note", "equipment", "made")
    said = {name: given[f"f_{name}"] for name in names}
    said["makes"] = given["words"][0] if given["words"] else None
    said["method"] = said["method"] and choice(said["method"], METHODS, "method")
    said["made"] = [" ".join(filter(None, texts.place(one))) for one in said["made"]]
    return _putup.warn_low_acid(said, given)


def _body(kind: Kind, fields: list[Field], given: dict[str, Any], texts: Texts) -> dict[str, Any]:
    body: dict[str, Any] = {}
    _words(kind, fields_of(kind), list(given["words"]), body, texts)
    fill(body, fields, {field.name: given[f"f_{field.name}"] for field in fields}, texts)
    if given.get("strained"):
        from ledger.cli import _putup

        _putup.mark_strained(body, given["strained"], texts)
    return body


def _days(body: dict[str, Any], fields: list[Field], today: dt.date) -> None:
    """Read the days of a body, which are still to come, from words."""
    for field in fields:
        if field.kind == "day" and isinstance(body.get(field.name), str):
            body[field.name] = day_of(body[field.name], today, field.name, ahead=True)


def _line(kind: Kind, word: str, texts: Texts) -> dict[str, Any]:
    """Return one word as a line; a purchase may say its price behind it: ``10 lb sugar 7.90``."""
    if "paid" not in kind.line_names:
        return texts.line(word, "amount")
    from ledger.saying.phrase import split_price

    said, paid = split_price(word)
    line = texts.line(said, "amount") if paid else texts.line(word, "amount")
    if paid and texts.catalogue.is_item(word.partition(" ")[2]):
        return texts.line(word, "amount")  # a name that ends in a number
    return (
        {
            **line,
            "paid": texts.number(paid if texts.comma else paid.replace(",", "."), "money", "paid"),
        }
        if paid
        else line
    )


def _words(
    kind: Kind, fields: list[Field], words: list[str], body: dict[str, Any], texts: Texts
) -> None:
    """Assign what stands without an option's name to the fields that the kind names."""
    first = kind.words[0]
    if not words:
        return
    if _is_list(kind, first):
        body[first] = [_line(kind, word, texts) for word in words]
        return
    if len(words) > len(kind.words):
        raise InputError(
            "words",
            Message.of(
                "refusal-more-words",
                words=Typed(" ".join(words[len(kind.words) :])),
                command=Code(kind.command),
            ),
        )
    named = {field.name: field for field in fields}
    for name, word in zip(kind.words, words, strict=False):
        if name == "line":
            body.update(texts.line(word, "amount"))
        elif named[name].kind in ("money", "decimal"):
            body[name] = texts.number(word, named[name].kind, name)
        elif named[name].choices:
            body[name] = chosen(word, named[name].choices, name)
        else:
            body[name] = texts.whole(word, name) if named[name].kind == "whole" else word
