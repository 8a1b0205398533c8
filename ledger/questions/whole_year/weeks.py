"""The year's plan week by week: what is planted, picked, put up, eaten and bought, and what the week lacks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Choice, fixed, joined, sentence
from ledger.messages import measured as digits
from ledger.methods.year_plan import WEEKS
from ledger.projections.base import Column, Node
from ledger.questions.quantities import measured
from ledger.questions.shared.arithmetic import product, total
from ledger.questions.whole_year.lines import SPREAD, lines_of, spread_of
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS

if TYPE_CHECKING:
    from ledger.methods.year_plan import YearPlan
    from ledger.questions.whole_year.house import Asked, Household
    from ledger.replay import State

__all__ = ["COLUMNS", "trees_of", "weeks_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday; weeks before the first picking only where something is planted.", main=True),
    Column("plant", "Sow or\nset out", "", "Crops whose week it is, with their ground; null where none.", main=True),
    Column("picked_kg", "Picked", "kg", "What the beds, trees and hens bring, at the chance chosen."),
    Column("fresh", "Fresh", "", "What is eaten as it is, with its kilograms; null where nothing.", main=True),
    Column("put_up", "Put up", "", "Jars or kilograms of each; null where nothing.", main=True),
    Column("loads", "Loads", "loads", "Canner loads."),
    Column("hours", "Hours", "hours", "Hands' hours of picking and putting up.", main=True),
    Column("eat_put_up", "Of the store", "", "What is eaten of what was put up; null where nothing.", main=True),
    Column("pantry_kg", "Pantry", "kg", "Eaten of what is on the shelf today."),
    Column("bought_kg", "Bought", "kg", "Of the shop."),
    Column("money", "Money", "money", "For that and for what is put up.", main=True),
    Column("energy", "Energy", "0 to 1", "Part of the week's need of energy; null before the first picking."),
    Column("lacks", "Lacks", "", "Needs that the week does not meet by one part in a hundred or more; null where none.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_TOLD = 0.01


def weeks_of(state: State, house: Household, plan: YearPlan, asked: Asked) -> list[dict[str, Any]]:
    """Return one record a week."""
    planted: dict[str, list[str]] = {}
    for line in lines_of(state, house, plan, asked):
        if line["do"] == "plant" and line["week"] is not None:
            planted.setdefault(line["week"], []).append(
                sentence(
                    "year-ground-with",
                    ground=measured(state, line["amount"], "m2"),
                    crop=line["what"],
                )
            )
    early = [_before(asked, planted, day) for day in sorted(planted) if day < house.week_on(0)]
    return early + [_week(house, plan, asked, planted, week) for week in range(WEEKS)]


def _before(asked: Asked, planted: dict[str, list[str]], day: str) -> dict[str, Any]:
    """Return a week before the first picking, in which only planting is planned."""
    return {
        "why": f"whole-year/{asked.text}/week/{day}",
        "week": day,
        "plant": joined(", ", sorted(planted[day])),
        "assumptions": ["year", "chance", "most"],
    }


def _week(
    house: Household, plan: YearPlan, asked: Asked, planted: dict[str, list[str]], week: int
) -> dict[str, Any]:
    day, jarred = house.week_on(week), {one.name for one in house.recipes if one.per_load}
    trees = trees_of(house, plan, week)
    made = {name: units for (name, at), (units, _) in plan.put_up.items() if at == week}
    return {
        "why": f"whole-year/{asked.text}/week/{day}",
        "week": day,
        "plant": joined(", ", sorted(planted.get(day, ()))) or None,
        "fresh": _said(_in(plan.fresh, week), set()),
        "put_up": _said(made, jarred),
        "eat_put_up": _said(_in(plan.eaten, week), jarred),
        **{figure: tree.value for figure, tree in trees.items()},
        "loads": sum(loads for (_, at), (_, loads) in plan.put_up.items() if at == week),
        "lacks": _lacks(house, plan, week),
        "assumptions": ["year", "chance", "most"],
    }


def _in(by_week: Any, week: int) -> dict[str, float]:
    return {name: amount for (name, at), amount in by_week.items() if at == week}


def _said(amounts: dict[str, float], jarred: set[str]) -> str | None:
    parts = [
        sentence(
            "year-so-much-of",
            n=digits(f"{amount:.3g}"),
            unit=Choice("jars" if name in jarred else "kg"),
            name=name,
        )
        for name, amount in sorted(amounts.items(), key=lambda pair: -pair[1])
        if amount >= 0.005
    ]
    return joined(", ", parts) if parts else None


def _lacks(house: Household, plan: YearPlan, week: int) -> str | None:
    parts = []
    for n, name in enumerate(NUTRIENTS):
        value = plan.short.get((n, week), 0.0)
        part = value / house.needs[n] if house.needs[n] else 0.0
        if part >= _TOLD:
            over = Choice("over" if n == len(NUTRIENTS) - 1 else "short")
            parts.append(
                sentence("year-lacks", nutrient=fixed(LABELS[name]), n=round(part * 100), by=over)
            )
    return joined(", ", parts) if parts else None


def trees_of(house: Household, plan: YearPlan, week: int) -> dict[str, Node]:
    """Return the figures of a week as trees."""
    prices = {food.name: food.price or 0.0 for food in house.foods}
    bought = _in(plan.bought, week)
    made = {name: units for (name, at), (units, _) in plan.put_up.items() if at == week}
    recipes = {recipe.name: recipe for recipe in house.recipes}
    spent = [
        product(name, "money", Node(sentence("year-bought"), kg, "kg"), Node(sentence("year-kilogram"), prices[name], "money a kg"))
        for name, kg in bought.items()
    ]  # fmt: skip
    spent += [
        product(name, "money", Node(sentence("year-put-up"), units, "units"), Node(sentence("year-for-one"), recipes[name].cost, "money a unit"))
        for name, units in made.items()
        if recipes[name].cost
    ]  # fmt: skip
    kg = [Node(name, many, "kg") for name, many in bought.items()]
    pantry = [Node(name, many, "kg") for name, many in _in(plan.pantry, week).items()]
    return {
        "picked_kg": total(sentence("year-picked"), "kg", *_picked(house, plan, week)),
        "hours": hours_of(house, plan, week),
        "pantry_kg": total(sentence("year-from-pantry"), "kg", *pantry),
        "bought_kg": total(sentence("year-bought"), "kg", *kg),
        "money": total(sentence("year-spent"), "money", *spent),
        "energy": _energy(house, plan, week),
    }


def _picked(house: Household, plan: YearPlan, week: int) -> list[Node]:
    out = []
    for crop in house.crops:
        m2 = sum(area for (name, _), area in plan.planted.items() if name == crop.name)
        kg = m2 * crop.kg_per_m2 * crop.harvest[week] + (crop.comes[week] if crop.comes else 0.0)
        if kg > 0:
            out.append(Node(crop.name, kg, "kg"))
    return out


def hours_of(house: Household, plan: YearPlan, week: int) -> Node:
    """Return the hands' hours of a week as a tree: picking and putting up."""
    each = {crop.name: crop.hours_per_kg for crop in house.crops if crop.kg_per_m2}
    parts = [
        product(sentence("year-growing-picking", crop=node.label), "hours", node, Node(sentence("year-kilogram-own-seasons"), each[node.label], "hours a kg"))
        for node in _picked(house, plan, week)
        if each.get(node.label)
    ]  # fmt: skip
    for recipe in house.recipes:
        units, _ = plan.put_up.get((recipe.name, week), (0.0, 0))
        if units:
            parts.append(
                product(recipe.name, "hours", Node(sentence("year-put-up"), units, "units"), Node(sentence("year-for-one"), recipe.hours, "hours a unit"))
            )  # fmt: skip
    return total(sentence("year-hours"), "hours", *parts)


def _energy(house: Household, plan: YearPlan, week: int) -> Node:
    from ledger.questions.shared.arithmetic import quotient

    inside = {
        "eat fresh": {one.name: one.nutrients[0] for one in house.crops},
        "eat put up": {one.name: one.nutrients[0] for one in house.recipes},
        "from the pantry": {one.name: one.nutrients[0] for one in house.foods},
        "buy": {one.name: one.nutrients[0] for one in house.foods},
    }
    parts = [
        product(joined(", ", [name, fixed(do)]), "kcal", Node(sentence("year-much"), amount, "units"), Node(sentence("year-one"), inside[do][name], "kcal a unit"))
        for do in SPREAD
        if do in inside
        for name, amount in _in(spread_of(plan, do), week).items()
    ]  # fmt: skip
    return quotient(
        sentence("year-part-need"),
        "0 to 1",
        total(sentence("year-energy-week"), "kcal", *parts),
        Node(sentence("year-need-week"), house.needs[0], "kcal"),
    )
