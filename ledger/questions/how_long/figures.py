"""The formulas of how-long: steps of a time without, stored water, and the published reserve lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, at_least_none, known_where, work
from ledger.questions.how_long.gather import RATES, Cold, Listed, StoredWater, steps_food
from ledger.questions.how_long.steps import Step

if TYPE_CHECKING:
    from ledger.questions.how_long.water import Water
    from ledger.replay import State

__all__ = ["freezer_full", "of_list", "of_steps", "of_water"]


def of_steps(state: State, steps: list[Step]) -> dict[str, Figure]:
    """Return every figure of steps by the name of its column; a row is a step."""
    food = steps_food(state, steps)
    days = {}
    for name, nutrient in (("energy_days", "energy_kcal"), ("protein_days", "protein_g")):
        there = food.there(nutrient).called("step", text=lambda row: steps[row].name)
        lasts = (there / food.need(nutrient)).called(name, unit="days")
        days[name] = known_where(food.is_known, lasts, "no-food", "days")
    is_shut, hours = state.once(Cold).hours(freezer_full(state), steps)
    return {
        "hours": known_where(is_shut, hours, "not-shut", "hours").called("shut"),
        "days": work("lowest", *days.values()).called("days"),
        **days,
        "kg": known_where(food.is_known, food.weight.called("kg"), "no-food", "kg"),
    }


def freezer_full(state: State) -> Figure:
    """Return which part of the freezer's room is filled, 0 to 1; NaN where its room is not set; shape (1,)."""
    cold = state.once(Cold)
    part = (cold.frozen / cold.packed).called("filled") / cold.feet
    full = work("lowest", part.called("filled"), cold.all_of_it).called("freezer-full")
    return known_where(cold.feet.values > 0, full, "no-freezer-room", "0 to 1")


def of_water(state: State, water: Water | None) -> Figure:
    """Return the days that stored water lasts, a row a use of `RATES`."""
    stored = StoredWater(state, water)
    a_day = (stored.people * stored.rate).called("litres-a-day", unit="litres")
    days = stored.litres.at(stored.every) / a_day
    return days.called("water-days", text=lambda row: RATES[row][0], unit="days")


def of_list(state: State, water: Water | None) -> tuple[list[str], dict[str, Figure]]:
    """Return the groups of the reserve lists, and every figure by the name of its column; a row is a group."""
    listed = Listed(state, water)
    wanted, wanted_10 = (
        (listed.people * listed.a_person(days)).called(f"wanted-{days}", unit=listed.unit)
        for days in (14, 10)
    )
    there = listed.there(listed.food.weight.called("in-the-house"))
    to_add = at_least_none((wanted - there).called("lacks"), "nothing-lacks").called("to-add")
    return listed.names, {
        "wanted_kg": wanted,
        "wanted_10_kg": wanted_10,
        "there_kg": there,
        "to_add_kg": to_add,
    }
