"""The wires of a shopping bill: a pasted receipt becomes lines of the form, to look over before writing."""

from __future__ import annotations

from typing import Any

from dash import ClientsideFunction, Dash, Input, Output, html
from dash.exceptions import PreventUpdate

from dashboard.data import Data
from dashboard.drawing import ask_of
from dashboard.forms.happening import reading_of

__all__ = ["bill_lines", "wire_bill"]


def bill_lines(data: Data, text: str) -> dict[str, Any]:
    """Return what a receipt says, as boxes of the form take it.

    Parameters
    ----------
    data : Data
    text : str
        Its lines, one article each with its price at the end.

    Returns
    -------
    dict
        ``lines`` of (text, paid), ``shop``, ``receipt_total``, ``other`` (list of str), and ``asked``:
        what could not be read, in words.
    """
    reading = reading_of(data, text, [])
    body = next((one.body for one in reading.entries if one.kind == "bought"), {})
    lines = [
        (f"{line['amount']} {line['item']}", line.get("paid") or "")
        for line in body.get("lines", ())
    ]
    return {
        "lines": lines,
        "shop": body.get("shop") or "",
        "receipt_total": body.get("receipt_total") or "",
        "other": [f"{one['words']} {one['paid']}" for one in body.get("other", ())],
        "asked": [one.text for one in reading.questions] + list(reading.left_over),
    }


def wire_bill(app: Dash, data: Data) -> None:
    """Connect the box that takes a receipt; assets/croft.js puts its lines into the form's boxes."""

    @app.callback(
        Output("bill-lines", "data"),
        Output("bill-read", "children"),
        Input("bill-paste", "value"),
        prevent_initial_call=True,
    )
    def pasted(text: str | None) -> Any:
        if not (text or "").strip():
            raise PreventUpdate
        found, words = bill_lines(data, text or ""), ask_of(data, "/write").words
        if not found["lines"] and not found["other"]:
            return None, html.P(words("bill.unread"), className="wrong")
        said = [html.Li(words.said(one)) for one in found["asked"]]
        n = len(found["lines"]) + len(found["other"])
        return found, [html.P(words("bill.read", n=n)), html.Ul(said) if said else None]

    app.clientside_callback(
        ClientsideFunction("croft", "bill"), Output("bill-says", "data-filled"),
        Input("bill-lines", "data"), prevent_initial_call=True,
    )  # fmt: skip
