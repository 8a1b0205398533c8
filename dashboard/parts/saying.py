"""What the ledger says, on a page: in the page's language, a command in it being the way to its form."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterable
from typing import Any
from urllib.parse import unquote, urlencode

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.figures import figure
from ledger.kinds import KINDS

__all__ = ["days_said", "linked", "say", "sayable", "sentences"]

_DAY = re.compile(r"\d{4}-\d\d-\d\d")
_TICKS = re.compile(r"`([^`]+)`")
_BARE = re.compile(r"(?<=: )croftbook \w+ [^`]+$")
"""A command that ends a sentence, as where something was taken as known and may be changed."""
_FORM_OF = {kind.command: name for name, kind in KINDS.items() if name != "struck"}
"""Kinds by their commands; a strike is asked for beside its entry, and has no form."""


def say(ask: Ask, text: str) -> Any:
    """Return a text of the ledger as children of a component.

    A command becomes what it does on the pages, as nobody types commands on a phone: the way to a form
    or page, or a figure that opens. Any other stays as it is typed.
    """
    return linked(ask, ask.words.said(text))


def days_said(ask: Ask, text: str) -> str:
    """Return a text with its days as the page's language writes them."""

    def said(found: re.Match[str]) -> str:
        try:
            return str(ask.words.day(found[0]))
        except ValueError:  # a name that somebody gave, and no day
            return found[0]

    return _DAY.sub(said, text)


def linked(ask: Ask, text: str) -> Any:
    """Return a text in the page's language, its commands being links, as `say` does."""
    pieces = _TICKS.split(_BARE.sub(lambda one: f"`{one[0]}`", text))
    if len(pieces) == 1:
        return days_said(ask, pieces[0])
    return [
        _typed(ask, piece) if at % 2 else days_said(ask, piece)
        for at, piece in enumerate(pieces)
        if piece
    ]


def sayable(ask: Ask, text: str) -> str:
    """Return a text of the ledger as words alone, where no link can stand: a command by its form's name."""
    said = say(ask, text)
    return "".join(
        one if isinstance(one, str) else str(one.children)
        for one in (said if isinstance(said, list) else [said])
    )


def sentences(ask: Ask, texts: Iterable[str]) -> Component:
    """Return texts of the ledger as a list."""
    return html.Ul([html.Li(say(ask, text)) for text in texts])


def _typed(ask: Ask, command: str) -> Any:
    """Return what a command does on the pages: a form, a page or a figure's arithmetic."""
    try:
        name, first, *rest = shlex.split(command)
    except ValueError:  # an apostrophe in a name, or one word
        return html.Code(command)
    if name != "croftbook":
        return html.Code(command)
    if first == "why" and rest:
        shown = unquote(rest[0].partition("/")[2])
        return figure(shown, rest[0], rest[1] if len(rest) > 1 else None)
    if first == "show" and rest:
        return dcc.Link(ask.words.word("nav", rest[0].replace("-", "_")), href=f"/{rest[0]}")
    if first in _FORM_OF:
        kind = _FORM_OF[first]
        about = {"item": rest[0]} if kind == "item_described" and rest and rest[0].islower() else {}
        href = f"/write?{urlencode({'kind': kind, **about})}"
        return dcc.Link(ask.words.kind(kind), href=href)
    return html.Code(command)
