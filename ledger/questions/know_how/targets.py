"""Skills that the household wants, and whether it got there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, assumed, choose, method, said
from ledger.items import item_key, near_misses
from ledger.messages import Day, Typed, sentence
from ledger.questions.costs.sources import Sources
from ledger.questions.know_how.gather import Records
from ledger.questions.know_how.skills import HOUSEHOLD
from ledger.replay.state import day_number

if TYPE_CHECKING:
    from ledger.questions.know_how.skills import Skills
    from ledger.replay import State

__all__ = ["Targets", "misnamed"]

_WEEK = 7
_OTHERWISE = {
    "pressure canning": "pressure",
    "boiling water canning": "boiling water",
    "freezing": "freeze",
    "drying": "dry",
    "fermenting": "ferment",
    "cooking": "cook",
}
"""What people call a way of putting up, and the word under which batches practise it."""


class Targets:
    """The newest target of each skill, in the rows of the household's records.

    Attributes
    ----------
    has, by_people : ndarray of bool, shape (records,)
        Which records have one, and of which it is for each person at the table.
    per, period : list of str or None
        As written, and which practices count towards it, in words.
    counts : ndarray of bool, shape (practices,)
        Those practices.
    wanted : Figure
        How often, as written.
    """

    def __init__(self, state: State) -> None:
        self._records = records = state.once(Records)
        self.per: list[str | None] = [None] * records.count
        self.period: list[str | None] = [None] * records.count
        self.counts = np.zeros(records.of.size, bool)
        ev, times = np.full(records.count, -1, np.int64), np.full(records.count, np.nan)
        for skill, places in records.skills.targets.items():
            row, body = records.place[skill, HOUSEHOLD], state.body(places[-1])
            ev[row], times[row] = places[-1], int(body.get("times") or 1)
            self.per[row] = body.get("per")
            span = slice(*records.spans[row])
            self.counts[span], self.period[row] = self._counting(body, places[-1], span)
        self.has = ev >= 0
        self.by_people = np.array([per == "person year" for per in self.per], bool)
        self.wanted = said(times, "times", ev)

    def _counting(self, body: dict[str, Any], ev: int, span: slice) -> tuple[Array, str]:
        """Return which practices of a record count towards a target, and that in words."""
        skills, state = self._records.skills, self._records.state
        day, per = skills.day[span], body.get("per")
        if per in ("year", "person year"):
            return day >= skills.year_from, sentence("why-period-in-year", year=skills.year)
        if per == "week":
            return day > state.as_of_day - _WEEK, sentence("why-period-week")
        if body.get("by"):
            start, end = int(state.moment.on[ev]), day_number(body["by"])
            said_so = sentence("why-period-by", day=Day(body["by"]))
            return (day >= start) & (day <= end), said_so
        return np.ones(day.size, bool), sentence("why-period-ever")

    def needed(self) -> Figure:
        """Return how often for the whole household: of a person year, times the people."""
        more = (self.wanted * self._people.called("people")).called("needed", unit="times")
        return choose(self.by_people, more, self.wanted)

    @property
    def _people(self) -> Figure:
        """How many there are at the table: as set, else as many as practise anything."""
        state, groups = self._records.state, self._records.skills.groups
        if state.settings.on("people", state.as_of_day):
            today = np.full(self._records.count, state.as_of_day)
            return state.once(Sources).setting("people", today, _at_least_one, "people")
        practising = {person for _, person in groups} - {HOUSEHOLD}
        return assumed(float(max(len(practising), 1)), "people", "people-who-practise")

    def met(self, done: Figure, needed: Figure) -> Figure:
        """Return 1 where what counts is enough, so far, else 0."""

        def values() -> Array:
            return np.where(self.has, done.values >= needed.values, np.nan)

        return method(values, "", "as-often-as-wanted", [done, needed])


def _at_least_one(people: str | None) -> float | None:
    return float(max(int(float(people)), 1)) if people else None


def misnamed(skills: Skills, skill: int) -> str | None:
    """Say what a skill that nobody practised may be called elsewhere in the book, or None."""
    name, key = skills.names[skill], skills.keys[skill]
    practised = {skills.names[one] for one, person in skills.groups if person == HOUSEHOLD}
    other = _OTHERWISE.get(item_key(key))
    found = [other] if other in practised else near_misses(name, practised - {name}, 1)
    if not found or found[0] is None:
        return None
    return sentence("skills-misnamed", name=Typed(name), other=Typed(found[0]))
