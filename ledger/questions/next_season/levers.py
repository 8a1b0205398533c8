"""What can be wanted otherwise: each thing wanted a year as one number in the unit it is said in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from ledger.amounts import parse_amount

if TYPE_CHECKING:
    from ledger.questions.planning.plan import CropPlan, Plan
    from ledger.questions.planning.wants import Want

__all__ = ["levers"]

_UNITS = {
    "mass": {"metric": "kg", "": "lb"},
    "volume": {"metric": "L", "": "qt"},
    "count": {"": "piece"},
}


def levers(plan: Plan) -> dict[str, dict[str, Any]]:
    """Return what is wanted a year, by item: made things first, then crops, the most first.

    Parameters
    ----------
    plan : Plan

    Returns
    -------
    dict
        ``number`` and ``unit``: together an amount that ``want`` takes for the item; a crop's is all
        that is wanted of it, what goes into made things included (trimmed). ``source``: target, use
        or asked; ``sort``: made or crop. Items without an amount are left out.
    """
    out = {}
    for want in _made(plan):
        name = plan.state.facts.names[want.item]
        out[name] = _lever(plan, want.item, want.whole[1], want.source, "made")
    for crop in plan.crops:
        whole = _in_all(plan, crop)
        if whole:
            source = "use" if crop.target is None else crop.target.source
            out[crop.name] = _lever(plan, crop.item, whole, source, "crop")
    return {name: lever for name, lever in out.items() if lever is not None}


def _made(plan: Plan) -> Iterator[Want]:
    """Yield what the crops go into, each once, what takes most of one crop first."""
    takes: dict[int, float] = {}
    wants: dict[int, Want] = {}
    for crop in plan.crops:
        per = plan.state.facts.grams_per_whole(crop.item) or 0.0
        for want, whole in crop.products:
            wants[want.item] = want
            takes[want.item] = takes.get(want.item, 0.0) + whole * per
    crops = {crop.item for crop in plan.crops}
    for item in sorted(wants, key=lambda i: (plan.jars_of(wants[i]) is None, -takes[i], i)):
        if item not in crops:
            yield wants[item]


def _in_all(plan: Plan, crop: CropPlan) -> float | None:
    """Return how much of a crop is wanted, trimmed, in whole units."""
    per = plan.state.facts.grams_per_whole(crop.item)
    return None if per is None or crop.wanted is None else crop.wanted * crop.kept / per


def _lever(
    plan: Plan, item: int, whole: float, source: str, sort: str
) -> dict[str, Any] | None:  # fmt: skip
    facts, made = plan.state.facts, plan.recipes.made.get(item)
    measure = facts.measure[item]
    if sort == "made" and made is not None and made.per_jar and made.jar is not None:
        jar = facts.names[made.jar]
        return {"number": whole / made.per_jar, "unit": jar, "source": source, "sort": sort}
    measures = plan.state.settings.newest("measures", "us") or "us"
    units = _UNITS.get(measure)
    if units is None:
        return None
    unit = units.get(measures, units[""])
    one = parse_amount(f"1 {unit}", measures=measures).whole
    return {"number": whole / one, "unit": unit, "source": source, "sort": sort}
