"""The steps of a time without: what is eaten first, and how long the cold lasts."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.methods.cover import FRIDGE_HOURS, US_GALLON_L, freezer_hours
from ledger.questions.shared.reserve import Kept, kept_food
from ledger.reference import winter
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["PROTEIN", "RATES", "Step", "freezer_feet", "freezer_full", "steps_of"]

LITRES_A_FOOT = 28.316846592
"""Litres in a cubic foot (NIST SP 811)."""
PROTEIN = NUTRIENTS.index("protein_g")


@dataclass(frozen=True)
class Step:
    """One step: its name and the food of it."""

    name: str
    food: list[Kept]
    hours: float | None = None


def steps_of(state: State, wanted: tuple[str, ...]) -> list[Step]:
    """Return what helps without the shop, power or water that are wanted."""
    if not {"shop", "power"} & set(wanted):
        return []
    food = kept_food(state)
    warm = [one for one in food if not one.is_cold]
    cold = [
        Step("fridge", [k for k in food if k.place == "fridge"], FRIDGE_HOURS),
        Step(
            "freezer",
            [k for k in food if k.place == "freezer"],
            freezer_hours(freezer_full(state)),
        ),
    ]
    if "power" in wanted:
        ready = [one for one in warm if not one.needs_stove]
        return [
            *cold,
            Step(sentence("reserve-without-stove-cold"), ready),
            Step(sentence("reserve-all-stands-without-cold"), warm),
        ]
    plain = [Step(step.name, step.food) for step in cold]
    return [*plain, Step(sentence("reserve-shelf-cellar"), warm), Step("all", food)]


def freezer_feet(text: str | None) -> float | None:
    """Return the room of a freezer in cubic feet: of ``15 cu ft`` or ``420 L``; None where not set."""
    found = re.match(r"\s*(\d+(?:\.\d+)?)\s*(\w)", text or "")
    if found is None:
        return None
    return float(found[1]) / (LITRES_A_FOOT if found[2].lower() == "l" else 1.0)


def freezer_full(state: State) -> float | None:
    """Return which part of the freezer's room is filled; None where its room is not set."""
    feet = freezer_feet(state.settings.newest("freezer_room"))
    if not feet:
        return None
    per = winter.figure("glut", "freezer_room", "food in one cubic foot").middle
    frozen = [k.portion.grams for k in kept_food(state) if k.place == "freezer"]
    grams = math.fsum(one for one in frozen if not math.isnan(one))
    return min(grams / 453.59237 / per / feet, 1.0)


RATES = (
    ("water to drink and cook", 2.0, "reserve-litres-german"),
    ("water to drink and wash", US_GALLON_L, "reserve-gallon-us"),
)
