"""A line that must not be overlooked: what went wrong, what is not there, with a title where it has one."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.elements import html

__all__ = ["alert"]


def alert(
    children: Any, *, title: str | None = None, heard: str = "alert", kind: str = ""
) -> Component:
    """Return the line.

    Parameters
    ----------
    children : component, text, or a list of these
    title : str, optional
    heard : {'alert', 'status'}
        Whether a reader of the page is interrupted by it.
    kind : str
        A further class.
    """  # fmt: skip
    inside = list(children) if isinstance(children, (list, tuple)) else [html.P(children)]
    head = [] if title is None else [html.P(html.B(title))]
    return html.Div([*head, *inside], className=f"alert {kind}".strip(), role=heard)
