"""What a year's plan is made of: beds and crops, ways that are published, pantry, shop, needs."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ledger.methods.year_plan import WEEKS, Food, GardenCrop, Recipe, YearLimits
from ledger.questions.glut.house import freezer_room
from ledger.questions.shared.usual_plan import usual_plan
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year.foods import add_foods
from ledger.questions.whole_year.garden import add_beds, add_standing, first_week
from ledger.questions.whole_year.kitchen import add_recipes
from ledger.questions.whole_year.way import Way
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["CHANCES", "STOVE", "Asked", "Household", "household_of"]

CHANCES = ("even", "9 in 10")
STOVE = 42.0
"""Hours a week that the stove is free for the canner, 6 a day as for a glut: our own choice."""
_WEEK = 7.0


@dataclass(frozen=True)
class Asked:
    """Hours of all hands a week, the chance the beds are counted with, whether families may stay in a bed."""

    hours: float
    chance: str
    same_beds: bool = False

    @property
    def text(self) -> str:
        """What an address says of it."""
        return f"{self.hours:g},{self.chance}" + (",same beds" if self.same_beds else "")


@dataclass
class Household:
    """What the programme is given, with where each comes from.

    Attributes
    ----------
    start : int
        The Monday with which the plan's first week begins (days since 1970).
    needs : list of float
        Of a week, in the order of `NUTRIENTS`.
    items : dict of str to int
    price_ev : dict of str to int
        The purchase or price that a food's price is from.
    ways : dict of str to Way
        By recipe.
    kept_out : dict of str to list of str
        Beds that the rotation closes, by crop.
    left_out, no_hours : list of str
    standing : set of str
        What comes as it came last year, without a bed.
    """

    start: int
    needs: list[float]
    limits: YearLimits
    crops: list[GardenCrop] = field(default_factory=list)
    recipes: list[Recipe] = field(default_factory=list)
    foods: list[Food] = field(default_factory=list)
    items: dict[str, int] = field(default_factory=dict)
    price_ev: dict[str, int] = field(default_factory=dict)
    ways: dict[str, Way] = field(default_factory=dict)
    kept_out: dict[str, list[str]] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    no_hours: list[str] = field(default_factory=list)
    standing: set[str] = field(default_factory=set)

    def week_on(self, week: int) -> str:
        """Return the Monday of a week of the plan."""
        return (dt.date(1970, 1, 1) + dt.timedelta(days=self.start + 7 * week)).isoformat()


def household_of(state: State, asked: Asked) -> Household:
    """Return a state's household for a year's plan."""
    need = eaters_of(state)
    needs = [need.need[name] * _WEEK for name in NUTRIENTS[:-1]]
    needs.append(need.figures.level.value(0) * _WEEK)
    beds = {name: area for name, area in usual_plan(state).beds.items() if area > 0}
    freezer, _ = freezer_room(state)
    limits = YearLimits(beds, (asked.hours,) * WEEKS, _jars(state), math.inf, freezer, STOVE)
    out = Household(first_week(state), needs, limits)
    add_beds(state, out, asked)
    add_standing(state, out)
    add_recipes(state, out)
    add_foods(state, out)
    return out


def _jars(state: State) -> dict[str, float]:
    """Return jars by kind: those empty and those that are full now, as they come free."""
    from ledger.questions.shared.jars import jar_totals

    return {jar: float(row["empty"] + row["full"]) for jar, row in state.once(jar_totals).items()}
