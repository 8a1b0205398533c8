"""A shopping bill: a line and a price each, a running sum, the whole receipt pasted, shops by a tap."""

from __future__ import annotations

import json

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.boxes import box_id
from dashboard.forms.remembered import remembered
from dashboard.forms.specs import FORMS
from dashboard.parts.alive import Lines

__all__ = ["bill_says", "bill_sum", "shops"]

_SHOPS = 6
_READ_MS = 500


def bill_says(ask: Ask) -> Component:
    """Return the place where assets/croft.js says how many things there are and what they come to."""
    words = ask.words
    says = {
        "data-one": words("bill.one"), "data-many": words("bill.many"), "data-none": words("bill.none"),
        "data-locale": str(words.locale).replace("_", "-"), "data-currency": words.currency,
    }  # fmt: skip
    return html.P(words("bill.none"), className="answer", id="bill-says", **says)


def bill_sum(ask: Ask) -> Component:
    """Return the running sum, and the box that takes a whole receipt."""
    words = ask.words
    return html.Div(
        [
            html.Div(
                [html.Span(words("bill.sum")), html.Span(id="bill-sum", className="n")],
                className="sum",
            ),
            html.P(words("bill.prices"), className="under small"),
            html.Details(
                [
                    html.Summary(words("bill.paste")),
                    Lines(
                        id="bill-paste", value="", rows=4, most=14, debounce=_READ_MS,
                        placeholder=words("bill.like"), autoComplete="off",
                        **{"aria-label": words("bill.paste")},
                    ),
                    html.P(words("bill.paste_says"), className="under small"),
                    html.Div(id="bill-read", role="status"),
                ]
            ),
            dcc.Store(id="bill-lines"),
        ]
    )  # fmt: skip


def shops(ask: Ask) -> Component | None:
    """Return the shops that were gone to last: a tap names one."""
    known = remembered(ask.data, "bought", FORMS["bought"].named("shop"))[:_SHOPS]
    box = json.dumps(box_id("shop", 0), separators=(",", ":"))
    chips = [
        html.Button(
            shop, type="button", className="chip", disable_n_clicks=True,
            **{"data-completes": box, "data-text": shop},
        )
        for shop in known
    ]  # fmt: skip
    return html.Div(chips, className="strip") if chips else None
