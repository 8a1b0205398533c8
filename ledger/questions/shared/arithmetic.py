"""Sums, products and quotients as nodes of trees that are put together by hand."""

from __future__ import annotations

from ledger.projections.base import Node

__all__ = ["product", "quotient", "total"]


def _value(node: Node) -> float:
    return float(node.value or 0.0)


def total(label: str, unit: str, *parts: Node) -> Node:
    """Return the sum of `parts`."""
    return Node(label, sum(_value(part) for part in parts), unit, "sum", list(parts))


def product(label: str, unit: str, *parts: Node) -> Node:
    """Return the product of `parts`."""
    value = 1.0
    for part in parts:
        value *= _value(part)
    return Node(label, value, unit, "product", list(parts))


def quotient(label: str, unit: str, above: Node, below: Node) -> Node:
    """Return `above` / `below`; None where `below` is 0."""
    value = _value(above) / _value(below) if _value(below) else None
    return Node(label, value, unit, "quotient", [above, below])
