"""What the ledger says, on a page: in the page's language, a command in it being the way to its form."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from dash import dcc, html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.forms.specs import FORMS
from ledger.events import KINDS

__all__ = ["say", "sentences"]

_TICKS = re.compile(r"`([^`]+)`")
_FORM_OF = {KINDS[kind].command: kind for kind in FORMS}


def say(ask: Ask, text: str) -> Any:
    """Return a text of the ledger as children of a component.

    A command that writes something down becomes a link to its form, and a question one to its page, as
    nobody types commands on a phone; any other stays as it is typed.
    """
    pieces = _TICKS.split(ask.words.said(text))
    if len(pieces) == 1:
        return pieces[0]
    return [_typed(ask, piece) if at % 2 else piece for at, piece in enumerate(pieces) if piece]


def sentences(ask: Ask, texts: Iterable[str]) -> Component:
    """Return texts of the ledger as a list."""
    return html.Ul([html.Li(say(ask, text)) for text in texts])


def _typed(ask: Ask, command: str) -> Component:
    name, *words = command.split()
    if name == "croftbook" and words[:1] == ["show"] and words[1:2]:
        return dcc.Link(ask.words.word("nav", words[1].replace("-", "_")), href=f"/{words[1]}")
    kind = _FORM_OF.get(words[0]) if name == "croftbook" and words else None
    if kind is None:
        return html.Code(command)
    return dcc.Link(ask.words(f"kinds.{kind}.title"), href=f"/write?kind={kind}")
