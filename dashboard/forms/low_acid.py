"""The red card on food of little acid without a pressure process, beside a batch that is being said or typed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any

from dash import html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.parts.marks import icon
from ledger.published import batch_as_typed, caution_before

__all__ = ["caution_parts", "low_acid_card"]

_SOURCE = re.compile(r" \(([^()]*; [^()]*, \d{4})\)")
"""A document named in a sentence: title; publisher, year."""


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
    text = ask.words.said(caution)
    sources = _SOURCE.findall(text)
    head, *rest = re.split(r"(?<=[.]) ", _SOURCE.sub("", text))
    names = html.Ul([html.Li(one) for one in dict.fromkeys(sources)])
    more = html.Details([html.Summary(ask.words("batch.sources")), names]) if sources else None
    return head, html.P(" ".join(rest[:-2])), html.P(" ".join(rest[-2:]), className="do"), more
