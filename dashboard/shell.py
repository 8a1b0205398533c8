"""What stands around every page: head, bar and names, moment, the panel for arithmetic, what the page keeps."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.away.strip import waiting
from dashboard.data import Data
from dashboard.elements import dcc, html
from dashboard.pages import PAGES
from dashboard.parts import icon, still
from dashboard.parts.alive import Panel
from dashboard.words import Words

__all__ = ["BAR", "GROUPS", "layout"]

BAR = (
    ("today", "today"),
    ("shelf", "shelf"),
    ("write", "write"),
    ("shopping", "list"),
    ("more", "ask"),
)
"""Pages in the phone's bar, each with its icon; a page that is not there belongs to the last."""

GROUPS: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("day", ("today", "write", "shelf", "shopping")),
    ("garden", ("season", "next_season", "beds")),
    (
        "reckoning",
        ("jar_cost", "our_table", "worth_it", "stocking_up", "winter", "came_true", "closer"),
    ),
    ("hands", ("know_how", "as_published", "touched")),
    ("book", ("history", "search", "labels", "jar", "settings")),
)
"""The names at the left of a desk; a page that is in none stands with the last."""


def layout(data: Data, words: Words, scheme: str, sample_of: str | None = None) -> Component:
    """Return the shell, into which pages are drawn.

    Parameters
    ----------
    data : Data
    words : Words
    scheme : {'light', 'dark'}
    sample_of : str, optional
        Of the invented household: the address of the household's own book, empty where there is none.
    """
    return html.Div(
        [
            dcc.Location(id="url", refresh="callback-nav"),
            dcc.Store(id="seen", data=data.mark()),
            dcc.Store(id="moment", storage_type="session"),
            dcc.Store(id="scheme", data=scheme),
            dcc.Store(id="why-asked"),
            dcc.Store(id="shelving"),
            dcc.Store(id="happened-done", data=[]),
            html.A(words("shell.skip"), href="#page", className="skip"),
            html.Div(
                id="away", role="status", className="line", **{"data-says": words("shell.away")}
            ),
            html.Div(id="failed", role="alert", className="line", **_failures(words)),
            _sample(words, sample_of) if sample_of is not None else None,
            waiting(words),
            html.Div(
                [
                    still(html.Header(_head(words), className="mast"), ids=True),
                    still(
                        html.Nav(_bar(words), className="bar", **{"aria-label": words("shell.bar")}),
                        ids=True,
                    ),
                    still(
                        html.Nav(_names(words), className="side", **{"aria-label": words("shell.menu")}),
                        ids=True,
                    ),
                    html.Main(
                        [
                            html.Div(id="moment-note", role="status"),
                            html.Div(id="page", tabIndex="-1"),
                            html.Div(id="said", role="status"),
                        ],
                        id="main",
                        lang=words.language,
                    ),
                ],
                id="frame",
            ),
            Panel(
                children=html.Div(id="why-shown"), id="why-panel", opened=False,
                title=words("why.title"), closes=words("why.close"),
            ),
        ]
    )  # fmt: skip


def _sample(words: Words, back: str) -> Component:
    """Return the line that says on every page that nothing here is the household's own."""
    way = html.A(words("sample.back"), href=back) if back else None
    return html.Aside(
        [words("sample.here"), " ", way], className="line sample",
        **{"aria-label": words("sample.here")},
    )  # fmt: skip


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
        dcc.Link([icon("sign"), words("shell.name")], href="/", className="brand"),
        dcc.Link(
            [icon("search"), html.Span(words("search.label"), className="heard")],
            href="/search", className="ibtn",
        ),
        html.Button(
            icon("scheme"), type="button", id="change-scheme", className="ibtn",
            disable_n_clicks=True, **{"aria-label": words("shell.scheme")},
        ),
    ]  # fmt: skip


def _bar(words: Words) -> Component:
    pages = {page.name: page for page in PAGES}
    return html.Ul(
        [
            html.Li(
                dcc.Link(
                    [icon(mark), html.Span(words(f"bar.{name}"))],
                    href=pages[name].path,
                    id=f"bar-{name}",
                    className="menu-link do" if name == "write" else "menu-link",
                )
            )
            for name, mark in BAR
        ]
    )


def _names(words: Words) -> list[Component]:
    pages = {page.name: page for page in PAGES}
    grouped = {name for _, names in GROUPS for name in names}
    others = tuple(name for name in pages if name not in grouped)
    out: list[Component] = []
    for group, names in GROUPS:
        shown = (*names, *others) if group == GROUPS[-1][0] else names
        out.append(html.H2(words(f"groups.{group}")))
        out.append(
            html.Ul(
                [
                    html.Li(
                        dcc.Link(
                            words(f"nav.{name}"), href=pages[name].path, id=f"menu-{name}",
                            className="menu-link",
                        )
                    )
                    for name in shown
                    if name in pages
                ]
            )
        )  # fmt: skip
    return out
