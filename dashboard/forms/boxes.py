"""The boxes of a form, made from the descriptions of a kind's fields."""

from __future__ import annotations

from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.forms.remembered import remembered
from dashboard.forms.specs import Form
from dashboard.forms.understanding import understood
from dashboard.parts.alive import Box, Choice, Lines, Spare
from dashboard.words import Words

__all__ = ["basket", "box", "box_id", "example", "label_of", "single"]

_NUMBERS = ("money", "decimal")


def box_id(field: str, row: int) -> dict[str, Any]:
    """Return the id of a box; keys in the order in which the browser spells them."""
    return {"field": field, "part": "box", "row": row}


def spare_id(field: str, row: int) -> dict[str, Any]:
    """Return the id of a line that waits until it is wanted."""
    return {"field": field, "part": "line", "row": row}


def said_id(field: str, row: int) -> dict[str, Any]:
    """Return the id of what stands below a box: how its text was understood."""
    return {"field": field, "part": "said", "row": row}


def box(ask: Ask, form: Form, name: str, row: int, value: str = "", **more: Any) -> Component:
    """Return one box with its label, help and the keypad that it wants."""
    words, described = ask.words, form.named(name)
    label = label_of(ask, form, name)
    common: dict[str, Any] = {"id": box_id(name, row), "label": label, **more}
    if described.choices:
        choices = [
            {"value": one, "label": words.word("answers", one, name)} for one in described.choices
        ]
        return Choice(options=choices, value=value or None, empty=words("forms.choose"), **common)
    if described.kind == "note":
        return Lines(value=value, rows=2, **common)
    keypad = (
        "decimal"
        if described.kind in _NUMBERS
        else "numeric"
        if described.kind == "whole"
        else None
    )
    return Box(
        value=value, placeholder=example(ask.words, form.kind, name) or " ", inputMode=keypad, autoComplete="off",
        offers=remembered(ask.data, form.kind, described) or None, **common,
    )  # fmt: skip


def label_of(ask: Ask, form: Form, name: str) -> str:
    """Return what a field is called."""
    for key in (f"fields.{form.kind}.{name}", f"fields.any.{name}"):
        if ask.words.has(key):
            return ask.words(key)
    return name.replace("_", " ").capitalize()


def example(words: Words, kind: str, name: str) -> str:
    """Return what could stand in a field, of its kind of entry where that has one of its own."""
    keys = (f"examples.{kind}.{name}", f"examples.{name}")
    return next((words(key) for key in keys if words.has(key)), "")


def single(ask: Ask, form: Form, name: str, values: list[str]) -> Component:
    """Return a field that is not a list of lines: one box, or a few where it may come more than once."""
    rows = form.rows(name)
    if rows == 1:
        return box(ask, form, name, 0, values[0] if values else "")
    return _several(ask, form, name, rows, values, [], ())


def basket(
    ask: Ask, form: Form, name: str, values: list[str], beside: list[dict[str, str]],
    *, least: int = 1, another: str = "",
) -> Component:  # fmt: skip
    """Return a list of lines, each with what was understood and what stands beside it.

    `least` lines are there at first, `another` is what the button to the next one says.
    """
    in_row = form.in_row if name == "lines" else ("labels", "unsealed") if name == "made" else ()
    return _several(
        ask, form, name, form.rows(name), values, beside, in_row, least=least, another=another
    )


def _several(
    ask: Ask, form: Form, name: str, rows: int, values: list[str], beside: list[dict[str, str]],
    in_row: tuple[str, ...], *, least: int = 1, another: str = "",
) -> Component:  # fmt: skip
    shown = max(least, len(values))
    rows = max(rows, shown)
    lines = [
        _row(ask, form, name, i, values[i] if i < len(values) else "",
             beside[i] if i < len(beside) else {}, in_row, hidden=i >= shown)
        for i in range(rows)
    ]  # fmt: skip
    group = f"rows-{name}"
    button = html.Button(
        another or ask.words("forms.another", what=label_of(ask, form, name)), type="button",
        className="button plain", disable_n_clicks=True, **{"data-next": group},
    )  # fmt: skip
    return html.Div(
        [html.Div(lines, id=group, className="rows"), button if rows > shown else None],
        className="row",
    )


def _row(
    ask: Ask, form: Form, name: str, row: int, value: str, beside: dict[str, str],
    in_row: tuple[str, ...], *, hidden: bool,
) -> Component:  # fmt: skip
    label = label_of(ask, form, name)
    numbered = label if row == 0 else f"{label} {row + 1}"
    children: list[Any] = [
        box(ask, form, name, row, value, **{"label": numbered}),
        html.Div(
            understood(ask, form.kind, value, box_id(name, row)) if value else None,
            id=said_id(name, row), className="said", **{"aria-live": "polite"},
        ),
    ]  # fmt: skip
    here = [one for one in in_row if name == "lines" or one in ("labels", "unsealed")]
    if name == "lines":
        children += [box(ask, form, one, row, beside.get(one, "")) for one in here]
        if form.beside:
            inside = [box(ask, form, one, row, beside.get(one, "")) for one in form.beside]
            is_open = any(beside.get(one) for one in form.beside)
            children.append(
                html.Details([html.Summary(ask.words("forms.more_line")), *inside], open=is_open)
            )
    elif here:
        inside = [box(ask, form, one, row, beside.get(one, "")) for one in here]
        is_open = any(beside.get(one) for one in here)
        children.append(
            html.Details([html.Summary(ask.words("forms.labels")), *inside], open=is_open)
        )
    if hidden:
        return Spare(children=children, id=spare_id(name, row))
    return html.Div(children, className="row")
