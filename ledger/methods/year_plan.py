"""One plan for a year: beds, harvest, putting up and shopping that meet what people need for least money.

    minimise    money for shop, beds and jars  +  M x what the needs lack, as parts of each need
    subject to  square metres planted  <=  each bed
                what is eaten fresh and put up by a week  <=  what was picked by then
                what is picked is eaten, put up or given while it is good
                hands' hours of each week, jars, lids and freezer room
                energy and each nutrient: garden + jars + pantry + shop + lacking  >=  need
                sodium  <=  its level + over

Canner loads and jars are whole numbers. M outweighs all money, so needs come first; the needs are those
of the whole year. Solved with HiGHS through scipy.optimize.milp.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from ledger.errors import InputError

__all__ = ["WEEKS", "Food", "GardenCrop", "Limit", "Recipe", "YearLimits", "YearPlan", "plan_year"]

WEEKS = 52
_SECONDS = 45.0
_Row = dict[int, float]


@dataclass(frozen=True)
class GardenCrop:
    """A crop.

    Attributes
    ----------
    name : str
    kg_per_m2 : float
        At the chance that was chosen.
    harvest : tuple of float
        Which part of it is picked in each week; together 1 or less.
    life_weeks : int
        How many weeks it stays good as picked.
    nutrients : tuple of float
        In a kilogram as picked, in the order of the needs; the last is sodium.
    most_kg : float
        No more than so much is grown.
    hours_per_kg, cost_per_m2 : float
    fresh_a_week_kg : float
        No more than so much of it is eaten as it is in a week.
    """

    name: str
    kg_per_m2: float
    harvest: tuple[float, ...]
    life_weeks: int
    nutrients: tuple[float, ...]
    most_kg: float
    hours_per_kg: float = 0.0
    cost_per_m2: float = 0.0
    fresh_a_week_kg: float = math.inf


@dataclass(frozen=True)
class Recipe:
    """A way to put a crop up, a unit being a jar or a kilogram; `per_load` 0 needs no canner."""

    name: str
    crop: str
    kg: float
    hours: float
    nutrients: tuple[float, ...]
    most: float
    per_load: int = 0
    jar: str = ""
    freezer_lb: float = 0.0
    cost: float = 0.0


@dataclass(frozen=True)
class Food:
    """Food in the pantry or of the shop: kilograms there, and at what price how much more."""

    name: str
    nutrients: tuple[float, ...]
    there_kg: float = 0.0
    price: float | None = None
    most_kg: float = 0.0


@dataclass(frozen=True)
class YearLimits:
    """Square metres by bed, hours by week, empty jars by kind, lids, pounds of freezer room."""

    beds: Mapping[str, float]
    hours: tuple[float, ...]
    jars: Mapping[str, float] = field(default_factory=dict)
    lids: float = math.inf
    freezer_lb: float = 0.0


@dataclass(frozen=True)
class Limit:
    """A limit of the plan: what is used of it, and whether it binds."""

    name: str
    used: float
    most: float
    unit: str

    @property
    def binds(self) -> bool:
        """Whether nothing of it is left."""
        return self.used >= self.most - 1e-4 * max(1.0, self.most)


@dataclass
class YearPlan:
    """What the plan says.

    Attributes
    ----------
    planted : dict of (crop, bed) to float
        Square metres.
    fresh : dict of (crop, week) to float
        Kilograms eaten fresh.
    put_up : dict of (recipe, week) to (units, loads)
    pantry, bought : dict of str to float
        Kilograms by food.
    given : dict of str to float
        Kilograms of each crop that nobody needs.
    short : dict of int to float
        What each need lacks, by its place; of sodium what is over.
    cost : float
        Money of the plan.
    limits : list of Limit
    proven : bool
    """

    planted: dict[tuple[str, str], float]
    fresh: dict[tuple[str, int], float]
    put_up: dict[tuple[str, int], tuple[float, int]]
    pantry: dict[str, float]
    bought: dict[str, float]
    given: dict[str, float]
    short: dict[int, float]
    cost: float
    limits: list[Limit]
    proven: bool


class _Year:
    """Columns and rows of the programme."""

    def __init__(
        self,
        crops: Sequence[GardenCrop],
        recipes: Sequence[Recipe],
        foods: Sequence[Food],
        needs: Sequence[float],
        limits: YearLimits,
    ) -> None:
        self.crops, self.recipes, self.foods = crops, recipes, foods
        self.needs, self.limits, self.beds = needs, limits, list(limits.beds)
        self.size = 0
        self.area = self._columns(len(crops), len(self.beds))
        self.fresh = self._columns(len(crops), WEEKS)
        self.give = self._columns(len(crops), WEEKS)
        self.units = self._columns(len(recipes), WEEKS)
        self.loads = self._columns(len(recipes), WEEKS)
        self.stock = self._columns(len(foods))
        self.buy = self._columns(len(foods))
        self.lack = self._columns(len(needs))
        self.rows: list[tuple[_Row, float, float]] = []
        self.named: list[tuple[str, str, _Row, float]] = []
        self._bounds()
        self._garden()
        self._house()
        self._table()

    def _columns(self, *shape: int) -> np.ndarray[Any, Any]:
        many = math.prod(shape)
        out = self.size + np.arange(many).reshape(shape)
        self.size += many
        return out

    def _bounds(self) -> None:
        self.high = np.full(self.size, np.inf)
        self.whole = np.zeros(self.size)
        for r, recipe in enumerate(self.recipes):
            crop = next(c for c in self.crops if c.name == recipe.crop)
            open_ = _open(crop)
            self.high[self.units[r]] = np.where(
                open_, math.floor(recipe.most) if recipe.per_load else recipe.most, 0.0
            )
            self.high[self.loads[r]] = (
                np.where(open_, math.ceil(recipe.most / recipe.per_load), 0)
                if recipe.per_load
                else 0
            )
            if recipe.per_load:
                self.whole[self.loads[r]] = 1
        for c, crop in enumerate(self.crops):
            self.high[self.fresh[c]] = crop.fresh_a_week_kg
        for f, food in enumerate(self.foods):
            self.high[self.stock[f]] = food.there_kg
            self.high[self.buy[f]] = food.most_kg if food.price is not None else 0.0

    def _grown(self, c: int, share: float) -> _Row:
        kg = self.crops[c].kg_per_m2 * share
        return {int(col): -kg for col in self.area[c]} if kg else {}

    def _garden(self) -> None:
        for b, bed in enumerate(self.beds):
            row = {int(self.area[c, b]): 1.0 for c in range(len(self.crops))}
            self._limit(f"ground of {bed}", "m2", row, self.limits.beds[bed])
        for c, crop in enumerate(self.crops):
            if crop.kg_per_m2 > 0:
                self.rows.append((self._negated(self._grown(c, 1.0)), -np.inf, crop.most_kg))
            picked = np.cumsum(crop.harvest)
            for week in range(WEEKS):
                used = self._used(c, week)
                self.rows.append(({**used, **self._grown(c, float(picked[week]))}, -np.inf, 0.0))
                before = week - crop.life_weeks
                if before >= 0 and picked[before] > 0:
                    self.rows.append(
                        ({**used, **self._grown(c, float(picked[before]))}, 0.0, np.inf)
                    )
            self.rows.append(
                ({**self._used(c, WEEKS - 1), **self._grown(c, float(picked[-1]))}, 0.0, 0.0)
            )

    @staticmethod
    def _negated(row: _Row) -> _Row:
        return {col: -value for col, value in row.items()}

    def _used(self, c: int, week: int) -> _Row:
        """Return what of a crop is used up to and with a week."""
        row: _Row = {}
        for w in range(week + 1):
            row[int(self.fresh[c, w])] = row[int(self.give[c, w])] = 1.0
            for r, recipe in enumerate(self.recipes):
                if recipe.crop == self.crops[c].name and self.high[self.units[r, w]] > 0:
                    row[int(self.units[r, w])] = recipe.kg
        return row

    def _house(self) -> None:
        limits = self.limits
        for week in range(WEEKS):
            row: _Row = {}
            for c, crop in enumerate(self.crops):
                if crop.harvest[week] and crop.hours_per_kg:
                    for col in self.area[c]:
                        row[int(col)] = crop.kg_per_m2 * crop.harvest[week] * crop.hours_per_kg
            for r, recipe in enumerate(self.recipes):
                if self.high[self.units[r, week]] > 0:
                    row[int(self.units[r, week])] = recipe.hours
            if row:
                self._limit(f"hours of week {week + 1}", "hours", row, limits.hours[week])
        for r, recipe in enumerate(self.recipes):
            self._loads_of(r, recipe)
        self._stores()

    def _loads_of(self, r: int, recipe: Recipe) -> None:
        every = {int(col): 1.0 for col in self.units[r]}
        self.rows.append((every, -np.inf, recipe.most))
        for week in range(WEEKS):
            if recipe.per_load and self.high[self.units[r, week]] > 0:
                full = {
                    int(self.units[r, week]): 1.0,
                    int(self.loads[r, week]): -float(recipe.per_load),
                }
                self.rows.append((full, -np.inf, 0.0))

    def _stores(self) -> None:
        limits = self.limits
        for jar in sorted({recipe.jar for recipe in self.recipes if recipe.jar}):
            row = {
                int(col): 1.0
                for r, recipe in enumerate(self.recipes)
                if recipe.jar == jar
                for col in self.units[r]
            }
            self._limit(jar, "jars", row, limits.jars.get(jar, 0.0))
        room = {
            int(col): recipe.freezer_lb
            for r, recipe in enumerate(self.recipes)
            if recipe.freezer_lb
            for col in self.units[r]
        }
        if room:
            self._limit("freezer room", "lb", room, limits.freezer_lb)
        lids = {
            int(col): 1.0
            for r, recipe in enumerate(self.recipes)
            if recipe.per_load
            for col in self.units[r]
        }
        if lids and math.isfinite(limits.lids):
            self._limit("lids", "lids", lids, limits.lids)

    def _limit(self, name: str, unit: str, row: _Row, most: float) -> None:
        self.rows.append((row, -np.inf, most))
        self.named.append((name, unit, row, most))

    def _table(self) -> None:
        last = len(self.needs) - 1
        for n, need in enumerate(self.needs):
            row: _Row = {}
            for c, crop in enumerate(self.crops):
                if crop.nutrients[n]:
                    row.update({int(col): crop.nutrients[n] for col in self.fresh[c]})
            for r, recipe in enumerate(self.recipes):
                if recipe.nutrients[n]:
                    row.update({int(col): recipe.nutrients[n] for col in self.units[r]})
            for f, food in enumerate(self.foods):
                if food.nutrients[n]:
                    row[int(self.stock[f])] = row[int(self.buy[f])] = food.nutrients[n]
            scale = 1 / need if need > 0 else 0.0
            scaled = {col: value * scale for col, value in row.items()}
            if n == last:
                self.rows.append(
                    ({**scaled, int(self.lack[n]): -1.0}, -np.inf, 1.0 if need > 0 else np.inf)
                )
            else:
                self.rows.append(
                    ({**scaled, int(self.lack[n]): 1.0}, 1.0 if need > 0 else 0.0, np.inf)
                )

    def money(self) -> np.ndarray[Any, Any]:
        """Return what each column costs in money."""
        cost = np.zeros(self.size)
        for c, crop in enumerate(self.crops):
            cost[self.area[c]] = crop.cost_per_m2
        for r, recipe in enumerate(self.recipes):
            cost[self.units[r]] = recipe.cost
        for f, food in enumerate(self.foods):
            cost[self.buy[f]] = food.price or 0.0
        return cost


def _open(crop: GardenCrop) -> np.ndarray[Any, Any]:
    """Return the weeks in which a crop is there: while it is picked, and as long as it stays good."""
    out = np.zeros(WEEKS, bool)
    for week, share in enumerate(crop.harvest):
        if share > 0:
            out[week : week + crop.life_weeks + 1] = True
    return out


def plan_year(
    crops: Sequence[GardenCrop],
    recipes: Sequence[Recipe],
    foods: Sequence[Food],
    needs: Sequence[float],
    limits: YearLimits,
) -> YearPlan:
    """Return the plan of a year.

    Parameters
    ----------
    crops, recipes, foods : sequences
    needs : sequence of float
        Of the year, in the order of the nutrients; the last is the level of sodium.
    limits : YearLimits

    Returns
    -------
    YearPlan
        What is picked is what is eaten fresh, put up and given.

    Raises
    ------
    InputError
        When a recipe's crop is not there, or hours are not of 52 weeks.
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    names = {crop.name for crop in crops}
    for recipe in recipes:
        if recipe.crop not in names or not recipe.kg > 0:
            raise InputError(
                recipe.name, "takes no crop of the plan", "Name a crop and what a unit takes"
            )
    if len(limits.hours) != WEEKS or min(limits.hours) < 0:
        raise InputError(
            "hours", "are not those of 52 weeks", "Give hours of 0 or more for each week"
        )
    year = _Year(crops, recipes, foods, needs, limits)
    money = year.money()
    most = sum(food.most_kg * (food.price or 0.0) for food in foods) + sum(
        r.cost * r.most for r in recipes
    )
    most += sum(crop.cost_per_m2 for crop in crops) * sum(limits.beds.values())
    cost = money.copy()
    cost[year.lack] = 10 * (most + 1)
    kept = [(row, low, high) for row, low, high in year.rows if row]
    at = [(i, col, value) for i, (row, _, _) in enumerate(kept) for col, value in row.items()]
    i, col, value = (np.array(part) for part in zip(*at, strict=True))
    matrix = csr_array((value, (i, col)), shape=(len(kept), year.size))
    found = milp(
        cost, constraints=LinearConstraint(matrix, [low for _, low, _ in kept], [high for _, _, high in kept]),
        bounds=Bounds(0, year.high), integrality=year.whole,
        options={"time_limit": _SECONDS, "mip_rel_gap": 1e-4},
    )  # fmt: skip
    if found.x is None:
        raise InputError("hours", "leave no plan", "Give more hours or ground")
    return _read(year, np.asarray(found.x), money, proven=found.status == 0)


def _read(
    year: _Year, x: np.ndarray[Any, Any], money: np.ndarray[Any, Any], *, proven: bool
) -> YearPlan:
    tiny = 1e-6
    planted = {
        (c.name, b): float(x[year.area[i, j]])
        for i, c in enumerate(year.crops)
        for j, b in enumerate(year.beds)
        if x[year.area[i, j]] > 1e-4
    }
    fresh = {
        (c.name, w): float(x[year.fresh[i, w]])
        for i, c in enumerate(year.crops)
        for w in range(WEEKS)
        if x[year.fresh[i, w]] > tiny
    }
    put_up = {
        (r.name, w): (float(x[year.units[i, w]]), round(float(x[year.loads[i, w]])))
        for i, r in enumerate(year.recipes) for w in range(WEEKS) if x[year.units[i, w]] > tiny
    }  # fmt: skip
    given = {
        c.name: float(x[year.give[i]].sum())
        for i, c in enumerate(year.crops)
        if x[year.give[i]].sum() > tiny
    }
    limits = [
        Limit(name, sum(value * float(x[col]) for col, value in row.items()), most, unit)
        for name, unit, row, most in year.named
    ]
    short = {
        n: float(x[col]) * need
        for n, (col, need) in enumerate(zip(year.lack, year.needs, strict=True))
        if x[col] > 1e-6
    }
    return YearPlan(
        planted, fresh, put_up,
        {f.name: float(x[year.stock[i]]) for i, f in enumerate(year.foods) if x[year.stock[i]] > tiny},
        {f.name: float(x[year.buy[i]]) for i, f in enumerate(year.foods) if x[year.buy[i]] > tiny},
        given, short, float(money @ x), limits, proven,
    )  # fmt: skip
