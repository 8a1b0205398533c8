"""What is left of a lot, and its jars, as trees."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["came_node", "jars_node", "left_node", "share_node", "unit_of", "went_node"]


def left_node(state: State, lot: int) -> Node:
    """Return what is left of a lot: what came in less what was taken out."""
    return difference("left", unit_of(state, lot), came_node(state, lot), went_node(state, lot))


def jars_node(state: State, lot: int) -> Node:
    """Return the jars left of a lot, an open one as a part."""
    jars = float(state.lots["jars"][lot])
    came = event_node(state, int(state.lots["ev"][lot]), "jars", jars, "jars")
    return product("jars left", "jars", came, share_node(state, lot))


def unit_of(state: State, lot: int) -> str:
    """Return the unit of a lot's whole amounts."""
    return whole_unit(state, int(state.lots["item"][lot]))


def came_node(state: State, lot: int) -> Node:
    """Return what a lot came in as, in whole units."""
    whole = float(state.lots["whole"][lot])
    return event_node(state, int(state.lots["ev"][lot]), "", whole, unit_of(state, lot))


def went_node(state: State, lot: int) -> Node:
    """Return what was taken out of a lot."""
    draw, _, amount = state.allocations
    parts = [
        event_node(
            state, int(state.draws["ev"][draw[at]]), "", float(amount[at]), unit_of(state, lot)
        )
        for at in state.allocations_of_lot(lot).tolist()
    ]
    return total("taken out", unit_of(state, lot), *parts)


def share_node(state: State, lot: int) -> Node:
    """Return which part of a lot is left."""
    return quotient("share left", "0 to 1", left_node(state, lot), came_node(state, lot))
