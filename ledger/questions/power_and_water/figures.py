"""The formulas of power and water: each gives the column for all canning batches, and the tree for one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, at_least_none, choose, if_known, known_where
from ledger.questions.power_and_water.gather import Loads

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["figures"]


def figures(state: State) -> dict[str, Figure]:
    """Return every figure by the name of its column; a row is a batch."""
    of = state.once(Loads)
    heat, loads = of.heat.called("kwh"), of.loads.called("loads")
    every, lost = of.jars()
    jars = every.called("jars")
    good = (jars - lost.called("bad")).called("good_jars")
    water = known_where(of.has_water, of.water.called("water_l"), "water-not-read")
    each, full = heat / jars, heat / of.capacity().called("capacity")
    saves = each.called("a-jar", unit="kWh a jar") - full.called("a-full-jar", unit="kWh a jar")
    most = at_least_none(saves.called("saved"), "loads-full")
    return {
        "kwh_per_good_jar": _per(heat, good, "kwh_per_good_jar", "kWh a jar"),
        "kwh": heat,
        "loads": loads,
        "water_l_low": choose(of.has_water, water, of.usual_water("low").called("usual-water")),
        "water_l_high": choose(of.has_water, water, of.usual_water("high").called("usual-water")),
        "good_jars": good,
        "jars": jars,
        "full_load_saves": if_known(most.called("full_load_saves"), "no-capacity"),
        "water_l": water,
        "water_per_good_jar": known_where(
            of.has_water, _per(water, good, "water_per_good_jar", "L of water"), "water-not-read"
        ),
    }


def _per(amount: Figure, good: Figure, label: str, unit: str) -> Figure:
    return known_where(
        good.values > 0, (amount / good).called(label, unit=unit), "no-good-jar", unit
    )
