"""The wires of the household's form: its answers become settings, all or none."""

from __future__ import annotations

from typing import Any

from dash import Dash, Input, Output, State, ctx, no_update
from dash.exceptions import PreventUpdate

from dashboard.data import Data
from dashboard.drawing import ask_of, trouble
from dashboard.forms.household import CHOSEN, TOLD, write_household
from dashboard.parts.written import undo_button, written_card
from dashboard.words import Words
from ledger.errors import BookLocked, InputError, LedgerError

__all__ = ["wire_household"]

_TYPED = tuple(name for name in TOLD if name not in CHOSEN)
"""Those with a box, beside which a refusal is said."""


def wire_household(app: Dash, data: Data) -> None:
    """Connect the form."""

    @app.callback(
        Output("said", "children", allow_duplicate=True),
        Output("seen", "data", allow_duplicate=True),
        Output("happened-done", "data", allow_duplicate=True),
        *(Output(f"house-{name}", "error") for name in _TYPED),
        Input("house-write", "n_clicks"),
        State("house-id", "data"),
        *(State(f"house-{name}", "data" if name in CHOSEN else "value") for name in TOLD),
        prevent_initial_call=True,
    )
    def writes(clicks: int, id: str, *values: Any) -> Any:
        if not clicks or ctx.triggered_id != "house-write":
            raise PreventUpdate
        ask = ask_of(data, "/settings")
        said = {
            name: None if value is None else str(value)
            for name, value in zip(TOLD, values, strict=True)
        }
        try:
            done = write_household(data, said, id)
        except BookLocked:
            return trouble(ask, ask.words("forms.locked")), no_update, no_update, *_beside()
        except InputError as error:
            if error.field in _TYPED:
                wrong = ask.words.refusal(error, named=False)
                shown = trouble(ask, ask.words("forms.see_boxes"))
                return shown, no_update, no_update, *_beside({error.field: wrong})
            return trouble(ask, ask.words.refusal(error)), no_update, no_update, *_beside()
        except LedgerError as error:
            return trouble(ask, ask.words.refusal(error)), no_update, no_update, *_beside()
        if not done:
            shown = trouble(ask, ask.words("begin.nothing_new"))
            return shown, no_update, no_update, *_beside()
        words = ask_of(data, "/settings").words  # the language may be another one now
        lines = [_told(words, one.body) for one in done]
        card = written_card(
            words("forms.written"), *lines,
            undo=undo_button(words("happened.undo"), {"undo": "happened"}),
        )  # fmt: skip
        return card, data.mark(), [one.event.id for one in done], *_beside()


def _beside(wrong: dict[str, str] | None = None) -> list[str | None]:
    """Return what is said beside each box; nothing where nothing is wrong with it."""
    return [(wrong or {}).get(name) for name in _TYPED]


def _told(words: Words, body: dict[str, Any]) -> str:
    name, value = body["name"], body["value"]
    said = f"begin.{name}_{value}"
    return f"{words(f'begin.{name}')} {words(said) if words.has(said) else value}"
