"""The steps of a time without: what is eaten first, and how long the cold lasts."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from ledger.messages import sentence
from ledger.questions.shared.reserve import Kept, kept_food

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Step", "freezer_feet", "steps_of"]

LITRES_A_FOOT = 28.316846592
"""Litres in a cubic foot (NIST SP 811)."""


@dataclass(frozen=True)
class Step:
    """One step: its name, the food of it, and whether the answer says how long it keeps cold."""

    name: str
    food: list[Kept]
    is_shut: bool = False


def steps_of(state: State, wanted: tuple[str, ...]) -> list[Step]:
    """Return what helps without the shop, power or water that are wanted."""
    if not {"shop", "power"} & set(wanted):
        return []
    food = kept_food(state)
    warm = [one for one in food if not one.is_cold]
    cold = [
        Step(place, [k for k in food if k.place == place], "power" in wanted)
        for place in ("fridge", "freezer")
    ]
    if "power" in wanted:
        ready = [one for one in warm if not one.needs_stove]
        return [
            *cold,
            Step(sentence("reserve-without-stove-cold"), ready),
            Step(sentence("reserve-all-stands-without-cold"), warm),
        ]
    return [*cold, Step(sentence("reserve-shelf-cellar"), warm), Step("all", food)]


def freezer_feet(text: str | None) -> float | None:
    """Return the room of a freezer in cubic feet: of ``15 cu ft`` or ``420 L``; None where not set."""
    found = re.match(r"\s*(\d+(?:\.\d+)?)\s*(\w)", text or "")
    if found is None:
        return None
    return float(found[1]) / (LITRES_A_FOOT if found[2].lower() == "l" else 1.0)
