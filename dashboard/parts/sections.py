"""Sections of a page, the sentence that answers it, and what its figures rest on."""

from __future__ import annotations

from collections.abc import Mapping
from string import Formatter
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.parts.saying import say, sentences
from ledger.projections import Answer

__all__ = ["answered", "cautions", "notes_of", "section", "sentence"]


def section(title: str, *children: Any, note: Any = None, id: str | None = None) -> Component:
    """Return a titled part of a page, under a rule; `note` stands at the right of its title."""
    more = {"id": id} if id else {}
    head: Component = html.H2(title)
    if note is not None:
        head = html.Div([head, html.Span(note, className="quiet")], className="head")
    return html.Section([head, *children], className="sec", **more)


def sentence(ask: Ask, key: str, parts: Mapping[str, Any]) -> list[Any]:
    """Return a text of the catalogue as children, with components set in where it names them.

    Parameters
    ----------
    ask : Ask
    key : str
    parts : mapping
        By the names in the text: texts, or figures that open, or spans in the colour of what they are.
    """
    out: list[Any] = []
    for text, name, _, _ in Formatter().parse(ask.words(ask.words.counted(key, parts.get("n")))):
        if text:
            out.append(text)
        if name is not None:
            value = parts[name]
            out += list(value) if isinstance(value, list) else [value]
    return out


def answered(*children: Any, under: Any = None) -> Component:
    """Return the sentence that answers the page, above the fold, and a quieter one below it."""
    flat = [one for part in children for one in (part if isinstance(part, list) else [part])]
    says = html.P(flat, className="answer")
    return says if under is None else html.Div([says, html.P(under, className="under")])


def cautions(ask: Ask, *texts: str | None) -> list[Component]:
    """Return what stands before everything else on a page, each text once; None is left out."""
    return [
        html.P(say(ask, text), className="caution grave", role="alert")
        for text in dict.fromkeys(texts)
        if text
    ]


def notes_of(ask: Ask, *answers: Answer) -> Component | None:
    """Return what the figures of these answers rest on, and what is missing, folded; None where nothing."""
    texts: list[str] = []
    for answer in answers:
        texts += answer.totals.get("missing", ())
        texts += [one.text for one in answer.footnotes]
    texts = list(dict.fromkeys(texts))
    if not texts:
        return None
    summary = html.Summary(ask.words("notes.title"))
    return html.Section(html.Details([summary, sentences(ask, texts)]), className="notes")
