"""Season: crops by week, beds to scale, where the harvest went, net and per hour, against another season."""

from __future__ import annotations

from typing import Any

from dash import html

from dashboard.ask import Ask
from dashboard.pages import _season_weeks as weeks
from dashboard.pages import _season_yield as yields
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    choice,
    choices,
    notes_of,
    nothing_yet,
    section,
    sentences,
    stat,
)
from ledger.projections import Answer

__all__ = ["PAGE", "draw"]

_COLUMNS = (
    "crop", "variety", "bed", "in_words.picked", "in_words.yield", "in_words.last_season",
    "in_words.published", "in_words.to_come", "in_words.target",
)  # fmt: skip


def draw(ask: Ask) -> Any:
    """Return what the chosen season brought, by week, by bed, by crop, and against another."""
    newest = ask.show("season")
    seasons = [str(season) for season in reversed(newest.totals["seasons"])]
    if not seasons:
        return nothing_yet(ask, "season", "harvested")
    words = ask.words
    running = str(newest.totals["season"])
    otherwise = running if running in seasons else seasons[0]
    season = ask.query.get("season", "")
    season = season if season in seasons else otherwise
    answer = ask.show("season", season=season)
    by_crop = ask.show("season", season=season, by="crop")
    return [
        choices(choice("season", words("season.season"), season, [(s, s) for s in seasons])),
        _stats(ask, answer),
        *weeks.draw(ask, season, by_crop),
        yields.beds(ask, answer, season),
        yields.where(ask, by_crop, season),
        yields.net(ask, by_crop, season),
        _against(ask, season, seasons),
        section(
            words("season.records"),
            answer_table(
                ask, answer, columns=_there(answer), options={"season": season},
                caption=words("season.records"),
            ),
        ),
        notes_of(ask, answer),
    ]  # fmt: skip


def _there(answer: Answer) -> list[str]:
    """Return the columns that say something of this season."""
    return [name for name in _COLUMNS if name == "crop" or answer.frame[name].notna().any()]


def _stats(ask: Ask, answer: Answer) -> Any:
    words, totals = ask.words, answer.totals
    span = words("season.span", first=words.day(totals["from"]), last=words.day(totals["to"]))
    return html.Div(
        [
            stat(words("season.picked"), words.grams(totals["picked_g"]), span),
            stat(words("season.worth"), words.money(totals["shop_value"])),
            stat(words("season.inputs"), words.money(totals["inputs"])),
            stat(words("season.net"), words.money(totals["net"]), words("season.net_says")),
            stat(words("season.hours"), words.number(totals["hours"]), words("season.hours_say")),
        ],
        className="stats",
    )


def _against(ask: Ask, season: str, seasons: list[str]) -> Any:
    """Return what changed since another season, split into price, amount and mix."""
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
    return section(
        words("season.against"),
        choices(choice("against", words("season.other"), other, [(s, s) for s in others])),
        sentences(ask, answer.totals["in_words"]),
        html.Details([html.Summary(words("season.changes")), table]),
    )


PAGE = Page("season", "/season", draw, has_pictures=True)
