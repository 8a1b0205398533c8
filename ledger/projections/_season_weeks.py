"""The season week by week: one record a crop and week, beside the same week of last season."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.methods.progress import by_week_of_season
from ledger.projections._common import answer
from ledger.projections.base import Answer, Column
from ledger.reference.planting import published_range
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.projections._season_record import Recorder

__all__ = ["COLUMNS", "WEEKS", "CropWeeks", "build", "crop_weeks"]

WEEKS = 53
"""Weeks that a season touches: 52 and the day or two left over."""

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("season", "Season", "", "The season, by the year in which it begins."),
    Column("crop", "Crop", "", "What was grown; varieties and beds together.", main=True),
    Column("week", "Week", "", "Week of the season: 1 begins on its first day.", main=True),
    Column("week_on", "From", "day", "First day of that week.", main=True),
    Column("in_words.picked", "Picked", "", "What was picked that week, in words.", main=True),
    Column("in_words.last_season", "Last season", "", "The same week of last season.", main=True),
    Column("in_words.so_far", "So far", "", "Picked since the season began.", main=True),
    Column("in_words.last_season_so_far", "Then so far", "", "Last season by the end of the same week.", main=True),
    Column("picked_g", "Picked", "g", "Weight picked that week; null for a week still to come, and where no weight is known."),
    Column("last_season_g", "Last season", "g", "The same week of last season; null where nothing was written down then."),
    Column("picked_so_far_g", "So far", "g", "Picked from the season's first day to the end of that week; null for a week to come."),
    Column("last_season_so_far_g", "Then so far", "g", "The same of last season."),
    Column("earlier_low_g", "Earlier, least", "g", "Least that this week brought in an earlier season, for as many plants (else ground, else row)."),
    Column("earlier_high_g", "Earlier, most", "g", "Most of it."),
    Column("published_low_g", "Published, low", "g", "Lowest published yield of the whole season for that much row or ground: compare it with what was picked so far; null where none fits. No yield by the week is published in the tables."),
    Column("published_high_g", "Published, high", "g", "Highest of it."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


class CropWeeks:
    """A crop's season in weeks; grams, shape (WEEKS,), NaN where no weight is known.

    Attributes
    ----------
    now : ndarray
    last : ndarray or None
        None where nothing was written down last season.
    earlier : list of (season, ndarray)
        Every earlier season, scaled to this one's size; NaN for weeks before the book began.
    last_day_known : int
        Days since the season began, of the answer's day.
    """

    def __init__(self, recorder: Recorder, places: list[int]) -> None:
        self.recorder, self.places = recorder, places
        past = recorder.past
        rows = [recorder.plots[at].rows for at in places]
        self.rows = np.sort(np.concatenate(rows))
        self.now = self._weeks(recorder.season, self.rows)
        self.last_rows: Array | None = None
        found = [e for at in places if (e := past.last(at)) is not None]
        if found:
            self.last_rows = np.sort(np.concatenate([e.rows for e in found]))
        self.last = (
            None if self.last_rows is None else self._weeks(recorder.season - 1, self.last_rows)
        )
        self.earlier = [
            (season, weeks)
            for season in recorder.field.seasons()
            if season < recorder.season and (weeks := self._earlier(season)) is not None
        ]

    def _weeks(self, season: int, rows: Array) -> Array:
        past = self.recorder.past
        return by_week_of_season(past.days(season, rows), past.grams(rows), WEEKS)

    def _earlier(self, season: int) -> Array | None:
        past = self.recorder.past
        found = [e for at in self.places if (e := past.earlier(season, at)) is not None]
        if not found:
            return None
        out = sum((self._weeks(season, e.rows) * e.scale for e in found), np.zeros(WEEKS))
        first = self.recorder.field.calendar.first_day(season)
        begins = first if past.book_begins is None else past.book_begins
        out[first + 7 * np.arange(WEEKS) < begins] = np.nan
        return np.asarray(out)

    def shown(self) -> range:
        """Return the weeks from the first to the last with a picking, now or last season."""
        some = np.nan_to_num(self.now) > 0
        if self.last is not None:
            some |= np.nan_to_num(self.last) > 0
        weeks = np.flatnonzero(some)
        return range(int(weeks[0]), int(weeks[-1]) + 1) if weeks.size else range(0)

    def begun(self, week: int) -> bool:
        """Return whether a week (from 0) has begun by the answer's day."""
        return week * 7 <= self.recorder.past.day

    def of_earlier(self, week: int) -> list[tuple[int, float]]:
        """Return (season, grams) of a week in every earlier season that is known of it."""
        return [(s, float(w[week])) for s, w in self.earlier if not np.isnan(w[week])]


def crop_weeks(recorder: Recorder) -> dict[int, CropWeeks]:
    """Return the weeks of every crop asked for."""
    places: dict[int, list[int]] = {}
    for at in recorder.places:
        places.setdefault(recorder.plots[at].crop, []).append(at)
    return {crop: CropWeeks(recorder, several) for crop, several in places.items()}


def build(recorder: Recorder, *, bed: str | None = None) -> Answer:
    """Return one record a crop and week of the season."""
    state, season = recorder.state, recorder.season
    first = recorder.field.calendar.first_day(season)
    records: list[dict[str, Any]] = []
    for crop, weeks in crop_weeks(recorder).items():
        name = recorder.names[crop]
        published = _published(recorder, name, weeks.places)
        for week in weeks.shown():
            records.append(
                {
                    "why": week_address(season, week, name, bed),
                    "season": season,
                    "crop": name,
                    "week": week + 1,
                    "week_on": day_text(first + 7 * week),
                    **_figures(weeks, week),
                    **published,
                    "assumptions": [],
                }
            )
    for r in records:
        for word, column in (
            ("picked", "picked_g"), ("last_season", "last_season_g"),
            ("so_far", "picked_so_far_g"), ("last_season_so_far", "last_season_so_far_g"),
        ):  # fmt: skip
            r[f"in_words.{word}"] = recorder.say(r[column], recorder.state.facts.find(r["crop"]))
    totals = {"season": season, "picked_g": sum(r["picked_g"] or 0.0 for r in records)}
    said = f"Season {season}: {recorder.say(totals['picked_g'])} picked."
    if not records:
        said = f"Nothing was picked in season {season}, nor in the one before."
    return answer(state, "season", COLUMNS, records, totals={**totals, "in_words": [said]})


def _figures(weeks: CropWeeks, week: int) -> dict[str, float | None]:
    begun, last = weeks.begun(week), weeks.last
    earlier = [grams for _, grams in weeks.of_earlier(week)]
    return {
        "picked_g": _known(weeks.now[week]) if begun else None,
        "last_season_g": None if last is None else _known(last[week]),
        "picked_so_far_g": _known(weeks.now[: week + 1].sum()) if begun else None,
        "last_season_so_far_g": None if last is None else _known(last[: week + 1].sum()),
        "earlier_low_g": min(earlier, default=None),
        "earlier_high_g": max(earlier, default=None),
    }


def _published(recorder: Recorder, name: str, places: list[int]) -> dict[str, float | None]:
    """Return the published range of a crop's plots together; None where one of them has none."""
    plots = [recorder.plots[at] for at in places]
    found = [published_range(name, row_m=p.row_m, area_m2=p.area_m2) for p in plots]
    known = [f for f in found if f is not None]
    is_whole = len(known) == len(found)
    return {
        "published_low_g": sum(f.low_g for f in known) if is_whole else None,
        "published_high_g": sum(f.high_g for f in known) if is_whole else None,
    }


def week_address(season: int, week: int, crop: str, bed: str | None) -> str:
    """Return the address of a week's record: ``season/2026/week-34/tomato``."""
    from ledger.projections._season_record import slug

    words = [str(season), f"week-{week + 1}", slug(crop), *([slug(bed)] if bed else [])]
    return f"season/{'/'.join(words)}"


def _known(value: float) -> float | None:
    return None if np.isnan(value) else float(value)
