"""A figure's arithmetic as a list that folds, down to events; what is large is fetched by branches.

It is written as markup at once, as `still` would leave it: a component for each of hundreds of lines
took longer than the figures in them. assets/why.js fetches a branch that is opened.
"""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode

from dash.development.base_component import Component
from markupsafe import escape

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.parts.branches import Branch, Rest, branch, is_number, mark_of
from dashboard.parts.figures import figure
from dashboard.parts.saying import say
from dashboard.parts.still import markup_of
from ledger.projections import Node

__all__ = ["BRANCHES", "drawn_branch", "moved", "tree"]

BRANCHES = "/why/branch"
"""Where a branch is asked for."""
_DEPTH_OPEN = 2
_RESTS = {
    "": "why.rest",
    "sum": "why.rest_sum",
    "highest": "why.rest_highest",
    "lowest": "why.rest_lowest",
}


def tree(ask: Ask, node: Node, address: str, field: str | None) -> Component:
    """Return the tree of a figure: each part with its value and how its parts give it.

    Parameters
    ----------
    ask : Ask
    node : Node
    address, field : str
        What `croftbook why` would be given for it; field may be None.
    """
    asked = {"address": address, "field": field, **vars(ask.moment)}
    query = urlencode({name: value for name, value in asked.items() if value})
    return html.Ul(
        className="why-tree",
        **{
            "data-still": _item(ask, branch(node), 0),
            "data-of": f"{BRANCHES}?{query}",
            "data-away": ask.words("away.arithmetic"),
            # opened anew after an entry it is drawn anew, even where what stands open is the same
            "data-end": str(ask.data.mark()),
        },
    )


def drawn_branch(ask: Ask, one: Branch) -> str:
    """Return the parts of a branch as a list in markup, everything in it folded."""
    return _list(ask, one, _DEPTH_OPEN)


def moved(ask: Ask, address: str, field: str | None) -> str:
    """Return in markup that a figure is now reckoned otherwise, and the way to open it anew."""
    anew = figure(ask.words("why.anew"), address, field)
    said = f"{escape(ask.words('why.moved'))} {markup_of([anew])}"
    return f'<p class="trouble" role="alert">{said}</p>'


def _list(ask: Ask, one: Branch, depth: int) -> str:
    lines = [_item(ask, part, depth) for part in one.parts or ()]
    if one.rest is not None:
        said = f'<span class="quiet">{escape(_rest(ask, Rest.of(one.rest)))}</span>'
        lines.append(f'<li class="rest">{_fold(ask, one.rest, said, _DEPTH_OPEN)}</li>')
    return f"<ul>{''.join(lines)}</ul>"


def _item(ask: Ask, one: Branch, depth: int) -> str:
    own = _line(ask, one.node)
    if not one.node.parts:
        return f"<li>{own}</li>"
    said = f'<span>{own} <span class="quiet">{escape(_how(ask, one))}</span></span>'
    return f"<li>{_fold(ask, one, said, depth)}</li>"


def _fold(ask: Ask, one: Branch, said: str, depth: int) -> str:
    """Return a line that folds; what is not drawn of it is fetched from its place."""
    if one.parts is None:
        return (
            f'<details data-place="{one.place}" data-mark="{mark_of(one)}">'
            f"<summary>{said}</summary></details>"
        )
    opens = " open" if depth < _DEPTH_OPEN else ""
    return f"<details{opens}><summary>{said}</summary>{_list(ask, one, depth + 1)}</details>"


def _how(ask: Ask, one: Branch) -> str:
    words, node = ask.words, one.node
    how = words.word("how", node.how)
    if not one.is_long:
        return how
    return words(
        "why.many_sum" if node.how == "sum" else "why.many",
        how=how,
        n=words.number(len(node.parts), 9),
    )


def _rest(ask: Ask, rest: Rest) -> str:
    words, value = ask.words, ""
    if rest.value is not None:
        value = f"{rest.mark} {words.figure(rest.value, rest.unit)}".lstrip()
    return words(_RESTS[rest.how], n=words.number(rest.count, 9), value=value)


def _line(ask: Ask, node: Node) -> str:
    text, label = _value(ask, node), markup_of(say(ask, node.label))
    if node.address:
        return f"{label}: {markup_of([figure(text, node.address, node.figure)])}"
    if node.event:
        find = escape(node.event.split(" ")[0])
        label = f'<a href="/history?find={find}" data-goes>{label}</a>'
    return f"{label}: <b>{escape(text)}</b>"


def _value(ask: Ask, node: Node) -> str:
    value: Any = node.value
    if is_number(value):
        text = ask.words.figure(float(value), node.unit)
    else:
        said = value if isinstance(value, str) else str(value)
        text = "–" if value is None else ask.words.fixed(said)
    return f"{node.mark} {text}" if node.mark else text
