"""Today: big buttons to write down, what to eat first, and the last entries."""

from __future__ import annotations

from typing import Any

from dash import dcc, html

from dashboard.ask import Ask
from dashboard.forms.specs import COMMON
from dashboard.pages._page import Page
from dashboard.pages.write_down import kind_tiles
from dashboard.parts import answer_table, nothing_yet, section
from ledger.book import HistoryRow

__all__ = ["PAGE", "draw"]

_LAST = 8


def draw(ask: Ask) -> Any:
    """Return the buttons, what to eat first, and the last entries with one tap to correct them."""
    tiles = kind_tiles(ask, COMMON, first=True)
    if ask.is_empty:
        return [tiles, nothing_yet(ask, "today", "harvested")]
    words = ask.words
    shelf = ask.show("shelf")
    first = shelf.frame[shelf.frame["use_by"].notna()].head(8)["lot"].tolist()
    return [
        tiles,
        html.Div(
            [
                section(
                    words("today.eat_first"),
                    answer_table(
                        ask, shelf, columns=("item", "left.text", "kept", "use_by", "days_left"),
                        keep=lambda row: row["lot"] in first,
                    ) if first else html.P(words("today.nothing_soon")),
                ),
                section(words("today.last"), _last(ask)),
            ],
            className="columns",
        ),
    ]  # fmt: skip


def _last(ask: Ask) -> Any:
    rows = [
        row for row in ask.data.history() if row.state == "holds" and row.kind != "item_described"
    ][:_LAST]
    return html.Ul(
        [
            html.Li(
                [
                    html.Span(ask.words.day(row.on, short=True), className="quiet"),
                    html.Span(row.line, className="entry-line"),
                    _correct(ask, row),
                ],
                className="entry",
            )
            for row in rows
        ],
        className="entries",
    )  # fmt: skip


def _correct(ask: Ask, row: HistoryRow) -> Any:
    if row.kind == "struck":
        return None
    href = f"/write?kind={row.kind}&replaces={row.id}"
    return dcc.Link(ask.words("today.correct"), href=href, className="button quiet-button")


PAGE = Page("today", "/", draw)
