"""Beside a batch as it is typed: what it takes, jars and loads, its published process, its cost."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from dash import html

from dashboard.ask import Ask
from dashboard.forms.boxes import label_of
from dashboard.forms.reading import FieldTrouble, Typed, read_form
from dashboard.forms.specs import FORMS
from dashboard.parts import cautions, plain_table
from dashboard.words import Words
from ledger.door import Answers, Entry
from ledger.door.recipes import from_recipe, recipe_of
from ledger.door.texts import Texts
from ledger.errors import LedgerError
from ledger.kinds import CANNING
from ledger.projections import PROJECTIONS
from ledger.published import batch_as_typed, caution_before
from ledger.published.processes import Process
from ledger.questions.shared.plan import plan_of

__all__ = ["beside_batch"]

_COLUMNS = 1
"""Published processes in sight beside what was done; the others are folded."""


def beside_batch(ask: Ask, typed: Typed) -> list[Any]:
    """Return what stands beside a batch that is being typed; what cannot be said yet is left out."""
    book, words = ask.data.book, ask.words
    answers = Answers(yes=True)
    try:
        entry = read_form(typed, Texts(book.catalogue(), answers), ask.data.today())
        body = from_recipe(book.catalogue(), entry.body)
    except FieldTrouble as trouble:
        return [
            *_typed_caution(ask, typed),
            html.P(words.refusal(trouble.error), className="quiet"),
        ]
    except LedgerError as error:
        return [*_typed_caution(ask, typed), html.P(words.refusal(error), className="quiet")]
    out: list[Any] = []
    if body.get("makes"):
        out += _published(ask, body, entry.on)
    lines = _plan(ask, body) if body.get("used") or body.get("made") else []
    costs: list[str] = []
    if body.get("makes") and body.get("used") and body.get("made") and body.get("method"):
        costs = _cost(ask, Entry(entry.kind, body, on=entry.on, by=entry.by), answers)
    return [*_caution(ask, body), *out, *_takes(ask, lines, costs)]


def _typed_caution(ask: Ask, typed: Typed) -> list[Any]:
    """Return the caution from boxes that cannot be read as an entry yet."""
    boxes = [(name, text) for (name, _), text in sorted(typed.boxes.items()) if text]
    several = {name: [text for box, text in boxes if box == name] for name in _LISTS}
    return _caution(ask, {**dict(boxes), **several})


_LISTS = ("used", "made", "acid", "equipment")


def _caution(ask: Ask, said: Mapping[str, Any]) -> list[Any]:
    """Return the caution on food of little acid without a pressure process, which stands first."""
    return cautions(ask, caution_before(batch_as_typed(said)))


def _plan(ask: Ask, body: dict[str, Any]) -> list[str]:
    words, book = ask.words, ask.data.book
    try:
        plan = plan_of(book.state(), book.catalogue(), body)
    except (LedgerError, KeyError):
        return []
    lines = [
        words(
            "batch.need",
            amount=need.wanted,
            item=need.item,
            there=need.there or words("batch.nothing"),
        )
        for need in plan.needs
    ]
    for jar in plan.jars:
        lines.append(
            words(
                "batch.jars", n=jar.jars, jar=jar.jar, empty=jar.empty, lid=jar.lid, lids=jar.lids
            )
        )
        if jar.loads:
            lines.append(words("batch.loads", n=jar.loads, per=jar.per_load))
    return lines


def _takes(ask: Ask, lines: Sequence[str], costs: Sequence[str]) -> list[Any]:
    """Return what it takes and would cost: the cost of one in sight, the rest folded."""
    words = ask.words
    if not lines and not costs:
        return []
    head = [words("batch.takes"), html.Span(costs[0], className="quiet") if costs else None]
    inside = html.Ul([html.Li(line) for line in (*lines, *costs[1:])])
    return [html.Details([html.Summary(head), inside], className="takes")]


def _cost(ask: Ask, entry: Entry, answers: Answers) -> list[str]:
    """Return the cost per jar as the reckoning gives it, with the entry tried and not written."""
    words = ask.words
    try:
        written, state = ask.data.book.trial(entry, answers)
        answer = PROJECTIONS["jar-cost"].build(state, batch=written.event.id)
    except LedgerError as error:
        return [words.refusal(error)]
    lines = []
    for record in answer.records():
        least = words("batch.at_least") + " " if record["at_least"] else ""
        if record["jars"]:
            text = words(
                "batch.per_jar",
                money=least + words.money(record["cost_per_jar"]),
                jar=record["jar"],
            )
        else:
            text = words("batch.in_all", money=least + words.money(record["cost"]["all_in"]))
        if record["shop_price_per_quart"] is not None and record["cost_per_quart"] is not None:
            text += " " + words(
                "batch.shop", home=words.money(record["cost_per_quart"]),
                shop=words.money(record["shop_price_per_quart"]),
            )  # fmt: skip
        lines.append(text)
        if record["unpriced"]:
            lines.append(words("batch.unpriced", items=", ".join(record["unpriced"])))
    return lines


def _published(ask: Ask, body: dict[str, Any], on: str | None) -> list[Any]:
    """Return the published processes for what is typed so far; only for canning methods."""
    from ledger.published import altitude_ft, before_batch

    if body.get("method") not in (None, *CANNING):
        return []
    catalogue = ask.data.book.catalogue()
    recipe = recipe_of(catalogue, body.get("recipe") or body["makes"]) or {}
    jars = next((made for made in body.get("made", ()) if made.get("jars")), {})
    try:
        height = altitude_ft(body.get("altitude") or catalogue.setting("altitude", on))
        found = before_batch(
            body["makes"], jar=jars.get("jar"), pack=body.get("pack"), method=body.get("method"),
            gauge=body.get("gauge") or catalogue.setting("gauge", on), altitude_ft=height,
            jars=int(jars["jars"]) if jars else None,
            schedule=body.get("schedule") or recipe.get("schedule"),
        )  # fmt: skip
    except LedgerError as error:
        return [html.P(ask.words.refusal(error), className="quiet")]
    shown = found.processes[:_COLUMNS]
    lines = [] if shown else [found.match.text]
    lines += [text for text in found.questions[:3] if text != found.match.text]
    words = ask.words
    more = [
        *(words.said(one.text.replace(f"; {one.where}", "")) for one in found.processes),
        *(words("as_published.source", source=where) for where in dict.fromkeys(p.where for p in shown)),
    ]  # fmt: skip
    folded = html.Details(
        [html.Summary(words("batch.source")), html.Ul([html.Li(one) for one in more])]
    )
    return [
        _processes(ask, shown) if shown else None,
        html.Ul([html.Li(words.said(one)) for one in lines]) if lines else None,
        folded if more else None,
        html.P(words.said(found.caution), className="under small"),
    ]


def _processes(ask: Ask, shown: Sequence[Process]) -> Any:
    """Return published processes side by side, whole ones; one conscious tap says it was done just so."""
    words, form = ask.words, FORMS["put_up"]
    rows = [
        (name, texts)
        for name in ("minutes", "psi", "headspace", "acid")
        if any(texts := [_printed(words, one, name) for one in shown])
    ]
    body = [[label_of(ask, form, name), *(text or "–" for text in texts)] for name, texts in rows]
    heads = [words("batch.published"), *(_heading(words, one) for one in shown)]
    table = plain_table(
        heads, body, numeric=[False, *(True for _ in shown)], caption=words("batch.published"),
        keeps_columns=True,
    )  # fmt: skip
    return html.Div([table, *(_just_so(ask, one) for one in shown)])


def _heading(words: Words, one: Process) -> str:
    parts = [one.schedule.method, one.schedule.gauge, one.schedule.pack]
    return ", ".join(words.word("answers", part) for part in parts if part)


def _printed(words: Words, one: Process, name: str) -> str | None:
    """Return what a process prints for a field, as its box takes it."""
    if name == "acid":
        return words.said(one.acid) if one.acid else None
    value = {"minutes": one.minutes, "psi": one.psi}.get(name)
    return (
        f"{one.headspace_in} in" if name == "headspace" else None if value is None else str(value)
    )


def _just_so(ask: Ask, one: Process) -> Any:
    said = {
        "method": one.schedule.method,
        "gauge": one.schedule.gauge,
        "pack": one.schedule.pack,
        **{name: _printed(ask.words, one, name) for name in ("minutes", "psi", "headspace")},
    }
    return html.Button(
        ask.words("batch.just_so"), type="button", className="button quiet-button wide",
        disable_n_clicks=True, **{"data-just": json.dumps({k: v for k, v in said.items() if v})},
    )  # fmt: skip
