"""A season's crops by the week: each figure for every crop and week, and the tree for one."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, known_where
from ledger.questions.season.earlier import Rests
from ledger.questions.season.figures import weights

if TYPE_CHECKING:
    from ledger.questions.garden.past import Earlier
    from ledger.questions.season.records import Recorder

__all__ = ["WEEKS", "Weekly"]

WEEKS = 53
"""Weeks that a season touches: 52 and the day or two left over."""


class Weekly:
    """The plots asked for, crop by crop and week by week: row ``crop x WEEKS + week``.

    Attributes
    ----------
    crops : list of int
        The items, in the order of the records.
    now, last : Figure
        What each week brought, now and last season, also where a week is still to come.
    of : dict of str to Figure
        By the name of the column.
    """

    def __init__(self, recorder: Recorder) -> None:
        self.recorder, self.grown, self.past = recorder, recorder.grown, recorder.past
        crop = self.grown.crop[recorder.rows] if recorder.rows else np.zeros(0, np.int64)
        self.crops = list(dict.fromkeys(crop.tolist()))
        place = {one: at for at, one in enumerate(self.crops)}
        self._place = np.full(self.grown.count, -1, np.int64)
        self._place[recorder.rows] = [place[one] for one in crop.tolist()]
        self._each = weights(self.grown)
        self.now = self._weeks(self.grown.of, recorder.season)
        self.last = self._weeks(recorder.known.before.all.by, recorder.season - 1)
        self.of = {**self._picked(), **self._earlier(), **self._published()}

    @property
    def count(self) -> int:
        """How many rows there are."""
        return len(self.crops) * WEEKS

    def _row(self, place: Array, days: Array) -> Array:
        week = days // 7
        return np.where((place >= 0) & (week >= 0) & (week < WEEKS), place * WEEKS + week, -1)

    def _weeks(self, of: Array, season: int) -> Figure:
        """Return what pickings of plots brought in each week of a season."""
        place = np.where(of >= 0, self._place[of], -1) if self.grown.count else of
        by = self._row(place, self.past.days(season, np.arange(of.size)))
        return Groups(by, self.count).sum(self._each, "g")

    @cached_property
    def _begun(self) -> Array:
        return np.tile(np.arange(WEEKS) * 7 <= self.past.day, len(self.crops))

    @cached_property
    def _so_far(self) -> tuple[Array, Groups]:
        """Weeks up to each week: their rows, and the row that they are summed in."""
        week = np.arange(WEEKS)
        upto, each = np.nonzero(week[:, None] >= week[None, :])
        first = np.arange(len(self.crops))[:, None] * WEEKS
        return (first + each).ravel(), Groups((first + upto).ravel(), self.count)

    def _picked(self) -> dict[str, Figure]:
        rows, upto = self._so_far
        has = np.zeros(len(self.crops), bool)
        of = self._place[self.recorder.rows] if self.recorder.rows else np.zeros(0, np.int64)
        has[of[self.recorder.known.before.has[self.recorder.rows]]] = True
        known = np.repeat(has, WEEKS)
        now, last = (upto.sum(one.at(rows), "g") for one in (self.now, self.last))
        return {
            "picked_g": known_where(self._begun, self.now.called("week"), "week-to-come", "g"),
            "picked_so_far_g": known_where(self._begun, now.called("so-far"), "week-to-come", "g"),
            "last_season_g": known_where(known, self.last.called("week"), "nothing-last-season"),
            "last_season_so_far_g": known_where(
                known, last.called("so-far"), "nothing-last-season"
            ),
        }

    def _earlier(self) -> dict[str, Figure]:
        """Return the least and most of each week in earlier seasons, scaled to this one's size."""
        pairs: list[tuple[int, Earlier]] = [
            (row, one)
            for season in self.grown.field.seasons()
            if season < self.recorder.season
            for row in self.recorder.rows
            if (one := self.past.earlier(season, row - self.recorder.every.start)) is not None
        ]
        rests = Rests(self.grown, pairs, lambda _, days: days >= 0)
        keys, group = np.unique(self._place[rests.plot] << 32 | rests.season, return_inverse=True)
        row = rests.pickings.by
        days = self.grown.picked["day"][rests.pick] - self._first(rests.season[row])
        by = self._row(group[row], days)
        scale = rests.scale(self.recorder.known.sizes)
        weeks = Groups(by, keys.size * WEEKS).sum(
            (scale.at(row) * self._each.at(rests.pick)).called("scaled"), "g"
        )
        season = np.repeat(keys & 0xFFFFFFFF, WEEKS)
        week = np.tile(np.arange(WEEKS), keys.size)
        begins = -(1 << 40) if self.past.book_begins is None else self.past.book_begins
        known = (self._first(season) + 7 * week >= begins) & ~np.isnan(weeks.values)
        groups = Groups(
            np.where(known, np.repeat(keys >> 32, WEEKS) * WEEKS + week, -1), self.count
        )
        weeks = weeks.called("season", season=lambda at: int(season[at]))
        has = np.bincount(groups.by[known], minlength=self.count) > 0
        return {
            f"earlier_{end}_g": known_where(has, groups.among(how, weeks, "g"), "no-earlier", "g")
            .called(f"earlier_{end}_g")
            for end, how in (("low", "lowest"), ("high", "highest"))
        }  # fmt: skip

    def _first(self, season: Array) -> Array:
        """Return the first day of each season."""
        first = self.grown.field.calendar.first_day
        return np.array([first(one) for one in season.tolist()], np.int64)

    def _published(self) -> dict[str, Figure]:
        crops, each = (
            Groups(self._place, len(self.crops)),
            np.repeat(np.arange(len(self.crops)), WEEKS),
        )
        return {
            name: crops.sum(self.recorder.known.of[name], "g").called(name).at(each)
            for name in ("published_low_g", "published_high_g")
        }
