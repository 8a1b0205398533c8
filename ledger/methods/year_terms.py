"""What a year's plan is told and tells: crops, recipes, foods, limits, and the plan itself."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field

__all__ = ["WEEKS", "Food", "GardenCrop", "Limit", "Recipe", "YearLimits", "YearPlan"]

WEEKS = 52


@dataclass(frozen=True)
class GardenCrop:
    """A crop of the beds, or what comes without them (trees, hens).

    Attributes
    ----------
    name : str
    kg_per_m2 : float
        At the chance that was chosen.
    harvest : tuple of float, shape (52,)
        Which part of it is picked in each week; together 1 or less.
    life_weeks : int
        In how many weeks after that of its picking it is still good; 0: in none.
    nutrients : tuple of float, shape (needs,)
        In a kilogram as picked, in the order of the needs; the last is sodium.
    most_kg : float
        No more than so much is grown.
    hours_per_kg, cost_per_m2 : float
    fresh_a_week_kg : float
        No more than so much of it is eaten as it is in a week.
    closed : frozenset of str
        Beds in which it may not stand.
    comes : tuple of float, shape (52,) or empty
        Kilograms of each week that come without a bed.
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
    closed: frozenset[str] = frozenset()
    comes: tuple[float, ...] = ()


@dataclass(frozen=True)
class Recipe:
    """A way to put a crop up, a unit being a jar or a kilogram.

    Attributes
    ----------
    name, crop : str
    kg, hours : float
        Of the crop and of hands, for one unit.
    nutrients : tuple of float, shape (needs,)
        In one unit.
    most : float
        Units of the year.
    per_load : int
        Jars of a canner load; 0 needs no canner, and its units are no whole numbers.
    jar : str
        '' for none.
    freezer_lb, cost : float
        Of one unit.
    life_weeks : int
        In how many weeks after that of its making it is still good.
    stove_hours : float
        Of one canner load.
    a_week : float
        No more units than these are eaten in a week.
    """

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
    life_weeks: int = WEEKS
    stove_hours: float = 0.0
    a_week: float = math.inf


@dataclass(frozen=True)
class Food:
    """Food of the pantry or the shop.

    Attributes
    ----------
    name : str
    nutrients : tuple of float, shape (needs,)
        In a kilogram.
    there : tuple of (int, float)
        Last week in which it is good (51 is the last of the year), and kilograms, the earliest first.
    price : float or None
        Of a kilogram; None where the shop has none.
    most_kg, a_week_kg : float
        Bought in the year, and in a week, at most.
    """

    name: str
    nutrients: tuple[float, ...]
    there: tuple[tuple[int, float], ...] = ()
    price: float | None = None
    most_kg: float = 0.0
    a_week_kg: float = math.inf


@dataclass(frozen=True)
class YearLimits:
    """Square metres by bed, hands' hours by week, stove hours a week, jars by kind, lids, pounds of freezer room."""

    beds: Mapping[str, float]
    hours: tuple[float, ...]
    jars: Mapping[str, float] = field(default_factory=dict)
    lids: float = math.inf
    freezer_lb: float = 0.0
    stove_hours: float = math.inf


@dataclass(frozen=True)
class Limit:
    """A limit of the plan: what is used of it, and whether it binds.

    `week` is the week of the most use, where it is one of each week (0 is the first).
    """

    name: str
    used: float
    most: float
    unit: str
    week: int | None = None

    @property
    def binds(self) -> bool:
        """Whether nothing of it is left."""
        return self.used >= self.most - 1e-4 * max(1.0, self.most)


@dataclass
class YearPlan:
    """What the plan says; keys of two are a name and a week (0 is the first).

    Attributes
    ----------
    planted : dict of (crop, bed) to float
        Square metres.
    fresh, given : dict of (crop, week) to float
        Kilograms eaten as they are, and that nobody needs.
    put_up : dict of (recipe, week) to (units, loads)
    eaten, full : dict of (recipe, week) to float
        Units eaten in a week, and there at its fullest: before they are eaten.
    pantry, bought : dict of (food, week) to float
        Kilograms.
    short : dict of (need, week) to float
        What a week's need lacks, by the need's place; of sodium what is over.
    cost : float
        Money of the plan.
    limits : list of Limit
    least : float
        What needs and money weigh together at the least, before jars and loads are whole numbers.
    rounding : float
        What whole jars and loads cost: the part by which the best that there can be without them is
        better, needs and money together; 0 where no plan is better.
    """

    planted: dict[tuple[str, str], float]
    fresh: dict[tuple[str, int], float]
    given: dict[tuple[str, int], float]
    put_up: dict[tuple[str, int], tuple[float, int]]
    eaten: dict[tuple[str, int], float]
    full: dict[tuple[str, int], float]
    pantry: dict[tuple[str, int], float]
    bought: dict[tuple[str, int], float]
    short: dict[tuple[int, int], float]
    cost: float
    limits: list[Limit]
    least: float
    rounding: float

    def lacks(self, need: int) -> float:
        """Return what the year lacks of a need, all weeks together."""
        return math.fsum(value for (one, _), value in self.short.items() if one == need)
