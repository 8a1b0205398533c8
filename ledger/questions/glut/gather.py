"""The plan of a glut as figures: what it chose, and what it was given."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, assumed, method
from ledger.messages import Choice, Day
from ledger.methods.glut import GlutPlan, Use, plan_glut
from ledger.questions.costs.sources import Sources
from ledger.questions.glut.comes import lots_earlier, lots_here
from ledger.questions.glut.house import House, Told, day_of, house_of, lots_there
from ledger.questions.shared.made_as import MadeAs, Recipe
from ledger.questions.shared.newest import newest

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["AS_IT_IS", "Asked", "Found", "found_of"]

AS_IT_IS = ("eat fresh", "give away", "lost")
"""What is done with a crop that stays as it is: one line, over its days."""


@dataclass(frozen=True)
class Asked:
    """Hours of all hands a day, and hours a day that the stove is free."""

    hours: float
    stove: float


class Found:
    """The house, the plan, what is lost if nothing is done, and the lines of the plan, a row each.

    Attributes
    ----------
    lines : list of list of Use
        The uses of each line.
    told : list of Told or None
        How each is put up; None for what stays as it is.
    """

    def __init__(self, state: State, asked: Asked) -> None:
        self.state, self.asked = state, asked
        self.house: House = house_of(state, asked.hours, asked.stove)
        crops, ways, limits = self.house.crops, self.house.ways, self.house.limits
        self.plan: GlutPlan = plan_glut(crops, ways, limits)
        self.nothing: GlutPlan = plan_glut(crops, ways, limits, doing=False)
        lines: dict[tuple[str, str, int | None], list[Use]] = {}
        for use in self.plan.uses:
            day = None if use.way in AS_IT_IS else use.day
            lines.setdefault((use.way, use.crop, day), []).append(use)
        self.lines = list(lines.values())
        by_way = {one.way.name: one for one in self.house.told}
        self.told: list[Told | None] = [by_way.get(uses[0].way) for uses in self.lines]

    def which(self, name: str) -> Array:
        """Return which lines are put up (``way``), in jars (``jar``), or as a batch of one's own (``ev``)."""
        return np.array([t is not None and getattr(t, name) is not None for t in self.told], bool)

    def unit(self, row: int) -> str:
        """Return what a line is counted in."""
        told = self.told[row]
        return "jars" if told is not None and told.jar else "kg"

    # -- what the plan chose ------------------------------------------------------------------

    @property
    def units(self) -> Figure:
        """Jars or kilograms of each line that is put up."""
        units = [uses[0].units for uses in self.lines]
        return self._chosen(units, self.unit).called(
            "units", counted=lambda row: Choice("jar" if self.unit(row) == "jars" else "kg")
        )

    @property
    def loads(self) -> Figure:
        """Canner loads of each line; NaN where there are none."""
        return self._chosen([uses[0].loads or np.nan for uses in self.lines], "loads")

    @property
    def as_it_is(self) -> Figure:
        """Kilograms of each line that stays as it is, all its days; each day is the plan's choice."""
        kg = np.array([math.fsum(use.kg for use in uses) for uses in self.lines], np.float64)

        def parts(row: int) -> list[tuple[Figure, int]]:
            uses = self.lines[row]
            each = assumed(np.array([use.kg for use in uses]), "kg", "glut-plan")
            days = each.called("day-of-plan", day=lambda at: Day(day_of(self.state, uses[at].day)))
            return [*((days, at) for at in range(len(uses))), *self._given(row)]

        return method(lambda: kg, "kg", "glut-plan", parts)

    def _chosen(self, values: list[float], unit: object) -> Figure:
        column = np.array(values, np.float64)
        return method(lambda: column, unit, "glut-plan", self._given)  # type: ignore[arg-type]

    def _given(self, row: int) -> list[tuple[Figure, int]]:
        """Return what the plan was given of a line: hours, and what is here and comes of its crop."""
        sources, item = self._sources, self.state.facts.find(self.lines[row][0].crop)
        assert item is not None
        here = lots_here(self.state, item).tolist()
        earlier = [lot for lots in lots_earlier(self.state, item) for lot in lots.tolist()]
        return [
            (assumed(self.asked.hours, "hours", "limits").called("hands"), 0),
            (assumed(self.asked.stove, "hours", "limits").called("stove"), 0),
            *((self._left, lot) for lot in here),
            *((sources.amount.called("picked-earlier"), lot) for lot in earlier),
        ]

    @property
    def _sources(self) -> Sources:
        return self.state.once(Sources)

    @cached_property
    def _left(self) -> Figure:
        state = self.state
        left = self._sources.left.called("left-of-lot")
        return left.folds(lambda lot: (f"shelf/{state.lot_id(lot)}", "left.whole"))

    # -- what one takes, and what is wanted -----------------------------------------------------

    @cached_property
    def made_as(self) -> MadeAs:
        """What one of each line takes."""
        none = Recipe(np.nan, np.nan)
        return MadeAs(
            self.state,
            [
                none if t is None else Recipe(t.way.unit_kg, t.way.unit_hours, t.ev, t.batches, t.lb_from)
                for t in self.told
            ],
        )  # fmt: skip

    @property
    def wanted(self) -> Figure:
        """What the year still wants of what each line makes."""
        wanted = np.array([np.nan if t is None else t.way.wanted for t in self.told], np.float64)

        def there(row: int) -> list[tuple[Figure, int]]:
            told = self.told[row]
            item = None if told is None else self.state.facts.find(told.makes)
            lots = [] if item is None else lots_there(self.state, item).tolist()
            return [(self._left, lot) for lot in lots]

        return method(lambda: wanted, self.unit, "year-wants", there).called("still-wanted")


@newest
def found_of(state: State, asked: Asked) -> Found:
    """Return the plan of a state, as asked."""
    return Found(state, asked)
