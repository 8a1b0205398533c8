"""The tree of one row: the formulas that gave the column, walked."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Protocol

from ledger.figures.figure import LESS, MORE, THROUGH, Figure, Opened
from ledger.figures.leaves import NO_ENTRY
from ledger.figures.node import Node

__all__ = ["MARKS", "Teller", "tree"]

MARKS = {0: "", MORE: "≥", LESS: "≤", MORE | LESS: "≈"}
"""What stands before a figure that is a bound, by its bits."""


class Teller(Protocol):
    """Who says what a tree names."""

    def event(self, ev: int) -> str:
        """Return an event's id, then what it says in one line."""

    def line(self, ev: int) -> str:
        """Return what an event says in one line, its day in front."""

    def label(self, id: str, about: Mapping[str, Any]) -> str:
        """Return a label in words."""


@dataclass
class _Line:
    """A figure at a row with what it is called there, followed through to where it is worked out."""

    figure: Figure
    row: int
    label: str = ""
    about: Mapping[str, Any] = field(default_factory=dict)
    address: tuple[str, str] | None = None
    is_one_of: bool = False
    words: str | None = None
    opened: Opened = field(default_factory=Opened)


def tree(figure: Figure, row: int, teller: Teller, deep: int = 0) -> Node:
    """Return how a row of a figure is worked out.

    Parts that have an address of their own are folded: one line with its address.

    Parameters
    ----------
    figure : Figure
    row : int
    teller : Teller
    deep : int
        Levels of folded lines to open.

    Returns
    -------
    Node
    """
    return _node(_follow(figure, row, None), teller, deep, asked=True)


def _follow(figure: Figure, row: int, name: _Line | None) -> _Line:
    """Follow a figure to where it is worked out; the first name and address on the way hold."""
    line = name or _Line(figure, row)
    while True:
        if figure.label and not line.label:
            about = {k: v(row) if callable(v) else v for k, v in figure.about.items()}
            line.label, line.about, line.is_one_of = figure.label, about, figure.is_one_of
        if figure.fold is not None and line.address is None:
            line.address = figure.fold(row)
        if figure.words is not None and line.words is None:
            line.words = figure.words(row)
        opened = figure.opens(row)
        if opened.how != THROUGH:
            line.figure, line.row, line.opened = figure, row, opened
            return line
        figure, row = opened.parts[0]


def _node(line: _Line, teller: Teller, deep: int, *, asked: bool = False) -> Node:
    value = line.figure.value(line.row)
    node = Node(
        label="",
        value=None if math.isnan(value) else value if line.words is None else line.words,
        unit=line.figure.unit_of(line.row),
        mark=MARKS[line.figure.bound_of(line.row)],
    )
    if line.address is not None and not asked:
        if deep <= 0:
            node.address, node.figure = line.address
            node.label = _said(line, teller)
            return node
        deep -= 1
    if line.opened.parts or line.opened.how == "sum":
        _open(node, line, teller, deep)
    else:
        _name_source(node, line, teller)
    node.label = node.label or _said(line, teller)
    return node


def _said(line: _Line, teller: Teller) -> str:
    # why something cannot be said goes before what it would be
    label = line.opened.label or line.label or line.opened.how
    return teller.label(label, line.about)


def _name_source(node: Node, line: _Line, teller: Teller) -> None:
    opened = line.opened
    if opened.event >= 0:
        node.event = teller.event(opened.event)
        if not line.label:
            node.label = teller.line(opened.event)
    elif opened.source:
        node.source = opened.source
    elif opened.assumption:
        node.assumption = opened.assumption
    if not node.label and not line.label and not opened.label:
        kind = "source" if opened.source else "assumption"
        node.label = teller.label(kind, {"name": opened.source or opened.assumption})


def _open(node: Node, line: _Line, teller: Teller, deep: int) -> None:
    """Set the parts of a node; a sum without a name of its own stands in the one around it."""
    if line.opened.how == "sum":
        parts = _spliced(line.opened)
        if len(parts) == 1 and _may_stand_for(line, parts[0]):
            _stand_for(node, line, parts[0], teller, deep)
            return
    else:
        parts = [_follow(figure, row, None) for figure, row in line.opened.parts]
    node.how = line.opened.how
    if node.how == "method":
        node.assumption = line.opened.assumption
    node.parts = [_node(part, teller, deep) for part in parts]
    if not parts:
        node.assumption = NO_ENTRY


def _spliced(opened: Opened) -> list[_Line]:
    """Return the parts that count; where none does, what a procedure gave: it was not for want of entries."""
    counts = [
        (figure, row)
        for figure, row in opened.parts
        if opened.shows_nothing or figure.value(row) or figure.bound_of(row)
    ]
    if not counts:
        every = (_follow(figure, row, None) for figure, row in opened.parts)
        return [part for part in every if part.opened.how == "method"]
    out: list[_Line] = []
    for figure, row in counts:
        part = _follow(figure, row, None)
        if part.opened.how == "sum" and not part.label and part.address is None:
            out += _spliced(part.opened)
        else:
            out.append(part)
    return out


def _may_stand_for(line: _Line, part: _Line) -> bool:
    """Return whether a sum of one part is that part: it has no name, or the part needs none."""
    is_free = part.is_one_of or not part.label
    return not line.label or (is_free and part.address is None)


def _stand_for(node: Node, line: _Line, part: _Line, teller: Teller, deep: int) -> None:
    whole = _node(part, teller, deep)
    vars(node).update(
        how=whole.how,
        parts=whole.parts,
        event=whole.event,
        source=whole.source,
        assumption=whole.assumption,
        address=whole.address,
        figure=whole.figure,
        label=_said(line, teller) if line.label else whole.label,
    )
