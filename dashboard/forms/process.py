"""A batch's process: each published value beside the box of what was done, one whole process, never two mixed."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.forms.boxes import label_of, single
from dashboard.forms.specs import Form
from dashboard.parts.kitchen import kitchen
from dashboard.words import Words
from ledger.door.recipes import recipe_of
from ledger.errors import LedgerError
from ledger.kinds import CANNING
from ledger.published.before import Before
from ledger.published.processes import Process

__all__ = ["HOW", "ROWS", "Printed", "how_said", "in_danger", "printed", "process_rows"]

HOW = ("method", "gauge", "pack")
"""In what it was put up: said by the head of the process."""
ROWS = ("minutes", "psi", "headspace", "acid")
_STEPPED = ("minutes", "psi")
_IN = {"pressure": "batch.in_pressure", "boiling water": "batch.in_boiling_water"}


_ACIDS = {
    "lemon juice": "batch.lemon_juice",
    "citric acid": "batch.citric_acid",
    "vinegar 5%": "batch.vinegar",
}
_SPOONS = {"tbsp": "kitchen.tbsp_many", "tsp": "kitchen.tsp_many"}


@dataclass
class Printed:
    """A published process as the form shows it.

    Attributes
    ----------
    values : dict
        What is printed, by field: `ROWS`, and ``method`` where another one is printed than was said.
    just : list of components
        The tap that says it was done just so.
    note : list of components
        For what it is published, its source, other processes, what has to be known, the caution.
    """

    values: dict[str, Any] = field(default_factory=dict)
    just: list[Any] = field(default_factory=list)
    note: list[Any] = field(default_factory=list)


def in_danger(now: Printed) -> Printed:
    """Return what is shown of a process below a danger: only another method's, and nothing to be done just so.

    What went in is not what a process of the same method was printed for.
    """
    if "method" in now.values:
        return Printed(now.values, [], now.note)
    return Printed(note=now.note[-1:])


def how_said(ask: Ask, method: str | None) -> str:
    """Return the head of the process: in what it was put up, as far as that is said."""
    words = ask.words
    if not method:
        return words("batch.step_done")
    if method in _IN:
        return words(_IN[method])
    return words("batch.how", method=words.word("answers", method, "method"))


def printed(ask: Ask, body: Mapping[str, Any], on: str | None) -> Printed:
    """Return what is published for a batch as far as it is typed; only for canning methods."""
    method = body.get("method")
    if method not in (None, *CANNING):
        return Printed()
    words = ask.words
    try:
        found, where = _found(ask, body, on, method)
        others = found if found.processes or method is None else _found(ask, body, on, None)[0]
    except LedgerError as error:
        return Printed(note=[html.P(words.refusal(error), className="quiet")])
    is_other = not found.processes and bool(others.processes)
    plain = [one for one in others.processes if one.schedule.product not in others.recipes]
    shown = None if others.only_as else _nearest(plain or others.processes, body)
    lines = [] if shown else [others.only_as or found.match.text]
    lines += [text for text in found.questions[:3] if text != found.match.text]
    out = Printed()
    if shown is not None:
        out.values = {name: text for name in ROWS if (text := _value(words, shown, name))}
        if is_other:
            only = words.word("answers", shown.schedule.method)
            out.values["method"] = words("batch.only", method=only)
        else:
            out.just = [_just_so(ask, shown, words("batch.just_so"))]
        out.note.append(_sources(ask, shown, others, where, is_other=is_other))
    if lines:
        out.note.append(html.Ul([html.Li(words.said(one)) for one in lines], className="small"))
    out.note.append(html.P(words.said(found.caution), className="under small"))
    return out


def _found(ask: Ask, body: Mapping[str, Any], on: str | None, method: str | None) -> Any:
    """Return the published answer for a batch put up by a method, and the kitchen's altitude as it is written."""
    from ledger.published import altitude_ft, before_batch

    catalogue = ask.data.book.catalogue()
    recipe = recipe_of(catalogue, body.get("recipe") or body["makes"]) or {}
    jars = next((made for made in body.get("made", ()) if made.get("jars")), {})
    where = body.get("altitude") or catalogue.setting("altitude", on)
    found = before_batch(
        body["makes"], jar=jars.get("jar"), pack=body.get("pack"), method=method,
        gauge=body.get("gauge") or catalogue.setting("gauge", on),
        altitude_ft=altitude_ft(where), jars=int(jars["jars"]) if jars else None,
        schedule=body.get("schedule") or recipe.get("schedule"),
        done_with=" ; ".join((*(body.get("equipment") or ()), body.get("note") or "")),
    )  # fmt: skip
    return found, where


def _nearest(processes: Sequence[Process], body: Mapping[str, Any]) -> Process | None:
    """Return the process that has most of the minutes and the pressure that were done; else the first."""

    def met(one: Process) -> int:
        said = (body.get("psi"), body.get("minutes"))
        return sum(
            str(mine) == str(its) for mine, its in zip(said, (one.psi, one.minutes), strict=True)
        )

    return max(processes, key=met, default=None)


def _value(words: Words, one: Process, name: str) -> str | None:
    """Return what a process prints for a field, as it is read."""
    text = _typed(one, name)
    if name == "acid":
        return _acids(words, one)
    if name == "headspace" and text:
        mm = words.whole(float(one.headspace_in) * 25.4)
        inch = kitchen(text)
        return words("batch.inches_mm", inches=inch, mm=mm) if words.measures == "metric" else inch
    if name == "psi" and text and words.measures == "metric":
        return words("batch.psi_kpa", psi=text, kpa=words.whole(float(text) * 6.894757))
    return text


def _acids(words: Words, one: Process) -> str | None:
    """Return the acids of which any one goes into each jar, as a kitchen measures them."""
    from ledger.published.words import number

    if not one.schedule.acids:
        return None
    if any(acid not in _ACIDS or unit not in _SPOONS for acid, _, unit in one.schedule.acids):
        return kitchen(words.said(one.acid or ""))
    said = []
    for acid, amount, unit in one.schedule.acids:
        text = str(amount) if amount.denominator in (1, 2, 4, 8) else number(amount)
        said.append(words(_ACIDS[acid], amount=words(_SPOONS[unit], n=kitchen(text))))
    return f" {words('batch.or')} ".join(said)


def _typed(one: Process, name: str) -> str | None:
    """Return what a process prints for a field, as its box takes it."""
    from ledger.published.words import inches

    if name == "headspace":
        return inches(one.headspace_in)
    value = {"minutes": one.minutes, "psi": one.psi}.get(name)
    return None if value is None else str(value)


def _just_so(ask: Ask, one: Process, text: str) -> Component:
    """Return the one conscious tap that says a batch was done as a process is printed."""
    line = one.schedule
    said = {"method": line.method, "gauge": line.gauge, "pack": line.pack}
    said |= {name: _typed(one, name) for name in ("minutes", "psi", "headspace")}
    sets = [[name, 0, value] for name, value in said.items() if value]
    return html.Button(
        text, type="button", className="button quiet-button", disable_n_clicks=True,
        **{"data-just": json.dumps(sets)},
    )  # fmt: skip


def _sources(
    ask: Ask, shown: Process, found: Before, where: str | None, *, is_other: bool
) -> Component:
    """Return for what the process is published; unfolded, its source and each other whole process."""
    from ledger.published.words import label, without

    words, line = ask.words, shown.schedule
    parts = [line.jar, line.pack, f"{line.gauge} gauge" if line.gauge else None]
    head = words(
        "batch.printed_for", what=words.said(label(line.product)),
        how=", ".join(words.said(part) for part in parts if part), altitude=where or "",
    )  # fmt: skip
    is_several = len({one.schedule.product for one in found.processes}) > 1
    others = [
        html.Li(
            [
                f"{words.said(label(one.schedule.product))}: " if is_several else None,
                words.said(without(found.said(one), "source")),
                None if is_other else _just_so(ask, one, words("batch.this_one")),
            ]
        )
        for one in found.processes
        if one is not shown
    ]
    inside = [
        html.P(words("as_published.source", source=shown.where)),
        html.P(words("batch.others")) if others else None,
        html.Ul(others, className="others") if others else None,
    ]
    return html.Details([html.Summary(head), *inside], className="printed-for small")


def process_rows(
    ask: Ask, form: Form, texts: dict[str, Any], values: Mapping[str, Any], just: Any
) -> Component:
    """Return the boxes of what was done, each beside what is printed; nothing stands in them by itself."""
    words = ask.words
    head = html.Div(
        [
            html.Span(words("batch.published"), className="quiet small pub"),
            html.Div(just, id="batch-just"),
        ],
        className="proc-row proc-head",
    )
    how = html.Div(
        [
            html.Span(label_of(ask, form, "method"), className="what"),
            html.Span(values.get("method"), id="batch-pub-method", className="pub"),
        ],
        className="proc-row of-method",
    )
    rows = [_row(ask, form, name, texts, values.get(name)) for name in ROWS]
    return html.Div([head, how, *rows], className="proc")


def _row(ask: Ask, form: Form, name: str, texts: dict[str, Any], value: Any) -> Component:
    said = texts.get(name) or []
    box = single(ask, form, name, [said] if isinstance(said, str) else list(said))
    steps = [_step(ask, form, name, -1), box, _step(ask, form, name, 1)]
    return html.Div(
        [
            html.Span(label_of(ask, form, name), className="what", **{"aria-hidden": "true"}),
            html.Span(value, id=f"batch-pub-{name}", className="pub"),
            html.Div(steps if name in _STEPPED else box, className="mine"),
        ],
        className=f"proc-row of-{name}",
    )


def _step(ask: Ask, form: Form, name: str, by: int) -> Component:
    key = "batch.one_more" if by > 0 else "batch.one_less"
    return html.Button(
        html.I(className=f"ic ic-{'plus' if by > 0 else 'minus'}", **{"aria-hidden": "true"}),
        type="button", className="by", disable_n_clicks=True,
        **{
            "aria-label": ask.words(key, what=label_of(ask, form, name)),
            "data-steps": json.dumps([name, 0, by]),
        },
    )  # fmt: skip
