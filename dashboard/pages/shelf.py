"""Shelf: jars as jars on their boards, what else is there and how long it keeps, danger before all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages._page import Page
from dashboard.parts import (
    answer_table,
    answered,
    figure,
    icon,
    jar_row,
    notes_of,
    nothing_yet,
    plain_table,
    section,
)
from dashboard.parts.boards import Board, boards_of, marks_of
from dashboard.parts.danger import bears_mark, danger_card, dayless, mark_of, marked, said_of
from dashboard.parts.folds import all_link
from dashboard.parts.keeping import named, put_up, spoken, thing, time_left, track
from ledger.projections import Answer
from ledger.published import MARKED
from ledger.questions.quantities import is_dust
from ledger.questions.shared.wanting import FRESH, UNKNOWN

__all__ = ["PAGE", "draw"]

_LOTS = ("item", "left.text", "on", "kept", "jars_left", "use_by", "days_left", "cost_left")
_ITEMS = (
    "item",
    "left.text",
    "used_text",
    "weeks_text",
    "next_supply_on",
    "reaches_next_supply",
    "held_text",
    "past_best_text",
)
_PLACES = (("fridge", "fridge"), ("freezer", "freezer"), ("cellar", "cellar"), ("shelf", "shelf"))
"""Where things are kept, each with its icon; anything else stands together."""
_FRESH = {FRESH: "shelf.keeps_not_set", UNKNOWN: "shelf.keeps_not_known"}
_MOST = 24
"""Lines of a place that are drawn at once, what is to be used first; the rest when asked for."""
_FULL = 120
"""Days at which a bar is full."""
_SURE, _NEAR_DAYS = 0.5, 45
"""Chance of lasting until more comes from which it is said to; days within which something is gone."""


def draw(ask: Ask) -> Any:
    """Return the jars on their boards, everything else by its place, and what folds."""
    lots = ask.show("shelf")
    if lots.is_empty:
        return nothing_yet(ask, "shelf", "harvested")
    words, items, rows = ask.words, ask.show("shelf", items=True), lots.records()
    boards = boards_of(rows)
    return [
        danger_card(ask, rows, drawn=True),
        _answer(ask, boards, rows),
        html.Div(
            [_in_jars(ask, boards, lots, items), *_everything_else(ask, rows, items)],
            className="two shelf",
        ),
        html.Details(
            [
                html.Summary(words("shelf.lots")),
                answer_table(ask, lots, columns=_LOTS, cells={"item": lambda row: marked(ask, row)}),
                html.H3(words("shelf.items")),
                html.P(words("shelf.items_says"), className="under"),
                answer_table(
                    ask, items, columns=_ITEMS, cells={"item": lambda row: marked(ask, row)},
                    options={"items": True},
                ),
                notes_of(ask, lots, items),
            ],
            open=ask.wants_all("shelf") or ask.wants_all("shelf-items"),
        ),
    ]  # fmt: skip


def _answer(ask: Ask, boards: list[Board], rows: list[dict[str, Any]]) -> Component:
    words = ask.words
    look = sum(board.to_look_up for board in boards if not board.is_grave)
    grave = sum(board.not_to_eat for board in boards)
    good = sum(board.count for board in boards) - look - grave
    if grave:
        says = [
            words("shelf.jars_one" if good == 1 else "shelf.jars_many", n=good), " ",
            f"{words('shelf.look_up', n=look)} " if look else "",
            html.Span(words("shelf.not_one" if grave == 1 else "shelf.not_many", n=grave), className="look"),
        ]  # fmt: skip
        return answered(*says)
    good += look
    full = "shelf.full_none" if not good else "shelf.full_one" if good == 1 else "shelf.full_many"
    says = [words(full, n=words.number(good, 6))]
    wanted = [row for row in rows if row["eat_first"] and not is_dust(row) and not bears_mark(row)]
    wanted = [
        row for row in wanted if _fresh(row) or not (_is_late(row) or row["days_left"] is None)
    ]
    first = list(dict.fromkeys(spoken(row["item"]) for row in wanted))[:2]
    if first:
        key = "shelf.first_two" if len(first) == 2 else "shelf.first_one"
        says.append(" " + words(key, first=named(first[0]), second=first[-1]))
    return answered(*says)


def _in_jars(ask: Ask, boards: list[Board], lots: Answer, items: Answer) -> Component | None:
    """Return the boards of jars; those in danger stand in the card above, where nothing opens one."""
    words, boards = ask.words, [board for board in boards if not board.is_grave]
    if not boards:
        return None
    ahead = {one["item"]: one for one in items.records()}
    ages = [
        html.Span([html.I(className=f"jar pt {age}"), words(f"shelf.{age}")])
        for age in ("a1", "a2", "a3", "a4", "a5")
    ]
    return section(
        words("shelf.in_jars"),
        html.Ul([_board(ask, board, ahead.get(board.item)) for board in boards], className="rows"),
        html.Div(ages, className="key", **{"aria-hidden": "true"}),
        _empties(ask, lots),
        note=words("shelf.taps"),
    )


def _board(ask: Ask, board: Board, ahead: Mapping[str, Any] | None) -> Component:
    """Return one item's jars."""
    words = ask.words
    count = words.jars(board.count, board.jar)
    marks = marks_of(board, ask.day)
    drawn = jar_row(marks, words("shelf.heard", count=count, item=board.item), on_board=True)
    is_tens = sum(many for many, _, _ in marks) < board.count
    head = html.Div(
        [
            html.B(named(spoken(board.item))),
            html.Span(count, className="count"),
        ],
        className="line1",
    )
    return html.Li(
        [
            head,
            html.Div([drawn, _ways(ask, board)], className="line2"),
            html.Div(words("shelf.tens"), className="small quiet") if is_tens else None,
            *_under(ask, board, ahead),
        ],
        className="item",
    )


def _ways(ask: Ask, board: Board) -> Component:
    words = ask.words
    if not ask.moment.is_now:
        return html.Span(className="act")
    return html.Span(
        [
            html.Button(
                icon(mark), id={key: board.key}, type="button", className="round", n_clicks=0,
                **{"aria-label": words(f"shelf.{key}", item=board.item)},
            )
            for key, mark in (("opens", "minus"), ("back", "plus"))
        ],
        className="act",
    )  # fmt: skip


def _under(ask: Ask, board: Board, ahead: Mapping[str, Any] | None) -> list[Any]:
    """Return what stands under a board: its oldest day, how long it lasts, and its marks in words."""
    words, oldest = ask.words, board.rows[0]
    several = len({row["on"] for row in board.rows}) > 1
    day = words.day(oldest["on"], short=True)
    line: list[Any] = [
        (words("shelf.oldest", day=day) if several else day) + put_up(ask, *board.rows)
    ]
    if ahead is not None and ahead["weeks_left"]["likely"] is not None:
        line += ["; ", figure(_lasts(ask, ahead), ahead["why"], "weeks_left.likely")]
    out: list[Any] = [html.Div(line, className="under")]
    open_ones = [row for row in board.rows if row["standing"] in MARKED]
    if open_ones:
        batch = open_ones[0]["standing_batch"]
        say = dayless if len(board.rows) == 1 else said_of  # the line above has the day
        text = say(ask, open_ones[0]["standing_text"])
        if len(open_ones) < len(board.rows):
            text = words("shelf.marked", says=text)
        out.append(
            html.Div(dcc.Link(text, href=f"/as-published?batch={batch}#batch"), className="under")
        )
    return out


def _lasts(ask: Ask, ahead: Mapping[str, Any]) -> str:
    words = ask.words
    reaches, day = ahead["reaches_next_supply"], ahead["runs_out_on"]["likely"]
    if reaches is not None and reaches >= _SURE:
        return words("shelf.past_next")
    key = "shelf.gone" if ahead["weeks_left"]["likely"] * 7 < _NEAR_DAYS else "shelf.last_to"
    return words(key, day=words.day(day, short=True))


def _everything_else(ask: Ask, rows: list[dict[str, Any]], items: Answer) -> list[Component]:
    """Return what is not in jars by its place, a line an item: folded on a phone, open on a desk."""
    words = ask.words
    whole = {one["item"]: one["left"]["text"] for one in items.records()}
    places: dict[str, list[dict[str, Any]]] = {}
    known = [name for name, _ in _PLACES]
    for row in rows:
        if not row["jar"]:
            place = row["kept"] if row["kept"] in known else "elsewhere"
            places.setdefault(place, []).append(row)
    for place, several in places.items():
        places[place] = _by_item(several, rows, whole)
    shown = [(name, mark) for name, mark in (*_PLACES, ("elsewhere", "more")) if name in places]
    if not shown:
        return []
    goods = {name: _goods(ask, name, places[name]) for name, _ in shown}  # drawn once for both
    folded = [
        html.Details([_summary(ask, name, mark, places[name]), *goods[name]], open=len(shown) == 1)
        for name, mark in shown
    ]
    wide = [
        part
        for name, mark in shown
        for part in (
            html.H3([icon(mark), words(f"shelf.place_{name}")], className="place"),
            *goods[name],
        )
    ]
    head = words("shelf.else")
    note = words("shelf.bar", n=_FULL)
    return [
        html.Div(section(head, *folded, note=note), className="phone places"),
        html.Div(section(head, *wide, note=note), className="desk"),
    ]


def _by_item(
    several: list[dict[str, Any]], rows: list[dict[str, Any]], whole: Mapping[str, str]
) -> list[dict[str, Any]]:
    """Return a record a thing: the one whose day comes first, with all that is left where it is all there.

    What is past its day stands by itself, and so does each of the others of that thing: the amount
    beside a mark is what is marked.
    """
    late = {thing(row) for row in several if _is_late(row)}
    apart = [row for row in several if thing(row) in late]
    several = [row for row in several if thing(row) not in late]
    return sorted([*apart, *_together(several, rows, whole)], key=_soon)


def _is_late(row: Mapping[str, Any]) -> bool:
    return (row["days_left"] or 0) < 0


def _soon(row: Mapping[str, Any]) -> int:
    """Return where a record stands among others: what is not to be eaten first of all."""
    return row["eat_first"] or 0


def _fresh(row: Mapping[str, Any]) -> str | None:
    """Return what is said of fresh food for which the household has no keeping time; None of other."""
    return next((_FRESH[one] for one in row["assumptions"] if one in _FRESH), None)


def _together(
    several: list[dict[str, Any]], rows: list[dict[str, Any]], whole: Mapping[str, str]
) -> list[dict[str, Any]]:
    """Return a record a thing, nothing of which is past its day: the one to be eaten first."""
    first: dict[tuple[str, str | None], dict[str, Any]] = {}
    for row in sorted(several, key=is_dust):
        first.setdefault(thing(row), row)
    here, all_over = Counter(map(thing, several)), Counter(one["item"] for one in rows)
    out = []
    for row in first.values():
        mine = here[thing(row)]
        text = whole.get(row["item"]) if mine == all_over[row["item"]] and mine > 1 else None
        out.append({**row, "left": {**row["left"], "text": text or row["left"]["text"]}})
    return out


def _summary(ask: Ask, name: str, mark: str, rows: list[dict[str, Any]]) -> Component:
    words, first = ask.words, next((row for row in rows if not is_dust(row)), rows[0])
    n, late = len({row["item"] for row in rows}), len({r["item"] for r in rows if _is_late(r)})
    said = words("shelf.thing" if n == 1 else "shelf.things", n=n)
    if late:
        said += f"; {words('shelf.late', n=late)}"
    elif _fresh(first):
        said += f"; {words('shelf.wants', item=spoken(first['item']))}"
    elif first["days_left"] is not None:
        said += f"; {spoken(first['item'])}, {time_left(ask, first)}{put_up(ask, first)}"
    return html.Summary(
        [icon(mark), html.B(words(f"shelf.place_{name}")), html.Span(said, className="quiet")]
    )


def _goods(ask: Ask, name: str, rows: list[dict[str, Any]]) -> list[Component | None]:
    table = f"shelf-{name}"
    drawn = rows if ask.wants_all(table) else rows[:_MOST]
    lines = html.Ul([_thing(ask, row) for row in drawn], className="goods")
    return [lines, all_link(ask, table, len(rows), len(drawn))]


def _thing(ask: Ask, row: dict[str, Any]) -> Component:
    words = ask.words
    name = html.Span(
        [
            html.B(named(spoken(row["item"]))),
            " ",
            html.Span(words.said(row["left"]["text"]) + put_up(ask, row), className="quiet"),
        ]
    )
    mark = mark_of(ask, row)  # as wide as the line: a column of it is too tight for a sentence
    if row["days_left"] is None:
        fresh = _fresh(row)
        bar = None if fresh else html.Span()
        left = html.Span(
            words(fresh or "shelf.no_day"), className="left wide" if fresh else "left quiet"
        )
    else:
        days = figure(time_left(ask, row), row["why"], "days_left")
        bar, left = track(row["days_left"], _FULL), html.Span(days, className="left")
    return html.Li([one for one in (name, bar, left, mark) if one is not None])


def _empties(ask: Ask, lots: Answer) -> Component | None:
    """Return how many of the household's jars stand empty, and every count of them, folded."""
    words, jars = ask.words, lots.totals.get("jars") or {}
    if not jars:
        return None
    counts = list(dict.fromkeys(name for row in jars.values() for name in row))
    heads = [
        words("shelf.jar"),
        *(words.word("answers", name.replace("_", " ")) for name in counts),
    ]
    rows = [
        [words.word("answers", jar), *(words.number(row.get(name), 6) for name in counts)]
        for jar, row in jars.items()
    ]
    empty = [words.jars(int(row["empty"]), jar) for jar, row in jars.items() if row.get("empty")]
    table = plain_table(
        heads, rows, numeric=[False, *(True for _ in counts)], caption=words("shelf.empties")
    )
    said = words("shelf.empty", jars=words.listed(empty)) if empty else words("shelf.empties")
    return html.Details([html.Summary(said), table], className="empties")


PAGE = Page("shelf", "/shelf", draw)
