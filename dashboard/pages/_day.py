"""The things of the day: what to eat, what to look at, what goes, each from an answer's records."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from itertools import islice
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.understanding import newest_bodies
from dashboard.parts import figure, icon
from dashboard.parts.boards import Board, boards_of
from dashboard.parts.danger import bears_mark
from dashboard.parts.keeping import named, put_up, soonest, spoken
from dashboard.parts.kitchen import measured
from ledger.published import GRAVE, OPEN

__all__ = ["things"]

_EAT_DAYS, _LONG_PAST = 7, 60
"""Days within which something is to be eaten; past so many it is to be looked for, not eaten first."""
_SHORT_CHANCE = 0.5
"""Chance of lasting until more comes below which an item is said to run out."""
_LOW_WEEKS = 6
"""Weeks within which jars are said to go."""
_MOST, _NAMED = 3, 3


def things(ask: Ask, most: int = _MOST) -> list[Component]:
    """Return at most three things, the most pressing first; what lies behind the others is not asked."""
    return list(islice(_all(ask), most))


def _all(ask: Ask) -> Iterator[Component]:
    rows = ask.show("shelf").records()
    items = ask.show("shelf", items=True).records()
    yield from _eat(ask, rows)
    yield from _low_jars(ask, rows, items)
    yield from _runs_out(ask)
    yield from _open_batches(ask, rows)
    yield from _long_past(ask, rows)


def _thing(mark: str, head: Any, under: Any, href: str = "", heard: str = "") -> Component:
    way = None
    if href:
        way = dcc.Link(
            [icon("next"), html.Span(heard, className="heard")], href=href, className="ibtn"
        )
    body = html.Div([html.B(head), html.Div(under, className="quiet")])
    return html.Li([icon(mark), body, way], className="todo")


def _eat(ask: Ask, rows: list[dict[str, Any]]) -> Iterator[Component]:
    words = ask.words
    near = [
        row
        for row in soonest([one for one in rows if not bears_mark(one)])
        if -_LONG_PAST <= row["days_left"] <= _EAT_DAYS
    ]
    if not near:
        return
    row = near[0]
    left = words("today.are_left", left=measured(words, row["left"])) + put_up(ask, row)
    if row["days_left"] < 0:
        head = words("today.look_at", item=row["item"])
        since = words("today.past_since", day=words.day(row["use_by"], short=True))
        under = [left, "; ", figure(since, row["why"], "days_left")]
    else:
        key = "today.eat_today" if row["days_left"] == 0 else "today.eat_by"
        head = words(key, item=row["item"], day=words.weekday(row["use_by"]))
        under = [left]
    yield _thing("ate", head, under)


def _low_jars(
    ask: Ask, rows: list[dict[str, Any]], items: list[dict[str, Any]]
) -> Iterator[Component]:
    words = ask.words
    boards: dict[str, list[Board]] = {}
    for board in boards_of(rows):
        boards.setdefault(board.item, []).append(board)
    low = [
        one
        for one in _running_out(items)
        if one["weeks_left"]["likely"] < _LOW_WEEKS
        and one["item"] in boards
        and not any(board.is_grave for board in boards[one["item"]])
    ]
    for one in low[:1]:
        board = boards[one["item"]][0]
        count = words.jars(sum(b.count for b in boards[one["item"]]), board.jar)
        day = words.day(one["runs_out_on"]["likely"], short=True)
        gone = figure(words("shelf.gone", day=day), one["why"], "weeks_left.likely")
        yield _thing("jar", words("today.down_to", item=named(one["item"]), count=count), [gone])


def _running_out(items: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return what is not likely to last until more comes, soonest first."""
    records = [
        one
        for one in items
        if one["weeks_left"]["likely"] is not None
        and (one["reaches_next_supply"] is None or one["reaches_next_supply"] < _SHORT_CHANCE)
    ]
    return sorted(records, key=lambda one: one["weeks_left"]["likely"])


def _runs_out(ask: Ask) -> Iterator[Component]:
    words, stock = ask.words, ask.show("stocking-up")
    wants = [row for row in stock.records() if row["packs_wanted"]]  # what Shopping lists
    if not wants:
        return
    own = _made_here(ask)
    low = [
        row
        for row in wants
        if row["weeks"] is not None and row["weeks"] < _LOW_WEEKS and row["item"] not in own
    ]
    out = sorted(low, key=lambda row: (row["weeks"], row["item"]))[:_NAMED]
    wanted = len(wants)
    to_buy = words("today.to_buy", n=wanted, money=words.money(stock.totals.get("cost")))
    link = {"href": "/shopping", "heard": words("nav.shopping")}
    if not out:
        yield _thing("list", words("today.shopping"), to_buy, **link)
        return
    names = words.listed(spoken(one["item"]) for one in out)
    gone = ask.day + dt.timedelta(days=round(out[-1]["weeks"] * 7))
    day = words.day(gone.isoformat(), short=True)
    figures = [figure(words("today.by_day", day=day), out[-1]["why"], "weeks"), "; ", to_buy]
    is_one = len(out) == 1 and spoken(out[0]["item"]) == out[0]["item"]
    key = "today.runs_out" if is_one else "today.run_out"
    yield _thing("list", words(key, items=named(names)), figures, **link)


def _made_here(ask: Ask) -> set[str]:
    """Return what the kitchen makes itself, as bread: it is baked anew, and does not run out."""
    catalogue = ask.data.book.catalogue()
    made = {str(one["makes"]) for one in catalogue.recipes.values() if one.get("makes")}
    made |= {str(body["makes"]) for kind, body in newest_bodies(ask.data) if kind == "put_up"}
    return {catalogue.name(item) for item in made if catalogue.is_item(item)}


def _open_batches(ask: Ask, rows: list[dict[str, Any]]) -> Iterator[Component]:
    """Say which batches are still to be looked up; of what stands in danger its card alone speaks."""
    words = ask.words
    in_danger = {row["standing_batch"] for row in rows if row["standing"] in GRAVE}
    for standing in OPEN:
        several = {
            row["standing_batch"]: spoken(row["item"])
            for row in rows
            if row["standing"] == standing and row["standing_batch"] not in in_danger
        }
        if several:
            n, key = len(several), standing.replace(" ", "_")
            names = list(dict.fromkeys(several.values()))
            if len(names) > _NAMED:
                more = len(names) - _NAMED
                names = [*names[:_NAMED], words("today.and_more", n=more)]
            is_one = "_one" if n == 1 else ""
            look = words(f"today.look{is_one}", items=named(", ".join(names)))
            href = f"/as-published?standing={standing.replace(' ', '+')}"
            head = words(f"today.{key}{is_one}", n=n)
            yield _thing("warn", head, look, href, words("nav.as_published"))


def _long_past(ask: Ask, rows: list[dict[str, Any]]) -> Iterator[Component]:
    past = [row for row in rows if row["standing"] not in GRAVE]
    n = len({row["item"] for row in past if (row["days_left"] or 0) < -_LONG_PAST})
    if n:
        words = ask.words
        yield _thing(
            "counted", words("today.long_past_one" if n == 1 else "today.long_past", n=n),
            words("today.still_there"),
            "/write?kind=counted", words("kinds.counted.title"),
        )  # fmt: skip
