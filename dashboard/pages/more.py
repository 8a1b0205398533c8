"""More: every page by name, for the phone, whose bar holds only four."""

from __future__ import annotations

from typing import Any

from dash import dcc, html

from dashboard.ask import Ask
from dashboard.pages._page import Page

__all__ = ["PAGE", "draw"]


def draw(ask: Ask) -> Any:
    """Return links to every page with what it answers, and to who is signed in."""
    from dashboard.pages import PAGES

    pages = html.Ul(
        [
            html.Li(
                dcc.Link(
                    [
                        html.Strong(ask.words(f"nav.{page.name}")),
                        html.Span(ask.words(f"asks.{page.name}"), className="quiet"),
                    ],
                    href=page.path,
                    className="tile",
                )
            )
            for page in PAGES
            if page.name != "more"
        ],
        className="tiles",
    )
    # a page of the server's own, not one of those that are drawn here
    return [
        pages,
        html.P(html.A(ask.words("devices.link"), href="/devices", className="button quiet-button")),
    ]


PAGE = Page("more", "/more", draw)
