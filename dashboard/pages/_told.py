"""What one answer tells: a sentence, what stands under it, and the drawing that shows why."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from dashboard.ask import Ask
from dashboard.drawings.hours_by_week import hours_by_week
from dashboard.drawings.ranked import Bar, ranked
from dashboard.elements import html
from dashboard.parts import figure, sentence
from dashboard.parts.drawings import text_of
from dashboard.parts.keeping import named
from dashboard.parts.saying import say
from ledger.projections import Answer

__all__ = ["MOST", "Told", "bars", "columns", "figured", "name_of", "spoken", "told"]

MOST = 12
"""Rows of a drawing; the others are in its numbers."""
_DAY = re.compile(r"\d{4}-\d\d-\d\d")


@dataclass(frozen=True)
class Told:
    """One answer as a page tells it.

    Attributes
    ----------
    says : list
        The sentence that answers, its figures opening.
    under : component or text, optional
    make : callable, optional
        ``make(width)`` draws what shows it.
    """

    says: list[Any]
    under: Any = None
    make: Callable[[float], str] | None = None


def told(ask: Ask, key: str, parts: Mapping[str, Any], under: Any = None) -> Told:
    """Return a text of the catalogue, without a drawing."""
    return Told(sentence(ask, key, parts), under)


def bars(ask: Ask, one: Told, rows: Sequence[Bar], mark: str = "") -> Told:
    """Return what is told with bars, the first of them at most."""
    if not rows:
        return one
    said = text_of(one.says)

    def make(width: float) -> str:
        return ranked(list(rows)[:MOST], said, mark=mark, width=width, scheme=ask.scheme)

    return Told(one.says, one.under, make)


def columns(ask: Ask, one: Told, at: Sequence[tuple[str, float]], most: str) -> Told:
    """Return what is told with a column a week or month, the tallest named."""
    if not any(value for _, value in at):
        return one
    said = text_of(one.says)

    def make(width: float) -> str:
        return hours_by_week(at, most, said, width=width, scheme=ask.scheme)

    return Told(one.says, one.under, make)


def figured(ask: Ask, answer: Answer, row: Mapping[str, Any], name: str, kind: str = "own") -> Any:
    """Return a cell as a figure that opens, in the colour of what it is."""
    column = next(one for one in answer.columns if one.name == name)
    return html.Span(figure(ask.words.cell(column, row[name]), row["why"], name), className=kind)


def spoken(ask: Ask, texts: Sequence[str]) -> list[Any]:
    """Return sentences of the ledger, days as one says them, each on a line of its own."""
    out: list[Any] = []
    for text in texts:
        said = say(ask, text)
        out += [html.Br()] if out else []
        for part in said if isinstance(said, list) else [said]:
            out.append(_DAY.sub(_day(ask), part) if isinstance(part, str) else part)
    return out


def _day(ask: Ask) -> Callable[[re.Match[str]], str]:
    return lambda found: ask.words.day(found[0])


def name_of(ask: Ask, value: str, *, begins: bool = False) -> str:
    """Return a fixed word of an answer in the language; what a household named stays."""
    said = ask.words.fixed(value)
    return named(said) if begins else said
