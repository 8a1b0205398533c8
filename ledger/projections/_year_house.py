"""What a year's plan is made of: beds and crops, ways that are published, pantry, shop, needs."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.door import jars_per_load
from ledger.events import CANNING
from ledger.methods.year_plan import (
    WEEKS,
    Food,
    GardenCrop,
    Recipe,
    YearLimits,
    YearPlan,
    plan_year,
)
from ledger.projections._eaters import eaters_of
from ledger.projections._glut_house import _limits, published_batch
from ledger.projections._larder import larder_of
from ledger.projections._next_batches import Batches
from ledger.projections._use_past import is_use
from ledger.projections._usual_plan import usual_plan
from ledger.reference.needs import NUTRIENTS
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.projections._next_recipes import Made
    from ledger.replay import State

__all__ = ["CHANCES", "Household", "household_of", "solved"]

CHANCES = ("even", "9 in 10")
_SODIUM = NUTRIENTS.index("sodium_mg")
_MORE = 1.5
"""No food beyond so much of a year's own use: our own choice, so that a plan is one people eat."""
_FRESH_KG = 0.2
"""No more than so much of one crop is eaten as it is by a person in a day: our own choice."""
_LB = 453.59237
_DAYS = 365.0


@dataclass
class Household:
    """What the programme is given, with where each comes from.

    Attributes
    ----------
    start : int
        The Monday with which the plan's first week begins (days since 1970).
    items : dict of str to int
    ev : dict of str to int
        The batch or purchase that a recipe or price is from.
    left_out : list of str
    """

    start: int
    crops: list[GardenCrop]
    recipes: list[Recipe]
    foods: list[Food]
    needs: list[float]
    limits: YearLimits
    items: dict[str, int] = field(default_factory=dict)
    ev: dict[str, int] = field(default_factory=dict)
    made: dict[str, tuple[int, str]] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    no_hours: list[str] = field(default_factory=list)
    standing: set[str] = field(default_factory=set)

    def week_on(self, week: int) -> str:
        """Return the Monday of a week of the plan."""
        return (dt.date(1970, 1, 1) + dt.timedelta(days=self.start + 7 * week)).isoformat()


def household_of(state: State, hours: float, chance: str) -> Household:
    """Return a state's household for a year's plan, with so many hands' hours a week."""
    need = eaters_of(state)
    needs = [need.need[name] * _DAYS for name in NUTRIENTS[:_SODIUM]]
    needs.append(need.sodium_level() * _DAYS)
    plan = usual_plan(state)
    start = _start(state, {crop.item for crop in plan.crops})
    limits = _limits(state, 0.0, 24.0)
    freezer = limits.freezer_lb
    beds = {name: area for name, area in plan.beds.items() if area > 0}
    out = Household(
        start,
        [],
        [],
        [],
        needs,
        YearLimits(beds, (hours,) * WEEKS, _jars(state), math.inf, freezer),
    )
    _add_crops(state, out, chance)
    _add_recipes(state, out)
    _add_foods(state, out)
    return out


def _start(state: State, crops: set[int]) -> int:
    """Return the Monday of the week in which next season's picking begins, by all own seasons."""
    lots = state.lots
    rows = np.flatnonzero(
        np.isin(lots["item"], sorted(crops)) & (lots["origin"] == ORIGINS.index("grown"))
    )
    year = usual_plan(state).garden.next
    first = state.as_of_day
    if rows.size:
        days = [dt.date(1970, 1, 1) + dt.timedelta(days=int(day)) for day in lots["day"][rows]]
        on = min(day.timetuple().tm_yday for day in days)
        first = (dt.date(year, 1, 1) - dt.date(1970, 1, 1)).days + on - 1
    first = max(first, state.as_of_day)
    return first - (first + 3) % 7  # 1 January 1970 was a Thursday


def _shelf_left(state: State, start: int) -> float:
    """Return which part of today's shelf is left when the plan's year begins: its energy less what is eaten."""
    larder, need = larder_of(state), eaters_of(state).need["energy_kcal"]
    days = sum(float(p.nutrients[0]) for p in larder.portions) / need if need else 0.0
    return max(1 - (start - state.as_of_day) / days, 0.0) if days else 0.0


def _jars(state: State) -> dict[str, float]:
    """Return jars by kind: those empty and those that are full now, as they come free."""
    from ledger.projections._jars import jar_totals

    return {jar: float(row["empty"] + row["full"]) for jar, row in state.once(jar_totals).items()}


def _per_kg(state: State, item: int) -> tuple[float, ...] | None:
    """Return nutrients in a kilogram as kept, by the item's own row; None without one."""
    larder, per = larder_of(state), state.facts.grams_per_whole(item)
    if per is None or not larder.is_direct[item]:
        return None
    return tuple(float(v) for v in np.nan_to_num(larder.per_whole[item]) / per * 1000)


def _add_crops(state: State, out: Household, chance: str) -> None:
    from ledger.projections._glut_house import _life
    from ledger.projections.next_season import build as next_season

    hours, fresh = _picking_hours(state), eaters_of(state).count * _FRESH_KG * 7
    for row in next_season(state).rows():
        item = state.facts.find(row["crop"])
        assert item is not None
        plants = row["plants.likely"] if chance == "even" else row["plants.nine_in_ten"]
        area, needed, planned = row["area_m2"], row["needed_g.likely"], row["plants.planned"]
        nutrients = _per_kg(state, item)
        if not plants or not area or not needed or not planned or nutrients is None:
            if row["bed"] is not None or area:
                out.left_out.append(f"{row['crop']}: its yield, ground or nutrients are not known")
            continue
        harvest = _harvest(state, item, out.start)
        if harvest is None:
            out.left_out.append(f"{row['crop']}: it was never picked, so nobody knows when")
            continue
        per_m2 = needed / 1000 / plants / (area / planned)
        life, _ = _life(state, item)
        out.items[row["crop"]] = item
        if item not in hours:
            out.no_hours.append(row["crop"])
        out.crops.append(
            GardenCrop(
                row["crop"],
                per_m2,
                harvest,
                max(life // 7, 1),
                nutrients,
                needed / 1000 * _MORE,
                hours.get(item, 0.0),
                0.0,
                fresh,
            )
        )


def _harvest(state: State, item: int, start: int) -> tuple[float, ...] | None:
    """Return which part of a crop is picked in each week of the plan, by all own seasons."""
    lots = state.lots
    rows = np.flatnonzero((lots["item"] == item) & (lots["origin"] == ORIGINS.index("grown")))
    if not rows.size:
        return None
    week = ((lots["day"][rows] - start) % 365.2425 // 7).astype(int)
    parts = np.bincount(np.minimum(week, WEEKS - 1), lots["whole"][rows].astype(float), WEEKS)
    return tuple(float(one) for one in parts / parts.sum())


def _picking_hours(state: State) -> dict[int, float]:
    """Return hours for a kilogram of each crop, planting included, by the newest season that says some."""
    from ledger.projections._season_field import crops_of
    from ledger.projections._season_money import Money

    field_, out = crops_of(state), {}
    money = Money(field_)
    for season in field_.seasons():
        for plot in field_.of(season):
            spent, grams = (
                money.hours(plot),
                sum(v or 0.0 for v in money.where_it_went(plot).values()),
            )
            if spent and grams > 0:
                out[plot.crop] = spent / (grams / 1000)
    return out


def _add_recipes(state: State, out: Household) -> None:
    batches = Batches(usual_plan(state))
    sizes = jars_per_load(state.settings.newest("jars_per_load"))
    names = {crop.name for crop in out.crops}
    for item, made in sorted(batches.plan.recipes.made.items()):
        crop = batches.crop_of(item)
        if crop is None or crop.name not in names or made.method in ("cook", "cellar"):
            continue
        name = state.facts.names[item]
        good = published_batch(state, made)
        if good is None:
            out.left_out.append(f"{name}: no batch of your own stands as published")
            continue
        found = _recipe(state, batches, item, made, crop.item, sizes, good)
        if found is None:
            out.left_out.append(f"{name}: its weight, its hours or what is in it is not known")
            continue
        out.recipes.append(found)
        out.items[name], out.ev[name], out.made[name] = item, good, (item, made.method)


def _recipe(
    state: State,
    batches: Batches,
    item: int,
    made: Made,
    crop: int,
    sizes: dict[str, int],
    good: int,
) -> Recipe | None:
    per, take = state.facts.grams_per_whole(crop), batches.plan.recipes.take(item, crop, 1)
    weight = state.facts.grams_per_whole(item)
    can = made.method in CANNING and bool(made.per_jar) and made.jar is not None
    if not per or not take or not weight:
        return None
    whole = float(made.per_jar) if can and made.per_jar else 1000.0 / weight
    lot = int(np.flatnonzero((state.lots["ev"] == good) & (state.lots["item"] == item))[0])
    values = tuple(float(v) for v in larder_of(state).portion(lot, whole).nutrients)
    minutes = batches.plan.recipes.minutes_each(item)
    if minutes is None:
        return None
    jar = state.facts.names[made.jar] if can and made.jar is not None else ""
    name = state.facts.names[item]
    year = batches.year(item)
    cost = (
        float(state.costs.lot[lot, :8].sum() - state.costs.lot[lot, 7])
        / float(state.lots["whole"][lot])
        * whole
    )
    return Recipe(
        name, state.facts.names[crop], whole * take * per / 1000, minutes * whole / 60, values,
        _MORE * year / whole, sizes.get(jar, 7) if can else 0, jar,
        whole * weight / _LB if made.method == "freeze" else 0.0, max(cost, 0.0),
    )  # fmt: skip


def _add_foods(state: State, out: Household) -> None:
    used, grown = _used(state, "bought"), _used(state, "grown")
    planned = {out.items[crop.name] for crop in out.crops}
    there: dict[int, tuple[float, Any]] = {}
    left = _shelf_left(state, out.start)
    for p in larder_of(state).portions:
        if math.isnan(p.grams):
            continue
        kg, values = there.get(p.item, (0.0, 0.0))
        there[p.item] = kg + p.grams / 1000 * left, values + p.nutrients * left
    for item, whole in grown.items():  # trees, berries and eggs come as they came
        nutrients = _per_kg(state, item)
        per = state.facts.grams_per_whole(item)
        if item in planned or nutrients is None or not per:
            continue
        kg, values = there.get(item, (0.0, 0.0))
        more = whole * per / 1000
        there[item] = kg + more, values + np.array(nutrients) * more
        out.standing.add(state.facts.names[item])
    items = np.arange(len(state.facts))
    price, ev, _ = state.costs.prices.of(items, np.full(items.size, state.as_of_day))
    bought = set(state.lots["item"][state.lots["origin"] == ORIGINS.index("bought")].tolist())
    for item in sorted({*there, *(i for i in used if i in bought)}):
        if not larder_of(state).is_food[item] or larder_of(state).is_salt[item]:
            continue
        name, per = state.facts.names[item], state.facts.grams_per_whole(item)
        kg, values = there.get(item, (0.0, None))
        nutrients = _per_kg(state, item)
        if nutrients is None and kg > 0 and values is not None:
            nutrients = tuple(float(v) / kg for v in values)
        if nutrients is None or not per:
            continue
        money = float(price[item]) / per * 1000 if ev[item] >= 0 and item in bought else None
        most = _MORE * used.get(item, 0.0) * per / 1000 if money is not None else 0.0
        out.foods.append(Food(name, nutrients, kg, money, most))
        out.items[name] = item
        if money is not None:
            out.ev.setdefault(f"price of {name}", int(ev[item]))


def _used(state: State, origin: str) -> dict[int, float]:
    """Return whole units of food of an origin used in the last year, by item."""
    draw, lot, amount = state.allocations
    recent = state.as_of_day - state.draws["day"][draw] < _DAYS
    rows = np.flatnonzero(
        is_use(state)[draw] & recent & (state.lots["origin"][lot] == ORIGINS.index(origin))
    )
    sums = np.bincount(state.lots["item"][lot[rows]], amount[rows].astype(float), len(state.facts))
    return {int(i): float(sums[i]) for i in np.flatnonzero(sums)}


@dataclass
class _Kept:
    """Plans of one moment, by what was asked, so that each figure that is opened needs no new one."""

    of: dict[tuple[float, str], tuple[Household, YearPlan]]


def _kept(_: State) -> _Kept:
    return _Kept({})


def solved(state: State, hours: float, chance: str) -> tuple[Household, YearPlan]:
    """Return a household and its plan, worked out once a moment and asking."""
    kept = state.once(_kept).of
    if (hours, chance) not in kept:
        house = household_of(state, hours, chance)
        kept[hours, chance] = (
            house,
            plan_year(house.crops, house.recipes, house.foods, house.needs, house.limits),
        )
    return kept[hours, chance]
