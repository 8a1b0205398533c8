"""Proving sources: a number changed in the log moves what its tree says, and nothing else moves it.

Two properties that every question whose figures are made once has to hold; a test gives a book, how to
open a figure of it, and how an event is changed.
"""

from __future__ import annotations

import copy
import re
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import msgspec
import pytest
from books import state_of
from questions.recomputed import recompute

Event = dict[str, Any]

TIMES = 3
"""What numbers are changed by: a factor that no share or rounding brings about."""
ROUNDED = (TIMES + 1) / 2
"""How far an amount TIMES as much is off where both are brought to whole units: a half each, one TIMES."""
MONEY = ("paid", "price", "value")
ENERGY = "kcal_per_100g"
WHOLE = 99
"""Levels of folded lines to open: all there are."""


def changed(event):
    """Return an event with its money, minutes, energy or setting TIMES as much; None: it has none."""
    if event["body"].get("name") == "season_starts":  # a day: another moves every season
        return None
    body, found = copy.deepcopy(event["body"]), False
    for line in (body, *body.get("lines", ()), *body.get("work", ())):
        for name in (*MONEY, "minutes", ENERGY):
            number = re.fullmatch(r"([\d.]+)(.*)", str(line.get(name, "")))
            if number and (event["kind"] == "setting_changed") == (
                name == "value" and "name" in body
            ):
                line[name] = f"{float(number[1]) * TIMES!r}{number[2]}"
                found = True
    return {**event, "body": body} if found else None


def base(events, as_of):
    """Return the state of a book before anything is changed in it: read once for all figures asked of it."""
    return _read(msgspec.json.encode(events), as_of)


@lru_cache(16)
def _read(book, as_of):
    return state_of(msgspec.json.decode(book), as_of)


def leaves(node):
    return [leaf for part in node.parts for leaf in leaves(part)] if node.parts else [node]


def moved(node, id_, unit, off=0.0):
    """Return what a tree gives when its leaves of an event that have a unit are TIMES as much, and `off`.

    What a procedure gave stays: a figure that moves by it does not hold.
    """
    if node.how == "method":
        return node.value or 0.0
    if not node.parts:
        mine = node.event is not None and node.event.startswith(id_) and node.unit.startswith(unit)
        return (node.value or 0.0) * TIMES + off if mine else node.value or 0.0
    again = copy.copy(node)
    again.parts = [copy.copy(part) for part in node.parts]
    for part, old in zip(again.parts, node.parts, strict=True):
        part.value = moved(old, id_, unit, off)
    return recompute(again)


def with_event(events, new):
    return [new if event["id"] == new["id"] else event for event in events]


def is_used_up(node):
    """Return whether a tree charges equipment up to its price: earlier charges are then as they were."""
    return node.how == "lowest" or any(is_used_up(part) for part in node.parts)


@dataclass(frozen=True)
class Proof:
    """How a figure of a question is opened and changed.

    Parameters
    ----------
    opened : callable
        ``opened(events)`` gives the key of one record and the whole tree of the figure; None where no
        record has it.
    valued : callable
        ``valued(state, key)`` gives the figure of the same record in a changed book.
    changed : callable
        An event with its numbers TIMES as much; None: it has none that count here.
    unit : str or callable of an event
        What the units of the leaves that move begin with.
    as_of : str
    off : float
        How far each leaf that moves may be off, in its own unit: 0, or `ROUNDED`.
    """

    opened: Callable[[list[Event]], tuple[Any, Any]]
    valued: Callable[[Any, Any], float | None]
    changed: Callable[[Event], Event | None]
    unit: str | Callable[[Event], str]
    as_of: str
    off: float = 0.0

    def holds_inside(self, events: list[Event]) -> None:
        """Hold the figure to its tree, as each event that the tree names is changed."""
        key, tree = self.opened(events)
        if tree is None or is_used_up(tree):
            return
        named = named_in(tree)
        for event in events:
            new = self.changed(event) if event["id"] in named else None
            if new is None:
                continue
            now = self.valued(state_of(with_event(events, new), self.as_of), key)
            unit = self.unit if isinstance(self.unit, str) else self.unit(event)
            says = moved(tree, event["id"], unit)
            slack = abs(moved(tree, event["id"], unit, self.off) - says) if self.off else 0.0
            assert now == pytest.approx(says, rel=1e-9, abs=1e-9 + slack), event

    def holds_outside(self, events: list[Event]) -> None:
        """Hold the figure still, as all events that the tree does not name are changed."""
        key, tree = self.opened(events)
        if tree is None:
            return
        named = named_in(tree)
        others = {event["id"]: self.changed(event) for event in events if event["id"] not in named}
        book = [others.get(event["id"]) or event for event in events]
        now = self.valued(state_of(book, self.as_of), key)
        is_number = isinstance(tree.value, float)
        assert now == (pytest.approx(tree.value, rel=1e-9, abs=1e-9) if is_number else tree.value)


def named_in(tree: Any) -> set[str]:
    """Return the ids of the events that the lines of a tree name."""
    return {leaf.event.split(" ")[0] for leaf in leaves(tree) if leaf.event}


def names_its_source(leaf: Any) -> bool:
    """Return whether a leaf says where it comes from, or that nothing is known."""
    says = leaf.event or leaf.source or leaf.assumption or leaf.address
    return bool(says or leaf.value is None)
