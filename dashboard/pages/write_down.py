"""Write down: one form a kind, the common six first."""

from __future__ import annotations

from typing import Any

from dash import dcc, html

from dashboard.ask import Ask
from dashboard.forms.form import form_of
from dashboard.forms.specs import COMMON, FORMS
from dashboard.pages._page import Page
from dashboard.parts import section
from ledger.events import decode_stored

__all__ = ["PAGE", "draw", "kind_tiles"]


def kind_tiles(ask: Ask, kinds: tuple[str, ...], *, first: bool = False) -> Any:
    """Return big buttons to the forms of some kinds."""
    return html.Ul(
        [
            html.Li(
                dcc.Link(
                    ask.words(f"kinds.{kind}.title"), href=f"/write?kind={kind}",
                    className="tile first" if first else "tile",
                )
            )
            for kind in kinds
        ],
        className="tiles",
    )  # fmt: skip


def draw(ask: Ask) -> Any:
    """Return the buttons to every form, or the form that is asked for."""
    kind = ask.query.get("kind")
    if kind not in FORMS:
        others = tuple(one for one in FORMS if one not in COMMON)
        return [
            kind_tiles(ask, COMMON, first=True),
            section(ask.words("write.others"), kind_tiles(ask, others)),
        ]
    body, on = None, None
    wanted = ask.query.get("replaces") or ask.query.get("like")
    if wanted:
        event = ask.data.book.log.get(ask.data.book.find(wanted))
        if event is not None and event.kind == kind:
            body = decode_stored(event.kind, event.v, event.body)
            on = event.on if ask.query.get("replaces") else None
    replaces = ask.query.get("replaces") if body else None
    return [
        html.H2(ask.words("write.correcting" if replaces else f"kinds.{kind}.says")),
        None if body else _same_as_last(ask, kind),
        form_of(ask, kind, body=body, on=on, replaces=replaces),
    ]


def _same_as_last(ask: Ask, kind: str) -> Any:
    """Return a link that fills the form with the last entry of its kind."""
    last = next(
        (row for row in ask.data.history() if row.kind == kind and row.state == "holds"), None
    )
    if last is None:
        return None
    return html.P(
        dcc.Link(
            html.Span([ask.words("write.same"), " ", html.Span(last.line[:80], className="quiet")]),
            href=f"/write?kind={kind}&like={last.id}", className="button quiet-button",
        )
    )  # fmt: skip


PAGE = Page("write", "/write", draw, keeps_typing=True)
