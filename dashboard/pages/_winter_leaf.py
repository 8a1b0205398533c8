"""One page to print for the cellar door: jars, what to eat first, how far it reaches, what to do, strokes."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.drawings.spans import Span, spans
from dashboard.elements import html
from dashboard.parts import icon, jar_row, section
from dashboard.parts.boards import Board, boards_of, marks_of
from dashboard.parts.danger import said_of
from dashboard.parts.drawings import drawing
from dashboard.parts.keeping import named, put_up, soonest, spoken
from dashboard.parts.saying import say
from dashboard.parts.sections import cautions
from ledger.published import GRAVE, MARKED

__all__ = ["leaf"]

_BOARDS, _EAT, _DO, _REACH, _SACKS = 9, 6, 6, 12, 3
"""Lines of each part: one page holds so many."""
_DAYS = 304
"""Days that are drawn: to the next harvest of what comes last."""
_SOON, _FAR = 42, 75
"""Days within which something is gone; what comes again sooner is bought."""
_STROKES = 3


def leaf(ask: Ask, asked: Component) -> list[Any]:
    """Return the choice of a question beside the way to print, and the sheet itself."""
    words = ask.words
    rows = ask.show("shelf").records()
    items = ask.show("shelf", items=True).records()
    grave = [row for row in rows if row["standing"] in GRAVE]
    boards = [board for board in boards_of(rows) if not board.is_grave]
    button = html.Button(
        [icon("print", small=True), words("winter.print")],
        type="button",
        className="button quiet-button",
        disable_n_clicks=True,
        **{"data-print": "1"},
    )
    head = html.Div(
        [html.H2(words("winter.leaf")), html.Span(words.day(ask.day), className="quiet")],
        className="head",
    )
    sheet = html.Article(
        [
            head,
            *cautions(ask, *(_grave(ask, row) for row in grave)),
            html.P(_in_all(ask, boards, items, grave)),
            html.Div(
                [
                    html.Div([_jars(ask, boards), _eat_first(ask, rows), _without(ask)]),
                    html.Div([_reach(ask, rows, items), _to_do(ask), _strokes(ask)]),
                ],
                className="two",
            ),
        ],
        className="leaf-sheet",
    )
    return [html.Div([asked, button], className="choices beside"), sheet]


def _grave(ask: Ask, row: Mapping[str, Any]) -> str:
    left = ask.words.said(row["left"]["text"])
    return f"{named(row['item'])}, {left}: {said_of(ask, row['standing_text'])}"


def _in_all(
    ask: Ask, boards: list[Board], items: list[dict[str, Any]], grave: list[dict[str, Any]]
) -> str:
    """Return jars and sacks in a sentence."""
    words = ask.words
    jars = sum(board.count for board in boards)
    sacks = [one for one in items if one["left"]["measure"] == "mass" and not one["jars_left"]]
    sacks.sort(key=lambda one: -(one["left"]["whole"] or 0))
    several = [f"{words.said(one['left']['text'])} {spoken(one['item'])}" for one in sacks[:_SACKS]]
    marked = sum(board.to_look_up for board in boards)
    ends = "winter.leaf_marked" if marked else "winter.leaf_unmarked"
    says = words.listed([words("winter.leaf_jars", n=words.number(jars, 6)), *several])
    return f"{says}." if grave else f"{says}. {words(ends, n=marked)}"


def _jars(ask: Ask, boards: list[Board]) -> Component | None:
    if not boards:
        return None
    several = sorted(boards, key=lambda board: -board.count)[:_BOARDS]
    lines = [
        html.Div(
            [
                html.B(named(spoken(board.item))),
                jar_row(marks_of(board, ask.day), ""),
                html.Span(ask.words.number(board.count, 6), className="count"),
            ],
            className="jar-line",
        )
        for board in several
    ]
    return section(ask.words("winter.leaf_in_jars"), *lines)


def _boxes(lines: list[tuple[Any, str]]) -> Component:
    """Return lines to tick by hand, each with its day at the right."""
    return html.Ul(
        [
            html.Li(
                [
                    html.I(className="square", **{"aria-hidden": "true"}),
                    html.Span(what),
                    html.Span(when, className="quiet"),
                ]
            )
            for what, when in lines
        ],
        className="boxes",
    )


def _eat_first(ask: Ask, rows: list[dict[str, Any]]) -> Component | None:
    words = ask.words
    near = [
        row
        for row in soonest([one for one in rows if one["standing"] not in MARKED])
        if row["days_left"] >= 0
    ][:_EAT]
    if not near:
        return None
    lines = [
        (
            f"{named(spoken(row['item']))}, {words.said(row['left']['text'])}{put_up(ask, row)}",
            words.day(row["use_by"], short=True),
        )
        for row in near
    ]
    return section(words("winter.leaf_eat"), _boxes(lines))


def _without(ask: Ask) -> Component | None:
    """Return how long the house lasts without shop or power, in the ledger's words."""
    out: list[Any] = []
    for what in ("shop", "power"):
        answer = ask.show("how-long", without=what)
        out += [html.P(say(ask, text)) for text in answer.totals.get("in_words", ())]
        thrown = [one.text for one in answer.footnotes if one.id == "thawed"]
        out += [html.P(html.B(say(ask, text))) for text in thrown]
    doctor = [one.text for one in ask.show("who-eats").footnotes if one.id == "doctor"]
    out += [html.P(say(ask, text), className="quiet small") for text in doctor]
    return section(ask.words("winter.leaf_without"), *out) if out else None


def _reach(ask: Ask, rows: list[dict[str, Any]], items: list[dict[str, Any]]) -> Component | None:
    """Return how far each store of the season reaches, with a ring where more of it comes."""
    words, day = ask.words, ask.day
    far = (day + dt.timedelta(days=_FAR)).isoformat()
    own = {one["item"] for one in items if one["jars_left"] or (one["next_supply_on"] or "") > far}
    food = own & {row["item"] for row in rows if row["use_by"] or row["jar"]}
    several = [
        one
        for one in items
        if one["item"] in food and one["runs_out_on"]["likely"] and one["standing"] not in GRAVE
    ]
    several.sort(key=lambda one: one["runs_out_on"]["likely"])
    if not several:
        return None

    def at(text: str) -> float:
        return (dt.date.fromisoformat(text) - day).days / _DAYS

    lines = []
    for one in several[:_REACH]:
        end, more = one["runs_out_on"]["likely"], one["next_supply_on"]
        looks = at(end) * _DAYS < _SOON and (more is None or more > end)
        ring = at(more) if more and at(end) < at(more) <= 1 else None
        kind = "back" if looks else "f-leaf2"
        lines.append(Span(named(spoken(one["item"])), "", [(0.0, at(end), kind)], ring, looks))
    first = [(day.month - 1 + n) % 12 + 1 for n in range(1, 11)]
    starts = [dt.date(day.year + (day.month - 1 + n) // 12, m, 1) for n, m in enumerate(first, 1)]
    months = [
        ((start - day).days / _DAYS, (words.month(start.month)[:1],))
        for start in starts
        if (start - day).days < _DAYS
    ]
    said = words(
        "winter.leaf_reach_says",
        what=named(spoken(several[0]["item"])),
        day=words.day(several[0]["runs_out_on"]["likely"], short=True),
    )

    def make(width: float) -> str:
        return spans(lines, months, said, width=width, scheme=ask.scheme, tall=22)

    return section(
        words("winter.leaf_reach"),
        drawing(ask, "winter-leaf", make, said, desk=460),
        note=words("winter.leaf_ring"),
    )


def _to_do(ask: Ask) -> Component | None:
    words = ask.words
    lines: list[tuple[Any, str]] = []
    stock = ask.show("stocking-up")
    wanted = sum(1 for row in stock.records() if row["packs_wanted"])
    if wanted:
        lines.append(
            (words("winter.leaf_shop", n=wanted), words.round_money(stock.totals.get("cost")))
        )
    for row in ask.show("month-by-month").rows():
        if row["kind"] != "eat first" and len(lines) < _DO:
            said = words.said(row["what"])
            lines.append((said[:1].upper() + said[1:], words.day(row["day"], short=True)))
    return section(words("winter.leaf_do"), _boxes(lines)) if lines else None


def _strokes(ask: Ask) -> Component:
    """Return lines to write what was opened on, while no phone is at hand."""
    return section(
        ask.words("winter.leaf_open"),
        html.P(ask.words("winter.leaf_open_says"), className="small"),
        *(html.Div(className="stroke") for _ in range(_STROKES)),
    )
