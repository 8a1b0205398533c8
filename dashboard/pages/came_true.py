"""Came true: what the book said at earlier moments, beside what came, in all and by item."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.drawings.ranked import Bar, ranked
from dashboard.elements import html
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    figure,
    notes_of,
    nothing_yet,
    plain_table,
    section,
    sentence,
    sentences,
)
from dashboard.parts.drawings import drawing, text_of
from dashboard.parts.keeping import named
from dashboard.parts.strips import strip
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "came-true"
_COLUMNS = ("said", "graded", "held", "share_held", "expected", "score", "score_of_base")
_ITEMS = (
    "item", "graded", "held", "share_held", "expected", "below", "above", "score", "score_of_base",
)  # fmt: skip
_NEAR = 0.05
"""So far below what it should be a share is to be looked at."""
_ROWS, _OFTEN = 8, 5
"""Items shown, each said so often at least."""
_DESK = 720.0


def draw(ask: Ask) -> Any:
    """Return how much came true of each thing said, and what of one of them came true least."""
    words, whole = ask.words, ask.show(_NAME)
    if ask.is_empty:
        return nothing_yet(ask, "came_true", "bought")
    if whole.is_empty:
        return [html.P(words("came_true.nothing_yet")), notes_of(ask, whole)]
    says = _says(ask, whole)
    return [
        answered(says, under=words("came_true.says")),
        _drawn(ask, whole, text_of(says)),
        _items(ask, whole),
        notes_of(ask, whole),
    ]


def _says(ask: Ask, whole: Answer) -> list[Any]:
    """Return how many of the ranges held, and how many should."""
    words, rows = ask.words, whole.rows()
    ranges, held = whole.totals["ranges"], whole.totals["ranges_held"]
    expected = next((r["expected"] for r in rows if r["said"] == "runs out"), None)
    if not ranges or expected is None:
        row = max(rows, key=lambda r: r["graded"] or 0)
        ranges, held, expected = row["graded"], row["held"], row["expected"]
    if not ranges:
        return [words("came_true.nothing_yet")]
    share = held / ranges
    kind = "look" if expected is not None and share < expected - _NEAR else "own"
    parts = {
        "share": html.Span(words.percent(share), className=kind),
        "n": words.number(ranges, 6),
        "expected": words.percent(expected),
    }
    return sentence(ask, "came_true.answer", parts)


def _drawn(ask: Ask, whole: Answer, says: str) -> Component:
    words = ask.words
    rows = [r for r in whole.rows() if r["share_held"] is not None and r["expected"] is not None]
    several = [
        Bar(
            words.word("answers", r["said"], "said"),
            words.percent(r["share_held"]),
            r["share_held"],
            r["expected"],
            looks=r["share_held"] < r["expected"] - _NEAR,
        )
        for r in rows
    ]
    table = html.Div(
        [
            answer_table(ask, whole, columns=_COLUMNS),
            sentences(ask, whole.totals.get("in_words", ())),
        ]
    )

    def make(width: float) -> str:
        return ranked(several, says, mark=words("came_true.mark"), width=width, scheme=ask.scheme)

    drawn = drawing(ask, "came-true", make, says, table, desk=_DESK)
    return section(words("came_true.in_all"), drawn)


def _items(ask: Ask, whole: Answer) -> Component:
    """Return what came true least of one thing said, and every item of it folded."""
    words = ask.words
    every = ask.show(_NAME, by="item")
    kinds = [row["said"] for row in whole.rows()]
    asked = ask.query.get("said", "")
    chosen = asked if asked in kinds else kinds[0]
    rows = [
        r
        for r in every.rows()
        if r["said"] == chosen and r["item"] and (r["graded"] or 0) >= _OFTEN
    ]
    rows = [r for r in rows if r["share_held"] is not None]
    rows.sort(key=lambda r: (r["share_held"] - (r["expected"] or 0.0), -r["graded"]))
    body = [
        [
            named(r["item"]),
            figure(words.percent(r["share_held"]), r["why"], "share_held"),
            words("came_true.held_of", held=words.number(r["held"], 6), n=words.number(r["graded"], 6)),
            words.percent(r["expected"]) if r["expected"] is not None else "–",
        ]
        for r in rows[:_ROWS]
    ]  # fmt: skip
    heads = [words(f"came_true.{name}") for name in ("item", "held", "times", "mark")]
    folded = html.Details(
        [
            html.Summary(words("came_true.every")),
            answer_table(
                ask, every, columns=_ITEMS, options={"by": "item"},
                keep=lambda row: row["said"] == chosen and row["item"] is not None,
            ),
        ],
        open=ask.wants_all(f"{_NAME}-by"),
    )  # fmt: skip
    table = (
        plain_table(
            heads, body, numeric=[False, True, True, True], keeps_columns=True,
            caption=words("came_true.least"),
        )
        if body
        else html.P(words("came_true.seldom"), className="under")
    )  # fmt: skip
    options = [(said, words.word("answers", said, "said")) for said in kinds]
    return section(
        words("came_true.least"),
        strip(ask, "said", words("came_true.what"), chosen, options),
        table,
        folded,
    )


# Its first answer of a book takes seconds: a script loaded ahead would wait unused.
PAGE = Page("came_true", "/came-true", draw)
