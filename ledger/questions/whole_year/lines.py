"""The lines of a year's plan: what to plant, eat, put up, give and buy, each with its weeks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from ledger.messages import sentence
from ledger.projections.base import Column

if TYPE_CHECKING:
    from ledger.methods.year_plan import YearPlan
    from ledger.questions.whole_year.house import Asked, Household
    from ledger.replay import State

__all__ = ["COLUMNS", "SPREAD", "lines_of", "spread_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday, the first where there are several; of a crop the week to sow or set it out, null where no frosts are known.", main=True),
    Column("until", "Until", "day", "Monday of the last week of it; null for one week.", main=True),
    Column("do", "Do", "", "plant, eat fresh, can, freeze, dry, ferment, put up, eat put up, give away, from the pantry, buy.", main=True),
    Column("what", "What", "", "The crop or food, or what is made.", main=True),
    Column("bed", "Bed", "", "The bed; null elsewhere.", main=True, rare=True),
    Column("amount", "Amount", "m2, kg or jars", "Square metres planted, kilograms, or jars, of all its weeks.", main=True),
    Column("unit", "Unit", "", "m2, kg or jars.", main=True),
    Column("weeks", "Weeks", "weeks", "In how many weeks; null of planting."),
    Column("a_week", "A week", "m2, kg or jars", "Amount / weeks.", main=True),
    Column("kg", "Weight", "kg", "What the ground likely brings at the chance chosen, or the weight of what is eaten fresh, put up or bought; null of what is eaten put up."),
    Column("loads", "Loads", "loads", "Canner loads; null without a canner."),
    Column("hours", "Hours", "hours", "Hands' hours of putting up; null elsewhere.", main=True),
    Column("money", "Money", "money", "What it costs; null where nothing is paid.", main=True),
    Column("process", "Published", "", "The printed process with its source, looked up for this jar, gauge and altitude; null without a canner."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

SPREAD = ("eat fresh", "eat put up", "give away", "from the pantry", "buy")
"""What goes on over weeks: one line for weeks that follow each other, a few left out or not."""
_GAP = 3
_LEAST = 0.05
"""Weeks left out that begin another line; kilograms or jars under which a line is not told."""
_ACTIONS = {"freeze": "freeze", "dry": "dry", "ferment": "ferment"}


def spread_of(plan: YearPlan, do: str) -> Mapping[tuple[str, int], float]:
    """Return what is done over weeks, by name and week."""
    return {
        "eat fresh": plan.fresh,
        "eat put up": plan.eaten,
        "give away": plan.given,
        "from the pantry": plan.pantry,
        "buy": plan.bought,
    }[do]


def lines_of(state: State, house: Household, plan: YearPlan, asked: Asked) -> list[dict[str, Any]]:
    """Return one record a line, by week."""
    out = [*_planted(state, house, plan, asked), *_put_up(house, plan, asked)]
    for do in SPREAD:
        out += _spread(house, plan, asked, do)
    out.sort(key=lambda r: (r["week"] is None, r["week"] or "", r["do"], r["what"]))
    return out


def _line(asked: Asked, do: str, what: str, week: str | None, **more: Any) -> dict[str, Any]:
    rest = more.get("bed") or week or "year"
    notes = ["year", "most"]
    notes += ["process"] if more.get("hours") is not None or do == "eat put up" else []
    return {
        "why": f"whole-year/{asked.text}/{do}/{what}/{rest}",
        "week": week,
        "do": do,
        "what": what,
        "assumptions": notes,
        **more,
    }


def _planted(
    state: State, house: Household, plan: YearPlan, asked: Asked
) -> Iterator[dict[str, Any]]:
    from ledger.questions.whole_year.garden import sown_by_name

    sown = sown_by_name(state, int(house.week_on(0)[:4]))
    crops = {crop.name: crop for crop in house.crops}
    for (name, bed), m2 in plan.planted.items():
        one = sown.get(name)
        day = None if one is None else one.dates.iso(one.dates.out_from)
        week = None
        if day is not None:
            on = dt.date.fromisoformat(day)
            week = (on - dt.timedelta(days=on.weekday())).isoformat()
        kg = m2 * crops[name].kg_per_m2
        yield _line(asked, "plant", name, week, amount=m2, unit="m2", bed=bed, kg=kg)


def _put_up(house: Household, plan: YearPlan, asked: Asked) -> Iterator[dict[str, Any]]:
    recipes = {recipe.name: recipe for recipe in house.recipes}
    for (name, week), (units, loads) in plan.put_up.items():
        recipe, way = recipes[name], house.ways[name]
        yield _line(
            asked,
            "can" if recipe.per_load else _ACTIONS.get(way.method, sentence("year-put-up")),
            name,
            house.week_on(week),
            amount=units,
            unit="jars" if recipe.per_load else "kg",
            weeks=1,
            a_week=units,
            kg=units * recipe.kg,
            loads=loads or None,
            hours=units * recipe.hours,
            money=units * recipe.cost if way.ev is not None else None,
            process=way.process if recipe.per_load else None,
        )


def _spread(house: Household, plan: YearPlan, asked: Asked, do: str) -> Iterator[dict[str, Any]]:
    jarred = {recipe.name for recipe in house.recipes if recipe.per_load}
    prices = {food.name: food.price or 0.0 for food in house.foods}
    for name, weeks in runs_of(spread_of(plan, do)):
        amount = sum(weeks.values())
        if amount < _LEAST:
            continue
        unit = "jars" if do == "eat put up" and name in jarred else "kg"
        more: dict[str, Any] = {"money": amount * prices[name]} if do == "buy" else {}
        first, last = min(weeks), max(weeks)
        yield _line(
            asked,
            do,
            name,
            house.week_on(first),
            until=house.week_on(last) if last > first else None,
            amount=amount,
            unit=unit,
            weeks=len(weeks),
            a_week=amount / len(weeks),
            kg=None if do == "eat put up" else amount,
            **more,
        )


def runs_of(by_week: Mapping[tuple[str, int], float]) -> Iterator[tuple[str, dict[int, float]]]:
    """Return each name with the amounts of weeks that follow each other."""
    names: dict[str, dict[int, float]] = {}
    for (name, week), amount in by_week.items():
        names.setdefault(name, {})[week] = amount
    for name, weeks in names.items():
        run: dict[int, float] = {}
        for week in sorted(weeks):
            if run and week - max(run) > _GAP:
                yield name, run
                run = {}
            run[week] = weeks[week]
        yield name, run
