"""A figure that opens: a button whose tap shows the arithmetic down to events."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.elements import html

__all__ = ["figure", "stat"]


def figure(text: str, address: str | None, field: str | None = None, *, what: str = "") -> Any:
    """Return a figure as a button that opens its arithmetic; plain text where it has none.

    The panel is opened by assets/croft.js, which hears every such button: hundreds of figures on a
    page then cost no callbacks.

    Parameters
    ----------
    text : str
        The figure with its unit.
    address, field : str, optional
        What `croftbook why` would be given.
    what : str
        What the figure is, for those who hear the page.
    """
    if address is None:
        return text
    attributes = {"data-why": address, "aria-haspopup": "dialog"}
    if field:
        attributes["data-field"] = field
    inside = [html.Span(f"{what}: ", className="heard"), text] if what else text
    return html.Button(
        inside, type="button", className="opens", disable_n_clicks=True, **attributes
    )


def stat(label: str, value: Any, below: Any = None) -> Component:
    """Return one large figure with what it is above, and its period or caveat below."""
    return html.Div(
        [
            html.Div(label, className="stat-label"),
            html.Div(value, className="stat-value"),
            html.Div(below, className="quiet") if below else None,
        ],
        className="stat",
    )
