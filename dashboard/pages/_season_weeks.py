"""The season week by week: when each crop came, and one crop against last season and what is published."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pandas as pd

from dashboard.ask import Ask
from dashboard.figures.season import by_week, overview, so_far
from dashboard.parts import answer_table, choice, choices, figure, picture, section
from ledger.projections import Answer

__all__ = ["draw", "heavy_first", "scaled"]

_CROPS = 24
"""Crops in one picture: those that weighed most."""
_GRAMS = {"kg": 1000.0, "lb": 453.59237}
_WEIGHTS = (
    "picked_g", "last_season_g", "earlier_low_g", "earlier_high_g", "picked_so_far_g",
    "last_season_so_far_g", "published_low_g", "published_high_g",
)  # fmt: skip


def scaled(ask: Ask, grams: Any) -> tuple[Any, str]:
    """Return weights in the unit of the household's pictures, and that unit."""
    unit = "kg" if ask.words.measures == "metric" else "lb"
    return grams.astype(float) / _GRAMS[unit], unit


def heavy_first(by_crop: Answer) -> list[str]:
    """Return the crops of a season, what weighed most first."""
    frame = by_crop.frame
    weight = frame["picked_g"].astype(float).fillna(0.0)
    return [str(crop) for crop in frame["crop"][weight.sort_values(ascending=False).index]]


def draw(ask: Ask, season: str, by_crop: Answer) -> list[Any]:
    """Return the overview of all crops, and one crop's weeks."""
    answer = ask.show("season", season=season, weeks=True)
    if answer.is_empty:
        return []
    there = set(answer.frame["crop"])
    crops = [crop for crop in heavy_first(by_crop) if crop in there]
    crops += sorted(there - set(crops))
    ticks = _ticks(ask, answer)
    labels = {
        "now": season,
        "last": str(int(season) - 1),
        "earlier": ask.words("season.earlier"),
        "published": ask.words("season.published"),
    }
    return [
        _all(ask, answer, crops, labels, ticks),
        _one(ask, season, crops, labels),
    ]


def _ticks(ask: Ask, answer: Answer) -> list[tuple[str, str]]:
    """Return the first days of the months that the weeks touch, not too many for a phone."""
    days = sorted(answer.frame["week_on"])
    first, last = (dt.date.fromisoformat(day) for day in (days[0], days[-1]))
    months = [(first.year, first.month)]
    while months[-1] < (last.year, last.month):
        year, month = months[-1]
        months.append((year + month // 12, month % 12 + 1))
    step = 1 if len(months) <= 4 else 2 if len(months) <= 7 else 3
    return [(f"{y:04d}-{m:02d}-01", ask.words.month(m)) for y, m in months[::step]]


def _all(
    ask: Ask, answer: Answer, crops: list[str], labels: dict[str, str], ticks: Any
) -> Any:  # fmt: skip
    words, frame = ask.words, answer.frame
    frame = frame[frame["crop"].isin(crops[:_CROPS])].copy()
    now = frame["picked_g"].astype(float)
    best = now.groupby(frame["crop"]).transform("max")
    data = pd.DataFrame(
        {
            "crop": frame["crop"], "day": frame["week_on"], "now": (now / best).where(now > 0),
            "text": [words.grams(value) for value in now],
            "is_last": frame["last_season_g"].astype(float) > 0,
        }
    )  # fmt: skip
    begun = frame[now.fillna(0) > 0].groupby("crop")["week_on"].min()
    order = sorted(set(data["crop"]), key=lambda crop: (begun.get(crop, "9999"), crop))
    place = {crop: i for i, crop in enumerate(order)}
    data = data.sort_values(["crop", "day"], key=lambda s: s.map(place) if s.name == "crop" else s)
    drawing = overview(data, ask.scheme, ticks=ticks)
    says = words("season.overview_says", now=labels["now"], last=labels["last"])
    if len(crops) > _CROPS:
        says += " " + words("season.heaviest", n=_CROPS, all=len(crops))
    table = answer_table(
        ask, answer, options={"season": labels["now"], "weeks": True},
        columns=("crop", "week_on", "in_words.picked", "in_words.last_season"),
        caption=words("season.overview"),
    )  # fmt: skip
    height = 110 + 28 * len(order)
    return section(
        words("season.overview"),
        picture(ask, "season-weeks", drawing, says, table, height=height),
    )


def _one(ask: Ask, season: str, crops: list[str], labels: dict[str, str]) -> Any:
    words = ask.words
    crop = ask.query.get("crop", "")
    crop = crop if crop in crops else crops[0]
    answer = ask.show("season", season=season, crop=crop, weeks=True)
    data = pd.DataFrame({"day": answer.frame["week_on"]})
    unit = ""
    for name in _WEIGHTS:
        data[name], unit = scaled(ask, answer.frame[name])
    ticks = _ticks(ask, answer)
    options = {"season": season, "crop": crop, "weeks": True}
    chosen = choice("crop", words("season.crop"), crop, [(one, one) for one in sorted(crops)])
    weekly = answer_table(
        ask, answer, options=options, caption=words("season.by_week"),
        columns=("week_on", "picked_g", "last_season_g", "earlier_low_g", "earlier_high_g"),
    )  # fmt: skip
    total = answer_table(
        ask, answer, options=options, caption=words("season.so_far"),
        columns=("week_on", "picked_so_far_g", "last_season_so_far_g", "published_low_g", "published_high_g"),
    )  # fmt: skip
    return section(
        words("season.by_week"),
        choices(chosen),
        picture(
            ask, "season-week", by_week(data, labels, ask.scheme, unit=unit, ticks=ticks),
            _best_week(ask, answer, crop), weekly,
        ),
        picture(
            ask, "season-so-far", so_far(data, labels, ask.scheme, unit=unit, ticks=ticks),
            _so_far(ask, answer, crop, season), total,
        ),
    )  # fmt: skip


def _best_week(ask: Ask, answer: Answer, crop: str) -> Any:
    words = ask.words
    known = [row for row in answer.records() if row["picked_g"]]
    if not known:
        return words("season.none_yet", crop=crop)
    best = max(known, key=lambda row: row["picked_g"])
    shown = figure(words.grams(best["picked_g"]), best["why"], "picked_g")
    day = words.day(best["week_on"])
    return [words("season.best_week", crop=crop, day=day), " ", shown, "."]


def _so_far(ask: Ask, answer: Answer, crop: str, season: str) -> Any:
    words = ask.words
    rows = answer.records()
    known = [row for row in rows if row["picked_so_far_g"] is not None]
    if not known:
        return words("season.none_yet", crop=crop)
    last = known[-1]

    def shown(name: str) -> Any:
        return figure(words.grams(last[name]), last["why"], name)

    out = [
        words("season.picked_by", crop=crop, season=season), " ", shown("picked_so_far_g"),
    ]  # fmt: skip
    if last["last_season_so_far_g"] is not None:
        out += [", ", words("season.then"), " ", shown("last_season_so_far_g")]
    if last["published_low_g"] is None:
        return [*out, ". ", words("season.no_published")]
    out += ["; ", words("season.published_for"), " ", shown("published_low_g")]
    if last["published_high_g"] != last["published_low_g"]:
        out += [" ", words("season.to"), " ", shown("published_high_g")]
    return [*out, "."]
