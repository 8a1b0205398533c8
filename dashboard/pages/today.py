"""Today: danger or the year, the things of the day, what happened, what to use up, what was written lately."""

from __future__ import annotations

import datetime as dt
from itertools import islice
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.drawings.marks import as_source
from dashboard.drawings.year_strip import year_strip
from dashboard.elements import dcc, html
from dashboard.forms.happened import happened
from dashboard.forms.specs import COMMON
from dashboard.pages._day import things
from dashboard.pages._page import Page
from dashboard.pages.begin import begin, first_answer, is_new, sample_offer
from dashboard.pages.write_down import kind_tiles
from dashboard.parts import figure, icon, section
from dashboard.parts.aloud import aloud
from dashboard.parts.danger import bears_mark, danger_card, mark_of
from dashboard.parts.keeping import named, put_up, soonest, spoken, time_left, track
from dashboard.parts.kinds import icon_of
from dashboard.parts.kitchen import measured
from ledger.history import HistoryRow

__all__ = ["PAGE", "draw"]

_LAST, _USE, _FULL = 4, 5, 42
"""Entries shown, things to use up, and the days at which a bar is full."""
_SOON, _LONG_PAST = 5, -60
_IN_DANGER = 2
"""So few of each while a danger stands above them."""
_STRIPS = (("phone", 358, 66), ("desk", 960, 92))


def draw(ask: Ask) -> Any:
    """Return what a household wants to know today, and the box that takes what happened."""
    if is_new(ask):
        return begin(ask)
    words = ask.words
    said = section(
        words("happened.label"), happened(ask, lines=1, labelled=False), kind_tiles(ask, COMMON)
    )
    danger = danger_card(ask, ask.show("shelf").records())
    todo = things(ask) if danger is None else things(ask, _IN_DANGER)
    first = first_answer(ask)
    parts = [_things(ask, todo, is_more=danger is not None), html.Div(said, className="noprint")]
    return [
        *([danger] if danger is not None else [first] if first is not None else _year(ask)),
        html.Div(
            [
                *(parts if danger is None else parts[::-1]),
                _use_up(ask, _USE if danger is None else _IN_DANGER + 1),
                _lately(ask, _LAST if danger is None else _IN_DANGER + 1),
            ],
            className="two today",
        ),
        sample_offer(ask) if first is not None else None,
    ]


def _things(ask: Ask, todo: list[Component], *, is_more: bool) -> Component:
    words = ask.words
    key = f"today.{'more' if is_more else 'things'}_{len(todo)}"
    if not todo:
        return section(words("today.things_0"), html.P(words("today.nothing"), className="under"))
    return section(words(key), html.Ul(todo, className="rows"))


def _year(ask: Ask) -> list[Component]:
    """Return the strip of the season that runs; nothing where nothing was picked."""
    words, season = ask.words, ask.show("season")
    frame, totals = ask.show("season", weeks=True).frame, season.totals
    if frame.empty or not totals.get("picked_g"):
        return []
    first = dt.date.fromisoformat(totals["from"])
    days = (dt.date.fromisoformat(totals["to"]) - first).days + 1
    weekly = frame[["week_on", "picked_g", "last_season_g"]].fillna(0).groupby("week_on").sum()
    weeks = [
        ((dt.date.fromisoformat(day) - first).days / days, row["picked_g"], row["last_season_g"])
        for day, row in weekly.iterrows()
    ]
    before = season.frame["last_season_to_date_g"].astype(float).sum()
    picked = words.grams(totals["picked_g"])
    says = [words("today.picked", amount=picked)]
    if before:
        more = totals["picked_g"] - before
        key = "today.more_than" if more >= 0 else "today.less_than"
        says.append(words(key, amount=words.grams(abs(more))))
    months = [(first.month - 1 + n) % 12 + 1 for n in range(12)]
    letters = [words.month(n)[:1].upper() for n in months]
    out = []
    for only, width, height in _STRIPS:
        svg = year_strip(
            weeks, says, letters, ask.scheme, at=(ask.day - first).days / days,
            today=words("today.this_day"), month=months.index(ask.day.month) + 1, width=width,
            height=height,
        )  # fmt: skip
        out.append(html.Img(src=as_source(svg), alt="; ".join(says), className=only))
    return [html.Figure(out, className="drawn")]


def _use_up(ask: Ask, most: int) -> Component:
    words = ask.words
    rows = [row for row in ask.show("shelf").records() if not bears_mark(row)]
    near = [row for row in soonest(rows) if row["days_left"] >= _LONG_PAST][:most]
    if not near:
        return section(
            words("today.use_up"), html.P(words("today.nothing_soon"), className="under")
        )
    lines = []
    for row in near:
        name = html.Span(
            [
                dcc.Link(html.B(named(spoken(row["item"]))), href="/shelf"),
                " ",
                html.Span(measured(words, row["left"]) + put_up(ask, row), className="quiet"),
                mark_of(ask, row),
            ],
            className="name",
        )
        days = html.Span(figure(time_left(ask, row), row["why"], "days_left"), className="left")
        kind = "days soon" if row["days_left"] < _SOON else "days"
        lines.append(html.Li([name, track(row["days_left"], _FULL), days], className=kind))
    return section(
        words("today.use_up"), html.Ul(lines, className="rows"), note=words("today.keeps")
    )


def _lately(ask: Ask, most: int) -> Component:
    rows = (r for r in ask.data.history() if r.state == "holds" and r.kind != "item_described")
    lines = [html.Li(_entry(ask, row)) for row in islice(rows, most)]
    return section(
        ask.words("today.last"), html.Ul(lines, className="rows lately"),
        note=ask.words("today.put_right"),
    )  # fmt: skip


def _entry(ask: Ask, row: HistoryRow) -> Component:
    """Return an entry in a line; a tap puts it right."""
    words = ask.words
    ago = (ask.data.today() - dt.date.fromisoformat(row.on)).days
    when = words("today.this_day") if ago == 0 else words("today.yesterday") if ago == 1 else ""
    said = aloud(ask, row)
    inside = [
        icon(icon_of(row.kind), small=True),
        html.Span(said, className="t"),
        html.Span(when or words.day(row.on, short=True), className="w"),
    ]
    href = f"/write?kind={row.kind}&replaces={row.id}"
    if row.kind == "struck":
        href = f"/history?find={row.id.split('-')[0]}"
    if row.kind == "setting_changed":
        href = "/settings"
    return dcc.Link(inside, href=href, className="tap", title=said)


PAGE = Page("today", "/", draw)
