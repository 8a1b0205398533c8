"""Came true: what the book said at earlier moments, beside what came, in all and by item."""

from __future__ import annotations

from typing import Any

from dash import html

from dashboard.ask import Ask
from dashboard.drawings.kept_word import kept_word
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    figure,
    notes_of,
    nothing_yet,
    section,
    sentences,
    stat,
)
from dashboard.parts.drawings import drawing
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_NAME = "came-true"
_COLUMNS = ("said", "graded", "held", "share_held", "expected", "score", "score_of_base")
_ITEMS = (
    "item", "graded", "held", "share_held", "expected", "below", "above", "score", "score_of_base",
)  # fmt: skip
_STATS = ("runs out", "used a week", "lasts till more comes", "yield", "keeps")


def draw(ask: Ask) -> Any:
    """Return how much came true of each thing said, and of one of them item by item."""
    words, whole = ask.words, ask.show(_NAME)
    if ask.is_empty:
        return nothing_yet(ask, "came_true", "bought")
    if whole.is_empty:
        return [html.P(words("came_true.nothing_yet")), notes_of(ask, whole)]
    return [
        html.P(words("came_true.says"), className="quiet"),
        _stats(ask, whole),
        section(
            words("came_true.in_all"),
            sentences(ask, whole.totals.get("in_words", ())),
            _picture(ask, whole),
            answer_table(ask, whole, columns=_COLUMNS),
        ),
        _items(ask, whole),
        notes_of(ask, whole),
    ]


def _stats(ask: Ask, whole: Answer) -> Any:
    rows = {row["said"]: row for row in whole.rows()}
    out = []
    for said in _STATS:
        row = rows.get(said)
        if row is None or not row["graded"]:
            continue
        held = figure(ask.words.number(row["held"], 6), row["why"], "held")
        count = ask.words("came_true.of", n=ask.words.number(row["graded"], 6))
        out.append(
            stat(ask.words.word("answers", said, "said"), [held, " ", count], _should(ask, row))
        )
    return html.Div(out, className="stats")


def _should(ask: Ask, row: dict[str, Any]) -> str:
    return ask.words("came_true.should", share=_percent(ask, row["expected"]))


def _percent(ask: Ask, share: float) -> str:
    return f"{ask.words.number(100 * share, 3)} %"


def _picture(ask: Ask, whole: Answer) -> Any:
    words = ask.words
    known = whole.frame[whole.frame["share_held"].notna() & whole.frame["expected"].notna()]
    if known.empty:
        return None
    rows = [
        (words.word("answers", said, "said"), float(share), _percent(ask, share), float(expected))
        for said, share, expected in zip(
            known["said"], known["share_held"], known["expected"], strict=True
        )
    ]
    far = max(rows, key=lambda row: abs(row[1] - row[3]))
    says = words("came_true.farthest", said=far[0], share=far[2], expected=_percent(ask, far[3]))

    def make(width: float) -> str:
        return kept_word(rows, words("came_true.mark"), says, width=width, scheme=ask.scheme)

    return html.Div([html.P(says, className="under"), drawing(ask, "came-true", make, says)])


def _items(ask: Ask, whole: Answer) -> Any:
    words = ask.words
    every = ask.show(_NAME, by="item")
    kinds = [row["said"] for row in whole.rows()]
    asked = ask.query.get("said", "")
    chosen = asked if asked in kinds else kinds[0]
    options = [(said, words.word("answers", said, "said")) for said in kinds]
    table = answer_table(
        ask, every, columns=_ITEMS, options={"by": "item"},
        keep=lambda row: row["said"] == chosen and row["item"] is not None,
    )  # fmt: skip
    return section(
        words("came_true.by_item"),
        choices(choice("said", words("came_true.what"), chosen, options)),
        table,
    )


# Its first answer of a book takes seconds: a script loaded ahead would wait unused.
PAGE = Page("came_true", "/came-true", draw)
