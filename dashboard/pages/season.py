"""Season: what was picked, when each crop came, one crop as on its packet, and where it grew."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.pages import _season_weeks as weeks
from dashboard.pages import _season_yield as yields
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    notes_of,
    nothing_yet,
    sentence,
    sentences,
)
from dashboard.parts.folds import folds
from dashboard.parts.keeping import named, spoken
from dashboard.parts.strips import strip
from ledger.projections import Answer

__all__ = ["PAGE", "draw", "says"]

_COLUMNS = (
    "crop", "variety", "bed", "in_words.picked", "in_words.yield", "in_words.last_season",
    "in_words.published", "in_words.to_come", "in_words.target",
)  # fmt: skip
_NAMED = 3
"""Crops named as having given less."""
_MORE, _LESS = 1.05, 0.95

Row = Mapping[str, Any]


def draw(ask: Ask) -> Any:
    """Return what the chosen season brought, by week, by crop, by bed, and against another."""
    season, seasons = _chosen(ask)
    if not seasons:
        return nothing_yet(ask, "season", "harvested")
    words = ask.words
    answer = ask.show("season", season=season)
    by_crop = ask.show("season", season=season, by="crop")
    calendar, packet, counted = weeks.draw(ask, season, by_crop, answer)
    return [
        strip(ask, "season", words("season.season"), season, [(s, s) for s in seasons], leave=("crop", "against")),
        answered(_sentence(ask, answer), under=_under(ask, by_crop)),
        html.Div(
            [
                html.Div([calendar]),
                html.Div([packet, counted, yields.beds(ask, answer, season)]),
            ],
            className="two wide",
        ),
        folds(
            words("season.more"),
            yields.where(ask, by_crop, season),
            yields.net(ask, by_crop, season),
            _against(ask, season, seasons),
            html.Details(
                [
                    html.Summary(words("season.records")),
                    answer_table(
                        ask, answer, columns=_there(answer), options={"season": season},
                        caption=words("season.records"),
                    ),
                ]
            ),
        ),
        notes_of(ask, answer),
    ]  # fmt: skip


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    season, seasons = _chosen(ask, asked=False)
    return _sentence(ask, ask.show("season", season=season)) if seasons else None


def _chosen(ask: Ask, *, asked: bool = True) -> tuple[str, list[str]]:
    """Return the season looked at, and all there are, the newest first.

    By itself it is the running one, where something came of it, else the newest that gave something.
    """
    newest = ask.show("season")
    seasons = [str(season) for season in reversed(newest.totals["seasons"])]
    if not seasons:
        return "", []
    running = str(newest.totals["season"])
    season = ask.query.get("season", "") if asked else ""
    if season in seasons:
        return season, seasons
    return (running if running in seasons else seasons[0]), seasons


def _there(answer: Answer) -> list[str]:
    """Return the columns that say something of this season."""
    return [name for name in _COLUMNS if name == "crop" or answer.frame[name].notna().any()]


def _sentence(ask: Ask, answer: Answer) -> list[Any]:
    """Return what was picked, against last year, and what was counted."""
    words, totals = ask.words, answer.totals
    picked, more = totals["weighed_g"], totals["weighed_more_g"]
    counted = ", ".join(
        words("season.counted", n=_pieces(words, n), crop=spoken(crop))
        for crop, n, _ in totals["counted"]
    )
    if not picked:
        return [
            words("season.only_counted", counted=counted) if counted else words("season.nothing")
        ]
    said = {"picked": html.Span(_round(ask, picked), className="own"), "counted": counted}
    key = "season.answer" + ("_counted" if counted else "")
    if more is None:
        return sentence(ask, f"{key}_first", said)
    side = "more" if more >= 0 else "less"
    return sentence(ask, f"{key}_{side}", {**said, "more": _round(ask, abs(more), is_bare=True)})


def _pieces(words: Any, text: str) -> str:
    """Return pieces with the language's marks between thousands."""
    return str(words.number(float(text), 9)) if str(text).isdigit() else str(words.said(text))


def _round(ask: Ask, grams: float, *, is_bare: bool = False) -> str:
    """Return a weight in whole pounds or kilograms, with its unit unless it stands beside another."""
    value, unit = weeks.scaled(ask, grams)
    text = str(ask.words.number(value, 2) if value < 10 else ask.words.whole(value))
    return text if is_bare else f"{text} {unit}"


def _under(ask: Ask, by_crop: Answer) -> Any:
    """Return which crop gave most beyond last year, and which gave less."""
    words = ask.words
    rows = [r for r in by_crop.records() if r["picked_g"] and weeks.last_of(r)]
    up = [r for r in rows if r["picked_g"] > _MORE * weeks.last_of(r)]
    down = [r for r in rows if r["picked_g"] < _LESS * weeks.last_of(r)]
    out = []
    if up:
        best = max(up, key=lambda r: r["picked_g"] / weeks.last_of(r))
        out.append(
            words(
                "season.came_back", crop=named(spoken(best["crop"])), now=_round(ask, best["picked_g"]),
                then=_round(ask, weeks.last_of(best), is_bare=True),
            )
        )  # fmt: skip
    if down:
        down.sort(key=lambda r: r["picked_g"] - weeks.last_of(r))
        names = [spoken(str(r["crop"])) for r in down[:_NAMED]]
        out.append(words("season.gave_less", crops=", ".join(names)))
    return " ".join(out) or None


def _against(ask: Ask, season: str, seasons: list[str]) -> Any:
    """Return what changed since another season, split into dearer, more and other things."""
    words = ask.words
    others = [one for one in seasons if one != season]
    if not others:
        return None
    wanted = ask.query.get("against", "")
    before = [one for one in others if one < season]
    other = wanted if wanted in others else (before or others)[0]
    answer = ask.show("season", season=season, against=other)
    table = answer_table(
        ask, answer, options={"season": season, "against": other}, caption=words("season.against")
    )
    return html.Details(
        [
            html.Summary(words("season.against")),
            strip(ask, "against", words("season.other"), other, [(s, s) for s in others]),
            sentences(ask, answer.totals["in_words"]),
            table,
        ],
        open=bool(wanted),
    )


PAGE = Page("season", "/season", draw)
