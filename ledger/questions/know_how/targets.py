"""Skills that the household wants, and whether it got there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.items import item_key, near_misses
from ledger.messages import Day, Typed, sentence
from ledger.questions.know_how.skills import HOUSEHOLD
from ledger.replay.state import day_number

if TYPE_CHECKING:
    from ledger.questions.know_how.skills import Skills

__all__ = ["Target", "misnamed", "target_of"]

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


@dataclass(frozen=True)
class Target:
    """The newest target of a skill.

    Attributes
    ----------
    ev : int
        Place of the event.
    times : int
        As written.
    needed : int
        For the whole household: of a person year, times the people at the table.
    per : str or None
    rows : ndarray of int
        Rows of the practices that count towards it.
    period : str
        Which ones those are, in words.
    people : int or None
        By how many `times` was multiplied.
    """

    ev: int
    times: int
    needed: int
    per: str | None
    rows: np.ndarray
    period: str
    people: int | None

    @property
    def is_met(self) -> bool:
        """Whether the practices that count are enough."""
        return bool(self.rows.size >= self.needed)


def target_of(skills: Skills, skill: int) -> Target | None:
    """Return what is wanted of a skill by its newest target, or None."""
    places = skills.targets.get(skill)
    if not places:
        return None
    state, ev = skills.state, places[-1]
    body = state.body(ev)
    times = int(body.get("times") or 1)
    per, today = body.get("per"), state.as_of_day
    rows = np.arange(*skills.groups.get((skill, HOUSEHOLD), (0, 0)))
    day = skills.day[rows]
    people = None
    if per in ("year", "person year"):
        rows, period = (
            rows[day >= skills.year_from],
            sentence("why-period-in-year", year=skills.year),
        )
        people = _people(skills) if per == "person year" else None
    elif per == "week":
        rows, period = rows[day > today - _WEEK], sentence("why-period-week")
    elif body.get("by"):
        start, end = int(state.moment.on[ev]), day_number(body["by"])
        rows = rows[(day >= start) & (day <= end)]
        period = sentence("why-period-by", day=Day(body["by"]))
    else:
        period = sentence("why-period-ever")
    return Target(ev, times, times * (people or 1), per, rows, period, people)


def _people(skills: Skills) -> int:
    """Return how many people there are at the table: as set, else as many as practise anything."""
    known = skills.state.settings.on("people", skills.state.as_of_day)
    practising = {person for _, person in skills.groups} - {HOUSEHOLD}
    return max(int(float(known)) if known else len(practising), 1)


def misnamed(skills: Skills, skill: int) -> str | None:
    """Say what a skill that nobody practised may be called elsewhere in the book, or None."""
    name, key = skills.names[skill], skills.keys[skill]
    practised = {skills.names[one] for one, person in skills.groups if person == HOUSEHOLD}
    other = _OTHERWISE.get(item_key(key))
    found = [other] if other in practised else near_misses(name, practised - {name}, 1)
    if not found or found[0] is None:
        return None
    return sentence("skills-misnamed", name=Typed(name), other=Typed(found[0]))
