"""History: every event, what replaced what; strike, correct, and look at another moment."""

from __future__ import annotations

from typing import Any

from dashboard.ask import Ask
from dashboard.pages._page import Page
from dashboard.parts import nothing_yet, plain_table, section

__all__ = ["PAGE", "draw"]


def draw(ask: Ask) -> Any:
    """Return the events, newest first."""
    if ask.is_empty:
        return nothing_yet(ask, "history", "harvested")
    words = ask.words
    rows = [
        [words.day(row.on), row.line, row.by or "", words.word("states", row.state)]
        for row in ask.data.history()[:50]
    ]
    heads = [words(f"history.{name}") for name in ("day", "entry", "by", "state")]
    return section(words("history.events"), plain_table(heads, rows, caption=words("nav.history")))


PAGE = Page("history", "/history", draw)
