"""A form as a whole: what is in sight, what waits behind `more`, when it was, and who writes."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.forms.batch import beside_batch
from dashboard.forms.bill import bill_says, bill_sum, shops
from dashboard.forms.boxes import basket, box_id, single
from dashboard.forms.reading import Typed
from dashboard.forms.specs import FORMS, Form
from dashboard.forms.steps import steps_of
from dashboard.forms.understanding import recent_lines
from dashboard.parts.alive import Box, OneOf
from dashboard.parts.kitchen import spooned
from dashboard.words import Words
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
    when, when_is_said = _when(ask, on), on is not None and on != ask.data.today().isoformat()
    by_recipe = () if replaces else ("schedule",)
    is_open = any(texts.get(name) for name in form.more if name not in by_recipe)
    children: list[Any] = [
        dcc.Store(id="form-kind", data=kind),
        dcc.Store(id="form-id", data=str(uuid.uuid4())),
        dcc.Store(id="form-replaces", data=replaces),
        dcc.Store(id="form-accepted", data=[]),
        dcc.Store(id="form-rested", data=0),
        bill_says(ask) if kind == "bought" else None,
        *(_steps(ask, form, texts, on) if form.steps else _first(ask, form, form.first, texts)),
        bill_sum(ask) if kind == "bought" else None,
        *(
            [_fold(words("batch.more"), [when, *more, by], is_open=is_open or when_is_said)]
            if form.steps
            else [when, _fold(words("forms.more"), more, is_open=is_open) if more else None, by]
        ),
        html.Div(
            [
                html.Div(id="form-said", role="status"),
                html.Button(
                    _writes(words, "forms.correct" if replaces else "forms.write", form),
                    id="form-write", type="button", className="button wide", n_clicks=0,
                ),
            ],
            className="stick",
        ),
    ]  # fmt: skip
    return html.Div(children, className=f"form of-{kind}")


def _fold(title: str, inside: list[Component], *, is_open: bool) -> Component:
    return html.Details([html.Summary(title), html.Div(inside, className="rows")], open=is_open)


def _writes(words: Words, key: str, form: Form) -> Any:
    """Return what the button says; a batch in danger is written down marked (croft.css shows which)."""
    if not form.steps:
        return words(key)
    return [
        html.Span(words(key), className="as-usual"),
        html.Span(words("batch.write_marked"), className="as-danger"),
    ]


def _steps(ask: Ask, form: Form, texts: dict[str, Any], on: str | None) -> list[Component]:
    """Return a batch's steps, with what stands beside them as they begin; its cost follows."""
    boxes: dict[tuple[str, int], str] = {}
    for name, said in texts.items():
        if name != "beside":
            several = [said] if isinstance(said, str) else said
            boxes |= {(name, row): text for row, text in enumerate(several)}
    boxes |= {
        (name, row): text
        for lines in texts["beside"].values()
        for row, beside in enumerate(lines)
        for name, text in beside.items()
    }
    beside = beside_batch(ask, Typed(form.kind, day=on, boxes=boxes), costs=False)
    return steps_of(ask, form, texts, beside, lambda name: _first(ask, form, (name,), texts))


def _first(ask: Ask, form: Form, names: tuple[str, ...], texts: dict[str, Any]) -> list[Component]:
    """Return fields, each with what is offered for it."""
    out = []
    for name in names:
        offered = None
        if not texts.get(name) and form.is_parts(name):
            offered = _last_things(ask, form, name)
        out += [_field(ask, form, name, texts, is_offered=offered is not None), offered]
        if name == "shop":
            out.append(shops(ask))
    return [one for one in out if one is not None]


def _last_things(ask: Ask, form: Form, name: str) -> Component | None:
    """Return what was written last in such a list: a tap puts it into the next empty line."""
    if name not in ("lines", "ate", "work"):
        return None
    chips = [
        html.Button(
            spooned(ask.words, line), type="button", className="chip", disable_n_clicks=True,
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


def _field(
    ask: Ask, form: Form, name: str, texts: dict[str, Any], *, is_offered: bool = False
) -> Component:
    said = texts.get(name) or []
    values = [said] if isinstance(said, str) else list(said)
    if form.is_parts(name) or name == form.as_line:
        beside, more = texts["beside"].get(name, []), {}
        if form.steps and name == "work":  # a tap on who worked last makes the line
            more = {"least": 0 if is_offered else 1, "another": ask.words("batch.someone")}
        return basket(ask, form, name, values, beside, **more)
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
