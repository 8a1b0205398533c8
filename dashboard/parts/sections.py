"""Sections of a page, and what its figures rest on."""

from __future__ import annotations

from typing import Any

from dash import html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.parts.saying import say, sentences
from ledger.projections import Answer

__all__ = ["cautions", "notes_of", "section"]

_SHOWN = 8


def section(title: str, *children: Any, id: str | None = None) -> Component:
    """Return a titled part of a page."""
    more = {"id": id} if id else {}
    return html.Section([html.H2(title), *children], **more)


def cautions(ask: Ask, *texts: str | None) -> list[Component]:
    """Return what stands before everything else on a page, each text once; None is left out."""
    return [
        html.P(say(ask, text), className="caution grave", role="alert")
        for text in dict.fromkeys(texts)
        if text
    ]


def notes_of(ask: Ask, *answers: Answer) -> Component | None:
    """Return what the figures of these answers rest on, and what is missing; None where nothing."""
    texts: list[str] = []
    for answer in answers:
        texts += [str(text) for text in answer.totals.get("missing", ())]
        texts += [one.text for one in answer.footnotes]
    texts = list(dict.fromkeys(texts))
    if not texts:
        return None
    rest = texts[_SHOWN:]
    children = [html.H2(ask.words("notes.title")), sentences(ask, texts[:_SHOWN])]
    if rest:
        summary = html.Summary(ask.words("notes.more", n=len(rest)))
        children.append(html.Details([summary, sentences(ask, rest)]))
    return html.Section(children, className="notes")
