"""What the formulas of how-long begin with: food by step and group, the cold, water, and the lists."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, method, published, stacked, unknown
from ledger.messages import sentence
from ledger.methods.cover import FRIDGE_HOURS, US_GALLON_L, freezer_hours
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.food.nutrients import held
from ledger.questions.how_long.steps import Step, freezer_feet
from ledger.questions.shared.reserve import kept_food
from ledger.questions.who_eats.eaters import eaters_of
from ledger.reference import winter
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS
from ledger.reference.reserves import groups

if TYPE_CHECKING:
    from ledger.questions.how_long.water import Water
    from ledger.replay import State

__all__ = ["RATES", "Cold", "Groceries", "Listed", "StoredWater", "steps_food"]

RATES = (
    ("water to drink and cook", 2.0, "R1", "reserve-litres-german"),
    ("water to drink and wash", US_GALLON_L, "R3", "reserve-gallon-us"),
)
"""Litres a person and day, by use: each with its source (docs/sources.md) and who says so."""
_POWER = "R6"
_LB_G, _LATEST = 453.59237, np.array([np.iinfo(np.int64).max])


class Groceries:
    """Food in the house, by the row that it belongs to: a step, or a group of the lists.

    Parameters
    ----------
    rows, by : ndarray of int, shape (food,)
        Rows of what is held, and what each belongs to, below zero: nothing.
    count : int
    """

    def __init__(self, state: State, rows: Array, by: Array, count: int) -> None:
        self.state, self.rows, self.by, self.count = state, rows, by, count
        self.food = state.once(held)
        self.is_known = np.full(count, self.food.lots.size > 0)
        self._all = np.zeros(count, np.int64)

    def there(self, nutrient: str) -> Figure:
        """Return what the food of each holds of a nutrient."""
        of = Groups(self.by, self.count, largest_first=True)
        return of.sum(self.food.of(NUTRIENTS.index(nutrient)).at(self.rows), AMOUNTS[nutrient])

    def need(self, nutrient: str) -> Figure:
        """Return what the household needs of a nutrient in a day."""
        return eaters_of(self.state).figures.of(nutrient).at(self._all)

    @property
    def people(self) -> Figure:
        """How many eat."""
        return eaters_of(self.state).figures.people.at(self._all)

    @property
    def weight(self) -> Figure:
        """Kilograms of the food of each, of what a weight is known of."""
        grams, rows = self.food.grams.at(self.rows), self.rows
        each = grams / unit_factor(1000.0, "g per kg", "grams-a-kilogram")
        each = each.called("lot-weight", item=lambda row: self.food.names[int(rows[row])])
        weighed = np.where(np.isnan(grams.values), -1, self.by)
        return Groups(weighed, self.count, largest_first=True).sum(each, "kg")


def steps_food(state: State, steps: list[Step]) -> Groceries:
    """Return the food of each step."""
    rows = np.array([one.row for step in steps for one in step.food], np.int64)
    by = np.repeat(np.arange(len(steps)), [len(step.food) for step in steps])
    return Groceries(state, rows, by, len(steps))


class Cold:
    """The freezer's room and what fills it, each of one row."""

    def __init__(self, state: State) -> None:
        kept = [one.row for one in kept_food(state) if one.place == "freezer"]
        rows = np.array(kept, np.int64)
        pound = unit_factor(_LB_G / 1000, "kg per lb", "kilograms-a-pound")
        weight = Groceries(state, rows, np.zeros(rows.size, np.int64), 1).weight.called("frozen")
        self.frozen = (weight / pound).called("frozen", unit="lb")
        each = winter.figure("glut", "freezer_room", "food in one cubic foot")
        self.packed = published(each.middle, "lb per cubic foot", each.source).called("packed")
        self.all_of_it = assumed(np.ones(1), "0 to 1", "no-fuller-than-full").called("filled")
        self.feet = (
            state.once(Sources)
            .setting("freezer_room", _LATEST, freezer_feet, "cubic feet")
            .called("freezer-room")
        )

    def hours(self, full: Figure, steps: list[Step]) -> tuple[Array, Figure]:
        """Return which steps are kept shut, and how long fridge and freezer keep cold so.

        Parameters
        ----------
        full : Figure
            The part of the freezer that is full.
        """

        def kept() -> Array:
            found = freezer_hours(None if np.isnan(full.value(0)) else full.value(0))
            return np.array([np.nan if found is None else found])

        fridge = published(FRIDGE_HOURS, "hours", _POWER)
        known = [published(np.array([n]), "hours", _POWER).called("shut") for n in (48.0, 24.0)]
        freezer = method(kept, "hours", "freezer-hours", [full, *known])
        places = [("fridge", "freezer").index(one.name) if one.is_shut else -1 for one in steps]
        place = np.array(places, np.int64)
        return place >= 0, stacked([fridge, freezer], [1, 1]).at(place)


class StoredWater:
    """Water stored, and what the uses of `RATES` take, a row a use.

    Attributes
    ----------
    litres : Figure, shape (1,)
    """

    def __init__(self, state: State, water: Water | None) -> None:
        self.state = state
        self.every = np.zeros(len(RATES), np.int64)
        self.litres = self._litres(water)
        self.people = eaters_of(state).figures.people.at(self.every)
        self.rate = published(
            np.array([rate for _, rate, _, _ in RATES]), "litres", lambda row: RATES[row][2]
        ).called("rate", text=lambda row: sentence(RATES[row][3]))

    def _litres(self, water: Water | None) -> Figure:
        if water is None:
            return unknown("litres", "water-not-written-down", 1)
        if not water.lots:
            return assumed(np.array([water.litres]), "litres", "water-asked").called("water-asked")
        state, lots = self.state, np.array(water.lots, np.int64)
        left = state.once(Sources).left.at(lots).called("left-of-lot")
        each = left.folds(lambda row: (f"shelf/{state.lot_id(int(lots[row]))}", "left.whole"))
        whole = Groups(np.zeros(lots.size, np.int64), 1).sum(each, "ul").called("stored")
        litre = unit_factor(1e6, "ul per litre", "ul-a-litre")
        return (whole / litre).called("stored", unit="litres")


class Listed:
    """The published lists: a row a group, water last."""

    def __init__(self, state: State, water: Water | None) -> None:
        self.names = [*(one.group for one in groups(14)), "water"]
        place = {name: row for row, name in enumerate(self.names[:-1])}
        kept = [one for one in kept_food(state) if one.group in place]
        rows = np.array([one.row for one in kept], np.int64)
        by = np.array([place[str(one.group)] for one in kept], np.int64)
        self.food = Groceries(state, rows, by, len(place))
        self.water = StoredWater(state, water).litres
        self.people = Groceries(state, rows, by, len(self.names)).people

    def unit(self, row: int) -> str:
        """Return the unit of a group's amounts."""
        return "litres" if self.names[row] == "water" else "kg"

    def a_person(self, days: int) -> Figure:
        """Return what is wanted for one person and so many days."""
        kg: dict[str, Any] = {one.group: one.kg for one in groups(days)}
        amounts = np.array([*(kg[name] for name in self.names[:-1]), RATES[0][1] * days])
        return published(amounts, self.unit, groups(days)[0].source).called(f"a-person-{days}")

    def there(self, weight: Figure) -> Figure:
        """Return food by group, and water."""
        return stacked([weight, self.water], [self.food.count, 1])
