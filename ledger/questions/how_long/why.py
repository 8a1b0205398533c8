"""Why a figure of how-long says so: lots by kilogram and nutrient, water, and who was described."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import Code, Message, Names, Typed, fixed, sentence
from ledger.projections.base import Node
from ledger.questions.how_long import listed as how_long_list
from ledger.questions.how_long.steps import PROTEIN, RATES, Step, steps_of
from ledger.questions.how_long.water import Water, water_at
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import no_record
from ledger.questions.shared.reserve import Kept
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure as a tree down to lots and people.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    without, _, name = key.partition("/")
    if without == "list":
        return how_long_list.why(state, name, field)
    figure = field or "days"
    if without.partition("=")[0] == "water":
        return _why_water(state, water_at(state, without), name)
    step = next((one for one in steps_of(state, (without,)) if one.name == name), None)
    if step is None or without not in ("shop", "power"):
        raise no_record("how-long", key)
    figures = {"hours", "days", "energy_days", "protein_days", "kg"}
    if figure not in figures:
        raise NotFound(
            "figure",
            Message.of(
                "refusal-no-figure-of",
                text=Typed(figure),
                names=Names(tuple(sorted(figures))),
                question=Code("how-long"),
            ),
        )
    return _tree(state, step, figure)


def _tree(state: State, step: Step, figure: str) -> Node:
    eaters = eaters_of(state)
    if figure == "hours":
        return Node(sentence("reserve-shut-published"), step.hours, "hours")
    if figure == "kg":
        grams = [k for k in step.food if not math.isnan(k.portion.grams)]
        nodes = [_lot(state, k, k.portion.grams / 1000, "kg") for k in grams]
        return total(fixed(step.name), "kg", *nodes)
    days = {}
    for name, id_, n in (
        ("energy_days", "reserve-energy-days", 0),
        ("protein_days", "reserve-protein-days", PROTEIN),
    ):
        unit = "kcal of energy" if n == 0 else "g of protein"
        nodes = [
            _lot(state, k, float(k.portion.nutrients[n]), unit)
            for k in step.food
            if k.portion.nutrients[n]
        ]
        days[name] = quotient(
            sentence(id_),
            "days",
            total(fixed(step.name), unit, *nodes),
            eaters.node(NUTRIENTS[n]),
        )
    if figure != "days":
        return days[figure]
    known = [node for node in days.values() if node.value is not None]
    if not known:
        return Node(sentence("reserve-days"), None, "days")
    return Node(
        sentence("reserve-days"),
        min(float(node.value or 0.0) for node in known),
        "days",
        "lowest",
        known,
    )


def _lot(state: State, kept: Kept, value: float, unit: str) -> Node:
    p = kept.portion
    label = sentence("reserve-lot", name=state.facts.names[p.item], n=round(p.grams))
    return event_node(state, int(state.lots["ev"][p.lot]), label, value, unit)


def _why_water(state: State, stored: Water | None, name: str) -> Node:
    found = next(((rate, said) for step, rate, said in RATES if step == name), None)
    if found is None:
        raise no_record("how-long", name)
    if stored is None:
        return Node(sentence("reserve-water-stored"), None, "days")
    rate = product(
        sentence("reserve-litres-day"),
        "litres",
        Node(sentence("reserve-people"), eaters_of(state).count, "people"),
        Node(sentence(found[1]), found[0], "litres"),
    )
    return quotient(name, "days", stored.node(state), rate)
