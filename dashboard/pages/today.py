"""Today: buttons to write down, what to eat first, what runs out, what is asked, the last entries."""

from __future__ import annotations

from typing import Any

from dash import dcc, html

from dashboard.ask import Ask
from dashboard.forms.specs import COMMON
from dashboard.pages._page import Page
from dashboard.pages.write_down import kind_tiles
from dashboard.parts import figure, nothing_yet, say, section
from dashboard.parts.danger import danger_card, mark_of
from ledger.book import HistoryRow

__all__ = ["PAGE", "draw"]

_LAST, _FIRST, _SOON = 8, 8, 6
_SHORT_CHANCE = 0.5
"""Chance of lasting until more comes below which an item is said to run out."""

_WHEN = {-1: "today.day_before", 0: "today.this_day", 1: "today.next_day"}
"""What is said of days left, where it is not their number."""


def draw(ask: Ask) -> Any:
    """Return the buttons, and sections of what a household wants to know today."""
    tiles = kind_tiles(ask, COMMON, first=True)
    if ask.is_empty:
        return [_say(ask), tiles, nothing_yet(ask, "today", "harvested")]
    return [
        danger_card(ask, ask.show("shelf").records()),
        _say(ask),
        tiles,
        html.Div(
            [_eat_first(ask), _running_out(ask), _season(ask), _asked(ask)], className="columns"
        ),
        section(ask.words("today.last"), _last(ask)),
    ]


def _say(ask: Ask) -> Any:
    """Return the way to the box that takes what happened in the household's own words."""
    words = ask.words
    inside = [
        html.B(words("happened.label")),
        html.Span(words("happened.example"), className="quiet"),
    ]
    return dcc.Link(html.Span(inside), href="/write", className="say-box")


def _eat_first(ask: Ask) -> Any:
    words = ask.words
    first = [r for r in ask.show("shelf").records() if r["use_by"] is not None][:_FIRST]
    if not first:
        return section(words("today.eat_first"), html.P(words("today.nothing_soon")))
    lines = []
    for r in first:
        left = int(r["days_left"])
        says = words(_WHEN.get(left, "today.past" if left < 0 else "today.in_days"), n=abs(left))
        kept = words.word("answers", r["kept"]) if r["kept"] else ""
        days = figure(says, r["why"], "days_left")
        by = html.Span(words("today.use_by", day=words.day(r["use_by"])), className="quiet")
        lines.append(
            html.Li(
                [
                    html.B(r["item"]),
                    f", {words.said(r['left']['text'])}, {kept}: ",
                    days,
                    " ",
                    by,
                    mark_of(ask, r),
                ]
            )
        )
    more = dcc.Link(words("today.whole_shelf"), href="/shelf", className="button quiet-button")
    return section(words("today.eat_first"), html.Ul(lines), html.Div(more, className="tools"))


def _running_out(ask: Ask) -> Any:
    """Return what is not likely to last until more comes, soonest first."""
    words = ask.words
    records = [
        r
        for r in ask.show("shelf", items=True).records()
        if r["weeks_left"]["likely"] is not None
        and (r["reaches_next_supply"] is None or r["reaches_next_supply"] < _SHORT_CHANCE)
    ]
    records.sort(key=lambda r: r["weeks_left"]["likely"])
    if not records:
        return section(words("today.running_out"), html.P(words("today.nothing_out")))
    lines = []
    for r in records[:_SOON]:
        lasts = words.weeks(r["weeks_left"]["likely"])
        weeks = figure(lasts, r["why"], "weeks_left.likely")
        parts: list[Any] = [html.B(r["item"]), f": {words.said(r['left']['text'])}, ", weeks]
        if r["next_supply_on"]:
            parts.append(", " + words("today.more_on", day=words.day(r["next_supply_on"])))
        lines.append(html.Li(parts))
    return section(words("today.running_out"), html.Ul(lines))


def _season(ask: Ask) -> Any:
    """Return what was picked in the last week of the running season."""
    words = ask.words
    weeks = ask.show("season", weeks=True).frame
    if not weeks.empty:
        weeks = weeks[(weeks["week_on"] <= ask.day.isoformat()) & (weeks["picked_g"].fillna(0) > 0)]
    if weeks.empty:
        return section(words("today.season"), html.P(words("today.nothing_picked")))
    newest = weeks["week_on"].max()
    lines = []
    for row in weeks[weeks["week_on"] == newest].to_dict("records"):
        picked = figure(words.grams(row["picked_g"]), row["why"], "picked_g")
        before = words("today.last_season", amount=words.grams(row["last_season_g"]))
        lines.append(
            html.Li(
                [html.B(row["crop"]), ": ", picked, html.Span(f" ({before})", className="quiet")]
            )
        )
    return section(
        words("today.season"),
        html.P(words("today.week_of", day=words.day(newest)), className="quiet"),
        html.Ul(lines),
    )


def _asked(ask: Ask) -> Any:
    """Return what the household could write down to make the figures surer."""
    words = ask.words
    asked: list[Any] = []
    for one in ask.show("shelf").footnotes:
        asked.append(html.Li(say(ask, one.text)))
    batches = ask.show("as-published").frame
    if not batches.empty:
        open_ones = batches[batches["standing"] == "not recorded"]
        short = batches[batches["standing"] == "short of it"]
        for frame, key in ((short, "short"), (open_ones, "not_recorded")):
            if len(frame):
                standing = frame["standing"].iloc[0].replace(" ", "+")
                text = words(f"today.{key}", n=len(frame))
                asked.insert(0, html.Li(dcc.Link(text, href=f"/as-published?standing={standing}")))
    if not asked:
        return section(words("today.asked"), html.P(words("today.nothing_asked")))
    return section(words("today.asked"), html.Ul(asked[:8]))


def _last(ask: Ask) -> Any:
    rows = [r for r in ask.data.history() if r.state == "holds" and r.kind != "item_described"]
    return html.Ul(
        [
            html.Li(
                [
                    html.Span(ask.words.day(row.on, short=True), className="quiet"),
                    html.Span(ask.words.said(row.line), className="entry-line"),
                    _correct(ask, row),
                ],
                className="entry",
            )
            for row in rows[:_LAST]
        ],
        className="entries",
    )


def _correct(ask: Ask, row: HistoryRow) -> Any:
    if row.kind == "struck":
        return None
    href = f"/write?kind={row.kind}&replaces={row.id}"
    return dcc.Link(ask.words("today.correct"), href=href, className="button quiet-button")


PAGE = Page("today", "/", draw)
