"""The wires of the box "What happened?": what is read as it is typed, answers, writing, taking back."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Sequence
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate

from dashboard.data import Data
from dashboard.drawing import ask_of, trouble
from dashboard.forms.doubts import doubt_shown
from dashboard.forms.happened import (
    AS,
    SEPARATES,
    button_shown,
    dangers_of,
    reading_shown,
    written_shown,
)
from dashboard.forms.pressed import pressed
from dashboard.forms.writing import answered, low_acid
from dashboard.parts.written import written_card
from ledger.door import Answers, Written
from ledger.errors import BookLocked, LedgerError, NeedsAnswer
from ledger.kinds import IN_HOUSE
from ledger.saying.asking import Reading
from ledger.saying.entries import entries_of
from ledger.saying.known import Known
from ledger.saying.reading import read
from ledger.saying.settled import Settled

__all__ = ["reading_of", "wire_happened", "write_said"]

_DOOR, _KIND = "door", "kind"

Settling = Sequence[Sequence[Any]]
"""Answers so far, as the browser keeps them: code, about, number and answer of each."""


def reading_of(data: Data, text: str, settling: Settling, day: dt.date | None = None) -> Reading:
    """Return what a text is read as, with the answers given so far.

    `day` is the one on which it was said, by default today.
    """
    on = day or data.today()
    known = data.kept(("known", on), lambda: Known(data.book.catalogue(), on, data.book.log))
    answers = {(code, about, n): said for code, about, n, said in settling if code != _DOOR}
    kind = answers.pop((AS, "", 0), "")
    reading = read(text, known, settled=Settled(answers))
    asked = {one.key: kind for one in reading.questions if one.code == _KIND}
    return read(text, known, settled=Settled(asked | answers)) if kind and asked else reading


def write_said(
    data: Data,
    text: str,
    settling: Settling,
    id: str,
    *,
    day: dt.date | None = None,
    typed_at: str | None = None,
) -> list[Written] | Reading | NeedsAnswer:
    """Write what a text says, all of it or nothing.

    Parameters
    ----------
    day, typed_at : optional
        When it was said, where it waited on a phone: the day there, and the clock there.

    Returns
    -------
    list of Written, Reading or NeedsAnswer
        What was written; else the reading that leaves something open, or a doubt of the door's.

    Raises
    ------
    LedgerError
        When it cannot be written; nothing is then.
    """
    reading = reading_of(data, text, settling, day)
    if reading.blocks or not reading.entries:
        return reading
    book, accepted = data.book, [one[3] for one in settling if one[0] == _DOOR]
    answers = Answers(ask=lambda doubt: answered(doubt, accepted))
    answers.spoken = True
    entries = entries_of(book.catalogue(), reading, id=id)
    for entry in entries:
        entry.typed_at = typed_at
    try:
        for entry in entries:
            if entry.kind == "put_up":
                low_acid(entry, answers)
            if entry.kind in IN_HOUSE:
                book.ask(entry, answers, usual=False)
        return book.enter_all(entries, answers)
    except NeedsAnswer as doubt:
        return doubt


def wire_happened(app: Dash, data: Data) -> None:
    """Connect the box."""

    @app.callback(
        Output("happened-read", "children"),
        Output("happened-write", "children"),
        Input("happened-text", "value"),
        Input("happened-answers", "data"),
    )
    def reads(text: str | None, settling: Settling) -> Any:
        ask = ask_of(data, "/write")
        if not (text or "").strip():
            return [], ask.words("happened.write")
        reading = reading_of(data, text or "", settling)
        dangers = dangers_of(ask, reading)
        return reading_shown(ask, reading, dangers), button_shown(ask, reading, dangers)

    @app.callback(
        Output("happened-answers", "data"),
        Input({"chip": ALL}, "n_clicks"),
        State("happened-answers", "data"),
        prevent_initial_call=True,
    )
    def settles(_clicks: Any, settling: list[list[Any]]) -> Any:
        if not isinstance(pressed(), dict):
            raise PreventUpdate
        code, about, n, said = ctx.triggered_id["chip"].split(SEPARATES)
        kept = [one for one in settling if one[:3] != [code, about, int(n)]]
        return [*kept, [code, about, int(n), said]]

    @app.callback(
        Output("said", "children", allow_duplicate=True),
        Output("happened-text", "value"),
        Output("happened-answers", "data", allow_duplicate=True),
        Output("happened-id", "data"),
        Output("happened-done", "data"),
        Input("happened-write", "n_clicks"),
        Input({"settle": ALL}, "n_clicks"),
        State("happened-text", "value"),
        State("happened-answers", "data"),
        State("happened-id", "data"),
        prevent_initial_call=True,
    )
    def writes(_clicks: Any, _settles: Any, text: str | None, settling: Any, id: str) -> Any:
        if pressed() is None:
            raise PreventUpdate
        ask = ask_of(data, "/write")
        words = ask.words
        if isinstance(ctx.triggered_id, dict):
            settling = [*settling, [_DOOR, "", 0, ctx.triggered_id["settle"]]]
        stay = (no_update, settling, no_update, no_update)
        if not (text or "").strip():
            return trouble(ask, words("happened.nothing")), *stay
        try:
            done = write_said(data, text or "", settling, id)
        except BookLocked:
            return trouble(ask, words("forms.locked")), *stay
        except LedgerError as error:
            return trouble(ask, words.refusal(error)), *stay
        if isinstance(done, NeedsAnswer):
            return doubt_shown(ask, done, "settle"), *stay
        if isinstance(done, Reading):
            return trouble(
                ask, words("happened.open" if done.entries else "happened.nothing")
            ), *stay
        ids = [one.event.id for one in done if one.event.kind != "item_described"]
        left = [one for one in settling if one[0] == AS]
        return written_shown(ask, done), "", left, str(uuid.uuid4()), ids

    @app.callback(
        Output("said", "children", allow_duplicate=True),
        Input({"undo": ALL}, "n_clicks"),
        State("happened-done", "data"),
        prevent_initial_call=True,
    )
    def undoes(_clicks: Any, done: list[str]) -> Any:
        if pressed() is None:
            raise PreventUpdate
        ask = ask_of(data, "/write")
        try:
            for id in reversed(done):
                data.book.strike(id, ask.words("happened.undone_why"))
        except LedgerError as error:
            return trouble(ask, ask.words.refusal(error))
        return written_card(ask.words("happened.undone"))
