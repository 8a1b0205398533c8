"""What the parts of a node give by its `how`: a test recomputes every one."""

from __future__ import annotations

import math
from statistics import fmean, median

from ledger.figures import Node

_HOW = {
    "sum": sum,
    "product": math.prod,
    "difference": lambda values: values[0] - values[1],
    "quotient": lambda values: values[0] / values[1],
    "power": lambda values: float(values[0] ** values[1]),
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
    return _HOW[node.how]([float(part.value or 0.0) for part in node.parts])
