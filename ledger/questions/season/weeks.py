"""The season week by week: one record a crop and week, beside the same week of last season."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.messages import measured, sentence
from ledger.projections.base import Answer, Column
from ledger.questions.answering import answer
from ledger.questions.garden.plots import slug
from ledger.questions.season.records import cell
from ledger.questions.season.weekly import WEEKS, Weekly
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.questions.season.records import Recorder

__all__ = ["COLUMNS", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("season", "Season", "", "The season, by the year in which it begins."),
    Column("crop", "Crop", "", "What was grown; varieties and beds together.", main=True),
    Column("week", "Week", "", "Week of the season: 1 begins on its first day.", main=True),
    Column("week_on", "Week from", "day", "First day of that week.", main=True),
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

_IN_WORDS = {
    "picked": "picked_g",
    "last_season": "last_season_g",
    "so_far": "picked_so_far_g",
    "last_season_so_far": "last_season_so_far_g",
}


def build(recorder: Recorder, *, bed: str | None = None) -> Answer:
    """Return one record a crop and week of the season."""
    state, season = recorder.state, recorder.season
    weekly = Weekly(recorder)
    records = [
        _record(recorder, weekly, place, week, bed)
        for place in range(len(weekly.crops))
        for week in _shown(weekly, place)
    ]
    totals = {"season": season, "picked_g": sum(r["picked_g"] or 0.0 for r in records)}
    amount = measured(f"{recorder.say(totals['picked_g'])}")
    said = sentence("season-picked-in-all", n=season, amount=amount)
    if not records:
        said = sentence("season-none-picked", n=season)
    return answer(state, "season", COLUMNS, records, totals={**totals, "in_words": [said]})


def _record(
    recorder: Recorder, weekly: Weekly, place: int, week: int, bed: str | None
) -> dict[str, Any]:
    crop = weekly.crops[place]
    name, first = recorder.names[crop], recorder.grown.field.calendar.first_day(recorder.season)
    row = place * WEEKS + week
    out = {
        "why": week_address(recorder.season, week, name, bed),
        "season": recorder.season,
        "crop": name,
        "week": week + 1,
        "week_on": day_text(first + 7 * week),
        **{name: cell(figure, row) for name, figure in weekly.of.items()},
        "assumptions": [],
    }
    for word, column in _IN_WORDS.items():
        out[f"in_words.{word}"] = recorder.say(out[column], crop)
    return out


def _shown(weekly: Weekly, place: int) -> range:
    """Return the weeks from the first to the last with a picking, now or last season."""
    rows = slice(place * WEEKS, (place + 1) * WEEKS)
    some = (np.nan_to_num(weekly.now.values[rows]) > 0) | (
        np.nan_to_num(weekly.last.values[rows]) > 0
    )
    weeks = np.flatnonzero(some)
    return range(int(weeks[0]), int(weeks[-1]) + 1) if weeks.size else range(0)


def week_address(season: int, week: int, crop: str, bed: str | None) -> str:
    """Return the address of a week's record: ``season/2026/week-34/tomato``."""
    words = [str(season), f"week-{week + 1}", slug(crop), *([slug(bed)] if bed else [])]
    return f"season/{'/'.join(words)}"
