"""By how much ranges are widened, as too few of the last ones held; and how many of each item did."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.methods.scoring import held, normal_score, widening
from ledger.questions.ahead.came import WEEKS, Came
from ledger.questions.ahead.graded import run_outs
from ledger.questions.ahead.kept import Said
from ledger.questions.ahead.said import asked, earlier

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LAST", "Lately", "factor_of", "lately"]

LAST = 8
"""So many moments tell whether ranges hold, those whose twelve weeks were over last."""


@dataclass(frozen=True)
class Lately:
    """How the ranges of the last moments held, as they stood before any widening.

    Attributes
    ----------
    factor : float
        By which the variance behind ranges is widened now; 1: not at all.
    days : frozenset of int
        Those moments, days since 1970.
    held, of : int
        Ranges of use a week over twelve weeks that held, and how many there were.
    items : dict of int to (int, int)
        The same of each item, with those of when it runs out.
    """

    factor: float
    days: frozenset[int]
    held: int
    of: int
    items: dict[int, tuple[int, int]]


def lately(state: State) -> Lately:
    """Return how the last ranges held, worked out once for a state."""
    return state.once(_lately)


def _lately(state: State) -> Lately:
    over = [one for one in earlier(state) if one[0] + 7 * WEEKS <= state.as_of_day][-LAST:]
    if not over:
        return Lately(1.0, frozenset(), 0, 0, {})
    return _of(state, asked(state, over))


def factor_of(state: State, said: list[Said]) -> float:
    """Return the factor that held at a moment, by what was said before it and had come by then."""
    over = [one for one in said if one.day + 7 * WEEKS <= state.as_of_day][-LAST:]
    return _of(state, over).factor if over else 1.0


def _of(state: State, said: list[Said]) -> Lately:
    came, days = Came(state, said[0].day), frozenset(one.day for one in said)
    items: dict[int, list[int]] = {}
    ends: list[tuple[float, ...]] = []
    for moment in said:
        for one, item, value in came.uses(moment):
            low, likely, high = (np.nan if x is None else x for x in one.use)
            ends.append((low, likely, high, value))
            kept = items.setdefault(item, [0, 0])
            kept[0] += low <= value <= high
            kept[1] += 1
        for graded in run_outs(came, moment):
            if graded.held is not None:
                kept = items.setdefault(graded.item, [0, 0])
                kept[0] += graded.held
                kept[1] += 1
    if not ends:
        return Lately(1.0, days, 0, 0, {item: (a, b) for item, (a, b) in items.items()})
    low, likely, high, value = np.array(ends).T
    within = held(low, high, value)
    factor = widening(normal_score(low, likely, high, value), int(within.sum()))
    return Lately(
        factor,
        days,
        int(within.sum()),
        within.size,
        {item: (a, b) for item, (a, b) in items.items()},
    )
