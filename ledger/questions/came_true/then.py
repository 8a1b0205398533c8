"""The book as it was at earlier moments: what it said then, as its own figures of then."""

from __future__ import annotations

from functools import cached_property
from importlib import import_module
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, Node, assumed, method, said
from ledger.questions import ADDRESSED
from ledger.questions.ahead.lasting import ahead_of
from ledger.questions.ahead.said import YEAR, earlier, state_at
from ledger.questions.came_true.words import unit_of
from ledger.questions.costs.sources import unit_factor
from ledger.questions.shared.opening import no_record
from ledger.questions.shared.use_past import is_use
from ledger.questions.shared.usual_plan import usual_plan
from ledger.questions.shelf.figures import item_figures
from ledger.questions.shelf.items_gather import ENDS, Items
from ledger.questions.telling import label_day
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.questions.ahead.graded import Graded
    from ledger.replay import State

__all__ = ["Then"]

_SHELF, _PLAN = "shelf:", "next-season:"
"""What goes before the ids of labels of figures of the shelf, and of the plan of a season."""
At = tuple[Figure, int]


class Then:
    """What was said at earlier moments: a figure of the book as it was then, and its row.

    Parameters
    ----------
    state : State
        Of now.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        self._states: dict[int, State] = {}
        self._items: dict[tuple[int, str], Items] = {}

    @cached_property
    def moments(self) -> dict[int, int]:
        """The events known at each earlier moment, by its day."""
        return dict(earlier(self.state))

    def at(self, day: int) -> State:
        """Return the book as it was at an earlier moment."""
        if day not in self._states:
            self._states[day] = state_at(self.state, day, self.moments[day], None)
        return self._states[day]

    def day(self, one: Graded) -> Figure:
        """Return the day on which something was said."""
        day = assumed(float(one.day), "day since 1970", "asked-again")
        return day.called("said-on", day=label_day(one.day))

    # -- what was said ----------------------------------------------------------------------

    def end(self, one: Graded, end: int) -> At:
        """Return the low, likely or high end of a range."""
        if one.kind == "yield":
            return self.of_plan(one, f"yield_g.{ENDS[end]}")
        column = "weeks_left" if one.kind == "runs out" else "used_per_week"
        return self._of_shelf(one, f"{column}.{ENDS[end]}")

    def chance(self, one: Graded) -> At:
        """Return a chance."""
        if one.kind == "lasts till more comes":
            return self._of_shelf(one, "reaches_next_supply")
        short, row = self.of_plan(one, "chance_short")
        sure = assumed(1.0, "0 to 1", "sure").called("sure")
        return sure - short, row

    def stock(self, one: Graded) -> Figure:
        """Return what was there of an item."""
        whole, _ = self._of_shelf(one, "left.whole")
        thousand = unit_factor(1000.0, "", "thousand").called("thousand")
        return (whole / thousand).called("stock", unit=unit_of(self.state, one))

    def base(self, one: Graded) -> At:
        """Return what the plain mean of the year before says: use a week, or the weeks that it leaves."""
        mean = self._mean(one)
        if one.kind == "used a week":
            return mean, 0
        return (self.stock(one) / mean).called("base", unit="weeks"), 0

    def _mean(self, one: Graded) -> Figure:
        then, item, unit = self.at(one.day), self._item(one), unit_of(self.state, one)
        draws, lots = then.draws, then.lots
        mine = then.once(is_use) & (draws["item"] == item) & (draws["day"] > one.day - YEAR)
        rows, came = np.flatnonzero(mine), np.flatnonzero(lots["item"] == item)
        each = said(draws["whole"][rows] / 1000, unit, draws["ev"][rows])
        used = Groups(np.zeros(rows.size, np.int64), 1).sum(each, unit).called("used-before")
        first = came[np.argmin(lots["day"][came])]
        day = float(lots["day"][first])
        since = said(np.full(1, day), "day since 1970", lots["ev"][[first]]).called("came-first")
        days = np.clip(one.day + 1 - day, 7, YEAR)
        known = method(lambda: np.full(1, days), "days", "base-rate", [since, self.day(one)])
        weeks = known.called("known-days") / unit_factor(7.0, "days per week", "week")
        return (used / weeks.called("weeks", unit="weeks")).called("mean", unit=f"{unit} a week")

    # -- the questions of then --------------------------------------------------------------

    def _item(self, one: Graded) -> int:
        """Return the number that an item had then, counted as now."""
        facts = self.at(one.day).facts
        own = facts.find(one.of)
        found = None if own is None else facts.strands.of(own, self.state.facts.measure[one.item])
        assert found is not None, one
        return found

    def _of_shelf(self, one: Graded, name: str) -> At:
        key = one.day, one.of
        if key not in self._items:
            then = self.at(one.day)
            self._items[key] = Items(then, ahead_of(then, self._item(one)))
        return self._under(item_figures(self._items[key])[name](), one.day, _SHELF), 0

    def of_plan(self, one: Graded, name: str) -> At:
        """Return a figure of the plan of the season that was ahead."""
        plan = usual_plan(self.at(one.day))
        row = next(crop.row for crop in plan.crops if crop.name == one.of)
        return self._under(plan.known[name], one.day, _PLAN), row

    def word(self, day: int, item: int, place: str, span: str) -> int:
        """Return the event by which the household said at a moment for how long an item keeps; -1: none."""
        then, name = self.at(day), self.state.facts.names[item]
        number = then.facts.find(name)
        said = [
            ev
            for ev, body in then.bodies("item_described")
            if then.facts.find(body["item"]) == number
            and (body.get("keeps") or {}).get(place) == span
        ]
        return max(said, key=lambda ev: int(then.moment.root[ev]), default=-1)

    def _under(self, figure: Figure, day: int, label: str) -> Figure:
        return figure.under(self._prefix(day), label)

    def _prefix(self, day: int) -> str:
        return f"came-true/@{day_text(day)}/"

    def opened(self, day: int, address: str, field: str | None) -> Node:
        """Return a figure of any question as it was at a moment, its addresses those of then.

        Raises
        ------
        NotFound
            When it is of no earlier moment, or there was no such figure then.
        """
        from ledger.projections import PROJECTIONS

        name, _, key = address.partition("/")
        if day not in self.moments or not key:
            raise no_record("came-true", f"@{day_text(day)}/{address}")
        then = self.at(day)
        if name in ADDRESSED:
            node: Node = import_module(ADDRESSED[name]).why(then, address, field)
        elif name in PROJECTIONS and (why := PROJECTIONS[name].why) is not None:
            node = why(then, key, field)
        else:
            raise no_record("came-true", f"@{day_text(day)}/{address}")
        return _readdressed(node, self._prefix(day))


def _readdressed(node: Node, prefix: str) -> Node:
    if node.address is not None:
        node.address = prefix + node.address
    for part in node.parts:
        _readdressed(part, prefix)
    return node
