"""What the class is told: thresholds, merged zones, rounding, and no sum that one household makes.

Each rule keeps one way shut by which a reader could work a household out; docs/circle.md names them,
tests/circle/test_attacks.py tries them. Whoever holds the sheets sees them all: rules guard against readers.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.circle.told import Asked, told_of

if TYPE_CHECKING:
    from ledger.circle.call import Call
    from ledger.circle.keep import Held

__all__ = ["LEAST", "QUARTILES_FROM", "class_cells", "merged_zones", "rounded_down"]

LEAST = 10
"""Households that a figure is told of at least."""
QUARTILES_FROM = 20
FEW = "fewer than 10"
NO_QUARTILES = "fewer than 20: no quartiles"
FEW_HAVE_ANY = "fewer than 10 have any"
DOMINATED = "one household is over half"
LEFTOVER = "what is left beside it would be told as well"
_STEP = 5
_SUM_STEP = 10


def rounded_down(n: int) -> int:
    """Return a number of households as it is told: down to a multiple of five."""
    return n - n % _STEP


def class_cells(call: Call, held: Sequence[Held]) -> list[dict[str, Any]]:
    """Return the cells of a release to the class, in the order of the call.

    Returns
    -------
    list of dict
        ``figure, group, n, low, middle, high, middle_from, middle_to, sum, withheld``; whole numbers, in the
        units of `ledger.circle.told`; None where the rules withhold it. From ``middle_from`` to ``middle_to`` the
        middle of another class like it would lie nine times of ten.
    """
    cells = []
    for asked in told_of(call):
        values = [(one.zone, asked.value(one.figures)) for one in held]
        known = [(zone, value) for zone, value in values if value is not None]
        if not asked.is_by_zone:
            cell = _cell(asked, dict(asked.group), [value for _, value in known])
            if asked.told.sums and cell["withheld"] != FEW:
                _add_sum(cell, asked, held)
            cells.append(cell)
            continue
        for zones in merged_zones(Counter(zone for zone, _ in known), call.zones):
            group = {**asked.group, "zone": "+".join(zones)}
            cells.append(_cell(asked, group, [value for zone, value in known if zone in zones]))
    return cells


def merged_zones(counts: Mapping[str, int], zones: Sequence[str]) -> list[tuple[str, ...]]:
    """Return the zones put together so that each piece has ten households, as far as there are.

    Zones under ten make one piece, those with none among them, so that nobody sees which; a piece
    still under ten takes in the smallest of the others.

    Examples
    --------
    >>> merged_zones({"4": 3, "5": 12, "6": 8}, ["4", "5", "6"])
    [('4', '6'), ('5',)]
    >>> merged_zones({"4": 3, "5": 12, "6": 30}, ["4", "5", "6"])
    [('4', '5'), ('6',)]
    """
    small = [zone for zone in zones if counts.get(zone, 0) < LEAST]
    large = [zone for zone in zones if zone not in small]
    if not small:
        return [(zone,) for zone in large]
    if large and sum(counts.get(zone, 0) for zone in small) < LEAST:
        nearest = min(large, key=lambda zone: (counts[zone], zones.index(zone)))
        large.remove(nearest)
        small = [zone for zone in zones if zone in small or zone == nearest]
    pieces = [tuple(small), *((zone,) for zone in large)]
    return sorted(pieces, key=lambda piece: zones.index(piece[0]))


def _cell(asked: Asked, group: dict[str, str], values: Sequence[int]) -> dict[str, Any]:
    cell: dict[str, Any] = {
        "figure": asked.told.name, "group": group, "n": None, "low": None, "middle": None,
        "high": None, "middle_from": None, "middle_to": None, "sum": None, "withheld": None,
    }  # fmt: skip
    if len(values) < LEAST:
        return {**cell, "withheld": FEW}
    cell["n"] = rounded_down(len(values))
    if len(values) < QUARTILES_FROM:
        return {**cell, "withheld": NO_QUARTILES}
    for name, value in zip(("low", "middle", "high"), _quartiles(values), strict=True):
        cell[name] = _to_step(value, asked.told.step)
    # From what is told alone. The standard error of a median is 1.253 of the mean's, and quartiles of a
    # normal distribution lie 1.349 standard deviations apart: textbook values, from memory.
    half = 1.645 * 1.253 * (cell["high"] - cell["low"]) / 1.349 / cell["n"] ** 0.5
    cell["middle_from"] = _to_step(cell["middle"] - half, asked.told.step)
    cell["middle_to"] = _to_step(cell["middle"] + half, asked.told.step)
    return cell


def _quartiles(values: Sequence[int]) -> list[float]:
    found: list[float] = np.percentile(values, [25, 50, 75]).tolist()
    return found


def _to_step(value: float, step: int) -> int:
    return round(value / step) * step


def _add_sum(cell: dict[str, Any], asked: Asked, held: Sequence[Held]) -> None:
    """Put the sum into a cell, or why it is not told."""
    values = [value for one in held if (value := asked.value(one.figures)) is not None]
    why = _refused(values)
    if why is None and asked.told.name == "short":
        # Batches are told as well: what is left between the two must not be one household's either.
        rest = [one.figures["batches"] or 0 for one in held]
        left = [all_ - (one.figures["short"] or 0) for all_, one in zip(rest, held, strict=True)]
        why = None if _refused(left) is None else LEFTOVER
    if why is not None:
        cell["withheld"] = f"{cell['withheld']}; {why}" if cell["withheld"] else why
        return
    cell["sum"] = _to_step(sum(values), _SUM_STEP)


def _refused(values: Sequence[int]) -> str | None:
    """Return why a sum of these is not told, or None."""
    there = [value for value in values if value > 0]
    if len(there) < LEAST:
        return FEW_HAVE_ANY
    return DOMINATED if 2 * max(there) > sum(there) else None
