"""Futures of use: the household's own weeks drawn again in blocks, the same for every item.

Use comes in runs (a week of soup, a month of jam), so blocks of neighbouring weeks are drawn,
not single ones (the moving-block bootstrap: Kunsch, Annals of Statistics 17, 1989, from memory;
wrapped round the ends: Politis and Romano, 1992, from memory). With seasons, the block for a
week to come is drawn from about the same time of the year.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

__all__ = ["BLOCK", "JITTER", "Array", "Futures", "blocks", "draws", "futures"]

Array = NDArray[np.float64]

#: Weeks in a block: about a month, so that a run of use stays together. Our choice.
BLOCK = 4
#: With seasons, a block may start this many weeks before or after the same time of the year.
JITTER = 2


@lru_cache(16)
def futures(paths: int, weeks: int, seed: int, season: int | None) -> Futures:
    """Return the futures that every item meets."""
    return Futures(draws(paths, weeks, seed), season)


def draws(paths: int, weeks: int, seed: int) -> Array:
    """Return one number per block and path; looking further ahead only adds rows."""
    return np.random.default_rng(seed).random((-(-weeks // BLOCK), paths))


class Futures:
    """The week of the past at which each block of each path starts, from one set of draws.

    Worked out only as far ahead as somebody looks; what several items share is kept.
    """

    def __init__(self, draws: Array, season: int | None) -> None:
        self.draws, self.season = draws, season
        self.blocks, self.paths = draws.shape
        self._before: dict[int, NDArray[np.int64]] = {}

    def starts(
        self, weeks: int, first: int = 0, count: int | None = None, paths: Any = None
    ) -> NDArray[np.int64]:
        """Return the starts in a history of so many weeks, shape (blocks, paths)."""
        rows = slice(first, None if count is None else first + count)
        columns = slice(None) if paths is None else paths
        if self.season is None or weeks <= self.season:
            return np.asarray((self.draws[rows][:, columns] * weeks).astype(np.int64))
        start = weeks - self._weeks_before(weeks, self.season)[rows][:, columns]
        return np.where(start < 0, start + self.season, start)

    def _weeks_before(self, weeks: int, season: int) -> NDArray[np.int64]:
        """Return how many weeks before the present each block starts.

        The block for k weeks ahead starts whole cycles before that, give or take the jitter.
        """
        cycles = weeks // season
        if cycles not in self._before:
            spread = 2 * JITTER + 1
            pick = (self.draws * (cycles * spread)).astype(np.int64)
            ahead = (np.arange(self.blocks) * BLOCK) % season
            before = season * (1 + pick // spread) - pick % spread + JITTER - ahead[:, None]
            # one that would run over the end is taken a cycle earlier, to stay in its season
            self._before[cycles] = np.where(before < BLOCK, before + season, before)
        return self._before[cycles]


def blocks(use: Array) -> Array:
    """Return the block that starts at each week, wrapped round the end: (weeks, BLOCK)."""
    at = (np.arange(len(use))[:, None] + np.arange(BLOCK)) % len(use)
    return np.asarray(use[at], dtype=np.float64)
