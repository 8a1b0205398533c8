"""What is rare, folded: several folds under one name, open where something in them was asked for."""

from __future__ import annotations

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html

__all__ = ["all_link", "folds"]


def folds(title: str, *several: Component | None) -> Component:
    """Return folds as one; it is open when one of them is.

    Parameters
    ----------
    title : str
    *several : Details
        None is left out.
    """
    some = [one for one in several if one is not None]
    is_open = any(getattr(one, "open", None) for one in some)
    inside = html.Div(some, className="folds")
    return html.Details([html.Summary(title), inside], className="more", open=is_open)


def all_link(ask: Ask, table: str, n: int, shown: int) -> Component | None:
    """Return the way to all rows of a list that shows fewer; None where all are there."""
    if n <= shown:
        return None
    text = ask.words("table.all", n=ask.words.number(n, 9))
    return html.Div(dcc.Link(text, href=ask.link_all(table)), className="all-rows")
