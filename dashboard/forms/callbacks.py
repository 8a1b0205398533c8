"""The wires of the forms: what is understood, what a batch would cost, and writing down."""

from __future__ import annotations

import uuid
from typing import Any

from dash import (
    ALL,
    MATCH,
    ClientsideFunction,
    Dash,
    Input,
    Output,
    State,
    ctx,
    dcc,
    html,
    no_update,
)
from dash.exceptions import PreventUpdate

from dashboard.ask import Ask
from dashboard.data import Data
from dashboard.drawing import ask_of, trouble
from dashboard.errands import Errands
from dashboard.forms.batch import beside_batch
from dashboard.forms.doubts import doubt_shown
from dashboard.forms.heads import STEPS
from dashboard.forms.pressed import pressed
from dashboard.forms.process import ROWS
from dashboard.forms.reading import Typed
from dashboard.forms.specs import FORMS
from dashboard.forms.standing import stands_so
from dashboard.forms.understanding import understood
from dashboard.forms.writing import Outcome, notes, told, write_form
from dashboard.parts.saying import say
from dashboard.parts.written import noted, undo_button, written_card
from ledger.door import Written
from ledger.errors import LedgerError
from ledger.published.cautions import cautions_on

__all__ = ["boxes_of", "emptied", "outcome_shown", "wire_forms"]

_BOX = {"field": ALL, "part": "box", "row": ALL}


def boxes_of(ids: list[dict[str, Any]], values: list[Any]) -> dict[tuple[str, int], str]:
    """Return what stands in each box, by field and row."""
    return {
        (one["field"], one["row"]): "" if value is None else str(value)
        for one, value in zip(ids, values, strict=True)
    }


def emptied(kind: str, ids: list[dict[str, Any]], values: list[Any]) -> list[Any]:
    """Return what an entry just written leaves in each box: another day stays, as a notebook goes on.

    What is empty is not sent anew; a list of choices goes on showing its word at an empty text.
    """
    form, left = FORMS[kind], []
    for one, value in zip(ids, values, strict=True):
        if one["field"] == "day" or not value:
            left.append(no_update)
        else:
            left.append(None if form.named(one["field"]).choices else "")
    return left


def _typed(
    kind: str, when: str, by: str | None, boxes: dict[tuple[str, int], str], **more: Any
) -> Typed:
    day = boxes.get(("day", 0), "").strip() if when == "other" else when
    return Typed(kind, day=day, by=by, boxes=boxes, **more)


def outcome_shown(ask: Ask, outcome: Outcome) -> Any:
    """Return what is said below a form: what was written, what is asked, or what is wrong."""
    words = ask.words
    if outcome.doubt is not None:
        return doubt_shown(ask, outcome.doubt)
    if outcome.written is not None:
        event = outcome.written.event
        said = [say(ask, text) for text in notes(outcome.written)]
        bad = [
            html.P(words.said(text), className="small")
            for text in cautions_on(event.kind, outcome.written.body)
        ]
        is_correction = event.replaces is not None
        title = words("forms.corrected" if is_correction else "forms.written")
        if not outcome.written.is_new:
            title = words("forms.again")
        undo = undo_button(words("happened.undo"), {"unwrite": event.id})
        stands = stands_so(ask, outcome.written)
        what = html.Div(words.said(told(outcome.written)), className="said-so")
        return written_card(
            title, what, *stands.links, *bad, noted(ask, said),
            html.Div(_further(ask, outcome.written), className="further"), first=stands.marks,
            undo=None if is_correction else undo, kind="corrected" if is_correction else "",
        )  # fmt: skip
    if outcome.is_locked:  # croft.js tries again by itself
        return html.Div(trouble(ask, outcome.trouble), className="again")
    if outcome.trouble:
        return trouble(ask, outcome.trouble)
    return trouble(ask, words("forms.see_boxes"))


def _further(ask: Ask, written: Written) -> list[Any]:
    """Return the ways on from an entry just written.

    A corrected form is done with, and croft.css hides it: its boxes would take the next entry's place.
    """
    event = written.event
    ways = {"forms.change": f"/write?kind={event.kind}&replaces={event.id}"}
    if event.replaces is not None:
        ways["forms.next"] = "/write"
    return [dcc.Link(ask.words(text), href=href) for text, href in ways.items()]


def _items_of(written: Written) -> list[str]:
    return [str(line["item"]) for line in written.body.get("lines", ())]


def wire_forms(app: Dash, data: Data) -> None:
    """Connect the forms."""

    @app.callback(
        Output({"field": MATCH, "part": "said", "row": MATCH}, "children"),
        Input({"field": MATCH, "part": "box", "row": MATCH}, "value"),
        State({"field": MATCH, "part": "box", "row": MATCH}, "id"),
        State("form-kind", "data"),
        prevent_initial_call=True,
    )
    def said(value: str | None, id: dict[str, Any], kind: str) -> Any:
        ask = ask_of(data, "/write")
        return understood(ask, kind, value, id)

    @app.callback(
        Output("form-said", "children"),
        Output(_BOX, "error"),
        Output(_BOX, "value"),
        Output("form-id", "data"),
        Output("form-accepted", "data"),
        Output("form-replaces", "data"),
        Input("form-write", "n_clicks"),
        Input({"accept": ALL}, "n_clicks"),
        State(_BOX, "id"),
        State(_BOX, "value"),
        State("form-kind", "data"),
        State("form-id", "data"),
        State("form-replaces", "data"),
        State("form-accepted", "data"),
        State("form-when", "value"),
        State("form-by", "value"),
        prevent_initial_call=True,
    )
    def write(
        _clicks: Any, _accepts: Any, ids: Any, values: Any, kind: str, id: str, replaces: str | None,
        accepted: list[str], when: str, by: str | None,
    ) -> Any:  # fmt: skip
        if pressed() is None:
            raise PreventUpdate
        trigger = ctx.triggered_id
        if isinstance(trigger, dict):
            accepted = [*accepted, trigger["accept"]]
        typed = _typed(kind, when, by, boxes_of(ids, values), id=id, replaces=replaces)
        ask = ask_of(data, "/write")
        outcome = write_form(data, ask.words, typed, accepted)
        errors = [outcome.errors.get((one["field"], one["row"])) for one in ids]
        shown = outcome_shown(ask, outcome)
        if outcome.written is None:
            return shown, errors, [no_update] * len(ids), no_update, accepted, no_update
        if kind == "bought":
            Errands.of(data).empty(_items_of(outcome.written))
        return shown, errors, emptied(kind, ids, values), str(uuid.uuid4()), [], None

    @app.callback(
        Output("form-said", "children", allow_duplicate=True),
        Input({"unwrite": ALL}, "n_clicks"),
        prevent_initial_call=True,
    )
    def unwrite(_clicks: Any) -> Any:
        if not isinstance(pressed(), dict):
            raise PreventUpdate
        ask = ask_of(data, "/write")
        try:
            data.book.strike(ctx.triggered_id["unwrite"], ask.words("happened.undone_why"))
        except LedgerError as error:
            return trouble(ask, ask.words.refusal(error))
        return written_card(ask.words("happened.undone"))

    @app.callback(
        Output("batch-danger", "children"),
        *(Output(f"batch-head-{name}", "children") for name in STEPS),
        *(Output(f"batch-pub-{name}", "children") for name in ("method", *ROWS)),
        Output("batch-just", "children"),
        Output("batch-note", "children"),
        Output("batch-takes", "children"),
        Input("form-rested", "data"),
        State(_BOX, "value"),
        State(_BOX, "id"),
        State("form-kind", "data"),
        State("form-when", "value"),
        State("form-by", "value"),
    )
    def beside(_rested: int, values: Any, ids: Any, kind: str, when: str, by: str | None) -> Any:
        typed = _typed(kind, when, by, boxes_of(ids, values))
        typed.day = typed.day or None  # one not typed yet keeps nothing back
        now = beside_batch(ask_of(data, "/write"), typed)
        heads = (now.heads.get(name) for name in STEPS)
        values = (now.printed.values.get(name) for name in ("method", *ROWS))
        return now.danger, *heads, *values, now.printed.just, now.printed.note, now.takes

    app.clientside_callback(
        ClientsideFunction("croft", "shown"),
        Output("form-said", "data-shown"),
        Input("form-said", "children"),
        prevent_initial_call=True,
    )
    app.clientside_callback(
        ClientsideFunction("croft", "otherDay"),
        Output("form-other", "hidden"),
        Input("form-when", "value"),
    )
