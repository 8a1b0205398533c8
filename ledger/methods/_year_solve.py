"""Solving the year's programme: least cost, whole jars, then evenly spread (see `ledger.methods.year_plan`)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.messages import Message
from ledger.methods._year_rows import Rows, Year

if TYPE_CHECKING:
    from ledger.methods._year_rows import Array
    from ledger.methods.year_terms import Recipe

__all__ = ["Solved", "solve_year"]

_SESSION = 0.05
_AGAIN = 2
"""Money that a week of canning one thing counts beside all else, so that a season's jars go into few weeks,
and how often it is weighed anew: our own choice."""
_HOUR, _GROUND = 0.01, 0.001
"""Money that an hour's work and a square metre count beside all else, so that no more is done than is needed:
our own choice."""
_LEVEL = {"fresh": 1.0, "eat": 1.0, "stock": 1.0, "buy": 1.0, "lack": 10.0}
_GIVEN = 0.5
"""What evenness counts for by what is spread (a kilogram, a jar, a week's need), and a kilogram given: our own."""


class Solved:
    """A solved year: `x` by column, `best` the least cost before jars were whole, `cost` that of `x`."""

    def __init__(self, x: Array, best: float, cost: float) -> None:
        self.x, self.best, self.cost = x, best, cost


def solve_year(year: Year) -> Solved:
    """Return a year's programme solved.

    The linear programme gives the least cost there can be. Weighed anew by what it cans in each week it
    puts the jars of a season into few weeks (reweighted l1: Candes, Wakin and Boyd 2008, from memory); these
    are rounded down to whole jars and, if the stove has no time for a part load, whole loads, and all else
    is solved again around them. What the rounding costs is the difference from the least cost.

    Raises
    ------
    InputError
        When the solver finds no plan.
    """
    cost = year.money() + _trouble(year)
    cost[year.lack] = weight_of(year)
    bounds = np.stack([np.zeros(year.size), year.high], axis=1)
    x = _least(year.rows, cost, bounds)
    best = float(cost @ x)
    canned = [r for r, recipe in enumerate(year.recipes) if recipe.per_load]
    if canned:
        for _ in range(_AGAIN):
            fewer = cost.copy()
            fewer[year.loads[canned]] += _SESSION / (x[year.loads[canned]] + 0.1)
            x = _least(year.rows, fewer, bounds)
        for r in canned:
            bounds[year.units[r]] = np.floor(x[year.units[r]] + 1e-6)[:, None]
        _whole_loads(year, bounds)
        x = _least(year.rows, cost, bounds)
    return Solved(_even(year, x, cost, bounds), best, float(cost @ x))


def _trouble(year: Year) -> Array:
    """Return what each column costs in work and ground, so little that it only breaks ties of money."""
    out = np.zeros(year.size)
    for c, crop in enumerate(year.crops):
        worked = crop.hours_per_kg * crop.kg_per_m2 * math.fsum(crop.harvest)
        out[year.grown[c]] = _GROUND + _HOUR * worked
    for r, recipe in enumerate(year.recipes):
        out[year.units[r]] = _HOUR * (recipe.hours + 0.01)
        out[year.loads[r]] = _HOUR * 0.01
    return out


def weight_of(year: Year) -> float:
    """Return what a week's whole need that lacks counts: more than all money that may be spent."""
    most = sum(food.most_kg * (food.price or 0.0) for food in year.foods)
    most += sum(recipe.cost * recipe.most for recipe in year.recipes)
    most += sum(crop.cost_per_m2 for crop in year.crops) * sum(year.limits.beds.values())
    return float(10 * (most + 1) / year.lack.shape[1])


def _least(rows: Rows, cost: Array, bounds: Array) -> Array:
    """Return the columns of least cost; interior point is several times quicker here than the simplex."""
    from scipy.optimize import linprog
    from scipy.sparse import vstack

    low, high, matrix = np.array(rows.low), np.array(rows.high), rows.matrix(cost.size)
    equal = low == high
    above, below = np.isfinite(high) & ~equal, np.isfinite(low) & ~equal
    found = linprog(
        cost, A_ub=vstack([matrix[above], -matrix[below]]),
        b_ub=np.concatenate([high[above], -low[below]]),
        A_eq=matrix[equal], b_eq=low[equal], bounds=bounds, method="highs-ipm",
    )  # fmt: skip
    if found.status != 0:
        raise InputError(
            "hours", Message.of("refusal-no-plan-left"), Message.of("refusal-hours-or-ground")
        )
    return np.asarray(np.clip(found.x, bounds[:, 0], bounds[:, 1]))


def _whole_loads(year: Year, bounds: Array) -> None:
    """Fix loads to those that the jars take; where a week's stove hours do not reach, part loads go first."""
    for week in range(year.units.shape[1]):
        jars = {
            r: float(bounds[year.units[r, week], 0])
            for r, one in enumerate(year.recipes)
            if one.per_load
        }
        part = sorted(
            (r for r in jars if jars[r]), key=lambda r: jars[r] % year.recipes[r].per_load
        )
        for r in part:
            if _stove(year.recipes, jars) <= year.limits.stove_hours + 1e-9:
                break
            jars[r] -= jars[r] % year.recipes[r].per_load
        for r, many in jars.items():
            bounds[year.units[r, week]] = many
            bounds[year.loads[r, week]] = math.ceil(many / year.recipes[r].per_load)


def _stove(recipes: Sequence[Recipe], jars: dict[int, float]) -> float:
    return math.fsum(
        math.ceil(n / recipes[r].per_load) * recipes[r].stove_hours for r, n in jars.items()
    )


def _even(year: Year, x: Array, cost: Array, bounds: Array) -> Array:
    """Return a plan of that cost with the same beds, each food and what lacks spread over its weeks.

    The most of each in a week is made as small as may be, and as little as may be is given away.
    """
    bounds = bounds.copy()
    for columns in (year.area, year.grown, year.units, year.loads):
        bounds[columns] = x[columns][..., None]
    rows, weights = Rows(), np.zeros(year.size)
    weights[year.give] = _GIVEN
    size, peaks = year.size, []
    for name, level in _LEVEL.items():
        for columns in getattr(year, name):
            some = columns[year.high[columns] > 0]
            if some.size > 1:
                for col in some.tolist():
                    rows.add({col: 1.0, size: -1.0}, -np.inf, 0.0)
                peaks.append(level)
                size += 1
    most = float(cost @ x)
    spent = {int(col): float(cost[col]) for col in np.flatnonzero(cost)}
    rows.add(spent, -np.inf, most + 1e-6 * (1 + abs(most)))
    rows.rows = year.rows.rows + rows.rows
    rows.low, rows.high = year.rows.low + rows.low, year.rows.high + rows.high
    wide = np.vstack([bounds, np.tile([0.0, np.inf], (size - year.size, 1))])
    try:
        return _least(rows, np.concatenate([weights, peaks]), wide)[: year.size]
    except InputError:  # rounding left no room beside the plan that is there
        return x
