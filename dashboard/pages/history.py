"""History: every event, what replaced what; strike, correct, and look at another moment."""

from __future__ import annotations

import datetime as dt
from typing import Any

import dash_mantine_components as dmc
from dash import dcc, html

from dashboard.ask import Ask
from dashboard.forms.specs import FORMS
from dashboard.pages._page import Page
from dashboard.pages.search import passes
from dashboard.parts import choice, choices, nothing_yet, plain_table, section
from dashboard.parts.danger import mark_of
from ledger.book import HistoryRow
from ledger.events import KINDS

__all__ = ["PAGE", "draw"]

_ROWS = 20


def draw(ask: Ask) -> Any:
    """Return the sliders of the moment, the filters, and the events that pass them, newest first."""
    if ask.is_empty:
        return nothing_yet(ask, "history", "harvested")
    words = ask.words
    every = ask.data.history()
    rows = [row for row in every if _passes(ask, row)]
    limit = None if ask.wants_all("history") else _ROWS
    marks = _marks(ask)
    heads = [words(f"history.{name}") for name in ("entry", "day", "by", "state", "change")]
    more = None
    if limit is not None and len(rows) > limit:
        text = words("table.all", n=len(rows))
        more = dcc.Link(text, href=ask.link_all("history"), className="button quiet-button")
    return [
        _strike_asked(ask, every),
        _moment(ask, every),
        section(
            words("history.events"),
            _filters(ask, every),
            html.P(words("history.found", n=len(rows), all=len(every)), className="quiet"),
            plain_table(
                heads,
                [_cells(ask, row, marks) for row in rows[:limit]],
                caption=words("nav.history"),
            ),
            html.Div(more, className="tools"),
        ),
    ]


def _passes(ask: Ask, row: HistoryRow) -> bool:
    kind, find = ask.query.get("kind"), (ask.query.get("find") or "").strip().lower()
    if kind and row.kind != kind:
        return False
    return not find or passes(row, find)


def _filters(ask: Ask, every: list[HistoryRow]) -> Any:
    words = ask.words
    kinds = [kind for kind in KINDS if any(row.kind == kind for row in every)]
    options = [("", words("history.every_kind")), *((k, words(f"kinds.{k}.title")) for k in kinds)]
    return choices(
        choice("kind", words("history.kind"), ask.query.get("kind", ""), options),
        dmc.TextInput(
            id={"choice": "find"}, label=words("history.find"), value=ask.query.get("find", ""),
            debounce=True, placeholder=words("history.find_example"), autoComplete="off",
        ),
    )  # fmt: skip


def _cells(ask: Ask, row: HistoryRow, marks: dict[str, dict[str, Any]]) -> list[Any]:
    words = ask.words
    line: Any = words.said(row.line)
    if row.entry != row.id:
        link = dcc.Link(
            words("history.of_entry", id=row.entry[:8]), href=f"/history?find={row.entry}"
        )
        line = html.Span([line, " ", link])
    recorded = html.Span(
        words("history.recorded", day=words.day(row.recorded_at)), className="quiet"
    )
    on = html.Span([words.day(row.on), html.Br(), recorded])
    mark = _mark(ask, row, marks)
    if mark is not None:
        line = html.Span([line, mark])
    return [line, on, row.by or "–", words.word("states", row.state), _changes(ask, row)]


def _mark(ask: Ask, row: HistoryRow, marks: dict[str, dict[str, Any]]) -> Any:
    """Return the mark of a batch whose jars are there; None of any other entry."""
    if row.kind != "put_up" or row.state != "holds":
        return None
    marked = marks.get(row.entry)
    return None if marked is None else mark_of(ask, marked)


def _marks(ask: Ask) -> dict[str, dict[str, Any]]:
    """Return the records of marked lots by the batch that they came out of, the gravest of each."""
    out: dict[str, dict[str, Any]] = {}
    for one in ask.show("shelf").rows():
        if one["standing_text"]:
            out.setdefault(one["lot"].partition(":")[0], one)
    return out


def _changes(ask: Ask, row: HistoryRow) -> Any:
    """Return what can be done to an event: correct it, take it back, or write it again."""
    if row.kind not in FORMS or row.state == "corrected":
        return ""
    words, correct = ask.words, f"/write?kind={row.kind}&replaces={row.id}"
    if row.state == "struck":
        return dcc.Link(words("history.restore"), href=correct, className="button quiet-button")
    return html.Span(
        [
            dcc.Link(words("history.correct"), href=correct, className="button quiet-button"),
            dcc.Link(
                words("history.strike"),
                href=ask.link(strike=row.id),
                className="button quiet-button",
            ),
        ],
        className="tools",
    )


def _strike_asked(ask: Ask, every: list[HistoryRow]) -> Any:
    """Return the question before an entry is taken back."""
    wanted, words = ask.query.get("strike"), ask.words
    row = next((one for one in every if one.id == wanted), None) if wanted else None
    if row is None:
        return html.Div(id="strike-said", role="status")
    if row.state != "holds":
        line = words.said(row.line)
        is_struck = row.state == "struck"
        return html.Div(
            html.P(words("history.is_struck" if is_struck else "history.is_corrected", line=line)),
            id="strike-said",
            role="status",
        )
    return section(
        words("history.strike_title"),
        html.P(f"{words.day(row.on)}: {words.said(row.line)}"),
        html.P(words("history.strike_says"), className="quiet"),
        dcc.Store(id="strike-id", data=row.id),
        dmc.TextInput(id="strike-why", label=words("history.why"), autoComplete="off"),
        html.Div(
            [
                html.Button(
                    words("history.strike"),
                    id="strike-do",
                    type="button",
                    className="button",
                    n_clicks=0,
                ),
                dcc.Link(
                    words("history.leave"),
                    href=ask.link(strike=None),
                    className="button quiet-button",
                ),
            ],
            className="tools",
        ),
        html.Div(id="strike-said", role="status"),
    )


def _moment(ask: Ask, every: list[HistoryRow]) -> Any:
    """Return two sliders: what had happened by a day, and what was written down by a day."""
    words, today = ask.words, ask.data.today()
    first_on = min(dt.date.fromisoformat(row.on) for row in every)
    first_known = dt.date.fromisoformat(min(row.recorded_at for row in every)[:10])
    sliders = [
        _slider(ask, "as-of", words("history.as_of"), first_on, ask.moment.as_of, today),
        _slider(
            ask, "known-at", words("history.known_at"), first_known, ask.moment.known_at, today
        ),
    ]
    return section(
        words("history.moment"), html.P(words("history.moment_says"), className="quiet"), *sliders,
        dcc.Store(id="moment-days", data=[first_on.isoformat(), first_known.isoformat(), today.isoformat()]),
    )  # fmt: skip


def _slider(
    ask: Ask, id: str, label: str, first: dt.date, chosen: str | None, today: dt.date
) -> Any:
    last = max((today - first).days, 1)
    value = min((dt.date.fromisoformat(chosen[:10]) - first).days, last) if chosen else last
    shown = ask.words.day(chosen) if chosen else ask.words("history.now")
    return html.Div(
        [
            html.Div([html.Span(label, id=f"{id}-label"), ": ", html.B(shown)]),
            dmc.Slider(
                id=id, min=0, max=last, step=1, value=max(value, 0), label=None, size="lg", thumbSize=28,
                updatemode="mouseup", thumbLabel=label,
            ),
        ],
        className="slider",
    )  # fmt: skip


PAGE = Page("history", "/history", draw)
