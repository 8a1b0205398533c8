"""The wires of the shopping list: a tap puts a thing into the basket, for every phone of the household."""

from __future__ import annotations

from typing import Any

from dash import ALL, Dash, Input, Output, ctx
from dash.exceptions import PreventUpdate

from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page
from dashboard.errands import Errands
from dashboard.forms.pressed import pressed
from dashboard.parts import still

__all__ = ["wire_ticking"]


def wire_ticking(app: Dash, data: Data) -> None:
    """Connect the ticks: the page is drawn anew with what is in the basket now."""

    @app.callback(
        Output("page", "children", allow_duplicate=True),
        Input({"tick": ALL}, "n_clicks"),
        prevent_initial_call=True,
    )
    def ticks(_clicks: Any) -> Any:
        if not isinstance(pressed(), dict):
            raise PreventUpdate
        Errands.of(data).tick(ctx.triggered_id["tick"])
        return still(draw_page(ask_of(data, "/shopping")))
