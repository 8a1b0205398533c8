"""A batch's form in steps: what it is, what came out, how it was done, and who worked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.forms.batch import Beside
from dashboard.forms.process import HOW, process_rows
from dashboard.forms.specs import Form
from dashboard.parts.marks import icon

__all__ = ["steps_of"]

_BY_RECIPE = ("recipe", "times")

Draws = Callable[[str], list[Component]]
"""Draws one field of the form, with what stands below it."""


def steps_of(
    ask: Ask, form: Form, texts: Mapping[str, Any], beside: Beside, draws: Draws
) -> list[Component]:
    """Return the fields in sight as steps; one that is filled says so in a line and unfolds by a tap.

    Parameters
    ----------
    ask : Ask
    form : Form
    texts : mapping
        What stands in the boxes at first.
    beside : Beside
        What stands beside them at first; a callback says it anew as they change.
    draws : callable
    """
    steps, change = dict(form.steps), ask.words("batch.change")
    what = [field for name in steps["what"] if name not in _BY_RECIPE for field in draws(name)]
    recipe = html.Details(
        [
            html.Summary(ask.words("batch.by_recipe")),
            html.Div([field for name in _BY_RECIPE for field in draws(name)], className="fields"),
        ],
        open=any(texts.get(name) for name in _BY_RECIPE),
    )
    takes = html.Div(beside.takes, id="batch-takes")
    how = [field for name in HOW for field in draws(name)]
    return [
        html.Div(beside.danger, id="batch-danger"),
        _step(change, 1, "what", [*what, recipe], beside, is_done=bool(texts.get("makes"))),
        _step(change, 2, "out", [*draws("made"), takes], beside, is_done=bool(texts.get("made"))),
        _step(change, 3, "done", how, beside, is_done=bool(texts.get("method")), is_ticked=False),
        process_rows(ask, form, dict(texts), beside.printed.values, beside.printed.just),
        html.Div(beside.printed.note, id="batch-note"),
        html.Section(
            [html.H2(ask.words("batch.step_who")), *draws("work")[::-1]], className="sec who"
        ),
    ]


def _step(
    change: str, number: int, name: str, fields: list[Component], beside: Beside, *, is_done: bool,
    is_ticked: bool = True,
) -> Component:  # fmt: skip
    is_said = is_done and is_ticked
    head = [
        html.Span(icon("check") if is_said else str(number), className="no"),
        html.Span(beside.heads.get(name), id=f"batch-head-{name}"),
        html.Span(change, className="change"),
    ]
    return html.Details(
        [html.Summary(head), html.Div(fields, className=f"fields fields-{name}")],
        open=not is_done,
        className=f"step {'done' if is_said else ''} of-{name}".replace("  ", " "),
    )
