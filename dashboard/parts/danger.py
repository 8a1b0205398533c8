"""Danger on a page: first, in words with the day, and what to do; never a colour alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from dash import dcc, html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.parts.boards import count_of
from dashboard.parts.keeping import named, spoken
from dashboard.parts.marks import icon
from ledger.published import GRAVE, MARKED

__all__ = ["danger_card", "grave_batches", "mark_of", "marked", "said_of"]

_DAY = re.compile(r"\d{4}-\d\d-\d\d")


def grave_batches(rows: Iterable[Mapping[str, Any]]) -> list[list[Mapping[str, Any]]]:
    """Return the shelf's records that stand in danger, those of one batch together, gravest first."""
    several: dict[str, list[Mapping[str, Any]]] = {}
    for row in rows:
        if row["standing"] in GRAVE:
            several.setdefault(row["standing_batch"], []).append(row)
    return sorted(several.values(), key=lambda lots: GRAVE.index(lots[0]["standing"]))


def danger_card(ask: Ask, rows: Iterable[Mapping[str, Any]]) -> Component | None:
    """Return the card that stands before all else while jars in danger are there; else None.

    Batches of one thing that stand so for one reason are told together, each with its own way.
    """
    batches, words = grave_batches(rows), ask.words
    if not batches:
        return None
    title = words("danger.title" if len(batches) > 1 else "danger.title_one", n=len(batches))
    return html.Div(
        [
            html.H2([icon("warn"), html.Span(title)]),
            html.Ul([html.Li(_alike(ask, several)) for several in _groups(ask, batches)]),
            html.P(words("danger.signs")),
        ],
        className="danger",
        role="alert",
    )


def _groups(
    ask: Ask, batches: list[list[Mapping[str, Any]]]
) -> list[list[list[Mapping[str, Any]]]]:
    """Return batches together whose things and reasons are the same but for the day, gravest first."""
    found: dict[tuple[Any, ...], list[list[Mapping[str, Any]]]] = {}
    for lots in batches:
        said = {(row["item"], row["kept"], _dayless(ask, row["standing_text"])) for row in lots}
        found.setdefault(tuple(sorted(said, key=str)), []).append(lots)
    return list(found.values())


def _alike(ask: Ask, batches: list[list[Mapping[str, Any]]]) -> list[Any]:
    """Return batches that are alike: what there is of them, how they stand, and the ways on, the remedy first."""
    if len(batches) == 1:
        return _batch(ask, batches[0])
    words = ask.words
    out: list[Any] = []
    lots = [row for one in batches for row in one]
    for item, kept in dict.fromkeys((row["item"], row["kept"]) for row in lots):
        mine = [row for row in lots if (row["item"], row["kept"]) == (item, kept)]
        there = words("danger.several", what=_there(ask, mine), n=len(batches))
        out += _line(ask, item, there, kept, _dayless(ask, mine[0]["standing_text"]))
    discard = dcc.Link(words("danger.discard"), href=_DISCARD, className="button")
    each = [
        dcc.Link(_of_day(ask, one), href=_findings(one[0]["standing_batch"]), className="button")
        for one in sorted(batches, key=lambda one: one[0]["on"])
    ]
    why = html.P(words("danger.each"))
    return [*out, html.Div(discard, className="tools"), why, html.Div(each, className="tools each")]


_DISCARD = "/write?kind=discarded"


def _findings(batch: str) -> str:
    return f"/as-published?batch={batch}#batch"


def _of_day(ask: Ask, lots: list[Mapping[str, Any]]) -> str:
    """Return a batch by its day, and what is left of it."""
    return ask.words("danger.of_day", day=ask.words.day(lots[0]["on"]), what=_there(ask, lots))


def _there(ask: Ask, lots: list[Mapping[str, Any]]) -> str:
    """Return what is there of some lots: jars by their size, other things one by one."""
    words, jars = ask.words, dict[str, int]()
    for row in lots:
        if row["jar"]:
            jars[row["jar"]] = jars.get(row["jar"], 0) + count_of(row)
    said = [words.jars(n, jar) for jar, n in jars.items()]
    return words.listed([*said, *(words.said(r["left"]["text"]) for r in lots if not r["jar"])])


def _batch(ask: Ask, lots: list[Mapping[str, Any]]) -> list[Any]:
    """Return one batch's jars, how they stand, and the ways on: the remedy first."""
    words, batch = ask.words, lots[0]["standing_batch"]
    out: list[Any] = []
    for row in lots:
        left, stands = words.said(row["left"]["text"]), said_of(ask, row["standing_text"])
        out += _line(ask, row["item"], left, row["kept"], stands)
    ways = (
        ("danger.discard", _DISCARD),
        ("danger.why", _findings(batch)),
        ("danger.touched", f"/touched?by=batch&of={batch}"),
    )
    links = [dcc.Link(words(text), href=href, className="button") for text, href in ways]
    return [*out, html.Div(links, className="tools")]


def _line(ask: Ask, item: str, there: str, kept: str | None, stands: str) -> list[Any]:
    place = f", {ask.words.word('answers', kept)}" if kept else ""
    return [html.B(named(spoken(item))), f", {there}{place}: ", stands, html.Br()]


def _dayless(ask: Ask, text: str) -> str:
    """Return the words of a standing without the batch's day; with it where it is not found among them."""
    day = _DAY.search(str(text))
    said = said_of(ask, text)
    if day is None:
        return said
    return re.sub(rf"(?:,\s|\s\w+\s){re.escape(ask.words.day(day[0]))}", "", said, count=1)


def said_of(ask: Ask, text: str) -> str:
    """Return the words of a standing in the language, their days as it writes them."""
    return _DAY.sub(lambda day: ask.words.day(day[0]), ask.words.said(text))


def mark_of(ask: Ask, row: Mapping[str, Any]) -> Component | None:
    """Return the mark of a row: a sign and the words with the day; None where it bears none."""
    if not row.get("standing_text"):
        return None
    is_past = str(row.get("lot") or "").endswith("f") and (row.get("days_left") or 0) < 0
    is_grave, is_open = row["standing"] in GRAVE or is_past, row["standing"] in MARKED
    sign = "!" if is_grave else "?" if is_open else "·"
    kind = "grave" if is_grave else "open" if is_open else "plain"
    return html.Span(
        [
            html.Span(sign, className="sign", **{"aria-hidden": "true"}),
            html.Span(said_of(ask, row["standing_text"])),
        ],
        className=f"mark mark-{kind}",
    )


def marked(ask: Ask, row: Mapping[str, Any]) -> Any:
    """Return a row's item with its mark beneath."""
    mark = mark_of(ask, row)
    return str(row["item"]) if mark is None else html.Span([str(row["item"]), mark])
