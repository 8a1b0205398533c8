"""What the household wants of a crop in a season: a target's amount, and how often."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, assumed, choose, said
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.targets import target_of

if TYPE_CHECKING:
    from ledger.questions.garden.field import Field

__all__ = ["Target", "Targets", "Wanted"]


@dataclass(frozen=True)
class Target:
    """A target that holds in a season: its event, strand and amount, and how often it is wanted.

    `strand` is None where nothing of the book comes to it; `times` where nobody said for how many
    people; `grams` where either lacks, or no weight is known.
    """

    ev: int
    strand: int | None
    whole: int
    per: str | None
    times: float | None
    grams: float | None


@dataclass(frozen=True)
class Wanted:
    """Targets of rows of crops and seasons.

    Attributes
    ----------
    known : ndarray of bool, shape (rows,)
        Which have a target that can be weighed.
    amount, grams, times : Figure
        Its amount in whole units, grams in one of them, how often it is wanted in the season.
    """

    known: Array
    amount: Figure
    grams: Figure
    times: Figure


class Targets:
    """The targets of one field, by crop and season."""

    def __init__(self, field: Field) -> None:
        self.field, self.state = field, field.state

    @cached_property
    def _set(self) -> dict[int, list[tuple[int, dict[str, Any]]]]:
        out: dict[int, list[tuple[int, dict[str, Any]]]] = {}
        for ev, body in self.state.bodies("target_set"):
            crop = self.state.facts.find(body.get("item"))
            if crop is not None and body.get("whole") is not None:
                out.setdefault(crop, []).append((ev, body))
        return out

    def of(self, crop: int, season: int) -> Target | None:
        """Return the target that holds in a season: the newest set by its last day."""
        calendar = self.field.calendar
        last = calendar.last_day(season)
        newest = None
        for ev, body in self._set.get(crop, []):
            by = body.get("by")
            in_season = by is None or calendar.of(np.array([_day(by)]))[0] == season
            if self.state.moment.on[ev] <= last and (in_season or body.get("per")):
                newest = (ev, body)
        if newest is None:
            return None
        ev, body = newest
        times = self._times(body.get("per"), season)
        strand, whole = target_of(self.state, crop, ev, body)
        per = None if strand is None else self.state.facts.grams_per_whole(strand)
        grams = None if per is None or times is None else whole * times * per
        return Target(ev, strand, whole, body.get("per"), times, grams)

    def _days(self, season: int) -> int:
        calendar = self.field.calendar
        return int(calendar.last_day(season) - calendar.first_day(season) + 1)

    def _times(self, per: str | None, season: int) -> float | None:
        if per == "week":
            return self._days(season) / 7
        if per == "person year":
            people = self.state.settings.on("people", self.field.calendar.last_day(season))
            return None if people is None else float(people)
        return 1.0

    def wanted(self, crop: Array, season: Array) -> Wanted:
        """Return the targets of rows.

        Parameters
        ----------
        crop, season : ndarray of int, shape (rows,)
        """
        sources = self.state.once(Sources)
        found = [self.of(c, s) for c, s in zip(crop.tolist(), season.tolist(), strict=True)]
        known = np.array([one is not None and one.grams is not None for one in found], bool)
        ev = np.array([-1 if one is None else one.ev for one in found], np.int64)
        strand = np.array(
            [c if one is None or one.strand is None else one.strand
             for c, one in zip(crop.tolist(), found, strict=True)], np.int64,
        )  # fmt: skip
        whole = np.array([np.nan if one is None else one.whole for one in found], np.float64)
        per = np.array(["" if one is None else one.per or "" for one in found], object)
        return Wanted(
            known,
            said(whole, sources.whole_of(strand), ev),
            sources.weight(strand),
            self._how_often(per, season, ev),
        )

    def _how_often(self, per: Array, season: Array, ev: Array) -> Figure:
        last = np.array([self.field.calendar.last_day(s) for s in season.tolist()], np.int64)
        people = self.state.once(Sources).setting("people", last, _number, "")
        days = np.array([self._days(s) for s in season.tolist()], np.float64)
        weeks = assumed(days, "days", "season-starts").called("days-of-season") / unit_factor(
            7.0, "days", "days-of-week"
        )
        once = said(np.ones(per.size), "", ev)
        return choose(
            per == "week",
            weeks.called("weeks-of-season", unit=""),
            choose(per == "person year", people.called("people"), once.called("once")),
        )


def _number(text: str | None) -> float | None:
    return None if text is None else float(text)


def _day(text: object) -> int:
    return (dt.date.fromisoformat(str(text)) - dt.date(1970, 1, 1)).days
