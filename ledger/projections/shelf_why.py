"""Why a figure of the shelf says so: what came in, what went out, and what it cost."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import sentence
from ledger.projections.base import Node
from ledger.projections.shelf_left import jars_node, left_node, share_node
from ledger.questions.costs.addresses import why as why_cost
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.use_by import use_by_of
from ledger.replay import GRAMS, ORIGINS, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a lot as a tree.

    Parameters
    ----------
    key : str
        The lot's id; ``items/NAME`` or ``over-time/NAME/DAY`` of the answer's other shapes.
    field : str, optional
        A column of the answer; default: what is left. ``cost`` is that of the whole lot.

    Raises
    ------
    NotFound
        When there is no such lot, or no such figure of it.
    """
    from ledger.projections import shelf_items_why as ahead

    shape, _, rest = key.partition("/")
    if rest and shape in ("items", "over-time"):
        return (ahead.why_item if shape == "items" else ahead.why_over_time)(state, rest, field)
    lot = state.lot_ids.get(key)
    if lot is None:
        raise NotFound(
            "address",
            f"there is no lot {key!r}",
            "Take an address from `croftbook show shelf --json`",
        )
    figures = _figures(state, lot)
    name = {None: "left.whole", "left": "left.whole"}.get(field, field)
    if name not in figures:
        raise NotFound(
            "figure", f"{name!r} is not a figure of shelf", f"It has: {', '.join(figures)}"
        )
    return figures[name]()


def _figures(state: State, lot: int) -> dict[str, Callable[[], Node]]:
    def share() -> Node:
        return share_node(state, lot)

    def cost() -> Node:
        return why_cost(state, f"lot/{state.lot_id(lot)}")

    out: dict[str, Callable[[], Node]] = {
        "left.whole": lambda: left_node(state, lot),
        "share_left": share,
        "cost": cost,
        "cost_left": lambda: product("cost of what is left", "money", share(), cost()),
        "use_by": lambda: _use_by(state, lot),
        "days_left": lambda: _days_left(state, lot),
        "standing": lambda: _standing(state, lot),
    }
    if state.lots["jars"][lot]:
        out["jars_left"] = lambda: jars_node(state, lot)
    for i, name in enumerate(ORIGINS[:6]):
        out[f"origin.{name}"] = lambda i=i, name=name: _origin(state, lot, i, name)  # type: ignore[misc]
    return out


def _standing(state: State, lot: int) -> Node:
    from ledger.questions.shared.standing import standing_of

    found = standing_of(state, lot)
    if found is None:
        return Node(sentence("standing-nothing-to-compare"), None)
    parts = [event_node(state, found.ev, "", found.standing, "")]
    return Node(found.text, found.standing, "", "as written", parts)


def _use_by(state: State, lot: int) -> Node:
    day, said = use_by_of(state, lot)
    label = (
        f"keeps {said}" if said else "nobody said how long it keeps: `croftbook item NAME --keeps`"
    )
    return Node(label, None if day is None else day_text(day), "day")


def _days_left(state: State, lot: int) -> Node:
    day, said = use_by_of(state, lot)
    if day is None:
        return Node("nobody said how long it keeps", None, "days")
    until = Node(f"use by {day_text(day)} (keeps {said})", float(day), "day since 1970")
    return difference(
        "days left",
        "days",
        until,
        Node(
            f"the answer's day, {day_text(state.as_of_day)}",
            float(state.as_of_day),
            "day since 1970",
        ),
    )


def _origin(state: State, lot: int, i: int, name: str) -> Node:
    grams = state.costs.lot[lot, GRAMS]
    parts = [
        Node(f"{other} raw food in it", float(g), "g")
        for other, g in zip(ORIGINS[:6], grams, strict=True)
    ]
    if not grams.sum():
        only = ORIGINS[int(state.lots["origin"][lot])]
        return event_node(
            state,
            int(state.lots["ev"][lot]),
            f"{only}; no weight known",
            float(only == name),
            "0 to 1",
        )
    return quotient(
        f"share that is {name}", "0 to 1", parts[i], total("all raw food in it", "g", *parts)
    )
