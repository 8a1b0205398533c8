"""Why a figure of how-long says so: the tree of its formula at one step, use of water, or group."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Figure, Node
from ledger.messages import Message, Typed
from ledger.questions.food.labels import LABELS as FOOD_LABELS
from ledger.questions.how_long.figures import of_list, of_steps, of_water
from ledger.questions.how_long.gather import RATES
from ledger.questions.how_long.steps import steps_of
from ledger.questions.how_long.water import water_at
from ledger.questions.shared.opening import no_record, opened
from ledger.questions.who_eats.needed import LABELS as NEED_LABELS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **FOOD_LABELS,
    **NEED_LABELS,
    "step": "why-text",
    "days": "reserve-days",
    "energy_days": "reserve-energy-days",
    "protein_days": "reserve-protein-days",
    "kg": "why-mass-g",
    "lot-weight": "why-item",
    "grams-a-kilogram": "why-g-per-kg",
    "no-food": "reserve-no-food",
    "shut": "reserve-shut-published",
    "not-shut": "reserve-not-shut",
    "freezer-full": "reserve-freezer-full",
    "freezer-room": "reserve-freezer-room",
    "no-freezer-room": "reserve-no-freezer-room",
    "filled": "reserve-filled",
    "packed": "reserve-packed",
    "frozen": "reserve-frozen",
    "kilograms-a-pound": "why-kilograms-a-pound",
    "water-days": "why-text",
    "litres-a-day": "reserve-litres-day",
    "rate": "why-text",
    "stored": "reserve-water-stored",
    "water-asked": "reserve-water-as-asked",
    "water-not-written-down": "reserve-not-written-down",
    "ul-a-litre": "why-per-litre",
    "a-person-14": "reserve-person-days-published",
    "a-person-10": "reserve-person-days-second-hand",
    "wanted-14": "reserve-wanted-days",
    "wanted-10": "reserve-wanted-days-2",
    "in-the-house": "reserve-house",
    "lacks": "reserve-lacks",
    "nothing-lacks": "reserve-nothing-lacks",
    "to-add": "reserve-add",
}
"""Ids of messages by the id of a label."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree down to lots and people.

    Parameters
    ----------
    key : str
        ``shop/all``, ``power/fridge``, ``water=120.0/water to drink and cook``, ``list/fruit, nuts``.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    without, _, name = key.partition("/")
    figures: dict[str, Figure]
    if without == "list":
        names, figures = of_list(state, water_at(state, name))
        name, default = name.partition("=")[0], "to_add_kg"
        if name not in names:
            raise NotFound("address", Message.of("refusal-no-group-of-how-long", text=Typed(name)))
    elif without.partition("=")[0] == "water":
        names, default = [name for name, *_ in RATES], "days"
        figures = {"days": of_water(state, water_at(state, without))}
    else:
        steps = steps_of(state, (without,)) if without in ("shop", "power") else []
        names, default = [step.name for step in steps], "days"
        figures = of_steps(state, steps)
    if name not in names:
        raise no_record("how-long", key)
    figure = field or default
    return opened(state, "how-long", (figures, figure), names.index(name), LABELS, deep)
