"""Reading the year's plan from the solved programme (see `ledger.methods.year_plan`)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Protocol

from ledger.methods.year_terms import WEEKS, Limit, YearPlan

if TYPE_CHECKING:
    from ledger.methods._year_rows import Array, Year
    from ledger.methods._year_solve import Solved

__all__ = ["read_year"]

_LEAST = 1e-4
"""Kilograms, jars or square metres under which nothing is told."""


class _Named(Protocol):
    @property
    def name(self) -> str: ...


def read_year(year: Year, solved: Solved) -> YearPlan:
    """Return what a solved programme says."""
    x = solved.x
    planted = {
        (crop.name, bed): float(x[year.area[c, b]])
        for c, crop in enumerate(year.crops)
        for b, bed in enumerate(year.beds)
        if x[year.area[c, b]] > _LEAST
    }
    made = _by_week(year.recipes, year.units, x)
    canned = {recipe.name for recipe in year.recipes if recipe.per_load}
    loads = _by_week(year.recipes, year.loads, x)
    put_up = {
        key: (float(round(units)) if key[0] in canned else units, round(loads.get(key, 0.0)))
        for key, units in made.items()
    }
    short = {
        (n, week): float(x[year.lack[n, week]]) * need
        for n, need in enumerate(year.needs)
        for week in range(WEEKS)
        if x[year.lack[n, week]] > _LEAST
    }
    return YearPlan(
        planted,
        _by_week(year.crops, year.fresh, x),
        _by_week(year.crops, year.give, x),
        put_up,
        _by_week(year.recipes, year.eat, x),
        {
            (recipe.name, week): float(full)
            for r, recipe in enumerate(year.recipes)
            for week, full in enumerate(x[year.eat[r]] + x[year.kept[r]])
            if full > _LEAST
        },
        _by_week(year.foods, year.stock, x),
        _by_week(year.foods, year.buy, x),
        short,
        float(year.money() @ x),
        [_limit(name, weeks, x) for name, weeks in year.named.items()],
        solved.best,
        max(solved.cost - solved.best, 0.0) / max(solved.best, 1.0),
    )


def _by_week(many: Sequence[_Named], columns: Array, x: Array) -> dict[tuple[str, int], float]:
    return {
        (one.name, week): float(x[columns[at, week]])
        for at, one in enumerate(many)
        for week in range(WEEKS)
        if x[columns[at, week]] > _LEAST
    }


def _limit(
    name: str, weeks: list[tuple[int | None, str, dict[int, float], float]], x: Array
) -> Limit:
    """Return a limit in the week that leaves least of it."""
    used = [
        (sum(value * float(x[col]) for col, value in row.items()), week, unit, most)
        for week, unit, row, most in weeks
    ]
    most_used = max(used, key=lambda one: one[0] - one[3])
    return Limit(name, most_used[0], most_used[3], most_used[2], most_used[1])
