"""Where the beds lie: put by dragging, by arrows or by numbers, and kept as a setting of the book."""

from __future__ import annotations

from math import sqrt
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.bed_places import AT, FOOT_M, unit_of
from dashboard.pages._bed_lies import lies_of
from dashboard.pages._page import Page
from dashboard.parts import answered, icon, nothing_yet, section
from dashboard.parts.alive import Box
from dashboard.parts.keeping import named
from ledger.kinds.bed_plan import Lie

__all__ = ["PAGE", "draw"]

_GAP_M, _SMALL_M2, _LONG = 1.5, 7.0, 6.0
"""Beds without a place are first drawn so far apart; ground where none is known; so many times as long as wide."""
_ARROWS = (("west", "-1 0"), ("north", "0 -1"), ("south", "0 1"), ("east", "1 0"))


def draw(ask: Ask) -> Any:
    """Return the ground with its beds, and each bed's boxes and arrows."""
    lies = _guessed(ask)
    if not lies:
        return nothing_yet(ask, "beds", "planted")
    words, unit = ask.words, unit_of(ask.data)
    scale = FOOT_M if unit == "ft" else 1.0
    blocks = [
        html.Div(html.Span(named(one.bed)), className="lie", **{"data-lie": str(n)})
        for n, one in enumerate(lies)
    ]
    ground = html.Div(
        blocks, id="beds-ground", className="ground",
        **{"aria-hidden": "true", "data-many": str(len(lies))},
    )  # fmt: skip
    rows = [html.Li(_boxes(ask, n, one, scale)) for n, one in enumerate(lies)]
    button = html.Button(
        words("beds.write"), id="beds-write", type="button", className="button wide", n_clicks=0
    )
    return [
        answered(words("beds.answer"), under=words(f"beds.under_{unit}")),
        dcc.Store(id="beds-names", data=[one.bed for one in lies]),
        html.Div(
            [
                section(words("beds.ground"), ground, note=words("beds.drag")),
                section(words("beds.each"), html.Ul(rows, className="rows")),
            ],
            className="two",
        ),
        html.Div(button, className="stick"),
    ]  # fmt: skip


def _boxes(ask: Ask, n: int, one: Lie, scale: float) -> Component:
    words = ask.words
    values = (one.x_m, one.y_m, one.length_m, one.width_m)
    texts = [words.typed(value / scale) for value in values] + [str(one.turned)]
    boxes = [
        Box(
            id={"at": at, "lie": n}, label=words(f"beds.{at}"), value=text, inputMode="decimal",
            autoComplete="off",
        )
        for at, text in zip(AT, texts, strict=True)
    ]  # fmt: skip
    arrows = [
        html.Button(
            icon("next"), type="button", className=f"round to-{side}", disable_n_clicks=True,
            **{"data-nudge": f"{n} {step}", "aria-label": words(f"beds.{side}", bed=one.bed)},
        )
        for side, step in _ARROWS
    ]  # fmt: skip
    return html.Div(
        [
            html.H3(named(one.bed)),
            html.Div(arrows, className="tools"),
            html.Div(boxes, className="lie-boxes"),
        ]
    )


def _guessed(ask: Ask) -> list[Lie]:
    """Return every bed that has ground, where it lies or else, below the others, where it could."""
    held, ground = lies_of(ask), _ground(ask)
    out = list(held.values())
    deep = [
        one.y_m + (max(one.width_m, one.length_m) if one.turned else one.width_m) for one in out
    ]
    y = max(deep, default=-_GAP_M)
    for name, area in ground.items():
        if name.lower() not in held:
            width = sqrt((area or _SMALL_M2) / _LONG)
            y += _GAP_M
            out.append(Lie(name, 0.0, y, _LONG * width, width))
            y += width
    return out


def _ground(ask: Ask) -> dict[str, float]:
    """Return the beds with their ground in m2, the largest first."""
    out: dict[str, float] = {}
    for season in ask.show("season").totals.get("seasons", ()):
        own: dict[str, float] = {}
        for row in ask.show("season", season=str(season)).records():
            if row["bed"]:
                own[row["bed"]] = own.get(row["bed"], 0.0) + (row["area_m2"] or 0.0)
        for bed, area in own.items():
            out[bed] = max(out.get(bed, 0.0), area)
    return dict(sorted(out.items(), key=lambda one: -one[1]))


PAGE = Page("beds", "/beds", draw, keeps_typing=True)
