"""What happened? One box in the household's own words: read as it is typed, asked about, written."""

from __future__ import annotations

import uuid
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.standing import stands_so
from dashboard.forms.writing import told
from dashboard.parts.alive import Lines
from dashboard.parts.kinds import icon_of
from dashboard.parts.marks import icon
from dashboard.parts.saying import say
from dashboard.parts.written import undo_button, written_card
from ledger.door import Written
from ledger.kinds import tell
from ledger.published.cautions import jar_gone_bad
from ledger.saying.asking import Draft, Question, Reading

__all__ = [
    "AS",
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
_NOTES = 2
AS = "as"
"""Code of the answer that says what kind a text without a verb is."""
SEPARATES = "\x1f"
"""Stands between the parts of an answer in the id of its button."""


def happened(ask: Ask, *, lines: int = 3, labelled: bool = True, kind: str = "") -> Component:
    """Return the box, what is read from it, and the button; it is in sight once something is typed.

    Parameters
    ----------
    ask : Ask
    lines : int
        How high the box is before anything is typed.
    labelled : bool
        Its label is seen; else a heading says it, and the label is heard.
    kind : str
        What a text without a verb is: a list of what is in the house is ``counted``.
    """
    words = ask.words
    name = words("begin.head_pantry" if kind else "happened.label")
    label = {"label": name} if labelled else {}
    heard = {} if labelled else {"aria-label": name}
    example = "begin.list_like" if kind else "happened.short" if lines == 1 else "happened.example"
    button = html.Button(
        words("happened.write"), id="happened-write", type="button", className="button wide",
        n_clicks=0,
    )  # fmt: skip
    return html.Div(
        [
            dcc.Store(id="happened-answers", data=[[AS, "", 0, kind]] if kind else []),
            dcc.Store(id="happened-id", data=str(uuid.uuid4())),
            Lines(
                id="happened-text", value="", rows=lines, most=12, debounce=_READ_MS,
                persistence=kind or "happened", persisted_props=["value"], persistence_type="local",
                placeholder=words(example), autoComplete="off", **label, **heard,
            ),
            html.Div(id="happened-read", role="status"),
            html.Div(button, className="stick"),
        ],
        className="happened large" if labelled else "happened",
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
        line = f"{ask.words.kind(one.kind)}: {one.body.get('makes', '')}"
    note = one.body.get("note")
    below = [day] if one.on != ask.data.today().isoformat() else []
    if note:
        below.append(html.Div(ask.words("happened.note", note=note), className="quiet"))
    said = html.Div([html.B(line[:1].upper() + line[1:], className="entry-line"), *below])
    return html.Div([icon(icon_of(one.kind)), said], className="read")


def _asked(ask: Ask, one: Question) -> Component:
    """Return a question with its likely answers; one that can wait is said quietly."""
    chips = [_chip(option_text(ask, option), one.key, option) for option in one.options]
    words = ask.words("happened.waits", question=ask.words.said(one.text))
    text = words if one.waits else ask.words.said(one.text)
    said = html.P(text, className="quiet") if one.waits else html.B(text)
    return html.Div(
        [icon("ask"), html.Div(said), html.Div(chips, className="chips") if chips else None],
        className="read waits" if one.waits else "read ask",
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
    return html.Div(
        [icon("ask"), html.Div(html.B(text)), html.Div(chips, className="chips")],
        className="read ask",
    )


def _chip(text: str, key: tuple[str, str, int], answer: str) -> Component:
    return html.Button(
        text, id={"chip": _key(key, answer)}, type="button", className="chip",
        n_clicks=0,
    )  # fmt: skip


def _key(key: tuple[str, str, int], answer: str) -> str:
    """Return an answer to a question as one text, for the id of its button."""
    code, about, n = key
    return SEPARATES.join((code, about, str(n), answer))


def written_shown(ask: Ask, written: list[Written]) -> Component:
    """Return what was written, a batch's mark first, with what was assumed, and the button that takes it back."""
    shown = [one for one in written if one.event.kind != "item_described"] or written
    lines: list[Any] = [part for one in shown for part in stands_so(ask, one)]
    lines += [ask.words.said(told(one)) for one in shown]
    notes = [say(ask, text) for one in shown for text in one.notes]
    bad = [text for one in shown for text in jar_gone_bad(one.event.kind, one.body)]
    lines += [html.P(ask.words.said(text), className="small") for text in dict.fromkeys(bad)]
    undo = undo_button(ask.words("happened.undo"), {"undo": "happened"})
    return written_card(ask.words("forms.written"), *lines, *_noted(ask, notes), undo=undo)


def _noted(ask: Ask, notes: list[Any]) -> list[Any]:
    """Return what was assumed: many notes fold, or the card would lie over what is written next."""
    if len(notes) <= _NOTES:
        return list(notes)
    inside = html.Ul([html.Li(one) for one in notes])
    summary = html.Summary(ask.words("happened.assumed", n=len(notes)))
    return [html.Details([summary, inside])]


def button_text(ask: Ask, reading: Reading) -> str:
    """Return what the button says: how many things it writes."""
    n = len(reading.entries)
    if not n:
        return ask.words("happened.write")
    return ask.words("happened.write_one" if n == 1 else "happened.write_many", n=n)
