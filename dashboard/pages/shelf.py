"""Shelf: what is there, what to eat first, how old it is, how long it lasts."""

from __future__ import annotations

from typing import Any

from dash import html

from dashboard.ask import Ask
from dashboard.pages._page import Page
from dashboard.parts import answer_table, notes_of, nothing_yet, section, stat

__all__ = ["PAGE", "draw"]

_COLUMNS = ("item", "left.text", "on", "kept", "jars_left", "use_by", "days_left", "cost_left")


def draw(ask: Ask) -> Any:
    """Return the lots that are left, what to eat first coming first, and the empties."""
    answer = ask.show("shelf")
    if answer.frame.empty:
        return nothing_yet(ask, "shelf", "harvested")
    words = ask.words
    return [
        html.Div(
            [
                stat(words("shelf.lots"), words.number(len(answer.frame))),
                stat(words("shelf.cost_left"), words.money(answer.totals["cost_left"])),
            ],
            className="stats",
        ),
        section(
            words("shelf.eat_first"),
            answer_table(ask, answer, columns=_COLUMNS),
        ),
        notes_of(ask, answer),
    ]


PAGE = Page("shelf", "/shelf", draw, has_pictures=True)
