"""Tables of a year's plan: its lines, its weeks, and what a limit is used by."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, choose
from ledger.messages import sentence
from ledger.methods.year_plan import WEEKS
from ledger.questions.costs.sources import unit_factor
from ledger.questions.shared.made_as import LB_G
from ledger.questions.whole_year.acts import EATEN, PUT_UP

if TYPE_CHECKING:
    from ledger.methods.year_plan import Limit
    from ledger.questions.whole_year.gather import Year

__all__ = ["Line", "Lines", "Used", "Weeks"]

_HOW = {
    "eat fresh": "year-do-eat-fresh",
    "eat put up": "year-do-eat-put-up",
    "from the pantry": "year-do-from-the-pantry",
    "buy": "year-do-buy",
}
"""What is said of food that is eaten, by how it came."""


@dataclass(frozen=True)
class Line:
    """One line of the plan: what is done with what, by its acts; of a planting its place and bed."""

    do: str
    what: str
    acts: tuple[int, ...] = ()
    planting: int = -1


class Lines:
    """Lines of a year's plan, a row each."""

    def __init__(self, year: Year, lines: list[Line]) -> None:
        self.year, self.lines = year, lines
        self.count = len(lines)
        first = [line.acts[0] if line.acts else -1 for line in lines]
        self._first = np.array(first, np.int64)
        self._planting = np.array([line.planting for line in lines], np.int64)
        self.is_planted = self._planting >= 0
        self.is_put_up, self.is_stored, self.is_bought = (
            self._which(do) for do in (PUT_UP, "eat put up", "buy")
        )
        ways = year.house.ways
        own = [line.what in ways and ways[line.what].ev is not None for line in lines]
        self.is_own = self.is_put_up & np.array(own, bool)
        loads = [year.plan.put_up.get((line.what, self._week(line)), (0.0, 0))[1] for line in lines]
        self.loads = year.of_plan(loads, "loads", "loads")
        self.is_canned = self.is_put_up & (np.array(loads, np.int64) > 0)

    def _week(self, line: Line) -> int:
        return self.year.acts[line.acts[0]].week if line.acts else -1

    def _which(self, do: str) -> Array:
        acts = self.year.acts
        return np.array([bool(one.acts) and acts[one.acts[0]].do == do for one in self.lines], bool)

    def unit(self, row: int) -> str:
        """Return what a line is counted in."""
        first = int(self._first[row])
        return "m2" if first < 0 else self.year.unit_of(first)

    def together(self, figure: Figure) -> Figure:
        """Return the sum of a figure of acts over those of each line."""
        by = np.full(len(self.year.acts), -1, np.int64)
        for row, line in enumerate(self.lines):
            by[list(line.acts)] = row
        return Groups(by, self.count).sum(figure, self.unit)

    @property
    def weeks(self) -> Figure:
        """In how many weeks."""
        return self.year.of_plan([len(line.acts) for line in self.lines], "weeks", "weeks")

    @property
    def ground(self) -> Figure:
        """Square metres planted."""
        return self.year.ground.at(self._planting)

    @property
    def a_metre(self) -> Figure:
        """What a square metre brings."""
        crop = self.year.crop_of_bed
        place = crop[self._planting] if crop.size else self._planting
        return self.year.a_metre.at(np.where(self.is_planted, place, -1))

    def _of_first(self, figure: Figure, rows: Array) -> Figure:
        """Return a figure of recipes or foods of each line, by the row of each act."""
        place = rows[self._first] if rows.size else self._first
        return figure.at(np.where(self._first >= 0, place, -1))

    @property
    def fresh(self) -> Figure:
        """Fresh kilograms that one takes."""
        return self._of_first(self.year.made_as.fresh, self.year.recipe())

    @property
    def hours(self) -> Figure:
        """Hours that one takes."""
        return self._of_first(self.year.made_as.hours, self.year.recipe())

    @property
    def cost(self) -> Figure:
        """What one costs that is put up."""
        return self._of_first(self.year.cost, self.year.recipe())

    @property
    def price(self) -> Figure:
        """What a kilogram costs that is bought."""
        return self._of_first(self.year.price, self.year.food())


class Weeks:
    """Weeks of a year's plan, a row each."""

    def __init__(self, year: Year) -> None:
        self.year = year
        self.days = unit_factor(7.0, "days", "days-of-week")
        self.number = assumed(float(WEEKS), "weeks", "year").called("weeks-of-plan")
        self.need = year.need(0).at(np.zeros(WEEKS, np.int64))
        acts, crops = year.acts, year.house.crops
        self.of_act: dict[str, Any] = {"text": lambda act: acts[act].name}
        self.of_crop: dict[str, Any] = {"crop": lambda at: crops[int(year.crop_of_pick[at])].name}
        self.done: dict[str, Any] = {
            "name": lambda act: acts[act].name,
            "how": lambda act: sentence(_HOW[acts[act].do]),
        }

    @cached_property
    def picked(self) -> Figure:
        """What is picked of each crop in each week; shape (crops x weeks,)."""
        year = self.year
        m2 = (
            Groups(year.crop_of_bed, len(year.house.crops)).sum(year.ground, "m2").called("planted")
        )
        whole = (m2 * year.a_metre).called("likely-picked", unit="kg").at(year.crop_of_pick)
        stands, comes = year.comes
        each = choose(stands, comes, (whole * year.part_picked).called("picked"))
        return each.called("thing", text=self.of_crop["crop"])

    def picks(self, figure: Figure, unit: str) -> Figure:
        """Return the sum of a figure of pickings in each week."""
        return Groups(self.year.week_of_pick, WEEKS).sum(figure, unit)

    def acts(self, do: str, figure: Figure, unit: str) -> Figure:
        """Return the sum of a figure of acts of one kind in each week."""
        return self._sum((do,), figure, unit)

    def put_up(self, figure: Figure, unit: str) -> Figure:
        """Return the sum over what is put up in each week."""
        return self._sum((PUT_UP,), figure, unit)

    def eaten(self, figure: Figure, unit: str) -> Figure:
        """Return the sum over what is eaten in each week."""
        return self._sum(EATEN, figure, unit)

    def _sum(self, does: tuple[str, ...], figure: Figure, unit: str) -> Figure:
        by = np.where(self.year.which(*does), self.year.week, -1)
        return Groups(by, WEEKS).sum(figure, unit)

    @cached_property
    def _pairs(self) -> list[tuple[str, str]]:
        """What is eaten in the year: how, and the thing."""
        return list(dict.fromkeys((o.do, o.name) for o in self.year.acts if o.do in EATEN))

    @property
    def first(self) -> Array:
        """The first act of each thing that is eaten in the year."""
        at = {(one.do, one.name): act for act, one in reversed(list(enumerate(self.year.acts)))}
        return np.array([at[pair] for pair in self._pairs], np.int64)

    @property
    def much(self) -> Figure:
        """How much of each is eaten in the year."""
        much = dict.fromkeys(self._pairs, 0.0)
        for one in self.year.acts:
            if one.do in EATEN:
                much[one.do, one.name] += one.amount
        first = self.first
        every = self.year.of_plan(list(much.values()), "", "much")
        return every.called("much", unit=lambda row: self.year.unit_of(int(first[row])))

    def brought(self, figure: Figure, unit: str) -> Figure:
        """Return the sum over all that is eaten in the year, the most first."""
        pairs = self._pairs
        each = figure.called(
            "done",
            unit=unit,
            name=lambda row: pairs[row][1],
            how=lambda row: sentence(_HOW[pairs[row][0]]),
        )
        return Groups(np.zeros(len(pairs), np.int64), 1, largest_first=True).sum(each, unit)


class Used:
    """What one limit of a plan is used by, and what there is."""

    def __init__(self, year: Year, limit: Limit) -> None:
        self.year, self.limit = year, limit
        recipes = year.house.recipes
        self.of_recipe: dict[str, Any] = {"text": lambda row: recipes[row].name}

    @property
    def most(self) -> Figure:
        """What there is."""
        return assumed(np.array([self.limit.most]), self.limit.unit, "limits").called("there")

    @property
    def its_week(self) -> Array:
        """The week of the most use."""
        return np.array([self.limit.week], np.int64)

    @property
    def planted(self) -> Figure:
        """Ground that is planted of the bed."""
        bed, planted = self.limit.name.removeprefix("ground of "), self.year.planted
        by = np.array([0 if where == bed else -1 for _, where in planted], np.int64)
        each = self.year.ground.called("thing", text=lambda row: planted[row][0])
        return Groups(by, 1).sum(each, "m2")

    def recipes(self, figure: Figure) -> Figure:
        """Return the sum over all recipes."""
        count = len(self.year.house.recipes)
        return Groups(np.zeros(count, np.int64), 1).sum(figure, self.limit.unit)

    def jars(self, figure: Figure) -> Figure:
        """Return the sum over the recipes that go into this jar."""
        by = [0 if one.jar == self.limit.name else -1 for one in self.year.house.recipes]
        return Groups(np.array(by, np.int64), 1).sum(figure, self.limit.unit)

    @property
    def full(self) -> Figure:
        """Units of each recipe that are there at once."""
        week = self.limit.week
        full = self.year.plan.full
        values = [
            full.get((one.name, -1 if week is None else week), 0.0)
            for one in self.year.house.recipes
        ]
        return self.year.of_plan(values, "units", "there-at-once")

    @property
    def loads(self) -> Figure:
        """Canner loads of each recipe in the week."""
        week, put_up = self.limit.week, self.year.plan.put_up
        key = -1 if week is None else week
        values = [
            float(put_up.get((one.name, key), (0.0, 0))[1]) for one in self.year.house.recipes
        ]
        return self.year.of_plan(values, "loads", "loads")

    @property
    def stove(self) -> Figure:
        """Stove hours of one canner load of each recipe."""
        hours = [one.stove_hours for one in self.year.house.recipes]
        return assumed(np.array(hours, np.float64), "hours a load", "stove-hours").called("a-load")

    @property
    def frozen(self) -> Figure:
        """Pounds of freezer room that one takes: a kilogram, or nothing."""
        takes = [one.freezer_lb for one in self.year.house.recipes]
        pounds = unit_factor(1000 / LB_G, "lb", "pounds-a-kilogram")
        none = assumed(np.zeros(1), "lb", "not-frozen").called("not-frozen")
        every = np.zeros(len(takes), np.int64)
        return choose(np.array(takes, np.float64) > 0, pounds, none.at(every))
