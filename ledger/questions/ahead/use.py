"""Use of items as figures: what each draw used, and the plain mean of a week with some."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, method, said
from ledger.questions.ahead.plain import Plain
from ledger.questions.costs.sources import Sources
from ledger.questions.quantities import UNITS
from ledger.questions.shared.use_past import is_use, people_count, people_factor

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Use"]


class Use:
    """What was used of some items in the weeks that are looked back on, a row an item.

    Parameters
    ----------
    ahead : Plain
    """

    def __init__(self, state: State, ahead: Plain) -> None:
        self.state, self.ahead, self.items = state, ahead, ahead.items
        self.units: list[str] = [UNITS[state.facts.measure[one]] for one in self.items.tolist()]

    def unit(self, row: int) -> str:
        """Return the unit of an item's amounts."""
        return self.units[row]

    def a_week(self, row: int) -> str:
        """Return the unit of what a week takes of it."""
        return f"{self.units[row]} a week"

    @cached_property
    def mean(self) -> Figure:
        """Plain mean use of a week with some."""
        used = self._of.sum(self._by_people, self.unit).called("used")
        return (used / self.weeks).called("mean-use", unit=self.a_week)

    @cached_property
    def weeks(self) -> Figure:
        """Weeks looked back on in which there was some: told by its stock, which opens by its address."""
        known = np.array([self.ahead.use.known(row) for row in range(self.items.size)], np.float64)
        return (
            method(lambda: known, "weeks", "none-there", lambda row: [(self._stock, row)])
            .called("weeks_known")
            .folds(lambda row: (f"shelf/items/{self._slug(row)}", "weeks_known"))
        )

    @cached_property
    def _stock(self) -> Figure:
        """What is there after all that came and went; its days are another answer."""
        lots, draws = self.state.lots, self.state.draws
        flows = [self._moved(flow) for flow in (lots, draws)]
        came, went = (groups.sum(figure, self.unit) for groups, figure in flows)
        return (came.called("came-by") - went.called("went-by")).called("day.left")

    def _moved(self, flow: dict[str, Array]) -> tuple[Groups, Figure]:
        place = self._place[flow["item"]]
        rows = np.flatnonzero(place >= 0)
        each = said(flow["whole"][rows] / 1000, self._unit_at(place[rows]), flow["ev"][rows])
        return Groups(place[rows], self.items.size), each

    # -- of single draws --------------------------------------------------------------------

    @cached_property
    def _place(self) -> Array:
        out = np.full(len(self.state.facts), -1, np.int64)
        out[self.items] = np.arange(self.items.size)
        return out

    @cached_property
    def _rows(self) -> Array:
        """The draws that are use of the weeks that each item is looked back on."""
        draws, pasts = self.state.draws, self.ahead.use.pasts
        begin = np.array([self.state.as_of_day - 7 * one.weeks for one in pasts], np.int64)
        place = self._place[draws["item"]]
        mine = self.state.once(is_use) & (place >= 0)
        return np.flatnonzero(mine & (draws["day"] > np.r_[begin, 0][place]))

    @cached_property
    def _of(self) -> Groups:
        return Groups(self._place[self.state.draws["item"][self._rows]], self.items.size)

    @cached_property
    def _by_people(self) -> Figure:
        """What each draw used: where the number of people changed, as by the people of now."""
        state, draws, rows = self.state, self.state.draws, self._rows
        day = draws["day"][rows].astype(np.int64)
        each = said(draws["whole"][rows] / 1000, self._unit_at(self._of.by), draws["ev"][rows])
        scaled = np.array([*self.ahead.use.scaled, False], bool)[self._of.by]
        changed = scaled & (people_factor(state, day) != 1)
        people = [
            state.once(Sources).setting("people", days, people_count, "people").called(label)
            for days, label in ((np.full_like(day, state.as_of_day), "people-now"), (day, "people-then"))
        ]  # fmt: skip
        more = (people[0] / people[1]).called("people-against", unit="times")
        return choose(changed, (each * more).called("used-by-people"), each)

    def _unit_at(self, row: Array) -> Callable[[int], str]:
        return lambda at: self.units[int(row[at])]

    def _slug(self, row: int) -> str:
        return self.state.facts.strand_name(int(self.items[row])).replace(" ", "-")
