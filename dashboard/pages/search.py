"""Search: names of the book, pages, and every entry with its notes, as words are typed."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.pages._page import KNOWN, Page
from dashboard.parts import answered, nothing_yet, section
from dashboard.parts.alive import Box
from dashboard.parts.aloud import aloud
from dashboard.parts.choices import drawn_with
from dashboard.parts.folds import all_link
from ledger.history import HistoryRow

__all__ = ["PAGE", "draw", "passes"]

_NAMES, _ENTRIES = 8, 8
_LEAST = 2
"""Letters below which nothing is looked for."""
_TYPED_MS = 350


def draw(ask: Ask) -> Any:
    """Return the box, and what its words found: names, then pages, then entries, newest first."""
    words, of = ask.words, (ask.query.get("of") or "").strip()
    box = Box(
        id={"choice": "of"}, label=words("search.label"), value=of, debounce=_TYPED_MS,
        placeholder=words("search.example"), autoComplete="off", **drawn_with(of),
    )  # fmt: skip
    if ask.is_empty:
        return [box, nothing_yet(ask, "search", "harvested")]
    if len(of) < _LEAST:
        return [box, html.P(words("search.says"), className="quiet")]
    names = ask.show("mentions", of=of).rows()
    pages = _pages(ask, of)
    rows = [row for row in ask.data.history() if passes(row, of)]
    if not (names or pages or rows):
        return [box, answered(words("search.nothing", of=of))]
    return [
        box,
        answered(
            words(
                "search.found_one" if len(rows) == 1 else "search.found", entries=len(rows), of=of
            )
        ),
        section(words("search.pages"), html.Ul(pages)) if pages else None,
        _named(ask, names) if names else None,
        _entries(ask, rows, of) if rows else None,
    ]


def passes(row: HistoryRow, of: str) -> bool:
    """Return whether an entry's line, note, writer or id has all the words."""
    text = f"{row.line} {row.note or ''} {row.by or ''} {row.id} {row.entry}".lower()
    return all(word in text for word in of.lower().split())


def _pages(ask: Ask, of: str) -> list[Component]:
    found = []
    for page in KNOWN:
        name = ask.words(f"nav.{page.name}")
        says = ask.words(f"asks.{page.name}") if ask.words.has(f"asks.{page.name}") else ""
        if all(word in f"{name} {says}".lower() for word in of.lower().split()):
            said = html.Span(f" {says}", className="quiet")
            found.append(html.Li([dcc.Link(name, href=page.path), said]))
    return found


def _named(ask: Ask, names: list[dict[str, Any]]) -> Component:
    words = ask.words
    limit = None if ask.wants_all("names") else _NAMES
    rows = [html.Li(_line(ask, one), className="tap") for one in names[:limit]]
    shown = all_link(ask, "names", len(names), len(rows))
    return section(words("search.names"), html.Ul(rows, className="rows names", role="list"), shown)


def _line(ask: Ask, one: dict[str, Any]) -> list[Any]:
    """Return a name and what it is, and how often it stands in the book, when last."""
    words = ask.words
    said = words(
        "search.entries_one" if one["entries"] == 1 else "search.entries",
        n=words.number(one["entries"], 9), day=words.day(one["last_on"]),
    )  # fmt: skip
    return [
        html.Span(
            [
                dcc.Link(html.B(one["name"]), href=_opens(one)),
                html.Span(f" {_sort(ask, one)}", className="quiet"),
            ]
        ),
        html.Span(said, className="quiet small"),
    ]


def _sort(ask: Ask, one: dict[str, Any]) -> str:
    sort = ask.words(f"search.sorts.{one['sort']}")
    return ask.words("search.also", sort=sort, also=one["also"]) if one["also"] else sort


def _opens(one: dict[str, Any]) -> str:
    """Return where a name leads: to what is there of it, its batch, its recipe, else to its entries."""
    name = quote(one["name"])
    if one["sort"] == "batch":
        return f"/as-published?batch={one['entry']}#batch"
    if one["sort"] == "item":
        return f"/shelf?item={name}"
    if one["sort"] == "recipe":
        return f"/write?kind=put_up&recipe={name}"
    return f"/history?find={name}"


def _entries(ask: Ask, rows: list[HistoryRow], of: str) -> Component:
    words = ask.words
    lines = [
        html.Li(
            [
                html.Span(words.day(row.on, short=False), className="quiet"),
                dcc.Link(
                    aloud(ask, row), href=f"/history?find={row.entry}", className="entry-line"
                ),
                html.Span(f" {row.note}", className="quiet") if row.note else None,
                html.Span(f" {words.word('states', row.state)}", className="quiet")
                if row.state != "holds"
                else None,
            ],
            className="entry",
        )
        for row in rows[:_ENTRIES]
    ]
    more = dcc.Link(
        words("table.all", n=len(rows)),
        href=f"/history?find={quote(of)}",
        className="button quiet-button",
    )
    return section(
        words("search.lines"),
        html.Ul(lines, className="entries found"),
        html.Div(more, className="tools") if len(rows) > _ENTRIES else None,
    )


PAGE = Page("search", "/search", draw)
