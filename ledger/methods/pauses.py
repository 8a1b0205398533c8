"""Packs opened at even pauses: a stock of so many is gone after so many pauses.

Use now and then as pauses and sizes: Croston, Operational Research Quarterly 23 (1972); Syntetos
and Boylan, International Journal of Forecasting 21 (2005), both from memory. The shapes and
their prior weights are our own choice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from scipy.special import fdtr, gammaincc, gammaln

from ledger.methods.past import Array, Past

__all__ = ["LEAST_PAUSES", "SHAPES", "EvenPauses", "even_pauses"]

#: Shapes of the gamma distribution of a pause, and their prior weights; 1 is use by chance.
SHAPES = ((1.0, 0.86), (4.0, 0.07), (12.0, 0.07))
#: Fewer pauses than this say nothing of how even they are. Our choice.
LEAST_PAUSES = 3
_HAIR = 1e-3


@dataclass(frozen=True)
class EvenPauses:
    """Pauses of one evenness.

    Attributes
    ----------
    weight : float
        How far the pauses speak for it.
    first, first_variance : float
        Days from now to the next use, their mean and variance.
    pause, variance : float
        Days from use to use, and the variance of one in days^2, the scatter of sizes in it.
    freedom : float
        Pauses known, by how much each tells.
    size, scatter : float
        Of a use: amount and squared coefficient of variation.
    """

    weight: float
    first: float
    first_variance: float
    pause: float
    variance: float
    freedom: float
    size: float
    scatter: float

    def gone_within(self, stock: Array, days: Array, of: Any = fdtr) -> Array:
        """Return the chance that a stock is gone within so many days; of broadcasting shapes.

        The distribution function of F is `of`.
        """
        uses = np.ceil(stock / self.size - 1e-9) + self.scatter / 2
        more = np.maximum(uses - 1, 0.0)
        mean = self.first + more * self.pause
        variance = self.first_variance + more * self.variance
        shape = 2 * mean**2 / variance
        return np.asarray(of(shape, 2 * (self.freedom + 0.5), days / mean))


def even_pauses(past: Past) -> tuple[float, tuple[EvenPauses, ...]]:
    """Return the weight of use by chance, and the ways of even pauses with theirs.

    Parameters
    ----------
    past : Past

    Returns
    -------
    float, tuple of EvenPauses
        1 and none where fewer than `LEAST_PAUSES` pauses are known.
    """
    pauses = past.pauses
    n = len(pauses)
    if n < LEAST_PAUSES:
        return 1.0, ()
    total = float(pauses.sum())
    mean = max(total / n, (total + past.age) / (n + 1))
    logs = float(np.log(pauses).sum())
    shapes = np.array([shape for shape, _ in SHAPES])
    scale = mean / shapes
    survive = gammaincc(shapes, past.age / scale)
    with np.errstate(divide="ignore"):
        score = np.log([weight for _, weight in SHAPES]) + np.log(survive)
    score += (shapes - 1) * logs - total / scale - n * (shapes * np.log(scale) + gammaln(shapes))
    weights = np.exp(score - score.max())
    weights /= weights.sum()
    ways = [
        _way(past, float(w), float(r), mean, n)
        for w, r in zip(weights[1:], shapes[1:], strict=True)
        if w > _HAIR
    ]
    return 1.0 - math.fsum(way.weight for way in ways), tuple(ways)


def _way(past: Past, weight: float, shape: float, mean: float, n: int) -> EvenPauses:
    scale = mean / shape
    at = past.age / scale
    beyond = float(gammaincc(shape, at))
    first = shape * scale * float(gammaincc(shape + 1, at)) / beyond
    square = shape * (shape + 1) * scale**2 * float(gammaincc(shape + 2, at)) / beyond
    rest = max(first - past.age, 0.02 * mean)
    spread = 1 / shape + past.scatter
    return EvenPauses(
        weight, rest, max(square - first**2, (0.02 * mean) ** 2), mean, mean**2 * spread,
        n / spread, past.size, past.scatter,
    )  # fmt: skip
