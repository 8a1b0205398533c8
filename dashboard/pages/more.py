"""Ask: every question that a page answers, each with its answer of today."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages import (
    as_published,
    history,
    jar_cost,
    know_how,
    next_season,
    our_table,
    season,
    stocking_up,
    worth_it,
)
from dashboard.pages._page import KNOWN, Page
from dashboard.parts import icon, section
from dashboard.parts.drawings import text_of
from ledger.errors import LedgerError

__all__ = ["PAGE", "draw"]

_ICONS = {
    "jar_cost": "jar", "our_table": "ate", "worth_it": "price", "season": "picked", "next_season": "bed",
    "know_how": "practised", "as_published": "put-up", "stocking_up": "list", "winter": "cellar",
    "history": "ask", "came_true": "clock", "touched": "next", "labels": "print", "jar": "search",
    "settings": "write", "beds": "bed", "closer": "search",
}  # fmt: skip
_SAYS: dict[str, Callable[[Ask], Any]] = {
    "jar_cost": jar_cost.says, "our_table": our_table.says, "worth_it": worth_it.says, "season": season.says,
    "next_season": next_season.says, "know_how": know_how.says, "as_published": as_published.says,
    "stocking_up": stocking_up.says, "history": history.says,
}  # fmt: skip
"""Pages whose answer is told here, by the text that stands on them."""
_TOOLS = ("touched", "labels", "jar", "came_true", "closer", "settings", "beds")
"""Pages that are opened with something in hand, and have no answer of the day."""
_BAR = ("today", "write", "shelf", "shopping", "more", "search")
"""Pages that the bar holds, and the one that the box above opens."""


def draw(ask: Ask) -> Any:
    """Return every question with its answer, and what belongs to the book."""
    words = ask.words
    there = {page.name: page for page in KNOWN if page.name not in _BAR}
    order = [*(n for n in _ICONS if n in there), *(n for n in there if n not in _ICONS)]
    questions = [_question(ask, name, there[name].path) for name in order if name not in _TOOLS]
    tools = [html.Li(_tool(ask, name, there[name].path)) for name in order if name in _TOOLS]
    # a page of the server's own, not one of those that are drawn here
    devices = html.A(
        [icon("clock", small=True), words("devices.short")], href="/devices", className="tap"
    )
    tools.append(html.Li(devices))
    seek = [icon("search", small=True), html.Span(words("search.label"))]
    return [
        dcc.Link(seek, href="/search", className="in seek"),
        html.Ul(questions, className="qs", role="list"),
        section(words("more.book"), html.Ul(tools, className="by-two", role="list")),
    ]


def _question(ask: Ask, name: str, path: str) -> Any:
    words = ask.words
    title = f"asks_short.{name}"
    said = [html.B(words(title) if words.has(title) else words(f"nav.{name}")), html.Br()]
    line = html.Span(_answer(ask, name) or words(f"asks.{name}"), className="quiet")
    return html.Li(
        dcc.Link(
            [icon(_ICONS.get(name, "next")), html.Span([*said, line]), icon("next", small=True)], href=path
        )
    )  # fmt: skip


def _tool(ask: Ask, name: str, path: str) -> Any:
    words = ask.words
    return dcc.Link(
        [icon(_ICONS[name], small=True), words(f"nav.{name}")], href=path, className="tap"
    )


def _answer(ask: Ask, name: str) -> str:
    """Return today's answer in a line; nothing where there is none yet, or it cannot be reckoned."""
    says = _SAYS.get(name)
    if says is None or ask.is_empty:
        return ""
    try:
        return text_of(says(ask))
    except LedgerError:
        return ""


PAGE = Page("more", "/more", draw)
