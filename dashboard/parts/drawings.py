"""A drawing for both widths on a page, with the numbers it draws and the file of it folded below."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.drawings.marks import DESK, PHONE, as_source
from dashboard.elements import html

__all__ = ["drawing", "small", "text_of"]


def drawing(
    ask: Ask,
    key: str,
    make: Callable[[float], str],
    said: str,
    table: Any = None,
    *,
    under: str | Component | None = None,
    desk: float = DESK,
    phone: float = PHONE,
) -> Component:
    """Return a drawing as an image: its own for a phone and for a desk, which also is printed and saved.

    Parameters
    ----------
    ask : Ask
    key : str
        Its name on the page, and that of its file.
    make : callable
        ``make(width)`` gives the SVG that wide, px.
    said : str
        What it shows: heard in its place.
    table : component, optional
        The numbers that it draws.
    under : str or component, optional
        A quieter sentence beneath it, or a way on from there.
    desk, phone : float
        How wide it is made, px.
    """
    large = as_source(make(desk))
    parts: list[Any] = []
    if phone != desk:
        parts.append(html.Img(src=as_source(make(phone)), alt=said, className="phone"))
    parts.append(html.Img(src=large, alt=said, className="desk" if parts else None))
    save = html.A(
        ask.words("picture.save", format="SVG"), href=large, download=f"{key}.svg",
        className="button plain",
    )  # fmt: skip
    summary = html.Summary(ask.words("picture.numbers"))
    folded = html.Details([summary, table, html.Div(save, className="tools")])
    if under:  # beside the fold of numbers, where there is room
        parts.append(html.P(under, className="under small"))
    return html.Figure([*parts, folded], className="drawn", **{"data-drawing": key})


def small(svg: str, said: str, kind: str = "") -> Component:
    """Return a drawing by itself, as a mark within a row or beside figures."""
    return html.Img(src=as_source(svg), alt=said, className=f"small-drawing {kind}".strip())


def text_of(part: Any) -> str:
    """Return a sentence with figures in it as plain text."""
    if part is None:
        return ""
    if isinstance(part, (list, tuple)):
        return "".join(text_of(one) for one in part)
    return text_of(getattr(part, "children", None)) if isinstance(part, Component) else str(part)
