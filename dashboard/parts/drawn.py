"""A drawing of our own on a page: SVG made in Python, no script, with the sentence it shows and its table."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from dash import html
from dash.development.base_component import Component

from dashboard.ask import Ask

__all__ = ["drawn"]


def drawn(
    ask: Ask, key: str, svg: str, says: str, table: Any = None, *, only: str = "", says_it: bool = False
) -> Component:  # fmt: skip
    """Return a drawing as a picture.

    Parameters
    ----------
    ask : Ask
    key : str
        Its name on the page, and of the file that it is saved as.
    svg : str
        Made by `dashboard.figures.svg`, complete in itself.
    says : str
        What it shows, in one sentence: heard in its place.
    table : component, optional
        The numbers that it draws: folded below, with the drawing as a file.
    only : {'', 'phone', 'desk'}
        Where there is another one for the other width.
    says_it : bool
        The sentence is seen above the drawing, too.
    """  # fmt: skip
    source = "data:image/svg+xml;charset=utf-8," + quote(svg, safe=" =:/',;()")
    folded = None
    if table is not None:
        save = html.A(
            ask.words("picture.save", format="SVG"), href=source, download=f"{key}.svg",
            className="button plain",
        )  # fmt: skip
        folded = html.Details(
            [html.Summary(ask.words("picture.table")), table, html.Div(save, className="tools")]
        )
    caption = html.Figcaption(says) if says_it else None
    return html.Figure(
        [caption, html.Img(src=source, alt=says), folded], className=f"drawn {only}".strip()
    )
