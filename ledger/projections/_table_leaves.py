"""The leaves of our-table's trees: so much of a raw lot, times what one unit of it holds."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.projections._arithmetic import product
from ledger.projections._common import event_node, whole_unit
from ledger.projections.base import Node

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["leaves"]


def leaves(
    state: State, basis: str, unit: str, sources: list[tuple[int, float, float, int]]
) -> list[Node]:
    """Return one node a raw lot (and, for value, a price), in the order of the lots.

    Parameters
    ----------
    basis : {'energy', 'weight', 'value'}
    unit : str
        Of the figure.
    sources : list of (lot, whole units, money per whole unit, event of that price)
    """
    amounts: dict[tuple[int, int, float], float] = {}
    for lot, whole, price, ev in sources:
        key = (lot, ev, price) if basis == "value" else (lot, -1, 0.0)
        amounts[key] = amounts.get(key, 0.0) + whole
    nodes = [
        _leaf(state, basis, unit, (lot, whole, price, ev))
        for (lot, ev, price), whole in sorted(amounts.items())
    ]
    return [node for node in nodes if node.value]


def _leaf(state: State, basis: str, unit: str, source: tuple[int, float, float, int]) -> Node:
    lot, whole, price, price_ev = source
    item, ev = int(state.lots["item"][lot]), int(state.lots["ev"][lot])
    grams = float(state.costs.grams[item])
    scale = grams or 1.0
    amount = event_node(state, ev, "", whole * scale, "g" if grams else whole_unit(state, item))
    if basis == "weight":
        return amount if grams else Node("no weight known", 0.0, "g")
    name = state.facts.names[item]
    if basis == "energy":
        kcal = float(state.costs.kcal[item]) / scale
        return product(name, "kcal", amount, Node("energy of the edible part", kcal, "kcal per g"))
    if price_ev < 0:
        return Node("no price known", 0.0, unit)
    per = f"{unit} per {'g' if grams else whole_unit(state, item)}"
    return product(name, unit, amount, event_node(state, price_ev, "", price / scale, per))
