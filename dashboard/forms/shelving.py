"""A jar opened, and put back, from the shelf: one tap each, by item; a jar in danger is never opened so."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

from dash import ALL, Dash, Input, Output, State, ctx, dcc, html, no_update
from dash.development.base_component import Component
from dash.exceptions import PreventUpdate

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.drawing import ask_of, trouble
from dashboard.forms.doubts import doubt_shown
from dashboard.forms.pressed import pressed
from dashboard.forms.writing import answered
from dashboard.parts.boards import PARTED, boards_of
from dashboard.parts.written import undo_button, written_card
from ledger.door import Answers, Entry, Written
from ledger.errors import BookLocked, LedgerError, NeedsAnswer
from ledger.kinds import decode_stored

__all__ = ["in_danger", "open_jar", "put_back", "wire_shelving"]

_WHOLE = 0.98
"""So much of a jar is a whole one: amounts are rounded."""
_FOUND = ("c", "u")
"""How the lots end that no line can take from by name: found by a count, or never written down."""
_LOOKED_BACK = 400
"""Entries among which the jar that was opened last is looked for."""


def open_jar(
    data: Data,
    key: str,
    accepted: list[str],
    id: str,
    *,
    day: dt.date | None = None,
    typed_at: str | None = None,
) -> Written | NeedsAnswer | None:
    """Write down that one jar was opened: the oldest of its board.

    Parameters
    ----------
    data : Data
    key : str
        Of a `Board`.
    accepted : list of str
        What was answered, as for a form.
    id : str
        Of the tap: sent twice, it writes once.
    day, typed_at : optional
        When it was tapped, where the tap waited on a phone: the day there, and the clock there.

    Returns
    -------
    Written, NeedsAnswer or None
        A doubt that is to be answered first; None where no such jar may be opened.

    Raises
    ------
    LedgerError
        When it cannot be written; nothing is then.
    """
    item, jar = key.split(PARTED)
    boards = boards_of(data.show("shelf").records())
    board = next((b for b in boards if (b.item, b.jar, b.is_grave) == (item, jar, False)), None)
    if board is None:
        return None
    whole = next((row for row in board.rows if row["jars_left"] >= _WHOLE), None)
    if whole is None:
        return None
    line = {"item": item, "amount": f"1 {jar}", **_named(whole["lot"])}
    on = (day or data.today()).isoformat()
    entry = Entry("eaten", {"ate": [line]}, on=on, id=id, typed_at=typed_at)
    answers = Answers(ask=lambda doubt: answered(doubt, accepted))
    try:
        data.book.ask(entry, answers, usual=False)
        return data.book.enter(entry, answers)
    except NeedsAnswer as doubt:
        return doubt


def _named(lot: str) -> dict[str, str]:
    """Return the lot as a line names it; nothing for jars that a count found, which go oldest first by themselves."""
    return {} if lot.endswith(_FOUND) else {"lot": lot}


def in_danger(data: Data, key: str) -> bool:
    """Return whether jars of a board stand in danger, so that a tap opens none of them."""
    item, jar = key.split(PARTED)
    boards = boards_of(data.show("shelf").records())
    return any((b.item, b.jar, b.is_grave) == (item, jar, True) for b in boards)


def put_back(data: Data, key: str, why: str, id: str | None = None) -> str | None:
    """Strike the newest entry that opened one jar of a board; return its day, None where there is none.

    `id` is the tap's: sent twice, it strikes once.
    """
    if id is not None and data.book.log.get(id) is not None:
        return data.today().isoformat()
    item, jar = key.split(PARTED)
    seen = 0
    for row in data.history():
        seen += 1
        if seen > _LOOKED_BACK:
            return None
        if row.kind != "eaten" or row.state != "holds":
            continue
        event = data.book.log.get(row.id)
        if event is None:
            continue
        body = decode_stored(event.kind, event.v, event.body)
        ate = body["ate"]
        if set(body) == {"ate"} and len(ate) == 1 and _is_one(data, ate[0], item, jar):
            more = {"id": id} if id else {}
            data.book.write("struck", {"id": row.entry, "why": why}, **more)
            return row.on
    return None


def _is_one(data: Data, line: dict[str, Any], item: str, jar: str) -> bool:
    same = data.book.catalogue().name(line["item"]) == item
    return bool(same and line.get("amount") == f"1 {jar}")


def _opened(ask: Ask, key: str, written: Written) -> Component:
    words, (item, jar) = ask.words, key.split(PARTED)
    boards = boards_of(ask.show("shelf").records())
    left = next((b for b in boards if (b.item, b.jar, b.is_grave) == (item, jar, False)), None)
    below = words("shelf.none_left")
    if left is not None:
        below = words("shelf.left_now", n=left.count, day=words.day(left.rows[0]["on"], short=True))
    title = words("shelf.opened", jar=words.jars(1, jar), item=item)
    return written_card(
        title, below, undo=undo_button(words("happened.undo"), {"unshelve": written.event.id})
    )


def _nothing_back(ask: Ask, item: str) -> Component:
    link = dcc.Link(
        ask.words("kinds.counted.title"), href="/write?kind=counted", className="button"
    )
    return written_card(ask.words("shelf.nothing_back", item=item), undo=link)


def wire_shelving(app: Dash, data: Data) -> None:
    """Connect the buttons of the shelf; what became of a tap stands in the card above the bar."""

    @app.callback(
        Output("said", "children"),
        Output("seen", "data", allow_duplicate=True),
        Output("shelving", "data"),
        Input({"opens": ALL}, "n_clicks"),
        Input({"back": ALL}, "n_clicks"),
        Input({"unshelve": ALL}, "n_clicks"),
        Input({"take": ALL}, "n_clicks"),
        State("shelving", "data"),
        prevent_initial_call=True,
    )
    def taps(_opens: Any, _backs: Any, _undos: Any, _takes: Any, going: dict[str, Any]) -> Any:
        if not isinstance(pressed(), dict):
            raise PreventUpdate
        ((what, said),) = ctx.triggered_id.items()
        ask = ask_of(data, "/shelf")
        try:
            shown, going = _tapped(ask, what, said, going or {})
        except BookLocked:
            return trouble(ask, ask.words("forms.locked")), no_update, no_update
        except LedgerError as error:
            return trouble(ask, ask.words.refusal(error)), no_update, no_update
        return shown, data.mark(), going


def _tapped(ask: Ask, what: str, said: str, going: dict[str, Any]) -> tuple[Any, dict[str, Any]]:
    """Return what a tap is answered with, and what waits for an answer."""
    data, words = ask.data, ask.words
    if what == "unshelve":
        data.book.strike(said, words("happened.undone_why"))
        return written_card(words("happened.undone")), {}
    if what == "back":
        day = put_back(data, said, words("happened.undone_why"), going.get("next"))
        item = said.split(PARTED, maxsplit=1)[0]
        if day is None:
            return _nothing_back(ask, item), {}
        return written_card(words("shelf.put_back", item=item, day=words.day(day, short=True))), {}
    if what == "take":
        going = {**going, "accepted": [*going.get("accepted", []), said]}
    else:
        # the phone names its tap, so that one whose answer was lost may be sent again
        going = {"key": said, "accepted": [], "id": going.get("next") or str(uuid.uuid4())}
    done = open_jar(data, going["key"], going["accepted"], going["id"])
    if isinstance(done, NeedsAnswer):
        return html.Div(doubt_shown(ask, done, "take"), className="asked"), going
    if done is None:
        return written_card(words("shelf.none_left")), {}
    return _opened(ask, going["key"], done), {}
