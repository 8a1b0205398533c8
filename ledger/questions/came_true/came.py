"""What came of one thing said, as figures: from the events that tell it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, method, published, said
from ledger.questions.ahead.came import WEEKS, Came
from ledger.questions.ahead.said import asked, earlier
from ledger.questions.ahead.supply import is_supply
from ledger.questions.ahead.widening import factor_of
from ledger.questions.came_true.words import unit_of
from ledger.questions.costs.sources import unit_factor
from ledger.questions.garden.field import crops_of
from ledger.questions.planning.graded import is_spoiled, keeping_said
from ledger.questions.planning.growth import Garden
from ledger.questions.shared.use_by import span_of
from ledger.questions.shared.use_past import is_use
from ledger.questions.shelf.days import Days
from ledger.questions.shelf.figures import day_figures
from ledger.questions.shelf.gather import answers_day
from ledger.replay import KEPT, day_text

if TYPE_CHECKING:
    from ledger.questions.ahead.graded import Graded
    from ledger.questions.came_true.then import Then
    from ledger.replay import State

__all__ = ["Happened"]

_DAY = "day since 1970"


class Happened:
    """What came of things said, one at a time: each figure has one row.

    Parameters
    ----------
    state : State
        Of now.
    then : Then
    """

    def __init__(self, state: State, then: Then) -> None:
        self.state, self.then = state, then

    def of(self, one: Graded) -> Figure:
        """Return what came, in the unit in which it was said; of a chance 1 or 0."""
        return {
            "runs out": self._ran_out,
            "used a week": self._used_a_week,
            "lasts till more comes": self._lasted,
            "yield": self._brought,
            "brings enough": self._enough,
            "keeps": self._spoiled,
        }[one.kind](one)

    # -- use and stock ----------------------------------------------------------------------

    def _flow(self, flow: dict[str, Array], where: Array, one: Graded, label: str) -> Figure:
        rows, unit = np.flatnonzero((flow["item"] == one.item) & where), unit_of(self.state, one)
        each = said(flow["whole"][rows] / 1000, unit, flow["ev"][rows])
        return Groups(np.zeros(rows.size, np.int64), 1).sum(each, unit).called(label)

    def _went(self, one: Graded, last: int) -> Figure:
        """Return what went from the day after it was said to a day, for whatever reason."""
        day = self.state.draws["day"]
        return self._flow(self.state.draws, (day > one.day) & (day <= last), one, "went")

    def _used_a_week(self, one: Graded) -> Figure:
        draws, lots = self.state.draws, self.state.lots
        last = one.day + 7 * WEEKS
        inside = (draws["day"] > one.day) & (draws["day"] <= last)
        used = self._flow(draws, inside & self.state.once(is_use), one, "used")
        flows = [
            self._flow(flow, flow["day"] <= last, one, label)
            for flow, label in ((lots, "came-by"), (draws, "went-by"))
        ]
        there = self._came.days_there(one.item, one.day)
        days = method(lambda: np.full(1, there), "days", "past-its-end", flows).called("days-there")
        weeks = (days / self._week).called("weeks-there", unit="weeks")
        return (used / weeks).called("used-a-week", unit=f"{unit_of(self.state, one)} a week")

    @cached_property
    def _came(self) -> Came:
        return Came(self.state, earlier(self.state)[0][0])

    @property
    def _week(self) -> Figure:
        return unit_factor(7.0, "days per week", "week")

    def _since(self, day: Figure, start: Figure) -> Figure:
        """Return the weeks from the day on which something was said, or came in, to another."""
        days = (day - start).called("days-after", unit="days")
        return (days / self._week).called("weeks-after", unit="weeks")

    def _ran_out(self, one: Graded) -> Figure:
        today = self.state.as_of_day
        last = today if one.came_on is None else one.came_on
        given = [self.then.stock(one), self._went(one, last)]
        given += [answers_day(self.state)] if one.came_on is None else []
        day = method(lambda: np.full(1, float(last)), _DAY, "past-its-end", given)
        day = day.called("not-gone" if one.came_on is None else "gone-on")
        return self._since(day, self.then.day(one))

    def _lasted(self, one: Graded) -> Figure:
        assert one.came_on is not None
        lots = self.state.lots
        later = (lots["item"] == one.item) & (lots["day"] > one.day)
        rows = np.flatnonzero(later & self.state.once(is_supply))
        first = rows[lots["day"][rows] == lots["day"][rows].min()] if rows.size else rows
        more = said(lots["day"][first].astype(np.float64), _DAY, lots["ev"][first]).called(
            "more-on"
        )
        given = [(self.then.stock(one), 0), (self._went(one, one.came_on), 0)]
        given += [(more, at) for at in range(first.size)]
        return method(
            lambda: np.full(1, float(bool(one.held))), "times", "asked-again", lambda _: given
        ).called("lasted")

    # -- the garden -------------------------------------------------------------------------

    @cached_property
    def _garden(self) -> Garden:
        return Garden(crops_of(self.state))

    def _brought(self, one: Graded) -> Figure:
        """Return what one plant brought in the season that followed, as picked."""
        assert one.came_on is not None
        season = int(self._garden.calendar.of(np.array([one.came_on]))[0])
        growth = self._garden.growth(one.item)
        row = next(found.row for found in growth.seasons if found.season == season)
        return self._garden.each[growth.size].at(np.array([row])).called("brought")

    def _enough(self, one: Graded) -> Figure:
        given = [self.then.of_plan(one, name) for name in ("plants.planned", "needed_g.likely")]
        given.append((self._brought(one), 0))
        return method(
            lambda: np.full(1, float(bool(one.held))), "times", "needs-as-said", lambda _: given
        ).called("was-enough")

    # -- what keeps -------------------------------------------------------------------------

    def _start(self, one: Graded) -> Figure:
        lots, lot = self.state.lots, self.state.lot_ids[one.of]
        day = said(lots["day"][[lot]].astype(np.float64), _DAY, lots["ev"][[lot]])
        return day.called("came-in")

    def _spoiled(self, one: Graded) -> Figure:
        """Return the weeks after which some of a lot was thrown away as spoiled or too old.

        Oldest first, what came and went of the item tells which lot it was of.
        """
        draw, lot, _ = self.state.allocations
        mine = np.flatnonzero((lot == self.state.lot_ids[one.of]) & is_spoiled(self.state))
        if not mine.size:
            none = method(lambda: np.full(1, np.nan), "weeks", "oldest-first", [self._stock(one)])
            return none.called("nothing-spoiled")
        draws = self.state.draws
        first = draw[mine[np.argmin(draws["day"][draw[mine]])]]
        day = draws["day"][[first]].astype(np.float64)
        given = [said(day, _DAY, draws["ev"][[first]]), self._stock(one)]
        spoiled = method(lambda: day, _DAY, "oldest-first", given).called("spoiled-on")
        return self._since(spoiled, self._start(one))

    def _stock(self, one: Graded) -> Figure:
        """Return what is left of an item after all that came and went, as a line of the shelf's days."""
        days, name = Days(self.state, one.item), self.state.facts.strand_name(one.item)
        last = days.day.size - 1
        left = day_figures(days)["left"].at(np.array([last]))
        address = f"shelf/over-time/{name}/{day_text(int(days.day[last]))}"
        return left.folds(lambda _: (address, "left"))

    def keeps(self, one: Graded) -> Figure:
        """Return the weeks for which a lot was said to keep."""
        lot = self.state.lot_ids[one.of]
        every = asked(self.state, earlier(self.state), factor_of)
        then, span, source = keeping_said(self.state, every, lot)
        number, unit = span_of(span or "") or (np.nan, "")
        place = KEPT[int(self.state.lots["kept"][lot])] or "shelf"
        ev = -1 if source else self.then.word(then.day, one.item, place, span or "")
        if source:
            word = published(np.full(1, number), unit, source)
        elif ev >= 0:
            word = said(np.full(1, number), unit, np.array([ev]))
        else:
            word = assumed(np.full(1, number), unit, "asked-again")
        start = self._start(one)
        until = float(one.day + round(one.said[0] * 7))
        day = method(
            lambda: np.full(1, until), _DAY, "by-calendar", [start, word.called("keeps-for")]
        )
        return self._since(day.called("keeps-until"), start)
