"""A form as a whole: what is in sight, what waits behind `more`, when it was, and who writes."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

from dash import dcc, html
from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.forms.bill import bill_says, bill_sum, shops
from dashboard.forms.boxes import basket, box_id, single
from dashboard.forms.specs import FORMS, Form
from dashboard.forms.understanding import recent_lines
from dashboard.parts.alive import Box, OneOf
from dashboard.parts.marks import icon
from ledger.door.retyped import retyped

__all__ = ["form_of"]


def form_of(
    ask: Ask, kind: str, *, body: dict[str, Any] | None = None, on: str | None = None,
    replaces: str | None = None,
) -> Component:  # fmt: skip
    """Return a kind's form.

    Parameters
    ----------
    ask : Ask
    kind : str
    body : dict, optional
        A stored body that its boxes are filled with.
    on : str, optional
        Day of the entry that is corrected.
    replaces : str, optional
        Id of the entry that this corrects.
    """
    form, words = FORMS[kind], ask.words
    texts = retyped(body) if body else {"beside": {}}
    texts = _as_line(form, texts)
    by = Box(
        id="form-by", label=words("forms.by"), persistence="writer", persisted_props=["value"],
        persistence_type="local", value="", autoComplete="off",
    )  # fmt: skip
    more = [_field(ask, form, name, texts) for name in form.more]
    by_recipe = () if replaces else ("schedule",)
    is_open = any(texts.get(name) for name in form.more if name not in by_recipe)
    children: list[Any] = [
        dcc.Store(id="form-kind", data=kind),
        dcc.Store(id="form-id", data=str(uuid.uuid4())),
        dcc.Store(id="form-replaces", data=replaces),
        dcc.Store(id="form-accepted", data=[]),
        dcc.Store(id="form-rested", data=0),
        bill_says(ask) if kind == "bought" else None,
        *(_steps(ask, form, texts) if form.steps else _first(ask, form, form.first, texts)),
        bill_sum(ask) if kind == "bought" else None,
        _when(ask, on),
        html.Details(
            [
                html.Summary(words("forms.more")),
                html.Div([*more, by] if form.steps else more, className="rows"),
            ],
            open=is_open,
        )
        if more
        else None,
        None if form.steps else by,
        html.Div(
            [
                html.Div(id="form-said", role="status"),
                html.Button(
                    words("forms.correct" if replaces else "forms.write"), id="form-write",
                    type="button", className="button wide", n_clicks=0,
                ),
            ],
            className="stick",
        ),
    ]  # fmt: skip
    return html.Div(children, className=f"form of-{kind}")


def _steps(ask: Ask, form: Form, texts: dict[str, Any]) -> list[Component]:
    """Return the fields in sight as steps; one that is filled says so in a line and unfolds by a tap."""
    words, out = ask.words, []
    for n, (step, names) in enumerate(form.steps, 1):
        said = _said(texts, names)
        is_done = bool(said) and step in ("what", "out")
        head = [
            html.Span(icon("check") if is_done else str(n), className="no"),
            html.Span(
                [
                    html.H2(words(f"batch.step_{step}")),
                    html.Span(said, className="quiet") if is_done else None,
                ]
            ),
        ]
        fields = html.Div(_first(ask, form, names, texts), className=f"fields fields-{step}")
        out.append(
            html.Details(
                [html.Summary(head), fields],
                open=not is_done,
                className="step done" if is_done else "step",
            )
        )
    return out


def _said(texts: dict[str, Any], names: tuple[str, ...]) -> str:
    """Return what is filled in already, in a line."""
    out = []
    for name in names:
        said = texts.get(name) or []
        out += [said] if isinstance(said, str) else list(said)
    return ", ".join(dict.fromkeys(out))


_DONE = ("minutes", "gauge", "psi", "headspace", "pack", "acid")
"""Boxes that say how a batch was done: they fold while nothing stands in them beside a recipe."""


def _first(ask: Ask, form: Form, names: tuple[str, ...], texts: dict[str, Any]) -> list[Component]:
    """Return fields; beside a batch, right below what came out, what it takes and costs."""
    out = []
    for name in names:
        if form.kind == "put_up" and name == "method":
            out.append(html.Div(id="batch-side", className="batch-side"))
            if texts.get("makes"):
                return [*out, _otherwise(ask, form, names, texts)]
        out.append(_field(ask, form, name, texts))
        if not texts.get(name) and form.is_parts(name):
            out.append(_last_things(ask, form, name))
        if name == "shop":
            out.append(shops(ask))
    return [one for one in out if one is not None]


def _otherwise(ask: Ask, form: Form, names: tuple[str, ...], texts: dict[str, Any]) -> Component:
    """Return the boxes of how it was done, folded while a recipe's process stands above them."""
    done = [_field(ask, form, one, texts) for one in names]
    return html.Details(
        [
            html.Summary(ask.words("batch.otherwise")),
            html.Div(done, className="fields fields-done"),
        ],
        className="otherwise",
        open=any(texts.get(one) for one in _DONE),
    )


def _last_things(ask: Ask, form: Form, name: str) -> Component | None:
    """Return what was written last in such a list: a tap puts it into the next empty line."""
    if name not in ("lines", "ate", "work"):
        return None
    chips = [
        html.Button(
            line, type="button", className="chip", disable_n_clicks=True,
            **{"data-fills": name, "data-text": line},
        )
        for line in recent_lines(ask.data, form.kind, name)
    ]  # fmt: skip
    label = ask.words("forms.last_things")
    return (
        html.Div(chips, className="strip", role="group", **{"aria-label": label}) if chips else None
    )


def _as_line(form: Form, texts: dict[str, Any]) -> dict[str, Any]:
    """Put an item and its amount together where the form takes them as one text."""
    if form.as_line and texts.get("item") and texts.get("amount"):
        return {**texts, form.as_line: f"{texts['amount']} {texts['item']}"}
    return texts


def _field(ask: Ask, form: Form, name: str, texts: dict[str, Any]) -> Component:
    said = texts.get(name) or []
    values = [said] if isinstance(said, str) else list(said)
    if form.is_parts(name) or name == form.as_line:
        return basket(ask, form, name, values, texts["beside"].get(name, []))
    return single(ask, form, name, values)


def _when(ask: Ask, on: str | None) -> Component:
    words = ask.words
    near = {ask.data.today().isoformat(): "today"}
    near[(ask.data.today() - dt.timedelta(days=1)).isoformat()] = "yesterday"
    when = "today" if on is None else near.get(on, "other")
    other = when == "other"
    return html.Div(
        [
            html.Div(words("forms.when"), id="when-label", className="box-label"),
            OneOf(
                id="form-when", value=when,
                options=[{"value": v, "label": words(f"forms.{v}")} for v in ("today", "yesterday", "other")],
                **{"aria-labelledby": "when-label"},
            ),
            html.Div(
                Box(
                    id=box_id("day", 0), value=on or "", label=words("forms.day"),
                    placeholder=words("examples.day"), autoComplete="off",
                ),
                id="form-other", hidden=not other,
            ),
        ],
        className="row",
    )  # fmt: skip
