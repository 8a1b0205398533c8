"""Columns and rows of the year's programme (see `ledger.methods.year_plan`)."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np

from ledger.methods.year_terms import WEEKS, Food, GardenCrop, Recipe, YearLimits

__all__ = ["Rows", "Year"]

Array = np.ndarray[Any, Any]
_Row = dict[int, float]


class Rows:
    """Rows of a programme, ``low <= row x <= high``, as they are written down."""

    def __init__(self) -> None:
        self.rows: list[_Row] = []
        self.low: list[float] = []
        self.high: list[float] = []

    def add(self, row: _Row, low: float, high: float) -> None:
        """Add a row; one without columns bounds nothing."""
        if row:
            self.rows.append(row)
            self.low.append(low)
            self.high.append(high)

    def matrix(self, size: int) -> Any:
        """Return the rows as a sparse matrix, shape (rows, size)."""
        from scipy.sparse import csr_array

        counts = [len(row) for row in self.rows]
        at = np.repeat(np.arange(len(counts)), counts)
        col = np.fromiter((c for row in self.rows for c in row), np.int64, len(at))
        value = np.fromiter((v for row in self.rows for v in row.values()), float, len(at))
        return csr_array((value, (at, col)), shape=(len(counts), size))


class Year:
    """The programme: where each choice has its column, the bounds, the rows, and limits by name.

    Attributes
    ----------
    area : ndarray of int, shape (crops, beds)
    grown : ndarray of int, shape (crops,)
        All ground of a crop.
    fresh, give, left : ndarray of int, shape (crops, 52)
    units, loads, eat, kept, gone : ndarray of int, shape (recipes, 52)
        `kept` is there after a week; `gone` was let go when its time was over.
    stock, buy : ndarray of int, shape (foods, 52)
    lack : ndarray of int, shape (needs, 52)
    named : dict of str to list of (week, unit, row, most)
    """

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
        self.grown = self._columns(len(crops))
        self.fresh, self.give, self.left = (self._columns(len(crops), WEEKS) for _ in range(3))
        self.units, self.loads, self.eat, self.kept, self.gone = (
            self._columns(len(recipes), WEEKS) for _ in range(5)
        )
        self.stock, self.buy = (self._columns(len(foods), WEEKS) for _ in range(2))
        self.lack = self._columns(len(needs), WEEKS)
        self.high = np.full(self.size, np.inf)
        self.rows = Rows()
        self.named: dict[str, list[tuple[int | None, str, _Row, float]]] = {}
        self.open = [_open(crop) for crop in crops]
        for c, crop in enumerate(crops):
            self._crop(c, crop)
        for b, bed in enumerate(self.beds):
            row = {int(self.area[c, b]): 1.0 for c in range(len(crops))}
            self._limit(f"ground of {bed}", None, "m2", row, limits.beds[bed])
        for r, recipe in enumerate(recipes):
            self._recipe(r, recipe)
        for f, food in enumerate(foods):
            self._food(f, food)
        self._hours()
        self._stores()
        for n, need in enumerate(needs):
            self._need(n, need)

    def _columns(self, *shape: int) -> Array:
        many = math.prod(shape)
        out = self.size + np.arange(many).reshape(shape)
        self.size += many
        return out

    def _crop(self, c: int, crop: GardenCrop) -> None:
        here = self.open[c]
        for columns in (self.fresh, self.give, self.left):
            self.high[columns[c]] = np.where(here, np.inf, 0.0)
        self.high[self.fresh[c]] = np.where(here, crop.fresh_a_week_kg, 0.0)
        for b, bed in enumerate(self.beds):
            if bed in crop.closed:
                self.high[self.area[c, b]] = 0.0
        self.high[self.grown[c]] = crop.most_kg / crop.kg_per_m2 if crop.kg_per_m2 > 0 else 0.0
        beds = {int(col): 1.0 for col in self.area[c]}
        self.rows.add({**beds, int(self.grown[c]): -1.0}, 0.0, 0.0)
        comes = crop.comes or (0.0,) * WEEKS
        of = [r for r, recipe in enumerate(self.recipes) if recipe.crop == crop.name]
        for week in np.flatnonzero(here).tolist():
            row = {int(self.left[c, week]): 1.0, int(self.fresh[c, week]): 1.0}
            row[int(self.give[c, week])] = 1.0
            row |= {int(self.units[r, week]): self.recipes[r].kg for r in of}
            if week and here[week - 1]:
                row[int(self.left[c, week - 1])] = -1.0
            picked = crop.kg_per_m2 * crop.harvest[week]
            if picked:
                row[int(self.grown[c])] = -picked
            self.rows.add(row, comes[week], comes[week])
            since = max(week - crop.life_weeks + 1, 0)
            young = crop.kg_per_m2 * sum(crop.harvest[since : week + 1])
            least = {int(self.left[c, week]): 1.0, int(self.grown[c]): -young}
            self.rows.add(least, -np.inf, sum(comes[since : week + 1]))
        self.high[self.left[c, WEEKS - 1]] = 0.0  # what no week of the year eats is given

    def _recipe(self, r: int, recipe: Recipe) -> None:
        here = self.open[next(c for c, crop in enumerate(self.crops) if crop.name == recipe.crop)]
        most = math.floor(recipe.most) if recipe.per_load else recipe.most
        self.high[self.units[r]] = np.where(here, most, 0.0)
        self.high[self.loads[r]] = np.where(here & bool(recipe.per_load), np.inf, 0.0)
        after = np.maximum.accumulate(here)
        for columns in (self.eat, self.kept, self.gone):
            self.high[columns[r]] = np.where(after, np.inf, 0.0)
        self.high[self.eat[r]] = np.where(after, recipe.a_week, 0.0)
        ages = recipe.life_weeks < WEEKS
        self.high[self.gone[r]] = self.high[self.gone[r]] if ages else 0.0
        self.rows.add({int(col): 1.0 for col in self.units[r]}, -np.inf, most)
        for week in np.flatnonzero(after).tolist():
            row = {
                int(self.kept[r, week]): 1.0,
                int(self.eat[r, week]): 1.0,
                int(self.units[r, week]): -1.0,
            }
            if ages:
                row[int(self.gone[r, week])] = 1.0
                since = max(week - recipe.life_weeks + 1, 0)
                young = {int(col): -1.0 for col in self.units[r, since : week + 1]}
                self.rows.add({int(self.kept[r, week]): 1.0, **young}, -np.inf, 0.0)
            if week and after[week - 1]:
                row[int(self.kept[r, week - 1])] = -1.0
            self.rows.add(row, 0.0, 0.0)
            if recipe.per_load and here[week]:
                full = {
                    int(self.units[r, week]): 1.0,
                    int(self.loads[r, week]): -float(recipe.per_load),
                }
                self.rows.add(full, -np.inf, 0.0)

    def _food(self, f: int, food: Food) -> None:
        last = max((week for week, _ in food.there), default=-1)
        weeks = np.arange(WEEKS)
        self.high[self.stock[f]] = np.where(weeks <= last, np.inf, 0.0)
        later = math.fsum(kg for _, kg in food.there)
        before = -1
        for until, kg in food.there:  # eaten after a date: no more than what is good then
            row = {int(col): 1.0 for col in self.stock[f, before + 1 : last + 1]}
            self.rows.add(row, -np.inf, later)
            before, later = until, later - kg
        sold = food.price is not None
        self.high[self.buy[f]] = min(food.a_week_kg, food.most_kg) if sold else 0.0
        if sold:
            self.rows.add({int(col): 1.0 for col in self.buy[f]}, -np.inf, food.most_kg)

    def _hours(self) -> None:
        for week in range(WEEKS):
            row: _Row = {}
            for c, crop in enumerate(self.crops):
                worked = crop.kg_per_m2 * crop.harvest[week] * crop.hours_per_kg
                if worked:
                    row[int(self.grown[c])] = worked
            stove: _Row = {}
            for r, recipe in enumerate(self.recipes):
                if self.high[self.units[r, week]] > 0:
                    row[int(self.units[r, week])] = recipe.hours
                    if recipe.per_load and recipe.stove_hours:
                        stove[int(self.loads[r, week])] = recipe.stove_hours
            self._limit(f"hours of week {week + 1}", week, "hours", row, self.limits.hours[week])
            if math.isfinite(self.limits.stove_hours):
                self._limit("stove hours", week, "hours", stove, self.limits.stove_hours)

    def _stores(self) -> None:
        limits = self.limits
        for jar in sorted({recipe.jar for recipe in self.recipes if recipe.jar}):
            mine = {r: 1.0 for r, recipe in enumerate(self.recipes) if recipe.jar == jar}
            self._full(jar, "jars", mine, limits.jars.get(jar, 0.0))
        cold = {r: one.freezer_lb for r, one in enumerate(self.recipes) if one.freezer_lb}
        self._full("freezer room", "lb", cold, limits.freezer_lb)
        canned = [r for r, recipe in enumerate(self.recipes) if recipe.per_load]
        lids = {int(col): 1.0 for r in canned for col in self.units[r]}
        if math.isfinite(limits.lids):
            self._limit("lids", None, "lids", lids, limits.lids)

    def _full(self, name: str, unit: str, each: dict[int, float], most: float) -> None:
        """Bound what is full at one time; a jar or a shelf that is eaten empty takes the next."""
        for week in range(WEEKS):
            row = {int(self.kept[r, week]): one for r, one in each.items()}
            row |= {int(self.eat[r, week]): one for r, one in each.items()}  # eaten later that week
            self._limit(name, week, unit, row, most)

    def _limit(self, name: str, week: int | None, unit: str, row: _Row, most: float) -> None:
        row = {col: value for col, value in row.items() if self.high[col] > 0}
        if row:
            self.rows.add(row, -np.inf, most)
            self.named.setdefault(name, []).append((week, unit, row, most))

    def _need(self, n: int, need: float) -> None:
        scale = 1 / need if need > 0 else 0.0
        sodium = n == len(self.needs) - 1
        for week in range(WEEKS):
            row: _Row = {}
            for columns, many in (
                (self.fresh, self.crops), (self.eat, self.recipes),
                (self.stock, self.foods), (self.buy, self.foods),
            ):  # fmt: skip
                for at, one in enumerate(many):
                    col = int(columns[at, week])
                    if one.nutrients[n] and self.high[col] > 0:  # type: ignore[attr-defined]
                        row[col] = one.nutrients[n] * scale  # type: ignore[attr-defined]
            lack = int(self.lack[n, week])
            if need <= 0:
                self.high[lack] = 0.0
            elif sodium:
                self.rows.add({**row, lack: -1.0}, -np.inf, 1.0)
            else:
                self.rows.add({**row, lack: 1.0}, 1.0, np.inf)

    def money(self) -> Array:
        """Return what each column costs in money, shape (size,)."""
        cost = np.zeros(self.size)
        for c, crop in enumerate(self.crops):
            cost[self.grown[c]] = crop.cost_per_m2
        for r, recipe in enumerate(self.recipes):
            cost[self.units[r]] = recipe.cost
        for f, food in enumerate(self.foods):
            cost[self.buy[f]] = food.price or 0.0
        return cost

    def peaks(self) -> Iterable[tuple[Array, float]]:
        """Return the columns of which each is to be eaten evenly, with what a unit of them counts."""
        for columns, many in (
            (self.fresh, self.crops), (self.eat, self.recipes),
            (self.stock, self.foods), (self.buy, self.foods),
        ):  # fmt: skip
            for at in range(len(many)):
                some = columns[at][self.high[columns[at]] > 0]
                if some.size > 1:
                    yield some, 1.0


def _open(crop: GardenCrop) -> Array:
    """Return the weeks in which a crop is there: while it is picked, and as long as it stays good."""
    out = np.zeros(WEEKS, bool)
    comes = crop.comes or (0.0,) * WEEKS
    for week, share in enumerate(crop.harvest):
        if (share > 0 and crop.kg_per_m2 > 0) or comes[week] > 0:
            out[week : week + crop.life_weeks + 1] = True
    return out
