"""A figure's arithmetic as a list that folds, down to events."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.figures import figure
from dashboard.parts.saying import say
from ledger.projections import Node

__all__ = ["tree"]

_DEPTH_OPEN = 2


def tree(ask: Ask, node: Node) -> Component:
    """Return the tree of a figure: each part with its value and how its parts give it."""
    return html.Ul(_branch(ask, node, 0), className="why-tree")


def _branch(ask: Ask, node: Node, depth: int) -> Component:
    own = _line(ask, node)
    if not node.parts:
        return html.Li(own)
    how = ask.words.word("how", node.how)
    parts = html.Ul([_branch(ask, part, depth + 1) for part in node.parts])
    summary = html.Summary(html.Span([own, html.Span(f" {how}", className="quiet")]))
    return html.Li(html.Details([summary, parts], open=depth < _DEPTH_OPEN))


def _line(ask: Ask, node: Node) -> Any:
    value = node.value
    if isinstance(value, float | int) and not isinstance(value, bool):
        text = ask.words.figure(float(value), node.unit)
    else:
        said = value if isinstance(value, str) else str(value)
        text = "–" if value is None else ask.words.fixed(said)
    label = say(ask, node.label)
    if node.mark:
        text = f"{node.mark} {text}"
    if node.address:
        return html.Span([html.Span(label), ": ", figure(text, node.address, node.figure)])
    if node.event:
        label = dcc.Link(label, href=f"/history?find={node.event.split(' ')[0]}")
    return html.Span([html.Span(label), ": ", html.B(text)])
