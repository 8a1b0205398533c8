"""The red card on food of little acid without a pressure process, beside a batch that is being said or typed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.parts.marks import icon
from ledger.published import batch_as_typed, caution_before

__all__ = ["caution_cards", "caution_parts", "low_acid_card"]

_SOURCE = re.compile(r" \(([^()]+, (?:\w+ )?\d{4})\)")
"""A document named in a sentence: title; publisher, year; of some the publisher alone."""


def low_acid_card(
    ask: Ask, said: Mapping[str, Any], ways: Sequence[Component] = ()
) -> Component | None:
    """Return the card: what to do stands in it, whole, and only the documents' names fold; None without danger.

    Parameters
    ----------
    said : mapping
        Of a ``put_up``, as far as it is there: see `ledger.published.batch_as_typed`.
    ways : sequence of components
        Remedies that a tap brings.
    """
    caution = caution_before(batch_as_typed(said))
    if caution is None:
        return None
    head, why, do, sources = caution_parts(ask, caution)
    return html.Div(
        [
            html.H2([icon("warn"), html.Span(head)]),
            why,
            do,
            html.Div(list(ways), className="tools") if ways else None,
            sources,
        ],
        className="danger",
        role="alert",
    )


def caution_parts(ask: Ask, caution: str) -> tuple[str, Component, Component, Component | None]:
    """Return a caution's first sentence, why, what to do in bold, and its documents, folded."""
    head, why, do, sources = _split(ask, caution)
    return head, html.P(why), html.P(do, className="do"), _documents(ask, sources)


def caution_cards(ask: Ask, cautions: Iterable[str]) -> list[Component]:
    """Return a card for each remedy: the foods of every sort that shares it, why, and what to do once."""
    by_remedy: dict[str, list[tuple[str, str, list[str]]]] = {}
    for caution in dict.fromkeys(cautions):
        head, why, do, sources = _split(ask, caution)
        by_remedy.setdefault(do, []).append((head, why, sources))
    return [
        html.Div(
            [
                *(part for head, why, _ in sorts for part in _sort(head, why)),
                html.P(do, className="do"),
                _documents(ask, [one for *_, sources in sorts for one in sources]),
            ],
            className="danger",
            role="alert",
        )
        for do, sorts in by_remedy.items()
    ]


def _sort(head: str, why: str) -> list[Component]:
    title = html.H2([icon("warn"), html.Span(head)])
    return [title, html.P(why)] if why else [title]


def _split(ask: Ask, caution: str) -> tuple[str, str, str, list[str]]:
    text = ask.words.said(caution)
    head, *rest = re.split(r"(?<=[.]) ", _SOURCE.sub("", text))
    return head, " ".join(rest[:-2]), " ".join(rest[-2:]), _SOURCE.findall(text)


def _documents(ask: Ask, sources: Iterable[str]) -> Component | None:
    names = [html.Li(one) for one in dict.fromkeys(sources)]
    return (
        html.Details([html.Summary(ask.words("batch.sources")), html.Ul(names)]) if names else None
    )
