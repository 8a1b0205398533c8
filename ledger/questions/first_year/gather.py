"""The foods of the plan, a row each: what is published of them, and the household's own record."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, method, published, said
from ledger.questions.costs.sources import UNITS_BY, unit_factor
from ledger.questions.first_year.words import K_MONTHS
from ledger.questions.goes import went
from ledger.questions.quantities import QUART_UL
from ledger.questions.shelf.gather import answers_day
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference import servings, winter
from ledger.reference.planting import PublishedYield, published_yields
from ledger.reference.yields import Quantity, quantities
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Plans"]

_LOADS = {
    "green beans": "snap_beans", "tomatoes": "tomatoes_whole_in_water", "carrots": "carrots",
    "beets": "beets", "corn": "corn_whole_kernel", "peas": "peas_green", "greens": "greens_spinach",
    "asparagus": "asparagus", "apples": "applesauce", "peaches": "peaches", "pears": "pears",
    "plums": "plums", "berries": "berries_whole", "cherries": "cherries_whole",
    "tomato juice": "tomato_juice",
}  # fmt: skip
_CROPS = {
    "green beans": "green bean",
    "tomato juice": "tomato",
    "corn": "sweet corn",
    "greens": "spinach",
}
_YEAR = 365


class Plans:
    """The servings plan's foods, and what of each was put up and used.

    Attributes
    ----------
    plans : list of ServingsPlan, shape (foods,)
    items : list of set of str
        The household's own items that count as each, of which some was used in the last year.
    has_own : ndarray of bool, shape (foods,)
        Whether any was put up.
    loads, yields : list of Quantity or PublishedYield or None
        What is published of a canner load of each, and of a row.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self.plans = [one for one in servings.plans() if one.kind == "servings_plan"]
        self.loads = [_load(one.food) for one in self.plans]
        self.yields = [_yield(one.food) for one in self.plans]
        lots, of = state.lots, self._foods()
        made = (lots["origin"] == ORIGINS.index("batch")) & (of[lots["item"]] >= 0)
        self._first = self._earliest(np.flatnonzero(of[lots["item"]] >= 0), of)
        self._put_up = self._earliest(np.flatnonzero(made), of)
        self.has_own = self._first >= 0
        item, day = state.draws["item"], state.draws["day"]
        recent = state.as_of_day - day < _YEAR
        self._used = np.flatnonzero((of[item] >= 0) & went(state, "eaten", "given") & recent)
        self._of_used = of[item[self._used]]
        self.items: list[set[str]] = [set() for _ in self.plans]
        for food, one in zip(self._of_used.tolist(), item[self._used].tolist(), strict=True):
            self.items[food].add(state.facts.names[one])

    def _foods(self) -> Array:
        """Return the food that each item of which some was put up counts as; -1: none."""
        facts, lots = self.state.facts, self.state.lots
        place = {one.food: row for row, one in enumerate(self.plans)}
        out = np.full(max(len(facts.measure), 1), -1, np.int64)
        for item in np.unique(lots["item"][lots["origin"] == ORIGINS.index("batch")]).tolist():
            found = servings.of_food(facts.names[item])
            if found is not None and facts.measure[item] == "volume":
                out[item] = place[found.food]
        return out

    def _earliest(self, rows: Array, of: Array) -> Array:
        """Return the earliest of some lots by food, -1 where there is none."""
        lots = self.state.lots
        out = np.full(len(self.plans), -1, np.int64)
        for lot in rows[np.argsort(lots["day"][rows], kind="stable")][::-1].tolist():
            out[of[lots["item"][lot]]] = lot
        return out

    # -- the plan ---------------------------------------------------------------------------

    @property
    def people(self) -> Figure:
        """How many eat, for each food."""
        return eaters_of(self.state).figures.people.at(np.zeros(len(self.plans), np.int64))

    @property
    def each(self) -> Figure:
        """Quarts a person by the plan; NaN where it says no servings."""
        values = np.array([one.quarts for one in self.plans], np.float64)
        return published(
            values, "quarts per person", lambda row: winter.document(self.plans[row].source)
        )

    @property
    def weight(self) -> Figure:
        """Months that the plan weighs."""
        return assumed(K_MONTHS, "months", "mixed")

    # -- own record -------------------------------------------------------------------------

    @property
    def used(self) -> Figure:
        """Quarts eaten and given away of each in the last year, or since there is any."""
        ev = self.state.draws["ev"][self._used]
        each = said(self.state.draws["whole"][self._used], "ul", ev)
        whole = Groups(self._of_used, len(self.plans)).sum(each, "ul").called("used")
        return whole / unit_factor(QUART_UL, "ul per quart", "per-quart")

    @property
    def days(self) -> Figure:
        """Days since the first of each came in."""
        return self._since(self._first)

    @property
    def days_put_up(self) -> Figure:
        """Days since the first of each was put up."""
        return self._since(self._put_up)

    @property
    def year(self) -> Figure:
        """Days of a year."""
        return assumed(float(_YEAR), "days", "year-of-365-days").called("a-year")

    @property
    def month(self) -> Figure:
        """Days of a month."""
        months = published(12.0, "months", UNITS_BY).called("months-of-a-year")
        return (self.year / months).called("a-month", unit="days per month")

    def _since(self, lots: Array) -> Figure:
        """Return the days since lots came, both days included; NaN where there is none."""
        table = self.state.lots
        day, ev = (np.r_[table[name], -1][lots] for name in ("day", "ev"))
        days = np.where(lots >= 0, self.state.as_of_day - day + 1.0, np.nan)
        first = said(day, "day since 1970", ev).called("first-day")
        given = [answers_day(self.state), first]
        return method(lambda: days, "days", "by-calendar", given).called("days-since")

    def address(self, figure: str) -> Callable[[int], tuple[str, str]]:
        """Return where a figure of each food is opened."""
        return lambda row: (f"first-year/{self.plans[row].food}", figure)

    # -- the garden -------------------------------------------------------------------------

    @property
    def fresh(self) -> Figure:
        """Pounds of fresh produce in a quart, by a published canner load."""
        rows = self.loads
        values = [None if one is None else float(one.lb_per_7_quarts or 0) for one in rows]

        def source(row: int) -> str:
            return str(getattr(rows[row], "source", ""))

        load = published(np.array(values, np.float64), "lb fresh per load", source)
        return load.called("a-load") / published(7.0, "quarts per load", source).called("load-of")

    @property
    def row(self) -> Figure:
        """Pounds that a foot of row gives, as published."""
        rows = self.yields

        def column(name: str) -> Array:
            return np.array([getattr(one, name, None) for one in rows], np.float64)

        def source(row: int) -> str:
            return str(getattr(rows[row], "source", ""))

        low = published(column("low"), "lb fresh", source).called("row-gives")
        return low / published(column("row_ft"), "ft of row", source).called("row-of")


def _load(food: str) -> Quantity | None:
    """Return what is published of a canner load."""
    rows = [q for q in quantities(_LOADS.get(food, "")) if q.lb_per_7_quarts is not None]
    return rows[0] if rows else None


def _yield(food: str) -> PublishedYield | None:
    """Return the lowest published yield of a row."""
    rows = [y for y in published_yields(_CROPS.get(food, food)) if y.unit == "lb" and y.row_ft]
    return min(rows, key=lambda y: y.low / (y.row_ft or 1.0)) if rows else None
