"""What happened? One box in the household's own words: read as it is typed, asked about, written."""

from __future__ import annotations

import uuid

import dash_mantine_components as dmc
from dash import dcc, html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.forms.writing import told
from ledger.door import Written
from ledger.events import tell
from ledger.saying.asking import Draft, Question, Reading

__all__ = [
    "SEPARATES",
    "button_text",
    "happened",
    "option_text",
    "reading_shown",
    "written_shown",
]

_READ_MS = 400
"""So long after the last letter what was typed is read."""
_NOTE, _OUT = "note", "out"
_NEW = "new:"
SEPARATES = "\x1f"
"""Stands between the parts of an answer in the id of its button."""


def happened(ask: Ask) -> Component:
    """Return the box, what is read from it, and the button."""
    words = ask.words
    return html.Div(
        [
            dcc.Store(id="happened-answers", data=[]),
            dcc.Store(id="happened-id", data=str(uuid.uuid4())),
            dcc.Store(id="happened-done", data=[]),
            dmc.Textarea(
                id="happened-text", label=words("happened.label"), value="", autosize=True,
                minRows=2, maxRows=12, debounce=_READ_MS, placeholder=words("happened.example"),
                persistence="happened", persistence_type="local", autoComplete="off",
            ),
            html.Div(id="happened-read", role="status"),
            html.Div(id="happened-said", role="status"),
            html.Button(
                words("happened.write"), id="happened-write", type="button",
                className="button wide", n_clicks=0,
            ),
        ],
        className="happened",
    )  # fmt: skip


def reading_shown(ask: Ask, reading: Reading) -> list[Component]:
    """Return the reading: a card an entry, then what is asked, then what found no place."""
    cards = [_card(ask, one) for one in reading.entries]
    asked = [_asked(ask, one) for one in sorted(reading.questions, key=lambda one: one.waits)]
    left = [_left(ask, key, is_past=key not in reading.unhappened) for key in reading.left_keys]
    lost = (
        [] if left else [html.P(ask.words("happened.left", words=one)) for one in reading.left_over]
    )
    return [*cards, *asked, *left, *lost]


def _card(ask: Ask, one: Draft) -> Component:
    day = html.Span(ask.words.day(one.on, short=True), className="quiet")
    try:
        line = ask.words.said(tell(one.kind, one.body))
    except KeyError:  # a batch of which the method is asked
        line = f"{ask.words(f'kinds.{one.kind}.title')}: {one.body.get('makes', '')}"
    note = one.body.get("note")
    return html.Div(
        [
            day,
            html.Span(line, className="entry-line"),
            html.Span(ask.words("happened.note", note=note), className="quiet") if note else None,
        ],
        className="read-card",
    )


def _asked(ask: Ask, one: Question) -> Component:
    """Return a question with its likely answers; one that can wait is said quietly."""
    chips = [_chip(option_text(ask, option), one.key, option) for option in one.options]
    words = ask.words("happened.waits", question=ask.words.said(one.text))
    text = words if one.waits else ask.words.said(one.text)
    return html.Div(
        [html.P(text, className="quiet" if one.waits else ""), html.Div(chips, className="tools")],
        className="read-waits" if one.waits else "read-asked",
    )


def option_text(ask: Ask, option: str) -> str:
    """Return a likely answer as its button says it."""
    if option.startswith(_NEW):
        return ask.words("happened.new", name=option.removeprefix(_NEW))
    return ask.words.said(option)


def _left(ask: Ask, key: tuple[str, str, int], *, is_past: bool) -> Component:
    words = ask.words
    text = words("happened.left" if is_past else "happened.not_so", words=key[1])
    chips = [_chip(words("happened.out"), key, _OUT)]
    if is_past:
        chips.insert(0, _chip(words("happened.to_note"), key, _NOTE))
    return html.Div([html.P(text), html.Div(chips, className="tools")], className="read-asked")


def _chip(text: str, key: tuple[str, str, int], answer: str) -> Component:
    return html.Button(
        text, id={"chip": _key(key, answer)}, type="button", className="button quiet-button chip",
        n_clicks=0,
    )  # fmt: skip


def _key(key: tuple[str, str, int], answer: str) -> str:
    """Return an answer to a question as one text, for the id of its button."""
    code, about, n = key
    return SEPARATES.join((code, about, str(n), answer))


def written_shown(ask: Ask, written: list[Written]) -> Component:
    """Return what was written, with what was assumed, and the button that takes it back."""
    shown = [one for one in written if one.event.kind != "item_described"] or written
    lines = [html.Li(ask.words.said(told(one))) for one in shown]
    notes = [html.Li(ask.words.said(text)) for one in shown for text in one.notes]
    undo = html.Button(
        ask.words("happened.undo"), id={"undo": "happened"}, type="button",
        className="button quiet-button", n_clicks=0,
    )  # fmt: skip
    return dmc.Alert(
        [html.Ul(lines), html.Ul(notes) if notes else None, html.Div(undo, className="tools")],
        title=ask.words("forms.written"), color="leaf", variant="light", className="written",
    )  # fmt: skip


def button_text(ask: Ask, reading: Reading) -> str:
    """Return what the button says: how many things it writes."""
    n = len(reading.entries)
    if not n:
        return ask.words("happened.write")
    return ask.words("happened.write_one" if n == 1 else "happened.write_many", n=n)
