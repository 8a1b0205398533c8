"""The card of what was just written: it says what and what is left of it, and holds Undo."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.elements import html
from dashboard.parts.marks import icon

__all__ = ["undo_button", "written_card"]


def written_card(title: str, *below: Any, undo: Any = None, kind: str = "") -> Component:
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
    """
    lines = [html.Div(one) for one in below if one is not None]
    what = html.Div([html.P(html.B(title)), *lines], className="what")
    return html.Div(
        [one for one in (what, undo) if one is not None], className=f"written {kind}".strip()
    )


def undo_button(text: str, id: Any) -> Component:
    """Return the button that takes back what was just written."""
    return html.Button(
        [icon("undo", small=True), text], id=id, type="button", className="button quiet-button",
        n_clicks=0,
    )  # fmt: skip
