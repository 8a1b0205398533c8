"""What the glut meets: what is here and comes, the ways that are published, jars, lids, stove, freezer."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ledger.door import jars_per_load
from ledger.events import CANNING
from ledger.methods.glut import Arrival, Crop, Limits, Way
from ledger.projections._jars import jar_totals
from ledger.projections._next_batches import Batches
from ledger.projections._usual_plan import usual_plan
from ledger.reference import winter
from ledger.reference.storage import fresh_life
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.projections._next_recipes import Made
    from ledger.replay import State

__all__ = ["DAYS", "House", "Told", "day_of", "house_of", "published_batch"]

DAYS = 10
_LB = 453.59237
_VENT, _HEAT, _COOL = 10 / 60, 0.5, 0.75
"""Hours: venting (published, 10 minutes), heating up and cooling (common practice, from memory)."""
_ACTIONS = {"freeze": "freeze", "dry": "dry", "ferment": "ferment"}


@dataclass(frozen=True)
class Told:
    """A way as it is told: what is made, how, in what, and where its hours and process are from."""

    way: Way
    item: int
    action: str
    method: str
    jar: str | None
    hours_known: bool
    process: str
    ev: int
    raw_per_whole: float
    whole_per_unit: float


@dataclass
class House:
    """Everything that the programme is given, with what is said of it."""

    crops: list[Crop]
    told: list[Told]
    limits: Limits
    left_out: list[str] = field(default_factory=list)
    lives: dict[str, tuple[int, str]] = field(default_factory=dict)

    @property
    def ways(self) -> list[Way]:
        """The ways as the programme takes them."""
        return [one.way for one in self.told]


def house_of(state: State, hours: float, stove: float) -> House:
    """Return what the glut of a state meets, with so many hands' and stove hours a day."""
    plan = usual_plan(state)
    grown = {crop.item for crop in plan.crops}
    house = House([], [], _limits(state, hours, stove))
    for item in sorted(grown):
        crop = _crop(state, item, house)
        if crop is not None:
            house.crops.append(crop)
    batches = Batches(plan)
    names = {crop.name for crop in house.crops}
    for item, made in sorted(plan.recipes.made.items()):
        told = _told(state, batches, item, made, names, house)
        if told is not None:
            house.told.append(told)
    return house


def _limits(state: State, hours: float, stove: float) -> Limits:
    from ledger.projections._how_long_steps import freezer_feet, freezer_full

    empties = {jar: float(row["empty"]) for jar, row in state.once(jar_totals).items()}
    lid = state.facts.find("lid")
    lids = 0.0 if lid is None else float(state.left[state.lots["item"] == lid].sum()) / 1000
    feet, full = freezer_feet(state.settings.newest("freezer_room")), freezer_full(state)
    room = rate = 0.0
    if feet is not None and full is not None:
        room = (
            feet
            * winter.figure("glut", "freezer_room", "food in one cubic foot").middle
            * (1 - full)
        )
        rate = feet * (winter.figure("glut", "freezer_rate", "new food in 24 hours").low or 0.0)
    return Limits((hours,) * DAYS, stove, empties, lids, room, rate)


def _crop(state: State, item: int, house: House) -> Crop | None:
    per, name = state.facts.grams_per_whole(item), state.facts.names[item]
    if per is None:
        return None
    life, said = _life(state, item)
    arrivals = []
    lots = np.flatnonzero(
        (state.lots["item"] == item)
        & (state.left > 0)
        & (state.lots["origin"] <= ORIGINS.index("given"))
    )
    for lot in lots.tolist():
        until = int(state.lots["day"][lot]) + life - state.as_of_day
        if until >= 0:
            arrivals.append(Arrival(0, until, float(state.left[lot]) * per / 1000))
    for day, kg in enumerate(_coming(state, item, per)):
        if day and kg > 0.005:
            arrivals.append(Arrival(day, day + life, kg))
    here = math.fsum(a.kg for a in arrivals)
    if here < 0.5 or life > 60:
        return None  # a handful is eaten; what keeps for months is no glut
    house.lives[name] = life, said
    return Crop(name, tuple(arrivals), _eaten(state, item, per))


def _life(state: State, item: int) -> tuple[int, str]:
    """Return how many days a crop keeps fresh, and who says so."""
    from ledger.projections._use_by import days_of

    keeps = state.facts.facts[item].keeps or {}
    spans = [days_of(0, span) for span in keeps.values()]
    known = [span for span in spans if span is not None]
    if known:
        return max(known), "the household"
    found = fresh_life(state.facts.names[item])
    if found is not None:
        unit = {"day": 1, "week": 7, "month": 30}.get(found.unit, 7)
        return int(float(found.low) * unit), str(found.source)
    return 3, "nobody: three days are taken"


def _coming(state: State, item: int, per: float) -> list[float]:
    """Return kilograms likely picked on each of the next days: the mean of earlier years' same days."""
    lots = state.lots
    rows = np.flatnonzero((lots["item"] == item) & (lots["origin"] == ORIGINS.index("grown")))
    days, kg = lots["day"][rows], lots["whole"][rows] * per / 1000
    years = []
    for back in range(1, 6):
        offset = days - (state.as_of_day - 365 * back)
        if ((offset > -183) & (offset < 183)).any():
            by_day = [float(kg[offset == day].sum()) for day in range(DAYS)]
            years.append(by_day)
    if not years:
        return [0.0] * DAYS
    # single days jump about from year to year: the sum of the days is spread as it likely comes
    total = sum(sum(one) for one in years) / len(years)
    return [0.0] + [total / (DAYS - 1)] * (DAYS - 1)


def _eaten(state: State, item: int, per: float) -> float:
    """Return kilograms eaten fresh a day over the last four weeks."""
    from ledger.projections._common import goes

    draws = state.draws
    recent = (
        (draws["item"] == item)
        & (state.as_of_day - draws["day"] < 28)
        & (state.once(goes) == "eaten")
    )
    return float(draws["whole"][recent].sum()) * per / 1000 / 28


def _told(
    state: State, batches: Batches, item: int, made: Made, crops: set[str], house: House
) -> Told | None:
    crop = batches.crop_of(item)
    if crop is None or crop.name not in crops or made.method not in (*CANNING, *_ACTIONS):
        return None
    name = state.facts.names[item]
    good = published_batch(state, made)
    if good is None:
        house.left_out.append(f"{name}: no batch of your own stands as published")
        return None
    per = state.facts.grams_per_whole(crop.item) or 0.0
    take = batches.plan.recipes.take(item, crop.item, 1)
    still = max(batches.year(item) - _there(state, item), 0.0)
    minutes = batches.plan.recipes.minutes_each(item)
    can = made.method in CANNING and made.per_jar is not None and made.jar is not None
    whole = made.per_jar if can and made.per_jar else (1000.0 / (per * take) if per * take else 0.0)
    if not whole or not take:
        return None
    jar = None if made.jar is None else state.facts.names[made.jar]
    load = jars_per_load(state.settings.newest("jars_per_load")).get(jar or "", 7) if can else 0
    unit_kg = whole * take * per / 1000
    hours = minutes * whole / 60 if minutes is not None else _guess() / max(load, 7)
    frozen = (
        whole * (state.facts.grams_per_whole(item) or 0.0) / _LB if made.method == "freeze" else 0.0
    )
    body = state.body(good)
    process = float(body.get("minutes") or 0) / 60
    on_stove = _HEAT + (_VENT + _COOL if made.method == "pressure" else 0.0) + process
    action = "can" if can else _ACTIONS.get(made.method, made.method)
    way = Way(
        f"{action} {name}",
        crop.name,
        unit_kg,
        hours,
        still / whole,
        load,
        on_stove,
        jar if can and jar else "",
        frozen,
    )
    return Told(
        way,
        item,
        action,
        made.method,
        jar if can else None,
        minutes is not None,
        _process(body),
        good,
        take,
        whole,
    )


def _guess() -> float:
    return winter.figure(
        "glut", "hands", "hours to peel, fill and clear, per load of 7 quarts"
    ).middle


def _process(body: dict[str, object]) -> str:
    minutes, psi = body.get("minutes"), body.get("psi")
    if minutes is None:
        return str(body["method"])
    return f"{minutes} minutes" + (f" at {psi} psi" if psi else "")


def published_batch(state: State, made: Made) -> int | None:
    """Return the newest batch that bears no mark; None where there is none."""
    from ledger.projections._use_by import is_marked

    for ev in sorted(made.batches, key=lambda one: -int(state.moment.rank[one])):
        lots = np.flatnonzero((state.lots["ev"] == ev) & (state.lots["suffix"] == 0))
        if lots.size and not any(is_marked(state, int(lot)) for lot in lots):
            return ev
    return None


def _there(state: State, item: int) -> float:
    """Return whole units of an item that are there and bear no mark."""
    from ledger.projections._larder import larder_of

    there = larder_of(state).there
    mine = there[state.lots["item"][there] == item]
    return float(state.left[mine].sum())


def day_of(state: State, day: int) -> str:
    """Return the date of a day of the plan."""
    return (dt.date(1970, 1, 1) + dt.timedelta(days=state.as_of_day + day)).isoformat()
