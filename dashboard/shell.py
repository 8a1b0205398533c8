"""What stands around every page: menu, moment, the panel for arithmetic, and what the page keeps."""

from __future__ import annotations

from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from dashboard.away.strip import waiting
from dashboard.data import Data
from dashboard.pages import PAGES
from dashboard.theme import COMPONENT_THEME
from dashboard.words import Words

__all__ = ["IN_BAR", "layout"]

IN_BAR = ("today", "write", "shelf", "jar_cost", "more")
"""Pages in the phone's bar."""


def layout(data: Data, words: Words, scheme: str) -> Component:
    """Return the shell, into which pages are drawn.

    Parameters
    ----------
    data : Data
    words : Words
    scheme : {'light', 'dark'}
    """
    return dmc.MantineProvider(
        [
            dcc.Location(id="url", refresh="callback-nav"),
            dcc.Store(id="seen", data=data.mark()),
            dcc.Store(id="moment", storage_type="session"),
            dcc.Store(id="scheme", data=scheme),
            dcc.Store(id="why-asked"),
            html.A(words("shell.skip"), href="#page", className="skip"),
            html.Div(
                id="away", role="status", className="line", **{"data-says": words("shell.away")}
            ),
            html.Div(id="failed", role="alert", className="line", **_failures(words)),
            waiting(words),
            html.Header(_head(words), className="head"),
            html.Nav(_menu(words), className="menu", **{"aria-label": words("shell.menu")}),
            html.Main(
                [html.Div(id="moment-note", role="status"), html.Div(id="page", tabIndex="-1")],
                id="main",
                lang=words.language,
            ),
            dmc.Drawer(
                html.Div(id="why-shown"),
                id="why-panel",
                title=words("why.title"),
                position="right",
                size="md",
                closeButtonProps={"aria-label": words("why.close")},
            ),
        ],
        id="provider",
        theme=COMPONENT_THEME,
        forceColorScheme=scheme,
    )


def _failures(words: Words) -> dict[str, str]:
    """Return what the browser says of an answer that brings no words of its own."""
    return {
        "data-says": words("failing.busy"),
        "data-too-much": words("failing.413"),
        "data-kept": words("failing.kept"),
        "data-enter": words("failing.signed_out"),
    }


def _head(words: Words) -> list[Any]:
    return [
        dcc.Link(words("shell.name"), href="/", className="brand"),
        html.Button(
            words("shell.scheme"), type="button", id="change-scheme", className="button quiet-button",
            disable_n_clicks=True,
        ),
    ]  # fmt: skip


def _menu(words: Words) -> Component:
    return html.Ul(
        [
            html.Li(
                dcc.Link(
                    words(f"nav.{page.name}"),
                    href=page.path,
                    id=f"menu-{page.name}",
                    className="menu-link",
                ),
                className="in-bar" if page.name in IN_BAR else "off-bar",
            )
            for page in PAGES
        ]
    )
