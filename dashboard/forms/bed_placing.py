"""The wires of the bed plan."""

from __future__ import annotations

import uuid
from typing import Any

from dash import ALL, Dash, Input, Output, State, no_update
from dash.exceptions import PreventUpdate

from dashboard.data import Data
from dashboard.drawing import ask_of, trouble
from dashboard.forms.bed_places import AT, write_beds
from dashboard.parts.written import undo_button, written_card
from ledger.errors import BookLocked, LedgerError

__all__ = ["wire_beds"]


def wire_beds(app: Dash, data: Data) -> None:
    """Connect the button."""

    @app.callback(
        Output("said", "children", allow_duplicate=True),
        Output("happened-done", "data", allow_duplicate=True),
        Input("beds-write", "n_clicks"),
        State("beds-names", "data"),
        State({"at": ALL, "lie": ALL}, "value"),
        State({"at": ALL, "lie": ALL}, "id"),
        prevent_initial_call=True,
    )
    def writes(clicks: int, names: list[str], values: list[Any], ids: list[dict[str, Any]]) -> Any:
        if not clicks:
            raise PreventUpdate
        ask = ask_of(data, "/beds")
        said = {(one["lie"], one["at"]): str(v or "") for one, v in zip(ids, values, strict=True)}
        boxes = [[said.get((n, at), "") for at in AT] for n in range(len(names))]
        try:
            done = write_beds(data, names, boxes, str(uuid.uuid4()))
        except BookLocked:
            return trouble(ask, ask.words("forms.locked")), no_update
        except LedgerError as error:
            return trouble(ask, ask.words.refusal(error)), no_update
        undo = undo_button(ask.words("happened.undo"), {"undo": "happened"})
        n = ask.words("beds.kept", n=len(names))
        return written_card(ask.words("forms.written"), n, undo=undo), [done.event.id]
