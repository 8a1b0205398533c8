"""Danger on a page: first, in words with the day, and what to do; never a colour alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.marks import icon
from ledger.published import GRAVE, MARKED

__all__ = ["danger_card", "grave_batches", "mark_of", "marked", "said_of"]

_DAY = re.compile(r"\d{4}-\d\d-\d\d")


def grave_batches(rows: Iterable[Mapping[str, Any]]) -> list[list[Mapping[str, Any]]]:
    """Return the shelf's records that stand in danger, those of one batch together, gravest first."""
    several: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        if row["standing"] in GRAVE:
            several.setdefault(row["standing_batch"], []).append(row)
    return sorted(several.values(), key=lambda lots: GRAVE.index(lots[0]["standing"]))


def danger_card(ask: Ask, rows: Iterable[Mapping[str, Any]]) -> Component | None:
    """Return the card that stands before all else while jars in danger are there; else None."""
    batches, words = grave_batches(rows), ask.words
    if not batches:
        return None
    return html.Div(
        [
            html.H2(
                [
                    icon("warn"),
                    html.Span(
                        words(
                            "danger.title" if len(batches) > 1 else "danger.title_one",
                            n=len(batches),
                        )
                    ),
                ]
            ),
            html.Ul([html.Li(_batch(ask, lots)) for lots in batches]),
            html.P(words("danger.signs")),
        ],
        className="danger",
        role="alert",
    )


def _batch(ask: Ask, lots: list[Mapping[str, Any]]) -> list[Any]:
    """Return one batch's jars, how they stand, and the ways on: the remedy first."""
    words, batch = ask.words, lots[0]["standing_batch"]
    out: list[Any] = []
    for row in lots:
        kept = f", {words.word('answers', row['kept'])}" if row["kept"] else ""
        out += [
            html.B(row["item"]),
            f", {words.said(row['left']['text'])}{kept}: ",
            said_of(ask, row["standing_text"]),
            html.Br(),
        ]
    ways = (
        ("danger.discard", "/write?kind=discarded"),
        ("danger.why", f"/as-published?batch={batch}#batch"),
        ("danger.touched", f"/touched?by=batch&of={batch}"),
    )
    links = [dcc.Link(words(text), href=href, className="button") for text, href in ways]
    return [*out, html.Div(links, className="tools")]


def said_of(ask: Ask, text: str) -> str:
    """Return the words of a standing in the language, their days as it writes them."""
    return _DAY.sub(lambda day: ask.words.day(day[0]), ask.words.said(text))


def mark_of(ask: Ask, row: Mapping[str, Any]) -> Component | None:
    """Return the mark of a row: a sign and the words with the day; None where it bears none."""
    if not row.get("standing_text"):
        return None
    is_past = str(row.get("lot") or "").endswith("f") and (row.get("days_left") or 0) < 0
    is_grave, is_open = row["standing"] in GRAVE or is_past, row["standing"] in MARKED
    sign = "!" if is_grave else "?" if is_open else "·"
    kind = "grave" if is_grave else "open" if is_open else "plain"
    return html.Span(
        [
            html.Span(sign, className="sign", **{"aria-hidden": "true"}),
            html.Span(said_of(ask, row["standing_text"])),
        ],
        className=f"mark mark-{kind}",
    )


def marked(ask: Ask, row: Mapping[str, Any]) -> Any:
    """Return a row's item with its mark beneath."""
    mark = mark_of(ask, row)
    return str(row["item"]) if mark is None else html.Span([str(row["item"]), mark])
