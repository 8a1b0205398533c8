"""What was said of plants at earlier moments, each asked at its own `known_at`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.questions.ahead.kept import Kept, Said
from ledger.questions.ahead.said import asked, state_at
from ledger.questions.planning.plan import CropPlan
from ledger.questions.shared.usual_plan import usual_plan

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["plants_said"]


def plants_said(state: State, moments: list[tuple[int, int]]) -> list[Said]:
    """Return what was said at some moments, with what was said of plants."""
    kept = Kept.of(state)
    out = asked(state, moments)
    for said in out:
        if said.plants is None:
            said.plants = _plants(state_at(state, said.day, said.known, None))
            kept.put(said)
    kept.save()
    return out


def _plants(then: State) -> list[dict[str, Any]]:
    """Return what the plain question says of each crop, with the season that it is of."""
    plan = usual_plan(then)
    return [{"season": plan.garden.next, **_of_crop(crop)} for crop in plan.crops]


def _of_crop(crop: CropPlan) -> dict[str, Any]:
    ahead, in_plants = crop.growth.ahead, crop.growth.size == "plants"
    return {
        "crop": crop.name,
        "needed_g.likely": crop.wanted,
        "yield_g.low": ahead.missed_once_in_ten(crop.spread) if ahead else None,
        "yield_g.likely": ahead.likely if ahead else None,
        "yield_of": crop.unit if ahead else None,
        "plants.likely": crop.likely if in_plants else None,
        "plants.nine_in_ten": crop.nine if in_plants else None,
        "plants.planned": crop.placed_plants,
        "chance_short": crop.chance_short,
    }
