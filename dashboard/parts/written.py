"""The card of what was just written: danger first, then what and what is left of it; it holds Undo."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.parts.marks import icon

__all__ = ["noted", "undo_button", "written_card"]


def written_card(
    title: str, *below: Any, undo: Any = None, kind: str = "", first: Sequence[Any] = ()
) -> Component:
    """Return the card.

    Parameters
    ----------
    title : str
        What was written, in a line.
    *below : components or texts
        What is left of it, what was assumed; None is left out.
    undo : component, optional
        The button that takes it back; see `undo_button`.
    kind : str
        A further class.
    first : sequence of components
        What stands above all of it, as wide as the card: a danger.
    """
    lines = [html.Div(one) for one in below if one is not None]
    what = html.Div([html.P(html.B(title)), *lines], className="what")
    return html.Div(
        [*first, *(one for one in (what, undo) if one is not None)],
        className=f"written {kind}".strip(),
    )


def noted(ask: Ask, notes: Sequence[Any]) -> Any:
    """Return what was taken as known: folded, or the card would lie over what is written next; None without any."""
    if not notes:
        return None
    key = "happened.assumed_one" if len(notes) == 1 else "happened.assumed"
    inside = html.Ul([html.Li(one) for one in notes])
    return html.Details([html.Summary(ask.words(key, n=len(notes))), inside])


def undo_button(text: str, id: Any) -> Component:
    """Return the button that takes back what was just written."""
    return html.Button(
        [icon("undo", small=True), text], id=id, type="button", className="button quiet-button",
        n_clicks=0,
    )  # fmt: skip
