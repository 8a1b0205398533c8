"""What is drawn of a figure's tree at once, and the places in it that are fetched when they are opened.

A small tree is drawn whole. Of a large one an answer has `MOST` lines, spent level by level from its
top; of a long list the weightiest or first, and a line for the rest. What is left is never lost: it has
a place, and whoever opens that gets the next answer.
"""

from __future__ import annotations

import math
import re
import zlib
from collections import deque
from dataclasses import dataclass

from ledger.figures.figure import LESS, MORE
from ledger.figures.trees import MARKS
from ledger.projections import Node

__all__ = ["MOST", "NEXT", "WIDE", "Branch", "Rest", "branch", "found", "is_number", "mark_of"]

MOST = 300
"""Most lines of an answer, below the line that was opened."""
WIDE = 60
"""Parts of a list at first."""
NEXT = 240
"""Parts of a list each time its rest is opened."""
_FEW = 5
"""So many parts more are shown with the others: a line for them would save little."""
_PLACE = re.compile(
    r"(?P<steps>(?:\d{1,6}(?:\.\d{1,6}){0,999})?)(?::(?P<start>\d{1,6}))?", re.ASCII
)
_BITS = {mark: bits for bits, mark in MARKS.items()}


@dataclass
class Branch:
    """A stretch of a node's parts, and how much of it is drawn.

    Parameters
    ----------
    node : Node
    steps : tuple of int
        The way to the node from the root: at each step which of the parts, as the node has them.
    start : int
        Parts before this one, in the order in which they are shown, stand in another stretch.
    parts : list of Branch, optional
        None: they are fetched when the line is opened.
    rest : Branch, optional
        The parts that are left, as a line of its own.
    """

    node: Node
    steps: tuple[int, ...] = ()
    start: int = 0
    parts: list[Branch] | None = None
    rest: Branch | None = None

    @property
    def place(self) -> str:
        """Where it is in the tree, ``3.0:60``: its part 3, of that part 0, from the 60th part on."""
        steps = ".".join(map(str, self.steps))
        return f"{steps}:{self.start}" if self.start else steps

    @property
    def is_long(self) -> bool:
        """Whether the node has more parts than are shown at first."""
        return len(self.node.parts) > WIDE + _FEW


@dataclass(frozen=True)
class Rest:
    """What the parts of a list that are not shown come to.

    Parameters
    ----------
    count : int
    how : {'sum', 'highest', 'lowest', ''}
        What `value` is of them; empty: they come to nothing together.
    value : float, optional
    unit, mark : str
        As a `Node` has them.
    """

    count: int
    how: str = ""
    value: float | None = None
    unit: str = ""
    mark: str = ""

    @classmethod
    def of(cls, left: Branch) -> Rest:
        """Return what the parts from a branch's start on come to."""
        nodes = [left.node.parts[at] for at in _order(left.node)[left.start :]]
        values = [one.value for one in nodes if is_number(one.value)]
        units = {one.unit for one in nodes}
        how = left.node.how
        if how not in _TOGETHER or len(values) < len(nodes) or len(units) > 1:
            return cls(len(nodes))
        bits = 0
        for one in nodes:
            bits |= _BITS.get(one.mark, MORE | LESS)
        return cls(len(nodes), how, _TOGETHER[how](values), units.pop(), MARKS[bits])


_TOGETHER = {"sum": math.fsum, "highest": max, "lowest": min}


def branch(node: Node, steps: tuple[int, ...] = (), start: int = 0) -> Branch:
    """Return what an answer draws of a node's parts: at most `MOST` lines.

    Parameters
    ----------
    node : Node
    steps : tuple of int
        Where the node is.
    start : int
        Which part is the first, in the order in which they are shown.
    """
    top = Branch(node, steps, start)
    waits, lines = deque([top]), 0
    while waits:
        one = waits.popleft()
        order = _order(one.node)
        end = _end(len(order), one.start)
        needs = end - one.start + (end < len(order))
        if lines + needs > MOST:
            continue
        lines += needs
        one.parts = [Branch(one.node.parts[at], (*one.steps, at)) for at in order[one.start : end]]
        waits += [part for part in one.parts if part.node.parts]
        if end < len(order):
            one.rest = Branch(one.node, one.steps, end)
            waits.append(one.rest)
    return top


def found(root: Node, place: str) -> Branch | None:
    """Return what is drawn of a place in a tree; None where there is no such place.

    Parameters
    ----------
    root : Node
    place : str
        As `Branch.place` says it; empty: the root.
    """
    said = _PLACE.fullmatch(place)
    if said is None:
        return None
    node, steps = root, tuple(int(one) for one in said["steps"].split(".") if one)
    for at in steps:
        if at >= len(node.parts):
            return None
        node = node.parts[at]
    start = int(said["start"] or 0)
    return branch(node, steps, start) if start < len(node.parts) else None


def mark_of(one: Branch) -> str:
    """Return a mark of a branch, which an entry that changes it changes (8 digits, CRC-32).

    Of the rest of a list the other parts are marked, too: else a part could move from one stretch to another.
    """
    node = one.node
    said = (node.label, node.how, node.value, node.unit, node.mark, len(node.parts))
    parts = [part.value for part in node.parts] if one.start else []
    return f"{zlib.crc32(repr((said, parts)).encode()):08x}"


def is_number(value: float | str | None) -> bool:
    """Return whether a node's value is a number, and no text or yes or no."""
    return isinstance(value, float | int) and not isinstance(value, bool)


def _order(node: Node) -> list[int]:
    """Return a node's parts as they are shown: of a long sum the weightiest first."""
    order = range(len(node.parts))
    if node.how != "sum" or len(order) <= WIDE + _FEW:
        return list(order)
    return sorted(order, key=lambda at: -_weight(node.parts[at]))


def _weight(node: Node) -> float:
    return abs(node.value) if is_number(node.value) else math.inf


def _end(count: int, start: int) -> int:
    """Return where a stretch of parts ends that begins at `start`."""
    end = start + (NEXT if start else WIDE)
    return count if count - end <= _FEW else end
