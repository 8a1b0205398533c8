"""A year's plan as figures: what it chose, and what one of each thing takes, holds and costs."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, choose, method, published, said, stacked
from ledger.figures.figure import Unit
from ledger.messages import Day
from ledger.methods.year_plan import WEEKS, YearPlan, plan_year
from ledger.questions.costs import CostFigures
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.food.nutrients import UNITS, Held, Nutrients, held
from ledger.questions.shared.larder import larder_of
from ledger.questions.shared.made_as import MadeAs, Recipe
from ledger.questions.shared.newest import newest
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year.acts import OF, PUT_UP, SPREAD, Act
from ledger.questions.whole_year.given import given
from ledger.questions.whole_year.house import Asked, Household, household_of
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Year", "year_of"]

_COOKED = "N8"


class Year:
    """The household, its plan, and both as figures.

    Attributes
    ----------
    acts : list of Act
    planted : list of (crop, bed)
    """

    def __init__(self, state: State, asked: Asked) -> None:
        self.state, self.asked = state, asked
        self.house: Household = household_of(state, asked)
        house = self.house
        self.plan: YearPlan = plan_year(
            house.crops, house.recipes, house.foods, house.needs, house.limits
        )
        plan = self.plan
        by_do = dict(zip(SPREAD, (plan.fresh, plan.eaten, plan.given, plan.pantry, plan.bought), strict=True))  # fmt: skip
        by_do[PUT_UP] = {key: units for key, (units, _) in plan.put_up.items()}
        self.acts = [Act(do, *key, much) for do, several in by_do.items() for key, much in several.items()]  # fmt: skip
        self.planted = list(plan.planted)
        self._things = [
            {name: row for row, name in enumerate(names)}
            for names in (
                [one.name for one in house.crops],
                [one.name for one in house.recipes],
                [one.name for one in house.foods],
            )
        ]
        self._inside: dict[int, Figure] = {}
        self._sources = state.once(Sources)

    @property
    def jarred(self) -> set[str]:
        """Recipes whose units are jars."""
        return {recipe.name for recipe in self.house.recipes if recipe.per_load}

    # -- what the plan chose ------------------------------------------------------------------

    def unit_of(self, act: int) -> str:
        """Return what an act is counted in."""
        one = self.acts[act]
        return "jars" if OF[one.do] == 1 and one.name in self.jarred else "kg"

    @cached_property
    def amount(self) -> Figure:
        """How much of each act; shape (acts,)."""
        return self.of_plan([one.amount for one in self.acts], self.unit_of, "of-week").called(
            "of-week", day=lambda act: Day(self.house.week_on(self.acts[act].week))
        )

    @cached_property
    def ground(self) -> Figure:
        """Square metres of each crop in each bed; shape (planted,)."""
        return self.of_plan([self.plan.planted[key] for key in self.planted], "m2", "planted")

    def of_plan(self, values: Sequence[float], unit: Unit, label: str) -> Figure:
        """Return what the programme gave: it was given all that its plan names."""
        whole = [(self.programme, 0)]
        gave = method(lambda: np.array(values, np.float64), unit, "year-plan", lambda _: whole)
        return gave.called(label)

    @cached_property
    def programme(self) -> Figure:
        """The money of the plan, with all that the programme was given; shape (1,)."""
        cost = np.array([self.plan.cost])
        whole = method(lambda: cost, "money", "year-plan", lambda _: self._given)
        at = f"whole-year/{self.asked.text}/plan"
        return whole.called("programme").folds(lambda _: (at, "cost"))

    @cached_property
    def _given(self) -> list[tuple[Figure, int]]:
        return given(self)

    def which(self, *does: str) -> Array:
        """Return which acts are one of these; shape (acts,)."""
        return np.array([one.do in does for one in self.acts], bool)

    @cached_property
    def thing(self) -> Array:
        """The row of what each act is done with: among crops, recipes or foods; shape (acts,)."""
        return np.array([self._things[OF[one.do]][one.name] for one in self.acts], np.int64)

    @property
    def week(self) -> Array:
        """The week of each act."""
        return np.array([one.week for one in self.acts], np.int64)

    def recipe(self) -> Array:
        """Return the recipe of each act, -1: it has none."""
        return np.where(self.which("eat put up", PUT_UP), self.thing, -1)

    def food(self) -> Array:
        """Return the food of each act, -1: it has none."""
        return np.where(self.which("from the pantry", "buy"), self.thing, -1)

    # -- crops --------------------------------------------------------------------------------

    @cached_property
    def crop_of_bed(self) -> Array:
        """The crop of each planting."""
        return np.array([self._things[0][name] for name, _ in self.planted], np.int64)

    @cached_property
    def a_metre(self) -> Figure:
        """Kilograms of each crop on a square metre, at the chance chosen."""
        return self._of_crops("kg_per_m2", "kg a m2", "chance").called("a-square-metre")

    @cached_property
    def picking(self) -> Figure:
        """Hours for a kilogram of each crop."""
        return self._of_crops("hours_per_kg", "hours a kg", "own-seasons").called("picking-hours")

    def _of_crops(self, name: str, unit: str, assumption: str) -> Figure:
        values = [getattr(one, name) for one in self.house.crops]
        return assumed(np.array(values, np.float64), unit, assumption)

    @cached_property
    def crop_of_pick(self) -> Array:
        """The crop of each of its 52 weeks, one crop after the other."""
        return np.repeat(np.arange(len(self.house.crops)), WEEKS)

    @cached_property
    def week_of_pick(self) -> Array:
        """The week of each of them."""
        return np.tile(np.arange(WEEKS), len(self.house.crops))

    @cached_property
    def part_picked(self) -> Figure:
        """Which part of a crop is picked in each of its weeks."""
        parts = [one.harvest for one in self.house.crops]
        flat = np.array(parts, np.float64).reshape(-1)
        return assumed(flat, "0 to 1", "chance").called("part-picked")

    @cached_property
    def comes(self) -> tuple[Array, Figure]:
        """Which crops come without a bed, and how much in each of their weeks."""
        several = [one.comes or (0.0,) * WEEKS for one in self.house.crops]
        stands = np.array([bool(one.comes) for one in self.house.crops], bool)
        flat = np.array(several, np.float64).reshape(-1)
        return stands[self.crop_of_pick], assumed(flat, "kg", "chance").called("comes")

    # -- recipes ------------------------------------------------------------------------------

    @cached_property
    def made_as(self) -> MadeAs:
        """What one unit of each recipe takes."""
        ways = [(one, self.house.ways[one.name]) for one in self.house.recipes]
        return MadeAs(
            self.state, [Recipe(r.kg, r.hours, w.ev, w.batches, w.lb_from) for r, w in ways]
        )

    @cached_property
    def cost(self) -> Figure:
        """Money for one unit of each recipe that is made as a batch of one's own; its labour left out."""
        state, ways = self.state, [self.house.ways[one.name] for one in self.house.recipes]
        lot = np.array([way.lot for way in ways], np.int64)
        cost = np.array([one.cost for one in self.house.recipes], np.float64)
        unpaid = state.once(CostFigures).before_labour.at(lot).called("batch-cost")
        unpaid = unpaid.folds(
            lambda row: (f"lot/{state.lot_id(int(lot[row]))}", "cost.before_labour")
        )
        given = [unpaid, self._sources.amount.at(lot)]
        of_batch = method(lambda: cost, "money", "unit-of-batch", given)
        return choose(lot >= 0, of_batch, assumed(cost, "money", "prices")).called("one-costs")

    # -- foods --------------------------------------------------------------------------------

    @cached_property
    def price(self) -> Figure:
        """Money for a kilogram of each food that the shop has."""
        foods, items = self.house.foods, self._items([one.name for one in self.house.foods])
        ev = np.array([self.house.price_ev.get(one.name, -1) for one in foods], np.int64)
        price, _, _ = self.state.costs.prices.of(items, np.full(items.size, self.state.as_of_day))
        whole = said(price, "money", ev).called("price-of-one")
        weight = self._sources.weight(items).called("grams-in-one", unit="g")
        a_gram = (whole / weight).called("price-of-gram", unit="money per g")
        return (a_gram * self._kilogram).called("price-of-kilogram", unit="money")

    def _items(self, names: Sequence[str]) -> Array:
        return np.array([self.house.items[name] for name in names], np.int64)

    @property
    def _kilogram(self) -> Figure:
        return unit_factor(1000.0, "g", "grams-a-kilogram")

    # -- what is in them ----------------------------------------------------------------------

    def inside(self, n: int) -> Figure:
        """Return a nutrient in one of what each act is done with: a kilogram, or a unit; shape (acts,)."""
        if n not in self._inside:
            sizes = [len(rows) for rows in self._things]
            every = stacked([self.inside_of(kind, n) for kind in range(3)], sizes)
            first = np.cumsum([0, *sizes])
            kind = np.array([OF[one.do] for one in self.acts], np.int64)
            self._inside[n] = every.at(first[kind] + self.thing).called(
                "in-one-unit", unit=UNITS[n]
            )
        return self._inside[n]

    def inside_of(self, kind: int, n: int) -> Figure:
        """Return a nutrient in a kilogram of each crop (0), one of each recipe (1), a kilogram of each food (2)."""
        return (self._of_crop, self._of_recipe, self._of_food)[kind](n)

    def _by_row(self, names: Sequence[str], n: int) -> Figure:
        gram = self.state.once(Nutrients).in_gram(n).at(self._items(names))
        return gram * self._kilogram

    def _of_crop(self, n: int) -> Figure:
        return self._by_row([one.name for one in self.house.crops], n)

    def _of_recipe(self, n: int) -> Figure:
        """Return it of recipes: of the batch of one's own, else of the crop, cooked where it is canned."""
        recipes = self.house.recipes
        ways = [self.house.ways[one.name] for one in recipes]
        lots, whole = (np.array([getattr(w, k) for w in ways]) for k in ("lot", "whole"))
        crops = self._items([one.crop for one in recipes])
        of_lot = self.state.lots["item"]
        items = np.where(lots >= 0, of_lot[lots], crops) if of_lot.size and lots.size else crops
        much = assumed(whole.astype(np.float64), "", "unit-of-batch").called("one-unit")
        own = Held(self.state, items, lots.astype(np.int64), much).of(n)
        larder = larder_of(self.state)
        kept = np.array([larder.cooked(item)[n] if one.per_load else 1.0 for item, one in zip(crops.tolist(), recipes, strict=True)])  # fmt: skip
        fresh = self._by_row([one.crop for one in recipes], n).called("in-kilogram", unit=UNITS[n])
        printed = fresh * self.made_as.fresh
        cooked = printed.called("in-kilogram") * published(kept, "0 to 1", _COOKED).called(
            "kept-in-cooking"
        )
        return choose(lots >= 0, own, choose(kept != 1, cooked, printed))

    def _of_food(self, n: int) -> Figure:
        """Return it of foods: by their own row, else of what is there of them."""
        names = [one.name for one in self.house.foods]
        items = self._items(names)
        food = self.state.once(held)
        place = {item: row for row, item in enumerate(items.tolist())}
        by = np.array([place.get(item, -1) for item in food.items.tolist()], np.int64)
        of = Groups(np.where(np.isnan(food.grams.values), -1, by), items.size)
        there = of.sum(food.of(n), UNITS[n]).called("held-of-it")
        weight = of.sum(food.grams, "g").called("grams-of-it")
        a_gram = (there / weight).called("in-a-gram")
        direct = larder_of(self.state).is_direct[items]
        return choose(direct, self._by_row(names, n), a_gram * self._kilogram)

    def need(self, n: int) -> Figure:
        """Return what the household needs of a nutrient in a day, of sodium its level; shape (1,)."""
        needs = eaters_of(self.state).figures
        return needs.level if n == len(NUTRIENTS) - 1 else needs.of(NUTRIENTS[n])


@newest
def year_of(state: State, asked: Asked) -> Year:
    """Return the plan of a state, as asked."""
    return Year(state, asked)
