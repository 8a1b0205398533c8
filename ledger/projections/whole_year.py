"""One plan for the year: what to sow, put up and buy, week by week, to meet what we need for least money?"""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import InputError, NotFound
from ledger.methods.year_plan import YearPlan
from ledger.projections import _year_limits
from ledger.projections._arithmetic import product, quotient
from ledger.projections._common import answer, event_node
from ledger.projections._eaters import eaters_of
from ledger.projections._enough_asked import number_of
from ledger.projections._year_house import CHANCES, Household, solved
from ledger.projections.base import Answer, Column, Node, Option, Projection
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS, UNITS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday; of a crop the week to sow or set it out; null for what is of the whole year.", main=True),
    Column("until", "Until", "day", "The last week of it, where it is spread over several."),
    Column("do", "Do", "", "plant, eat fresh, can, freeze, dry, ferment, give away, from the pantry, as last year (trees, berries and eggs come as they came), buy.", main=True),
    Column("what", "What", "", "The crop or food, or what is made.", main=True),
    Column("bed", "Bed", "", "The bed; null elsewhere.", main=True, rare=True),
    Column("amount", "Amount", "m2, kg or jars", "Square metres planted, kilograms, or jars.", main=True),
    Column("unit", "Unit", "", "m2, kg or jars.", main=True),
    Column("kg", "Weight", "kg", "What the ground likely brings at the chance chosen, or the weight of what is eaten, put up or bought."),
    Column("loads", "Loads", "loads", "Canner loads; null without a canner."),
    Column("hours", "Hours", "hours", "Hands' hours of putting up; null elsewhere.", main=True),
    Column("money", "Money", "money", "What it costs; null where nothing is paid.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_HOURS = 12.0
_LB = 453.59237


def build(
    state: State,
    *,
    hours: str | float | None = None,
    chance: str | None = None,
    limits: bool = False,
) -> Answer:
    """Return one record a line of the plan, by week; or one a limit and need.

    Parameters
    ----------
    state : State
    hours : text or float, optional
        Hours that all hands give a week; default 12.
    chance : {'even', '9 in 10'}, optional
        With which the beds bring what the plan counts on; default 9 in 10.
    limits : bool
        Instead, one record a limit and a need: how much of it the plan uses or meets.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`, or those of the limits.

    Raises
    ------
    InputError
        When an option is not what it may be.
    """
    many = number_of(hours, "hours", _HOURS, most=500)
    chance = chance or CHANCES[1]
    if chance not in CHANCES:
        raise InputError(
            "chance", f"{chance!r} is not one of them", f"Write {' or '.join(CHANCES)}"
        )
    house, plan = solved(state, many, chance)
    asked = f"{many:g},{chance}"
    if limits:
        return _year_limits.build(state, house, plan, asked)
    records = _records(state, house, plan, asked)
    records.sort(key=lambda r: (r["week"] is None, r["week"] or "", r["do"], r["what"]))
    totals: dict[str, Any] = {
        "cost": plan.cost,
        "short": {LABELS[NUTRIENTS[n]]: value for n, value in plan.short.items()},
        "in_words": _words(state, house, plan, many, chance),
    }
    if not records:
        totals["in_words"] = []
    totals["missing"] = _missing(house, records)
    return answer(
        state,
        "whole-year",
        COLUMNS,
        records,
        totals=totals,
        assumptions=_notes(state, house, chance),
    )


def _records(state: State, house: Household, plan: YearPlan, asked: str) -> list[dict[str, Any]]:
    out: list[dict[str, Any]] = []
    sown = _sown(state, house)
    crops = {crop.name: crop for crop in house.crops}
    recipes = {recipe.name: recipe for recipe in house.recipes}
    foods = {food.name: food for food in house.foods}
    for (name, bed), m2 in plan.planted.items():
        kg = m2 * crops[name].kg_per_m2
        out.append(_line(asked, sown.get(name), "plant", name, m2, "m2", bed=bed, kg=kg))
    for name in sorted({name for name, _ in plan.fresh}):
        weeks = sorted(week for one, week in plan.fresh if one == name)
        kg = sum(kg for (one, _), kg in plan.fresh.items() if one == name)
        out.append(
            _line(
                asked,
                house.week_on(weeks[0]),
                "eat fresh",
                name,
                kg,
                "kg",
                kg=kg,
                until=house.week_on(weeks[-1]),
            )
        )
    for (name, week), (units, loads) in plan.put_up.items():
        recipe, method = recipes[name], house.made[name][1]
        do = (
            "can"
            if recipe.per_load
            else {"freeze": "freeze", "dry": "dry", "ferment": "ferment"}.get(method, "put up")
        )
        out.append(
            _line(asked, house.week_on(week), do, name, units, "jars" if recipe.per_load else "kg", kg=units * recipe.kg,
                  loads=loads or None, hours=units * recipe.hours, money=units * recipe.cost)
        )  # fmt: skip
    for name, kg in plan.given.items():
        out.append(_line(asked, None, "give away", name, kg, "kg", kg=kg))
    for name, kg in plan.pantry.items():
        do = "as last year" if name in house.standing else "from the pantry"
        out.append(_line(asked, None, do, name, kg, "kg", kg=kg))
    for name, kg in plan.bought.items():
        out.append(
            _line(asked, None, "buy", name, kg, "kg", kg=kg, money=kg * (foods[name].price or 0.0))
        )
    return out


def _sown(state: State, house: Household) -> dict[str, str]:
    """Return the Monday of the week in which each crop is sown or set out, where frosts are known."""
    from ledger.projections._sown import sown_of

    out = {}
    for one in sown_of(state, 0.1, int(house.week_on(0)[:4])):
        day = one.dates.iso(one.dates.out_from)
        if day is not None:
            on = dt.date.fromisoformat(day)
            out[one.name] = (on - dt.timedelta(days=on.weekday())).isoformat()
    return out


def _line(
    asked: str, week: str | None, do: str, what: str, amount: float, unit: str, **more: Any
) -> dict[str, Any]:
    rest = f"{more.get('bed') or week or 'year'}"
    return {
        "why": f"whole-year/{asked}/{do}/{what}/{rest}",
        "week": week,
        "do": do,
        "what": what,
        "amount": amount,
        "unit": unit,
        "assumptions": ["year", "most", *(["process"] if more.get("hours") is not None else [])],
        **more,
    }


def _words(state: State, house: Household, plan: YearPlan, hours: float, chance: str) -> list[str]:
    people = eaters_of(state).count
    out = [
        f"For {people:g} at the table and {hours:g} hours a week, with the beds' harvest at {chance}: {plan.cost:,.2f} for the year."
    ]
    for n, value in plan.short.items():
        name = NUTRIENTS[n]
        part = value / house.needs[n]
        if part < 0.005:
            continue
        if name == "sodium_mg":
            out.append(f"Sodium is {part:.0%} over its level; salt in the box is not in it.")
        else:
            out.append(
                f"Not met: {part:.0%} of {LABELS[name]} ({value:,.0f} {UNITS[name]} in the year), as no food here may bring more of it."
            )
    binding = [
        limit.name
        for limit in plan.limits
        if limit.binds and limit.most > 0 and not limit.name.startswith("hours")
    ]
    weeks = sum(limit.binds for limit in plan.limits if limit.name.startswith("hours"))
    if binding or weeks:
        text = (
            ", ".join(binding)
            + (" and " if binding and weeks else "")
            + (f"the hours of {weeks} weeks" if weeks else "")
        )
        out.append(f"What holds the plan: {text}. `--limits` shows each.")
    if not plan.proven:
        out.append("No better plan was found in 45 seconds; there may be one.")
    return out


def _missing(house: Household, records: list[dict[str, Any]]) -> list[str]:
    out = []
    if house.left_out:
        out.append(f"Left out: {'; '.join(house.left_out)}.")
    if not house.limits.beds:
        out.append(
            'No bed has ground: `croftbook plant` with --bed and --area, or `croftbook show next-season --beds "south bed=40 sq ft"`, says it.'
        )
    if house.no_hours:
        out.append(f"No hours are known of picking {', '.join(house.no_hours)}; they count none.")
    if not records:
        out.append("Nothing to plan with: who eats, crops, recipes and prices bring it.")
    return out


def _notes(state: State, house: Household, chance: str) -> list[Assumption]:
    return [
        *eaters_of(state).assumptions(),
        Assumption("year", f"The year begins with the first picking, {house.week_on(0)}: what is on the shelf today is taken as eaten until then, as far as it reaches. Needs are met over the whole year, not in each week. What is sown indoors says `croftbook show when-to-sow`."),
        Assumption("chance", f"The beds bring what they bring with {'an even chance' if chance == 'even' else 'a chance of nine in ten'}, by own seasons and published yields; a crop takes its ground for the season."),
        Assumption("most", "No food beyond one and a half times what a year uses of it, and of one crop as it is no more than 200 g a person and day: our own choice, so that a plan is one people eat."),
        Assumption("prices", "Shop prices are the newest known; jars that are full now count as empty by then, lids as bought."),
        Assumption("process", "Only ways of batches that stand as published are planned. How long, how hot and how much acid is not said here: follow the published, tested process for that jar and altitude (`croftbook show as-published`)."),
    ]  # fmt: skip


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of the plan as a tree.

    Raises
    ------
    NotFound
        When there is no such line or figure.
    """
    asked, _, rest = key.partition("/")
    hours, _, chance = asked.partition(",")
    if chance not in CHANCES:
        raise _no(key)
    house, plan = solved(state, number_of(hours, "hours", _HOURS, most=500), chance)
    if rest.startswith(("limit/", "need/")):
        return _year_limits.why(state, house, plan, rest, field)
    record = next(
        (r for r in _records(state, house, plan, asked) if r["why"] == f"whole-year/{key}"), None
    )
    if record is None:
        raise _no(key)
    trees = _trees(state, house, record)
    figure = field or "amount"
    if figure not in trees:
        raise NotFound(
            "figure", f"{figure!r} is not a figure of whole-year", f"It has: {', '.join(trees)}"
        )
    return trees[figure]


def _no(key: str) -> NotFound:
    return NotFound(
        "address",
        f"there is no record {key!r} of whole-year",
        "Take an address from `croftbook show whole-year --json`",
    )


def _trees(state: State, house: Household, record: dict[str, Any]) -> dict[str, Node]:
    name, unit = record["what"], record["unit"]
    amount = Node("the plan's choice", record["amount"], unit)
    if record["do"] == "plant":
        crop = next(one for one in house.crops if one.name == name)
        return {
            "amount": amount,
            "kg": product(
                "likely picked",
                "kg",
                amount,
                Node("a square metre, at the chance chosen", crop.kg_per_m2, "kg a m2"),
            ),
        }
    recipe = next((one for one in house.recipes if one.name == name), None)
    if recipe is not None and record.get("hours") is not None:
        batch = house.ev[name]
        grams = event_node(
            state,
            batch,
            f"{recipe.crop} for one, as in the newest batch that stands as published",
            recipe.kg * 1000,
            "g",
        )
        each = quotient("fresh for one", "kg", grams, Node("grams in a kilogram", 1000.0, "g"))
        return {
            "amount": amount,
            "kg": product("fresh", "kg", amount, each),
            "hours": product("hours", "hours", amount, Node("for one, by own batches", recipe.hours, "hours")),
            "money": product("cost", "money", amount, event_node(state, batch, "for one, its labour left out", recipe.cost, "money")),
            **({"loads": Node("canner loads of the plan", float(record["loads"]), "loads")} if record.get("loads") else {}),
        }  # fmt: skip
    out = {"amount": amount, "kg": Node("the plan's choice", record["kg"], "kg")}
    food = next((one for one in house.foods if one.name == name), None)
    if record["do"] == "buy" and food is not None:
        seen = house.ev[f"price of {name}"]
        out["money"] = product(
            "to pay",
            "money",
            amount,
            event_node(state, seen, "newest price, a kilogram", food.price, "money"),
        )
    return out


PROJECTION = Projection(
    name="whole-year",
    title="Whole year",
    question="What to plant, put up and buy, week by week, to meet what we need for least money?",
    columns=COLUMNS,
    build=build,
    why=why,
    options=(
        Option("hours", "hours that all hands give a week (12 unless said)", "8"),
        Option("chance", "with which the beds bring what is counted on (9 in 10 unless said)", "even", choices=CHANCES),
        Option("limits", "each limit and need, and how much of it the plan uses", "--limits", kind="flag"),
    ),
    variants={"limits": _year_limits.COLUMNS},
)  # fmt: skip
