"""Why a week's figure says so."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.projections._arithmetic import among, product, total
from ledger.projections._common import event_node
from ledger.projections._season_field import field_of
from ledger.projections._season_record import Recorder, slug
from ledger.projections._season_weeks import CropWeeks
from ledger.projections.base import Node
from ledger.reference.planting import published_range
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]


def figures(state: State, season: int, rest: str) -> dict[str, Callable[[], Node]] | None:
    """Return the figures of ``week-34/tomato`` or ``week-34/tomato/south-bed``; None without it."""
    week, crop, *bed = rest.split("/")
    recorder = Recorder(field_of(state), season)
    places = [
        at
        for at, plot in enumerate(recorder.plots)
        if slug(recorder.names[plot.crop]) == crop and (not bed or slug(plot.bed or "-") == bed[0])
    ]
    number = int(week.partition("-")[2]) - 1
    if not places or not 0 <= number < 53:
        return None
    return _WeekWhy(CropWeeks(recorder, places), number).figures()


class _WeekWhy:
    def __init__(self, weeks: CropWeeks, week: int) -> None:
        self.weeks, self.week, self.recorder = weeks, week, weeks.recorder
        self.season = self.recorder.season

    def figures(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        rows, last, week = self.weeks.rows, self.weeks.last_rows, self.week
        season = self.season
        return {
            "picked_g": lambda: self._picked(season, rows, week),
            "picked_so_far_g": lambda: self._picked(season, rows, 0),
            "last_season_g": lambda: self._picked(season - 1, last, week),
            "last_season_so_far_g": lambda: self._picked(season - 1, last, 0),
            "earlier_low_g": lambda: self._earlier("lowest"),
            "earlier_high_g": lambda: self._earlier("highest"),
            "published_low_g": lambda: self._published("low"),
            "published_high_g": lambda: self._published("high"),
        }

    def _picked(self, season: int, rows: Array | None, first: int) -> Node:
        if season == self.season and not self.weeks.begun(self.week):
            return Node("that week is still to come", None, "g")
        if rows is None:
            return Node("nothing of it was written down last season", None, "g")
        recorder, picked = self.recorder, self.recorder.field.picked
        week = recorder.past.days(season, rows) // 7
        at = rows[(week >= first) & (week <= self.week)]
        grams = recorder.past.grams(at)
        if np.isnan(grams).any():
            return Node("no weight of it is known", None, "g")
        parts = [
            event_node(recorder.state, int(picked["ev"][row]), "", float(each), "g")
            for row, each in zip(at.tolist(), grams.tolist(), strict=True)
        ]
        until = f"week {self.week + 1}" if first == self.week else f"weeks 1 to {self.week + 1}"
        return total(f"picked in {until} of season {season}", "g", *parts)

    def _earlier(self, how: str) -> Node:
        seasons = [season for season, _ in self.weeks.of_earlier(self.week)]
        parts = []
        for season in seasons:
            found = [
                e
                for at in self.weeks.places
                if (e := self.recorder.past.earlier(season, at)) is not None
            ]
            each = [
                product(
                    f"season {season}", "g",
                    Node("this season's size over that one's", e.scale, ""),
                    self._picked(season, e.rows, self.week),
                )
                for e in found
            ]  # fmt: skip
            parts.append(total(f"season {season}", "g", *each))
        if not parts:
            return Node("no earlier season is known of that week", None, "g")
        return among(how, f"week {self.week + 1} of earlier seasons", "g", *parts)

    def _published(self, end: str) -> Node:
        parts = []
        for at in self.weeks.places:
            plot = self.recorder.plots[at]
            name = self.recorder.names[plot.crop]
            found = published_range(name, row_m=plot.row_m, area_m2=plot.area_m2)
            if found is None:
                return Node("no published yield fits what is known of a planting", None, "g")
            value = found.low_g if end == "low" else found.high_g
            sources = "; ".join(map(str, found.sources))
            parts.append(Node(f"{plot.bed or name}: {sources} ({found.note})", value, "g"))
        return total(f"published for the whole season, {end}", "g", *parts)
