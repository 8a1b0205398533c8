"""Seasons beside earlier ones: which pickings a plot is set against, and what was still to come then."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, choose

if TYPE_CHECKING:
    from ledger.questions.garden.grown import Grown
    from ledger.questions.garden.past import Earlier

__all__ = ["Before", "Rests"]


class Before:
    """Earlier seasons of the plots of a field.

    Parameters
    ----------
    grown : Grown
    """

    def __init__(self, grown: Grown) -> None:
        self.grown, self.count = grown, grown.count

    @cached_property
    def _of(self) -> tuple[Array, Array]:
        """The plot of next season that each picking is set against, and which plots have one."""
        of, has = np.full(self.grown.of.size, -1, np.int64), np.zeros(self.count, bool)
        for season, first in self.grown.begins.items():
            past = self.grown.past(season)
            for at in range(len(past.now)):
                last = past.last(at)
                if last is not None:
                    of[last.rows], has[first + at] = first + at, True
        return of, has

    @property
    def has(self) -> Array:
        """Which plots have something of the season before to go by, shape (plots,)."""
        return self._of[1]

    @property
    def all(self) -> Groups:
        """The pickings of the season before."""
        return Groups(self._of[0], self.count)

    @cached_property
    def by_now(self) -> Groups:
        """Those by this day of it."""
        of = self._of[0].copy()
        pasts = [self.grown.past(season) for season in self.grown.season.tolist()]
        day = np.array([past.first_before + past.day for past in pasts], np.int64)
        if day.size:
            of[self.grown.picked["day"] > day[of]] = -1
        return Groups(of, self.count)

    @cached_property
    def is_over(self) -> Array:
        """Which plots are of a season that is over."""
        return np.array([self.grown.past(s).is_over for s in self.grown.season.tolist()], bool)

    @cached_property
    def rests(self) -> Rests:
        """What earlier seasons brought after this day, for each plot of a season that still runs."""
        pairs: list[tuple[int, Earlier]] = []
        for season, first in self.grown.begins.items():
            past = self.grown.past(season)
            for at in range(0 if past.is_over else len(past.now)):
                pairs += [(first + at, one) for one in past.seasons(at)]
        return Rests(self.grown, pairs, lambda one, days: days > self.grown.past(one).day)


class Rests:
    """Parts of earlier seasons that plots are set against: a row a plot and season.

    Attributes
    ----------
    plots : Groups
        The rows of each plot.
    pick : ndarray of int, shape (rows' pickings,)
        The pickings of the rows, which `pickings` groups by row.
    season : ndarray of int, shape (rows,)
    """

    def __init__(
        self, grown: Grown, pairs: list[tuple[int, Earlier]], which: Callable[[int, Array], Array]
    ) -> None:
        self.grown = grown
        self.plot = np.array([at for at, _ in pairs], np.int64)
        self.season = np.array([one.season for _, one in pairs], np.int64)
        self.plots = Groups(self.plot, grown.count)
        row, pick = [], []
        for number, (at, one) in enumerate(pairs):
            past = grown.past(int(grown.season[at]))
            rows = one.rows[which(int(grown.season[at]), past.days(one.season, one.rows))]
            row.append(np.full(rows.size, number, np.int64))
            pick.append(rows)
        none = np.zeros(0, np.int64)
        self.pick = np.concatenate(pick) if pick else none
        self.pickings = Groups(np.concatenate(row) if row else none, len(pairs))
        place = {id(plot): at for at, plot in enumerate(grown.plots)}
        self.then = np.array(
            [place[id(one.plots[0])] if len(one.plots) == 1 else -1 for _, one in pairs], np.int64
        )

    @property
    def has(self) -> Array:
        """Which plots have an earlier season, shape (plots,)."""
        return np.bincount(self.plot, minlength=self.grown.count) > 0

    def year(self, row: int) -> int:
        """Return the season of a row."""
        return int(self.season[row])

    def scale(self, sizes: dict[str, Figure]) -> Figure:
        """Return each plot's size over the earlier one's, by what both say; 1 where nothing is known."""
        out = assumed(np.ones(self.plot.size), "", "as-large").called("as-large")
        for name in ("row_m", "area_m2", "plants"):
            mine, its = sizes[name].at(self.plot), sizes[name].at(self.then)
            both = (np.nan_to_num(mine.values) > 0) & (np.nan_to_num(its.values) > 0)
            out = choose(both, mine / its, out)
        return out.called("scale")
