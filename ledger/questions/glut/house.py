"""What the glut meets: what is here and comes, the ways that are published, jars, lids, stove, freezer.

What the household put up before is planned as it made it, with today's process; a crop that it has no such
way for is planned as the published tables have it: canned as itself, and frozen.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from ledger.door import jars_per_load
from ledger.kinds import CANNING
from ledger.messages import fixed, joined, sentence
from ledger.methods.glut import Crop, Limits, Way
from ledger.questions.glut.comes import DAYS, comes_of
from ledger.questions.planning.batches import Batches
from ledger.questions.shared.common import QUART_UL
from ledger.questions.shared.jars import jar_totals
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.made_as import LB_G
from ledger.questions.shared.usual_plan import usual_plan
from ledger.questions.shared.ways import (
    canned_ways,
    frozen_says,
    hands_a_kg,
    hands_a_load,
    process_now,
    stove_hours,
)
from ledger.reference import servings, winter
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.figures import Array
    from ledger.published.processes import Process
    from ledger.questions.planning.recipes import Made
    from ledger.replay import State

__all__ = [
    "House",
    "Told",
    "day_of",
    "freezer_room",
    "house_of",
    "lots_there",
    "own_process",
    "published_batch",
]

_LID = SORTS.index("lid")
_ACTIONS = {"freeze": "freeze", "dry": "dry", "ferment": "ferment"}


@dataclass(frozen=True)
class Told:
    """A way as it is told: what is made, how, in what, and where its hours and process are from.

    `ev` is the batch of one's own that it is made as, `batches` those whose minutes count; a way out of
    the published tables alone has neither, its weight for a jar is from `lb_from`.
    """

    way: Way
    makes: str
    action: str
    jar: str | None
    process: str
    ev: int | None = None
    batches: tuple[int, ...] = ()
    lb_from: str = ""


@dataclass
class House:
    """Everything that the programme is given, with what is said of it."""

    crops: list[Crop]
    told: list[Told]
    limits: Limits
    left_out: list[str] = field(default_factory=list)
    lives: dict[str, tuple[int, str]] = field(default_factory=dict)
    planned: list[str] = field(default_factory=list)

    @property
    def ways(self) -> list[Way]:
        """The ways as the programme takes them."""
        return [one.way for one in self.told]


def house_of(state: State, hours: float, stove: float) -> House:
    """Return what the glut of a state meets, with so many hands' and stove hours a day."""
    plan = usual_plan(state)
    house = House([], [], _limits(state, hours, stove))
    items = {}
    for item in sorted({crop.item for crop in plan.crops}):
        found = comes_of(state, item)
        if found is not None:
            house.crops.append(found.crop)
            house.lives[found.crop.name] = found.days, found.said
            items[found.crop.name] = item
    batches = Batches(plan)
    for item, made in sorted(plan.recipes.made.items()):
        told = _own(state, batches, item, made, set(items), house)
        if told is not None:
            house.told.append(told)
    for name in sorted(set(items) - {one.way.crop for one in house.told}):
        _as_printed(state, name, items[name], house)
    return house


def freezer_room(state: State) -> tuple[float, float]:
    """Return pounds of freezer room that are free, and of new food that it takes in a day."""
    from ledger.questions.how_long.figures import freezer_full
    from ledger.questions.how_long.gather import Cold

    feet, full = state.once(Cold).feet.value(0), freezer_full(state).value(0)
    if math.isnan(full):
        return 0.0, 0.0
    each = winter.figure("glut", "freezer_room", "food in one cubic foot").middle
    rate = winter.figure("glut", "freezer_rate", "new food in 24 hours").low or 0.0
    return feet * each * (1 - full), feet * rate


def _limits(state: State, hours: float, stove: float) -> Limits:
    empties = {jar: float(row["empty"]) for jar, row in state.once(jar_totals).items()}
    lids = float(state.left[state.facts.sort[state.lots["item"]] == _LID].sum()) / 1000
    room, rate = freezer_room(state)
    return Limits((hours,) * DAYS, stove, empties, lids, room, rate)


def _own(
    state: State, batches: Batches, item: int, made: Made, crops: set[str], house: House
) -> Told | None:
    """Return a way in which the household put a crop up before, with today's process."""
    crop = batches.crop_of(item)
    if crop is None or crop.name not in crops or made.method not in (*CANNING, *_ACTIONS):
        return None
    name = state.facts.names[item]
    good = published_batch(state, made)
    if good is None:
        house.left_out.append(sentence("glut-no-batch-your-own-stands", name=name))
        return None
    take = batches.plan.recipes.take(item, crop.item, 1)
    per = state.facts.grams_per_whole(crop.item) or 0.0
    can = made.method in CANNING and bool(made.per_jar) and made.jar is not None
    whole = made.per_jar if can and made.per_jar else (1000.0 / (per * take) if per * take else 0.0)
    if not whole or not take:
        return None
    process = own_process(state, good, made) if can else made.method
    if isinstance(process, str) and can:
        house.left_out.append(joined(": ", [name, process]))
        return None
    jar = state.facts.names[made.jar] if can and made.jar is not None else ""
    load = jars_per_load(state.settings.newest("jars_per_load")).get(jar, 7) if can else 0
    minutes = batches.plan.recipes.minutes_each(item)
    hours = minutes * whole / 60 if minutes is not None else hands_a_load() / max(load, 7)
    frozen = whole * (state.facts.grams_per_whole(item) or 0.0) / LB_G if made.method == "freeze" else 0.0  # fmt: skip
    still = max(batches.year(item) - _there(state, item), 0.0)
    action = "can" if can else _ACTIONS.get(made.method, made.method)
    stove = 0.0 if isinstance(process, str) else stove_hours(made.method, process.minutes)
    way = Way(
        _way(action, name), crop.name, whole * take * per / 1000, hours, still / whole,
        load, stove, jar, frozen,
    )  # fmt: skip
    said = process if isinstance(process, str) else process.text
    timed = tuple(batches.plan.recipes.minutes(item)[0]) if minutes is not None else ()
    return Told(way, name, action, jar or None, said, good, timed)


def _way(action: str, name: str) -> str:
    """Return what a way is called: ``can tomato sauce``."""
    return sentence("ways-done", do=fixed(action, "do"), name=name)


def own_process(state: State, ev: int, made: Made) -> Process | str:
    """Return today's process for what a batch of one's own made, in its jar; or why there is none."""
    from ledger.questions.as_published.records import judgement_of, schedules_of

    assert made.jar is not None
    body = state.body(ev)
    judged = judgement_of(state, ev, body, schedules_of(state))
    jar = state.facts.names[made.jar]
    return process_now(state, judged, made.method, jar, body.get("pack"))


def _as_printed(state: State, crop: str, item: int, house: House) -> None:
    """Add what the published tables have for a crop that the household never put up so."""
    jars = [jar for jar, many in house.limits.jars.items() if many > 0]
    canned, said = canned_ways(state, crop, jars)
    if not jars and not said:
        said = [sentence("glut-no-empty-jar-book-can", name=crop)]
    house.left_out += said
    wanted = _wanted_kg(state, crop, item)
    sizes = jars_per_load(state.settings.newest("jars_per_load"))
    limitless = sum(one.kg for c in house.crops if c.name == crop for one in c.arrivals)
    for one in canned:
        load = sizes.get(one.jar, 7)
        kg = one.lb * LB_G / 1000
        name = sentence("ways-in-jars", product=one.product, jars=fixed(f"{one.jar}s"))
        minutes = stove_hours(one.process.schedule.method, one.process.minutes)
        way = Way(
            _way("can", name), crop, kg, hands_a_load() / load, float(int(limitless / kg)) + 1,
            load, minutes, one.jar, 0.0, crop,
        )  # fmt: skip
        house.told.append(Told(way, name, "can", one.jar, one.process.text, lb_from=one.lb_from))
    cold = frozen_says(crop)
    if cold is not None:
        way = Way(
            _way("freeze", crop), crop, 1.0, hands_a_kg(), limitless, 0, 0.0, "", 1000 / LB_G, crop
        )
        says = sentence("glut-freeze-keeps", life=cold)
        house.told.append(Told(way, sentence("ways-frozen-crop", crop=crop), "freeze", None, says))
    if canned or cold is not None:
        if wanted is not None:
            house.limits = replace(house.limits, shared={**house.limits.shared, crop: wanted})
        house.planned.append(crop)


def _wanted_kg(state: State, crop: str, item: int) -> float | None:
    """Return fresh kilograms that the first year's plan still wants of a crop; None without a line in it."""
    from ledger.questions.first_year.question import build as first_year

    plan = servings.of_food(crop)
    if plan is None:
        return None
    row = next((r for r in first_year(state).rows() if r["food"] == plan.food), None)
    if row is None or row["lb"] is None or not row["quarts"]:
        return None
    there = 0.0
    for name in row["items"]:
        made = state.facts.find(name)
        there += 0.0 if made is None else _there(state, made) / QUART_UL
    return float(row["lb"]) * LB_G / 1000 * max(1 - there / float(row["quarts"]), 0.0)


def published_batch(state: State, made: Made) -> int | None:
    """Return the newest batch that bears no mark; None where there is none."""
    from ledger.questions.shared.use_by import is_marked

    for ev in sorted(made.batches, key=lambda one: -int(state.moment.rank[one])):
        lots = np.flatnonzero((state.lots["ev"] == ev) & (state.lots["suffix"] == 0))
        if lots.size and not any(is_marked(state, int(lot)) for lot in lots):
            return ev
    return None


def _there(state: State, item: int) -> float:
    """Return whole units of an item that are there and bear no mark."""
    return float(state.left[lots_there(state, item)].sum())


def lots_there(state: State, item: int) -> Array:
    """Return the lots of an item that are there and bear no mark."""
    there = larder_of(state).there
    return np.asarray(there[state.lots["item"][there] == item])


def day_of(state: State, day: int) -> str:
    """Return the date of a day of the plan."""
    return (dt.date(1970, 1, 1) + dt.timedelta(days=state.as_of_day + day)).isoformat()
