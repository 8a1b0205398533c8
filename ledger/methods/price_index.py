"""Price indices of one's own basket: Laspeyres, Paasche and Fisher, the earlier period being 100.

References
----------
Consumer Price Index Manual, ILO and others, 2004, chapter 1 (formulas, from memory); worked examples
of two index exercises and a made-up one are in the tests.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

__all__ = ["fisher", "laspeyres", "paasche", "value_index"]

Numbers = Sequence[float]


def _ratio(above: float, below: float) -> float | None:
    return 100 * above / below if below > 0 else None


def _sum(prices: Numbers, quantities: Numbers) -> float:
    return math.fsum(p * q for p, q in zip(prices, quantities, strict=True))


def laspeyres(p0: Numbers, p1: Numbers, q0: Numbers) -> float | None:
    """Return 100 x sum p1 q0 / sum p0 q0: the same basket as before; None of an empty one."""
    return _ratio(_sum(p1, q0), _sum(p0, q0))


def paasche(p0: Numbers, p1: Numbers, q1: Numbers) -> float | None:
    """Return 100 x sum p1 q1 / sum p0 q1: today's basket; None of an empty one."""
    return _ratio(_sum(p1, q1), _sum(p0, q1))


def fisher(low: float | None, high: float | None) -> float | None:
    """Return the root of the product of the two; None where either is not known."""
    return None if low is None or high is None else math.sqrt(low * high)


def value_index(p0: Numbers, p1: Numbers, q0: Numbers, q1: Numbers) -> float | None:
    """Return 100 x sum p1 q1 / sum p0 q0."""
    return _ratio(_sum(p1, q1), _sum(p0, q0))
