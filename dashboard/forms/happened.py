"""What happened? One box in the household's own words: read as it is typed, asked about, written."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.low_acid import low_acid_card
from dashboard.forms.standing import stands_so, would_stand
from dashboard.forms.understanding import mark_of_item
from dashboard.forms.writing import told
from dashboard.parts.alive import Lines
from dashboard.parts.kinds import icon_of
from dashboard.parts.marks import icon
from dashboard.parts.saying import say
from dashboard.parts.written import noted, undo_button, written_card
from ledger.door import Written
from ledger.door.lots import OPENING
from ledger.kinds import tell
from ledger.published.cautions import cautions_on
from ledger.published.signs import cautions_on_signs
from ledger.saying.asking import Draft, Question, Reading
from ledger.saying.entries import entries_of

__all__ = [
    "AS",
    "SEPARATES",
    "button_shown",
    "dangers_of",
    "happened",
    "option_text",
    "reading_shown",
    "written_shown",
]

_READ_MS = 400
"""So long after the last letter what was typed is read."""
_NOTE, _OUT = "note", "out"
_TOLD = 2
"""Entries that the note tells of; the rest stands in what was written lately."""
_NEW = "new:"
_SIGNS = -1
"""The place of the caution on signs of spoilage, which is of no one entry."""
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


def dangers_of(ask: Ask, reading: Reading) -> dict[int, Component]:
    """Return what is red before a reading is written, by the place of its entry: danger, or how jars would stand.

    Signs of spoilage stand under `_SIGNS`: what is thrown out for them bears no mark.

    It needs no answer to what is still asked: a batch is in danger as soon as it is said.
    """
    found: dict[int, Component] = {}
    batches = [n for n, one in enumerate(reading.entries) if one.kind == "put_up"]
    entries = entries_of(ask.data.book.catalogue(), reading)[-len(reading.entries) :]
    for n in batches:
        red = low_acid_card(ask, reading.entries[n].body)
        if red is None and (mark := would_stand(ask, entries[n])) is not None:
            text = ask.words("forms.would_mark", mark=mark)
            red = html.P(text, className="marked", role="alert")
        if red is not None:
            found[n] = red
    if reading.signs:
        texts = map(ask.words.said, cautions_on_signs(reading.signs))
        found[_SIGNS] = html.Div([*map(html.P, texts)], className="danger", role="alert")
    return found


def reading_shown(
    ask: Ask, reading: Reading, dangers: Mapping[int, Component] | None = None
) -> list[Component]:
    """Return the reading: danger first, a card an entry, then what is asked, then what found no place.

    Parameters
    ----------
    dangers : mapping, optional
        `dangers_of` the reading, where they are known already.
    """
    dangers = dangers_of(ask, reading) if dangers is None else dangers
    cards = [_card(ask, one, is_red=n in dangers) for n, one in enumerate(reading.entries)]
    asked = [_asked(ask, one) for one in sorted(reading.questions, key=lambda one: one.waits)]
    left = [_left(ask, key, is_past=key not in reading.unhappened) for key in reading.left_keys]
    lost = (
        [] if left else [html.P(ask.words("happened.left", words=one)) for one in reading.left_over]
    )
    return [*dangers.values(), *cards, *asked, *left, *lost]


def _card(ask: Ask, one: Draft, *, is_red: bool = False) -> Component:
    day = html.Span(ask.words.day(one.on, short=True), className="quiet")
    try:
        line = ask.words.said(tell(one.kind, one.body))
    except KeyError:  # a batch of which the method is asked
        line = f"{ask.words.kind(one.kind)}: {one.body.get('makes', '')}"
    items = [line.get("item") for line in one.body.get(OPENING.get(one.kind, ""), ())]
    marks = [mark_of_item(ask, one.kind, item) for item in dict.fromkeys(items)]
    note = one.body.get("note")
    below = [day] if one.on != ask.data.today().isoformat() else []
    if note:
        below.append(html.Div(ask.words("happened.note", note=note), className="quiet"))
    below += [mark for mark in marks if mark is not None]
    said = html.Div([html.B(line[:1].upper() + line[1:], className="entry-line"), *below])
    mark = icon("warn" if is_red else icon_of(one.kind))
    return html.Div([mark, said], className="read red" if is_red else "read")


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
    stands = [stands_so(ask, one) for one in shown]
    many = len(shown) if len(shown) <= _TOLD + 1 else _TOLD
    said = [html.Div(ask.words.said(told(one)), className="said-so") for one in shown[:many]]
    lines: list[Any] = [
        *said,
        ask.words("happened.and_more", n=len(shown) - many) if many < len(shown) else None,
    ]
    lines += [link for one in stands for link in one.links]
    notes = [say(ask, text) for one in shown for text in one.notes]
    bad = [text for one in shown for text in cautions_on(one.event.kind, one.body)]
    lines += [html.P(ask.words.said(text), className="small") for text in dict.fromkeys(bad)]
    undo = undo_button(ask.words("happened.undo"), {"undo": "happened"})
    return written_card(
        ask.words("forms.written"), *lines, noted(ask, notes), undo=undo,
        first=[mark for one in stands for mark in one.marks],
    )  # fmt: skip


def button_shown(ask: Ask, reading: Reading, dangers: Mapping[int, Component]) -> list[Any]:
    """Return what stands on the button: how many things it writes, and whether any in danger; it is not green then."""
    n, words = len(reading.entries), ask.words
    if dangers.keys() - {_SIGNS}:
        key = "batch.write_marked" if n == 1 else "happened.write_marked"
        return [html.Span(words(key, n=n), className="as-marked")]
    if not n:
        return [words("happened.write")]
    return [words("happened.write_one" if n == 1 else "happened.write_many", n=n)]
