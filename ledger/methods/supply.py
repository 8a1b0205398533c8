"""How much of a stock is eaten too late."""

from __future__ import annotations

import math
from collections.abc import Sequence

__all__ = ["past_best"]


def past_best(
    amounts: Sequence[float], weeks_left: Sequence[float], per_week: float
) -> list[float]:
    """Return how much of each lot passes its best-quality period before it would be eaten.

    The lot whose period ends first is eaten first, at an even pace; what is past its period is
    left standing. Both are assumptions, to be told beside the figure.

    Parameters
    ----------
    amounts : sequence of float
        What is left of each lot, in the item's unit.
    weeks_left : sequence of float
        Weeks until its period ends (inf: it has none; negative: it is over).
    per_week : float
        Use a week, in the same unit.

    Returns
    -------
    list of float
        In the order given; their sum is what would be eaten too late.

    Examples
    --------
    >>> past_best([6.0, 10.0], [2.0, 4.0], 2.0)
    [2.0, 6.0]
    """
    late = [0.0] * len(amounts)
    eaten = 0.0
    for i in sorted(range(len(amounts)), key=lambda i: weeks_left[i]):
        if math.isinf(weeks_left[i]):
            continue
        in_time = max(0.0, per_week * max(weeks_left[i], 0.0) - eaten)
        taken = min(amounts[i], in_time)
        late[i] = amounts[i] - taken
        eaten += taken
    return late
