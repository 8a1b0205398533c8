"""A season beside earlier ones: which plots are the same thing, and what they brought by when."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.questions.garden.plots import Plot
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.questions.garden.field import Field

__all__ = ["Earlier", "Past", "counterparts"]

_LEVELS: tuple[Callable[[Plot], Any], ...] = (
    lambda p: (p.crop, p.variety, p.bed),
    lambda p: (p.crop, p.variety),
    lambda p: p.crop,
)


def counterparts(now: list[Plot], then: list[Plot]) -> dict[int, list[Plot]]:
    """Return, by place in `now`, the earlier plots that a plot is to be compared with.

    The same crop, variety and bed; else, beds being changed from year to year, the same crop and
    variety, else the same crop, where only one plot of this season is left to take them. So no
    earlier plot is counted twice.
    """
    out: dict[int, list[Plot]] = {}
    rest = list(then)
    for level in _LEVELS:
        waiting: dict[Any, list[int]] = {}
        for at, plot in enumerate(now):
            if at not in out:
                waiting.setdefault(level(plot), []).append(at)
        left = []
        for plot in rest:
            places = waiting.get(level(plot), [])
            if len(places) == 1:
                out.setdefault(places[0], []).append(plot)
            else:
                left.append(plot)
        rest = left
    return out


@dataclass(frozen=True)
class Earlier:
    """One earlier season of a plot: its plots and what they brought."""

    season: int
    plots: list[Plot]
    rows: Array


class Past:
    """Earlier seasons of the plots of one season.

    Parameters
    ----------
    field : Field
    season : int
    """

    def __init__(self, field: Field, season: int) -> None:
        self.field, self.season = field, season
        self.now = field.of(season)
        calendar, state = field.calendar, field.state
        self.first = calendar.first_day(season)
        self.first_before = calendar.first_day(season - 1)
        self.day = state.as_of_day - self.first
        self.is_over = state.as_of_day > calendar.last_day(season)
        counted = np.flatnonzero(state.moment.rank >= 0)
        happened = counted[~np.isin(_kinds(state)[counted], _timeless())]
        self.book_begins = int(state.moment.on[happened].min()) if happened.size else None
        self._found: dict[int, dict[int, list[Plot]]] = {}

    def earlier(self, season: int, at: int) -> Earlier | None:
        """Return what a plot is compared with in an earlier season; None where nothing was there."""
        if season not in self._found:
            self._found[season] = counterparts(self.now, self.field.of(season))
        plots = self._found[season].get(at)
        if not plots:
            return None
        rows = np.sort(np.concatenate([p.rows for p in plots]))
        return Earlier(season, plots, rows)

    def last(self, at: int) -> Earlier | None:
        """Return the season before of the plot at a place of `now`."""
        return self.earlier(self.season - 1, at)

    def seasons(self, at: int) -> list[Earlier]:
        """Return the earlier seasons of a plot whose rest, from this day of the season on, is known.

        Seasons in which the book began only later than that are left out.
        """
        out = []
        for season in self.field.seasons():
            if season >= self.season:
                break
            known_from = self.field.calendar.first_day(season) + max(self.day, -1) + 1
            if self.book_begins is not None and self.book_begins > known_from:
                continue
            found = self.earlier(season, at)
            if found is not None:
                out.append(found)
        return out

    def days(self, season: int, rows: Array) -> Array:
        """Return days since the season began, of pickings."""
        return np.asarray(self.field.picked["day"][rows] - self.field.calendar.first_day(season))


def _kinds(state: Any) -> Array:
    return np.asarray(state.journal.tables["events"]["kind"][: state.moment.rank.size])


def _timeless() -> list[int]:
    """Return the kinds whose day says nothing of when the book begins."""
    from ledger.kinds import KINDS

    return [i for i, kind in enumerate(KINDS) if kind in ("item_described", "setting_changed")]
