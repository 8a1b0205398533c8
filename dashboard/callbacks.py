"""The wires of the shell: what the browser says, and what is drawn for it.

Bodies are plain functions of `dashboard.drawing`; the forms have wires of their own in
`dashboard.forms.callbacks`.
"""

from __future__ import annotations

import datetime as dt
from typing import Any
from urllib.parse import urlencode

from dash import ALL, ClientsideFunction, Dash, Input, Output, State, ctx, html, no_update
from dash.exceptions import PreventUpdate

from dashboard.ask import Ask, read_query
from dashboard.data import Data
from dashboard.drawing import ask_of, draw_page, draw_why, moment_note, trouble
from dashboard.pages import page_at
from dashboard.parts import still
from ledger.errors import LedgerError

__all__ = ["changed_choices", "changed_search", "moment_at", "strike_said", "wire"]


def wire(app: Dash, data: Data) -> None:
    """Connect the shell."""

    @app.callback(
        Output("page", "children"),
        Output("moment-note", "children"),
        Output("main", "lang"),
        Input("url", "pathname"),
        Input("url", "search"),
        Input("seen", "data"),
        Input("moment", "data"),
        Input("scheme", "data"),
        State("main", "data-address"),
    )
    def draw(
        path: str, search: str, _seen: int, moment: Any, scheme: str, drawn: str | None
    ) -> Any:
        page = page_at(path)
        is_only_news = set(ctx.triggered_prop_ids) == {"seen.data"}
        # news of an entry may overtake the way to another page, which is then drawn here
        if page and page.keeps_typing and is_only_news and drawn == f"{path}{search or ''}":
            raise PreventUpdate
        ask = ask_of(data, path, search, moment, scheme)
        return still(draw_page(ask)), moment_note(ask), ask.words.language

    @app.callback(
        Output("why-panel", "opened"),
        Output("why-shown", "children"),
        Input("why-asked", "data"),
        State("url", "pathname"),
        State("moment", "data"),
        State("scheme", "data"),
        prevent_initial_call=True,
    )
    def why(asked: Any, path: str, moment: Any, scheme: str) -> Any:
        if not asked:
            raise PreventUpdate
        return True, still(draw_why(ask_of(data, path, "", moment, scheme), asked))

    @app.callback(
        Output("url", "search"),
        Input({"choice": ALL}, "value"),
        State({"choice": ALL}, "data-drawn"),
        State("url", "search"),
        prevent_initial_call=True,
    )
    def choose(_values: Any, _drawn: Any, search: str) -> Any:
        return changed_search(search, changed_choices(ctx.inputs_list[0], ctx.states_list[0]))

    @app.callback(
        Output("moment", "data"),
        Input("as-of", "value"),
        Input("known-at", "value"),
        State("moment-days", "data"),
        State("moment", "data"),
        prevent_initial_call=True,
    )
    def look(as_of: int, known_at: int, days: list[str], now: Any) -> Any:
        wanted = moment_at(as_of, known_at, days)
        return no_update if wanted == (now or {"as_of": None, "known_at": None}) else wanted

    @app.callback(
        Output("strike-said", "children"),
        Input("strike-do", "n_clicks"),
        State("strike-id", "data"),
        State("strike-why", "value"),
        prevent_initial_call=True,
    )
    def strike(clicks: int | None, id: str, why: str | None) -> Any:
        if not clicks:
            raise PreventUpdate
        return strike_said(ask_of(data, "/history"), id, why)

    app.clientside_callback(
        ClientsideFunction("croft", "scheme"),
        Output("main", "data-scheme"),
        Input("scheme", "data"),
    )
    app.clientside_callback(
        ClientsideFunction("croft", "arrived"), Output("main", "data-address"), Input("page", "children"),
        State("url", "pathname"), State("url", "search"),
    )  # fmt: skip


def moment_at(as_of: int, known_at: int, days: list[str]) -> dict[str, str | None]:
    """Return the moment that two sliders say; a slider at its end says now.

    Parameters
    ----------
    as_of, known_at : int
        Days after the first day of each slider.
    days : list of str
        The first day of each, and today.
    """
    out: dict[str, str | None] = {}
    today = dt.date.fromisoformat(days[2])
    for name, value, first in (("as_of", as_of, days[0]), ("known_at", known_at, days[1])):
        day = dt.date.fromisoformat(first) + dt.timedelta(days=value)
        out[name] = None if day >= today else day.isoformat()
    return out


def strike_said(ask: Ask, id: str, why: str | None) -> Any:
    """Strike an entry and return what is said of it, or why it could not be."""
    words = ask.words
    if not (why or "").strip():
        return trouble(ask, words("history.why_missing"))
    try:
        ask.data.book.strike(id, str(why))
    except LedgerError as error:
        return trouble(ask, words.refusal(error))
    return html.P(words("history.struck"), className="written")


def changed_choices(values: list[Any], drawn: list[Any]) -> dict[str, Any]:
    """Return the choices that somebody changed: a page just drawn says its own choices, too.

    Parameters
    ----------
    values, drawn : list
        What each choice says now, and what it was drawn with, as the browser lists them.
    """
    before = {one["id"]["choice"]: one.get("value") for one in drawn}
    said = {one["id"]["choice"]: one["value"] for one in values if "value" in one}
    return {k: v for k, v in said.items() if before.get(k) is None or before[k] != str(v)}


def changed_search(search: str | None, said: dict[str, Any]) -> Any:
    """Return an address's choices with those said; `no_update` where nothing changes.

    A choice said as '' or None is taken away.
    """
    old = read_query(search)
    new = {**old, **{key: str(value) for key, value in said.items() if value not in (None, "")}}
    new = {k: v for k, v in new.items() if not (k in said and said[k] in (None, ""))}
    return no_update if new == old else (f"?{urlencode(new)}" if new else "")
