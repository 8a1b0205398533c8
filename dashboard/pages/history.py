"""History: every event, what replaced what; strike, correct, and look at another moment."""

from __future__ import annotations

import datetime as dt
from itertools import groupby
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.specs import FORMS
from dashboard.pages._page import Page
from dashboard.pages.search import passes
from dashboard.parts import answered, choices, icon, nothing_yet, section
from dashboard.parts.alive import Box, Slide
from dashboard.parts.aloud import aloud
from dashboard.parts.danger import mark_of
from dashboard.parts.folds import all_link
from dashboard.parts.kinds import icon_of
from dashboard.parts.strips import strip
from ledger.history import HistoryRow
from ledger.kinds import KINDS

__all__ = ["PAGE", "draw", "says"]

_ROWS = 17


def draw(ask: Ask) -> Any:
    """Return how many entries there are, the filters, and the entries that pass them, day by day."""
    if ask.is_empty:
        return nothing_yet(ask, "history", "harvested")
    words = ask.words
    every = ask.data.history()
    rows = sorted(
        (row for row in every if _passes(ask, row)), key=lambda row: (row.on, row.seq), reverse=True
    )
    limit = None if ask.wants_all("history") else _ROWS
    marks = _marks(ask)
    is_filtered = len(rows) < len(every)
    found = words("history.found", n=words.number(len(rows), 9), all=words.number(len(every), 9))
    return [
        _strike_asked(ask, every),
        answered(_sentence(ask, every)),
        *_filters(ask, every),
        html.P(found, className="under small") if is_filtered else None,
        *_days(ask, rows[:limit], marks),
        all_link(ask, "history", len(rows), len(rows[:limit])),
        _moment(ask, every),
    ]


def says(ask: Ask) -> Any:
    """Return the page's answer in a line."""
    return None if ask.is_empty else _sentence(ask, ask.data.history())


def _sentence(ask: Ask, every: list[HistoryRow]) -> list[Any]:
    words = ask.words
    days = [row.on for row in every]
    years = int(max(days)[:4]) - int(min(days)[:4]) + 1
    n = words.number(len(every), 9)
    key = "history.one_year" if years == 1 else "history.answer"
    return [words("history.one_entry") if len(every) == 1 else words(key, n=n, years=years)]


def _passes(ask: Ask, row: HistoryRow) -> bool:
    kind, find = ask.query.get("kind"), (ask.query.get("find") or "").strip().lower()
    if kind and row.kind != kind:
        return False
    return not find or passes(row, find)


def _filters(ask: Ask, every: list[HistoryRow]) -> list[Any]:
    """Return the box to find by, and kinds as chips, those written most first."""
    words, chosen = ask.words, ask.query.get("kind", "")
    counts = {kind: sum(row.kind == kind for row in every) for kind in KINDS}
    kinds = sorted((kind for kind in KINDS if counts[kind]), key=lambda kind: -counts[kind])
    options = [("", words("history.every_kind")), *((k, words.kind(k)) for k in kinds)]
    return [
        choices(
            Box(
                id={"choice": "find"}, label=words("history.find"), value=ask.query.get("find", ""),
                debounce=True, placeholder=words("history.find_example"), autoComplete="off",
            )
        ),
        strip(ask, "kind", words("history.kind"), chosen, options),
    ]  # fmt: skip


def _days(ask: Ask, rows: list[HistoryRow], marks: dict[str, dict[str, Any]]) -> list[Any]:
    """Return entries under the days on which they happened."""
    out: list[Any] = []
    for day, of in groupby(rows, key=lambda row: row.on):
        head = html.H2(_day(ask, day))
        out.append(html.Section([head, *(_entry(ask, row, marks) for row in of)], className="dayg"))
    return out


def _day(ask: Ask, day: str) -> str:
    date = dt.date.fromisoformat(day)
    said = ask.words.long_day(date) if date.year == ask.day.year else ask.words.day(day)
    return f"{ask.words('history.today')}, {said}" if date == ask.day else said


def _entry(ask: Ask, row: HistoryRow, marks: dict[str, dict[str, Any]]) -> Any:
    """Return an entry as a line that unfolds: all of it, when it was written, what can be done to it."""
    words, mark = ask.words, _mark(ask, row, marks)
    line = aloud(ask, row)
    is_late = row.recorded_at[:10] > row.on
    state = "" if row.state == "holds" else words.word("states", row.state)
    summary = html.Summary(
        [
            icon(icon_of(row.kind), small=True),
            html.Span(line, className="t" if row.state == "holds" else "t gone"),
            html.Span(
                [
                    f"{state} " if state else "",
                    icon("clock", small=True) if is_late else None,
                    row.by or "",
                ],
                className="w",
            ),
        ],
        className="ent",
    )  # fmt: skip
    return html.Details([summary, mark, *_opened(ask, row, line)], className="entry-fold")


def _opened(ask: Ask, row: HistoryRow, line: str) -> list[Any]:
    """Return what an entry shows when it is tapped."""
    words = ask.words
    told: list[Any] = [line, ". ", words("history.recorded", day=words.day(row.recorded_at)), "."]
    if row.entry != row.id:
        link = dcc.Link(
            words("history.of_entry", id=row.entry[:8]), href=f"/history?find={row.entry}"
        )
        told += [" ", link]
    follow = None
    if row.kind == "put_up":
        follow = dcc.Link(
            words("history.follow"), href=f"/touched?by=batch&of={row.entry}", className="button plain"
        )  # fmt: skip
    elif row.kind == "bought":
        follow = dcc.Link(
            words("history.follow"), href=f"/touched?by=purchase&of={row.entry}", className="button plain"
        )  # fmt: skip
    changes = [one for one in (*_changes(ask, row), follow) if one is not None]
    return [html.P(told, className="quiet"), html.Div(changes, className="tools acts")]


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


def _changes(ask: Ask, row: HistoryRow) -> list[Any]:
    """Return what can be done to an event: put right, taken back, or written again."""
    if row.kind not in FORMS or row.state == "corrected":
        return []
    words, correct = ask.words, f"/write?kind={row.kind}&replaces={row.id}"
    if row.state == "struck":
        return [dcc.Link(words("history.restore"), href=correct, className="button quiet-button")]
    back = ask.link(strike=row.id)
    return [
        dcc.Link(words("history.correct"), href=correct, className="button quiet-button"),
        dcc.Link(words("history.strike"), href=back, className="button quiet-button"),
    ]


def _strike_asked(ask: Ask, every: list[HistoryRow]) -> Any:
    """Return the question before an entry is taken back."""
    wanted, words = ask.query.get("strike"), ask.words
    row = next((one for one in every if one.id == wanted), None) if wanted else None
    if row is None:
        return html.Div(id="strike-said", role="status")
    if row.state != "holds":
        line = aloud(ask, row)
        is_struck = row.state == "struck"
        return html.Div(
            html.P(words("history.is_struck" if is_struck else "history.is_corrected", line=line)),
            id="strike-said",
            role="status",
        )
    return section(
        words("history.strike_title"),
        html.P(f"{words.day(row.on)}: {aloud(ask, row)}"),
        html.P(words("history.strike_says"), className="quiet"),
        dcc.Store(id="strike-id", data=row.id),
        Box(id="strike-why", label=words("history.why"), autoComplete="off"),
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
    return html.Details(
        [
            html.Summary(words("history.moment")),
            html.P(words("history.moment_says"), className="under"),
            *sliders,
            dcc.Store(id="moment-days", data=[first_on.isoformat(), first_known.isoformat(), today.isoformat()]),
        ],
        open=bool(ask.moment.as_of or ask.moment.known_at),
        className="folds",
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
            Slide(
                id=id, min=0, max=last, step=1, value=max(value, 0),
                **{"aria-label": label, "aria-valuetext": shown},
            ),
        ],
        className="slider",
    )  # fmt: skip


PAGE = Page("history", "/history", draw)
