"""Options of the writing commands, made from the fields of a kind's body."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import click

from ledger.cli._help import Option
from ledger.cli._speech import language, say, told
from ledger.kinds import Kind
from ledger.kinds.describing import OF_JARS, Field
from ledger.messages import LANGUAGES, Code, Names
from ledger.messages.helps import example_of, help_of
from ledger.messages.words import as_typed

__all__ = ["click_options"]

Completing = Callable[[click.Context, click.Parameter, str], list[Any]]

SHORT = {
    "paid": "-p",
    "shop": "-s",
    "bed": "-b",
    "used": "-u",
    "made": "-m",
    "ate": "-a",
    "method": "-M",
}


def click_options(kind: Kind, fields: list[Field]) -> list[click.Parameter]:
    """Return click options for the fields; underscores and dashes are alike."""
    out: list[click.Parameter] = []
    for field in fields:
        names = [f"--{field.name.replace('_', '-')}", f"f_{field.name.replace('-', '_')}"]
        if "_" in field.name:
            names.insert(1, f"--{field.name}")
        if field.name in SHORT:
            names.insert(0, SHORT[field.name])
        if kind.name == "practised" and field.name == "people":
            names.insert(1, "--person")
        multiple = field.is_list or field.of_line or field.name in OF_JARS
        out.append(
            Option(
                names,
                multiple=multiple,
                help=_help(kind, field),
                metavar=_metavar(field),
                shell_complete=_completing(field),
            )
        )
    return out


def _help(kind: Kind, field: Field) -> str:
    """Return what a field is, how it is typed, which words it knows, and whether it comes often."""
    about, _, example = field.help.partition(", e.g. ")
    typed = dict(zip(field.choices, _words(field), strict=True))
    shown = typed.get(example) or example_of(kind.name, field.name, example, language())
    text = say(
        "option-field",
        help=told(help_of(kind.name, field.name, about)),
        example=Code(shown) if example else None,
    )
    if field.kind == "day":
        text = say("option-field-day", field=text)
    if field.choices:
        known = Names(tuple(map(Code, typed.values())))
        text = say("option-field-one-of", field=text, known=known)
    return say("option-field-many", field=text) if field.is_list else text


def _words(field: Field) -> tuple[str, ...]:
    """Return the fixed words of a field as they are typed in the language that is spoken."""
    if language() == LANGUAGES[0]:
        return field.choices
    words = as_typed(field.choices, field.name)
    return tuple(one.text if isinstance(one, Code) else say(one) for one in words)


def _completing(field: Field) -> Completing | None:
    """Return what the shell may offer: the words a field knows, or the items of the book."""
    if field.choices:
        return lambda _ctx, _param, begun: [c for c in _words(field) if c.startswith(begun)]
    return _items if field.kind == "item" else None


def _items(ctx: click.Context, _param: click.Parameter, begun: str) -> list[str]:
    from ledger.cli._common import read_book

    where = ctx.params.get("book")
    with read_book(where, ctx.params.get("household") or "home", blank=True) as book:
        return sorted(name for name in book.catalogue().names() if name.startswith(begun))


def _metavar(field: Field) -> str:
    return {
        "amount": "AMOUNT",
        "money": "MONEY",
        "day": "DAY",
        "item": "ITEM",
        "person": "NAME",
        "decimal": "NUMBER",
    }.get(field.kind, "TEXT")
