"""What was on the table, and which part of it the household ate (the reckoning, rule 11)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, said, work
from ledger.questions.food.web import CAUSE, ROLE, Web

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Eaten"]


class Eaten:
    """Allocations that were eaten at home.

    Parameters
    ----------
    state : State

    Attributes
    ----------
    at, ev, day : ndarray of int64, shape (eaten,)
        Place of each among the allocations, its event and its day.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self.web = web = state.once(Web)
        self.events = state.journal.tables["events"]
        counted = web.role == ROLE["missing"]
        counted &= self.events["cause"][web.ev] == CAUSE["eaten"]
        self.at = np.flatnonzero((web.role == ROLE["ate"]) | counted)
        self.ev = web.ev[self.at]
        self.day = web.day[self.at]

    # -- the household's part -------------------------------------------------------------

    @cached_property
    def _every(self) -> Array:
        return np.arange(len(self.state.journal))

    @cached_property
    def whole(self) -> Figure:
        """All of each meal, 1; shape (events,)."""
        return said(np.ones(self._every.size), "0 to 1", self._every).called("whole-dish")

    @cached_property
    def _none(self) -> Figure:
        return said(np.zeros(self._every.size), "0 to 1", self._every).called("no-dish")

    @cached_property
    def kept(self) -> Figure:
        """The part of each meal that was kept as leftovers, 0 to 1; shape (events,)."""
        table = self.state.journal.tables["supplies"]
        rows = self.state.moment.of(table["ev"])
        rows = rows[~np.isnan(table["share"][rows])]
        ev = table["ev"][rows].astype(np.int64)
        each = said(table["share"][rows], "0 to 1", ev).called("left")
        every = Groups(ev, self._every.size).sum(each, "0 to 1").called("left")
        return work("lowest", self.whole, every).called("left")

    @cached_property
    def guests(self) -> Figure:
        """The guests' part of each meal, 0 to 1; shape (events,)."""
        people, guests = self.events["people"], self.events["guests"]
        of_all = self._guests / self._people
        every = choose(guests > people, self.whole, of_all.called("guests-part"))
        return choose((people > 0) & (guests > 0), every, self._none)

    @cached_property
    def home(self) -> Figure:
        """The household's part of each meal: guests and leftovers taken off; shape (events,)."""
        people, guests = self.events["people"], self.events["guests"]
        of_all = (self._people - self._guests).called("household") / self._people
        own = choose(guests > people, self._none, of_all.called("household-part"))
        own = choose((people > 0) & (guests > 0), own, self.whole)
        return self._times_not_kept(own).called("at-table")

    @cached_property
    def with_guests(self) -> Figure:
        """What guests ate of each meal, 0 to 1; shape (events,)."""
        return self._times_not_kept(self.guests).called("guests-ate")

    def _times_not_kept(self, part: Figure) -> Figure:
        left = self.kept.values > 0
        rest = (self.whole - self.kept).called("not-kept")
        return choose(
            left, choose(part.values == 1, rest, (part * rest).called("part-of-rest")), part
        )

    @property
    def _people(self) -> Figure:
        return said(self.events["people"], "people", self._every).called("people")

    @property
    def _guests(self) -> Figure:
        return said(self.events["guests"], "people", self._every).called("guests")

    @cached_property
    def factor(self) -> Array:
        """The household's part of each allocation, 0 to 1; shape (eaten,)."""
        return np.asarray(self.home.values[self.ev])

    # -- when -------------------------------------------------------------------------------

    def days(self) -> tuple[int, int] | None:
        """Return the first and the last day on which something was eaten, or None."""
        return (int(self.day.min()), int(self.day.max())) if self.day.size else None
