"""The ways in which parts give a figure, as nodes; a test recomputes every one."""

from __future__ import annotations

import math
from collections.abc import Callable
from statistics import fmean, median

from ledger.figures import NO_ENTRY, Node

__all__ = [
    "among",
    "difference",
    "power",
    "product",
    "quotient",
    "recompute",
    "total",
]


def _value(node: Node) -> float:
    return float(node.value or 0.0)


def total(label: str, unit: str, *parts: Node) -> Node:
    """Return the sum of `parts`."""
    value, none = sum(_value(part) for part in parts), None if parts else NO_ENTRY
    return Node(label, value, unit, "sum", list(parts), assumption=none)


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


def difference(label: str, unit: str, first: Node, second: Node) -> Node:
    """Return `first` - `second`."""
    return Node(label, _value(first) - _value(second), unit, "difference", [first, second])


def power(label: str, unit: str, base: Node, exponent: Node) -> Node:
    """Return `base` to the power of `exponent`."""
    return Node(label, _value(base) ** _value(exponent), unit, "power", [base, exponent])


def among(how: str, label: str, unit: str, *parts: Node) -> Node:
    """Return the ``lowest``, the ``middle`` or the ``highest`` of `parts`."""
    return Node(label, _AMONG[how]([_value(part) for part in parts]), unit, how, list(parts))


_AMONG: dict[str, Callable[[list[float]], float]] = {
    "lowest": min,
    "middle": median,
    "highest": max,
    "mean": fmean,
    # what is within a thousandth of the next whole number counts as whole (the reckoning, rule 7)
    "rounded down": lambda values: float(math.floor(values[0] + 0.001)),
    "rounded up": lambda values: float(math.ceil(values[0] - 1e-9 * abs(values[0]))),
}


def recompute(node: Node) -> float | None:
    """Return what the parts of a node give by its `how`.

    None for a leaf, a day, a missing value, and what a procedure gave.
    """
    nobody_can = node.value is None or isinstance(node.value, str) or node.how == "method"
    if nobody_can or not node.parts:
        return None
    values = [_value(part) for part in node.parts]
    if node.how == "sum":
        return sum(values)
    if node.how == "difference":
        return values[0] - values[1]
    if node.how == "quotient":
        return values[0] / values[1]
    if node.how == "power":
        return float(values[0] ** values[1])
    if node.how in _AMONG:
        return _AMONG[node.how](values)
    result = 1.0
    for value in values:
        result *= value
    return result
