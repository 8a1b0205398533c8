"""The cost of a lot as a tree: batches down to what was bought, grown, given and worked."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.projections._common import event_node, whole_unit, why_command
from ledger.projections.base import Node
from ledger.replay import COMPONENTS, ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["CostTree"]

DEEPEST = 5
"""Batches within batches shown in one tree; what lies deeper names the address to ask next."""

Columns = tuple[int, ...]


class CostTree:
    """Builds cost trees of one state; parts that are 0 are left out."""

    def __init__(self, state: State) -> None:
        self.state = state
        self.costs = state.costs
        rows = self.costs.rows
        order = np.argsort(rows.of_draw, kind="stable")
        self._draws_by_row = (
            np.searchsorted(rows.of_draw[order], np.arange(rows.count + 1)),
            order,
        )
        self._gives: dict[int, list[tuple[int, float]]] = {}
        for lot, row, share in zip(*(part.tolist() for part in rows.gives), strict=True):
            self._gives.setdefault(lot, []).append((row, share))
        self._own: dict[int, list[tuple[int, float, int, str]]] = {}
        for row, component, money, _, ev, label in self.costs.own_costs():
            self._own.setdefault(row, []).append((component, money, ev, label))

    def lots(self, lots: list[int], component: str | None = None) -> Node:
        """Return the cost of some lots together, one component or all."""
        columns = (
            tuple(range(len(COMPONENTS))) if component is None else (COMPONENTS.index(component),)
        )
        parts = [self.lot(lot, columns, 0) for lot in lots]
        if len(parts) == 1:
            return parts[0]
        return _sum("jars that sealed and jars that did not", parts)

    def lot(self, lot: int, columns: Columns, depth: int) -> Node:
        """Return the cost of one whole lot."""
        lots = self.state.lots
        name = self.state.facts.names[int(lots["item"][lot])]
        value = float(self.costs.lot[lot, list(columns)].sum())
        origin = ORIGINS[int(lots["origin"][lot])]
        if origin == "batch":
            if depth >= DEEPEST:
                label = f"{name}: ask {why_command(f'shelf/{self.state.lot_id(lot)}', 'cost')}"
                return Node(label, value, "money")
            return self._made(lot, name, columns, depth)
        if origin == "grown":
            return self._grown(lot, name, value)
        if origin in ("found", "unrecorded"):
            return self._guessed(lot, name, origin, value)
        return event_node(self.state, int(lots["ev"][lot]), "", value, "money")

    def _made(self, lot: int, name: str, columns: Columns, depth: int) -> Node:
        parts = []
        for row, share in self._gives.get(int(self.costs.rows.number_of_lot[lot]), []):
            node = self._row(row, columns, depth)
            if node is not None:
                parts.append(
                    _product(f"part of it: {node.label}", Node("share", share, "0 to 1"), node)
                )
        return _sum(f"{name} of {self._day(lot)}", parts)

    def _row(self, row: int, columns: Columns, depth: int) -> Node | None:
        """Return what a row (a pot, or what jars share) holds, or None where that is nothing."""
        parts = [
            event_node(self.state, ev, label, money, "money")
            for component, money, ev, label in self._own.get(row, [])
            if component in columns and money
        ]
        bounds, order = self._draws_by_row
        for draw in sorted(order[bounds[row] : bounds[row + 1]].tolist()):
            for at in self.state.allocations_of_draw(draw).tolist():
                part = self._taken(at, columns, depth)
                if part is not None:
                    parts.append(part)
        return _sum("what went in", parts) if parts else None

    def _taken(self, at: int, columns: Columns, depth: int) -> Node | None:
        _, lot, amount = (part[at] for part in self.state.allocations)
        if not self.costs.lot[lot, list(columns)].any():
            return None
        source = self.lot(int(lot), columns, depth + 1)
        whole, item = int(self.state.lots["whole"][lot]), int(self.state.lots["item"][lot])
        unit = whole_unit(self.state, item)
        share = Node(
            "taken from that lot", float(amount) / whole, "0 to 1", "quotient",
            [Node("taken", float(amount), unit), Node("the lot", float(whole), unit)],
        )  # fmt: skip
        name = self.state.facts.names[item]
        return _product(name, share, source)

    def _guessed(self, lot: int, name: str, origin: str, value: float) -> Node:
        """Return an unrecorded or found lot at the shop's price of its day."""
        lots = self.state.lots
        item, day = int(lots["item"][lot]), int(lots["day"][lot])
        price, ev, _ = self.costs.prices.of(np.array([item]), np.array([day]))
        if ev[0] < 0:
            return Node(f"{name}, {origin}: no price known, counted 0", value, "money")
        unit = whole_unit(self.state, item)
        amount = Node(f"{name}, {origin}", float(lots["whole"][lot]), unit)
        each = event_node(self.state, int(ev[0]), "", float(price[0]), f"money per {unit}")
        return _product(f"{name} nobody wrote down, at the shop's price", amount, each)

    def _grown(self, lot: int, name: str, value: float) -> Node:
        """Return a harvest lot: its share by amount of what its crop took that season."""
        garden = self.costs.garden
        if not value:
            return event_node(self.state, int(self.state.lots["ev"][lot]), "", value, "money")
        at = int(np.flatnonzero(self.costs.harvest_lots == lot)[0])
        year, crop = int(garden.season_of[at]), int(garden.item[at])
        total = int(garden.whole[(garden.season_of == year) & (garden.item == crop)].sum())
        whole, unit = int(garden.whole[at]), whole_unit(self.state, crop)
        share = Node(
            "this picking", whole / total, "0 to 1", "quotient",
            [
                event_node(self.state, int(self.state.lots["ev"][lot]), "", float(whole), unit),
                Node(f"all {name} of season {year}", float(total), unit),
            ],
        )  # fmt: skip
        return _product(
            f"{name} picked {self._day(lot)}",
            share,
            self.garden_inputs(year, crop),
        )

    def garden_inputs(self, year: int, crop: int) -> Node:
        """Return what a crop took of garden inputs in a season."""
        garden, name = self.costs.garden, self.state.facts.names[crop]
        parts = []
        for part in garden.parts:
            own = int(self.state.facts.item_of[crop])
            if part.season != year or part.crop not in (own, -1):
                continue
            of = garden.shares(year, part.crop)[crop]
            leaf = event_node(
                self.state,
                part.source.ev,
                f"{part.source.label}, in season {year}",
                part.money,
                "money",
            )
            if part.crop == -1 or of != 1:
                share = Node(f"share of {name} in that season's harvest", of, "0 to 1")
                leaf = _product(leaf.label, share, leaf)
            parts.append(leaf)
        return _sum(f"garden inputs of {name}, season {year}", parts)

    def _day(self, lot: int) -> str:
        from ledger.replay import day_text

        return day_text(int(self.state.lots["day"][lot]))


def _sum(label: str, parts: list[Node]) -> Node:
    return Node(label, sum(_value(p) for p in parts), "money", "sum", parts)


def _product(label: str, share: Node, whole: Node) -> Node:
    return Node(label, _value(share) * _value(whole), "money", "product", [share, whole])


def _value(node: Node) -> float:
    return float(node.value or 0.0)
