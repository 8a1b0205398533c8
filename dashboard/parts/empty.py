"""What a page says when there is nothing to show: what it would show, and the entry that starts it."""

from __future__ import annotations

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.kinds import icon_of
from dashboard.parts.marks import icon

__all__ = ["nothing_yet"]


def _sample(ask: Ask) -> Component:
    """Return the way to the invented household: a link where this server opens it, else the command."""
    words = ask.words
    if not ask.data.has_sample:
        return html.P(words("empty.demo"), className="quiet")
    shown = [words("begin.sample_open"), icon("next", small=True)]
    return html.P(html.A(shown, href="/sample", className="tap"))


def nothing_yet(ask: Ask, page: str, kind: str) -> Component:
    """Return a sentence on what the page would show, with a button to the entry that starts it."""
    words = ask.words
    return html.Div(
        [
            icon(icon_of(kind)),
            html.P(words(f"empty.{page}")),
            dcc.Link(
                words("empty.start", kind=words.kind(kind)),
                href=f"/write?kind={kind}",
                className="button",
            ),
            _sample(ask),
        ],
        className="empty",
    )
