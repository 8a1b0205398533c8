"""The pantry and the shop of a year's plan: what is there until when, and what may be bought at what price."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from ledger.methods.year_plan import WEEKS, Food
from ledger.questions.food.nutrients import held
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.use_by import use_by_of
from ledger.questions.shared.use_past import is_use
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year.garden import MORE, per_kg
from ledger.reference.needs import NUTRIENTS
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State
    from ledger.replay.columns import Array

__all__ = ["add_foods"]

_DAYS = 365


def add_foods(state: State, out: Household) -> None:
    """Add food of the pantry, as far as it is left and good by then, and of the shop at its newest price."""
    there, inside = _pantry(state, out.start)
    used = _used(state)
    items = np.arange(len(state.facts))
    price, ev, _ = state.costs.prices.of(items, np.full(items.size, state.as_of_day))
    bought = set(state.lots["item"][state.lots["origin"] == ORIGINS.index("bought")].tolist())
    larder = larder_of(state)
    for item in sorted({*there, *(one for one in used if one in bought)}):
        if not larder.is_food[item] or larder.is_salt[item]:
            continue
        name, per = state.facts.names[item], state.facts.grams_per_whole(item)
        by_week = tuple(sorted(there.get(item, {}).items()))
        kg = math.fsum(many for _, many in by_week)
        nutrients = per_kg(state, item)
        if nutrients is None and kg > 0:
            nutrients = tuple(float(v) / kg for v in inside[item])
        if nutrients is None or not per:
            continue
        sold = ev[item] >= 0 and item in bought
        most = MORE * used.get(item, 0.0) * per / 1000 if sold else 0.0
        money = float(price[item]) / per * 1000 if sold else None
        out.foods.append(Food(name, nutrients, by_week, money, most, most / WEEKS))
        out.items[name] = item
        if sold:
            out.price_ev[name] = int(ev[item])


def _pantry(state: State, start: int) -> tuple[dict[int, dict[int, float]], dict[int, Array]]:
    """Return kilograms by item and the last week in which they are good, and the nutrients of an item."""
    there: dict[int, dict[int, float]] = {}
    inside: dict[int, Array] = {}
    left = _shelf_left(state, start)
    food = state.once(held)
    nutrients = np.stack([food.of(n).values for n in range(len(NUTRIENTS))], axis=1)
    for row, (item, lot) in enumerate(zip(food.items.tolist(), food.lots.tolist(), strict=True)):
        day, _ = use_by_of(state, lot)
        week = WEEKS - 1 if day is None else min((day - start) // 7, WEEKS - 1)
        kg = food.grams.value(row) / 1000 * left
        if math.isnan(kg) or kg <= 0 or week < 0:
            continue
        mine = there.setdefault(item, {})
        mine[week] = mine.get(week, 0.0) + kg
        inside[item] = inside.get(item, 0.0) + nutrients[row] * left
    return there, inside


def _shelf_left(state: State, start: int) -> float:
    """Return which part of today's shelf is left when the plan's year begins: its energy less what is eaten."""
    need = eaters_of(state).need["energy_kcal"]
    days = float(state.once(held).of(0).values.sum()) / need if need else 0.0
    return max(1 - (start - state.as_of_day) / days, 0.0) if days else 0.0


def _used(state: State) -> dict[int, float]:
    """Return whole units of bought food used in the last year, by item."""
    draw, lot, amount = state.allocations
    recent = state.as_of_day - state.draws["day"][draw] < _DAYS
    is_bought = state.lots["origin"][lot] == ORIGINS.index("bought")
    rows = np.flatnonzero(state.once(is_use)[draw] & recent & is_bought)
    sums = np.bincount(state.lots["item"][lot[rows]], amount[rows].astype(float), len(state.facts))
    return {int(i): float(sums[i]) for i in np.flatnonzero(sums)}
