"""Beside a batch as it is typed: danger first, its published process, what it takes, its cost."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from dashboard.forms.heads import heads_of
from dashboard.forms.low_acid import low_acid_card
from dashboard.forms.process import Printed, in_danger, printed
from dashboard.forms.reading import FieldTrouble, Typed, read_form
from ledger.door import Answers, Entry
from ledger.door.recipes import from_recipe
from ledger.door.retyped import retyped
from ledger.door.texts import Texts
from ledger.errors import LedgerError
from ledger.projections import PROJECTIONS
from ledger.questions.shared.plan import plan_of

__all__ = ["Beside", "beside_batch"]


@dataclass
class Beside:
    """What stands beside a batch that is being typed, each in its place; what cannot be said yet is empty.

    Attributes
    ----------
    danger : list of components
        The card above everything.
    heads : dict
        What each step says in a line: ``what``, ``out``, ``done``.
    printed : Printed
        The published process, beside the boxes of what was done; or why they cannot be read yet.
    takes : list of components
        What it takes and would cost.
    """

    danger: list[Any] = field(default_factory=list)
    heads: dict[str, list[Any]] = field(default_factory=dict)
    printed: Printed = field(default_factory=Printed)
    takes: list[Any] = field(default_factory=list)


def beside_batch(ask: Ask, typed: Typed, *, costs: bool = True) -> Beside:
    """Return what stands beside a batch; `costs`: try the entry, and say what its jars would cost."""
    book, words = ask.data.book, ask.words
    answers = Answers(yes=True)
    try:
        entry = read_form(typed, Texts(book.catalogue(), answers), ask.data.today())
        body = from_recipe(book.catalogue(), entry.body)
    except (FieldTrouble, LedgerError) as trouble:
        error = trouble.error if isinstance(trouble, FieldTrouble) else trouble
        said = html.P(words.refusal(error), className="quiet")
        note = [said] if any(typed.boxes.values()) else []  # nothing typed: nothing is wrong yet
        heads = heads_of(ask, typed, {})
        return Beside(_typed_danger(ask, typed), heads, Printed(note=note))
    process = printed(ask, body, entry.on) if body.get("makes") else Printed()
    lines = _plan(ask, body) if body.get("used") or body.get("made") else []
    each, cost = "", []
    if costs and all(body.get(name) for name in ("makes", "used", "made", "method")):
        each, cost = _cost(ask, Entry(entry.kind, body, on=entry.on, by=entry.by), answers)
    heads = heads_of(ask, typed, body, each)
    danger = _danger(ask, body)
    return Beside(
        danger, heads, in_danger(process) if danger else process, _takes(ask, lines, cost)
    )


def _typed_danger(ask: Ask, typed: Typed) -> list[Any]:
    """Return the danger from boxes that cannot be read as an entry yet."""
    boxes = [(name, text) for (name, _), text in sorted(typed.boxes.items()) if text]
    several = {name: [text for box, text in boxes if box == name] for name in _LISTS}
    return _danger(ask, {**dict(boxes), **several})


_LISTS = ("used", "made", "acid", "equipment")


def _danger(ask: Ask, said: Mapping[str, Any]) -> list[Any]:
    """Return the card on food of little acid without a pressure process, with the remedies."""
    card = low_acid_card(ask, said, _ways(ask, said))
    return [] if card is None else [card]


def _ways(ask: Ask, said: Mapping[str, Any]) -> list[Component]:
    """Return the remedies, a tap each into the boxes: done anew under pressure, or kept cold."""
    ways = []
    if said.get("method") == "boiling water":
        ways.append(("batch.to_pressure", [["method", 0, "pressure"]]))
    made = [one for one in said.get("made", ()) if isinstance(one, Mapping)]
    if any(one.get("jars") for one in made):
        texts = retyped({"made": [{**one, "kept": "fridge"} for one in made]})["made"]
        ways.append(("batch.to_fridge", [["made", i, text] for i, text in enumerate(texts)]))
    return [
        html.Button(
            ask.words(key), type="button", className="button", disable_n_clicks=True,
            **{"data-just": json.dumps(sets)},
        )
        for key, sets in ways
    ]  # fmt: skip


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


def _cost(ask: Ask, entry: Entry, answers: Answers) -> tuple[str, list[str]]:
    """Return what a jar costs, in a word and in lines, as the reckoning gives it with the entry tried."""
    words = ask.words
    try:
        written, state = ask.data.book.trial(entry, answers)
        answer = PROJECTIONS["jar-cost"].build(state, batch=written.event.id)
    except LedgerError as error:
        return "", [words.refusal(error)]
    each, lines = "", []
    for record in answer.records():
        least = words("batch.at_least") + " " if record["at_least"] else ""
        if record["jars"]:
            money = least + words.money(record["cost_per_jar"])
            each = each or words("batch.each", money=money)
            text = words("batch.per_jar", money=money, jar=words.fixed(record["jar"]))
        else:
            text = words("batch.in_all", money=least + words.money(record["cost"]["all_in"]))
        lines.append(text)
        unit, key = (
            ("quart", "batch.shop") if words.measures == "us" else ("liter", "batch.shop_litre")
        )
        home, shop = record[f"cost_per_{unit}"], record[f"shop_price_per_{unit}"]
        if home is not None and shop is not None:
            lines.append(words(key, home=words.money(home), shop=words.money(shop)))
        if record["unpriced"]:
            lines.append(words("batch.unpriced", items=", ".join(record["unpriced"])))
    return each, lines
