"""The kitchen of a year's plan: how its crops may be put up, each with its hours, jar and keeping life."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.door import jars_per_load
from ledger.figures import assumed
from ledger.kinds import CANNING
from ledger.messages import fixed, joined, sentence
from ledger.methods.year_plan import WEEKS, Recipe
from ledger.published.keeping import keeps_for
from ledger.questions.food.nutrients import Held
from ledger.questions.glut.comes import fresh_days
from ledger.questions.glut.house import own_process, published_batch
from ledger.questions.planning.batches import Batches
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.made_as import LB_G
from ledger.questions.shared.put_up_as import is_fresh_food
from ledger.questions.shared.usual_plan import usual_plan
from ledger.questions.shared.ways import (
    canned_ways,
    frozen_says,
    hands_a_kg,
    hands_a_load,
    stove_hours,
)
from ledger.questions.whole_year.garden import MORE, per_kg
from ledger.reference.needs import NUTRIENTS
from ledger.replay import COST, LABOUR

if TYPE_CHECKING:
    from ledger.questions.planning.recipes import Made
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State

__all__ = ["add_recipes"]

_A_WEEK = 2.0
"""Of what is put up no more is eaten in a week than so many fifty-seconds of the most that a year may take:
our own choice, as a store is for half the year."""
_KEEPS_DAYS = 60
"""What keeps for months as it is takes no printed way that the household never used: our own choice."""
_NOBODY_DAYS = 182
"""Taken where neither the household nor a chart says how long it keeps: half a year, our own choice."""


def add_recipes(state: State, out: Household) -> None:
    """Add the household's own ways that stand as published, and the printed ones for crops without."""
    batches = Batches(usual_plan(state))
    crops = {out.items[crop.name]: crop.name for crop in out.crops}
    for item, made in sorted(batches.plan.recipes.made.items()):
        crop = _crop_of(state, batches, item, crops)
        if crop is None or made.method in ("cook", "cellar"):
            continue
        said = _add_own(state, out, batches, item, made, crop)
        if said:
            out.left_out.append(joined(": ", [state.facts.names[item], said]))
    plants = {crop.item for crop in usual_plan(state).crops}
    for item in sorted((set(crops) & plants) - {out.items[recipe.crop] for recipe in out.recipes}):
        if fresh_days(state, item)[0] <= _KEEPS_DAYS:
            _add_printed(state, out, crops[item], item)


def _crop_of(state: State, batches: Batches, item: int, crops: dict[int, str]) -> int | None:
    """Return the crop of the plan that most of an item is, by weight."""
    grams = {
        crop: batches.plan.recipes.take(item, crop, 1) * (state.facts.grams_per_whole(crop) or 0.0)
        for crop in crops
    }
    best = max(grams, key=lambda crop: grams[crop], default=None)
    return best if best is not None and grams[best] > 0 else None


def _add_own(
    state: State, out: Household, batches: Batches, item: int, made: Made, crop: int
) -> str | None:
    """Add a way of one's own; return why it cannot be planned."""
    from ledger.questions.whole_year.way import Way

    name = state.facts.names[item]
    good = published_batch(state, made)
    if good is None:
        return sentence("year-no-batch-as-published")
    recipes = batches.plan.recipes
    per, take = state.facts.grams_per_whole(crop), recipes.take(item, crop, 1)
    weight, minutes = state.facts.grams_per_whole(item), recipes.minutes_each(item)
    if not per or not take or not weight or minutes is None:
        return sentence("year-weight-or-hours-unknown")
    can = made.method in CANNING and bool(made.per_jar) and made.jar is not None
    process = own_process(state, good, made) if can else made.method
    if can and isinstance(process, str):
        return process
    whole = float(made.per_jar) if can and made.per_jar else 1000.0 / weight
    jar = state.facts.names[made.jar] if can and made.jar is not None else ""
    load = jars_per_load(state.settings.newest("jars_per_load")).get(jar, 7) if can else 0
    most = MORE * batches.year(item) / whole
    lot = int(np.flatnonzero((state.lots["ev"] == good) & (state.lots["item"] == item))[0])
    costs = state.costs.lot[lot, COST].sum() - state.costs.lot[lot, LABOUR]
    place = "freezer" if made.method == "freeze" else "shelf"
    out.recipes.append(
        Recipe(
            name, state.facts.names[crop], whole * take * per / 1000, minutes * whole / 60,
            _inside(state, lot, whole), most, load, jar,
            whole * weight / LB_G if made.method == "freeze" else 0.0,
            max(float(costs) / float(state.lots["whole"][lot]) * whole, 0.0),
            _life_weeks(state, item, made.method, place),
            0.0 if isinstance(process, str) else stove_hours(made.method, process.minutes),
            _A_WEEK * most / WEEKS,
        )
    )  # fmt: skip
    text = process if isinstance(process, str) else process.text
    timed = tuple(recipes.minutes(item)[0])
    out.ways[name] = Way(made.method, good, text, timed, lot, whole)
    out.items[name] = item
    return None


def _inside(state: State, lot: int, whole: float) -> tuple[float, ...]:
    """Return the nutrients of an amount of a lot."""
    much = assumed(np.array([whole]), "", "plan")
    one = Held(state, state.lots["item"][[lot]], np.array([lot]), much)
    return tuple(one.of(n).value(0) for n in range(len(NUTRIENTS)))


def _life_weeks(state: State, item: int, method: str, place: str) -> int:
    """Return how many weeks a thing put up is good: the household's word, never beyond the chart's."""
    from ledger.questions.shared.use_by import days_of

    own = (state.facts.facts[item].keeps or {}).get(place)
    if place != "freezer" and state.once(is_fresh_food)[item]:
        own = None  # said of the fresh food
    days = None if own is None else days_of(0, own)
    chart = keeps_for("food", method, state.facts.names[item], place)
    if chart is not None:
        days = round(chart.high_days) if days is None else min(days, round(chart.high_days))
    return (_NOBODY_DAYS if days is None else days) // 7


def _add_printed(state: State, out: Household, crop: str, item: int) -> None:
    """Add what the published tables have for a crop that the household has no own way for."""
    from ledger.questions.whole_year.way import Way

    nutrients = per_kg(state, item)
    grown = next(one for one in out.crops if one.name == crop)
    assert nutrients is not None
    most = min(grown.most_kg if grown.kg_per_m2 else sum(grown.comes), 1000.0)
    jars = [jar for jar, many in out.limits.jars.items() if many > 0]
    canned, said = canned_ways(state, crop, jars) if jars else ([], [])
    out.left_out += said
    sizes = jars_per_load(state.settings.newest("jars_per_load"))
    cooked = np.array(nutrients) * larder_of(state).cooked(item)
    for one in canned:
        kg, load = one.lb * LB_G / 1000, sizes.get(one.jar, 7)
        name, method = (
            sentence("ways-in-jars", product=one.product, jars=fixed(f"{one.jar}s")),
            one.process.schedule.method,
        )
        out.recipes.append(
            Recipe(
                name, crop, kg, hands_a_load() / load, tuple(float(v) for v in cooked * kg), most / kg,
                load, one.jar, 0.0, 0.0, WEEKS, stove_hours(method, one.process.minutes),
                _A_WEEK * most / kg / WEEKS,
            )
        )  # fmt: skip
        out.ways[name] = Way(method, None, one.process.text, lb_from=one.lb_from)
    cold, keeping = frozen_says(crop), keeps_for("food", "freeze", crop, "freezer")
    if cold is not None and keeping is not None:
        name = sentence("ways-frozen-crop", crop=crop)
        out.recipes.append(
            Recipe(
                name, crop, 1.0, hands_a_kg(), nutrients, most, 0, "", 1000 / LB_G, 0.0,
                round(keeping.low_days) // 7, 0.0, _A_WEEK * most / WEEKS,
            )
        )  # fmt: skip
        out.ways[name] = Way("freeze", None, sentence("year-freeze-keeps", life=cold))
