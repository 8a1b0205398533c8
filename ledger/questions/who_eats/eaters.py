"""Who eats at a moment, and what they need in a day: age, sex, and what changes it."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import Choice, Names, Sentence, sentence
from ledger.messages import measured as digits
from ledger.questions.who_eats.needed import Need, Needs
from ledger.reference import needs
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ADULT_KCAL", "Eater", "Eaters", "eaters_of", "group_said"]

ADULT_KCAL = 2000.0
"""Energy of somebody of whom no age is known: an assumption, and shown as one."""
_EQUATION = "N5"
"""Source of the equations of energy by weight and height (docs/sources.md)."""

_EPOCH = dt.date(1970, 1, 1)


@dataclass(frozen=True)
class Eater:
    """One person at the table on a day.

    Attributes
    ----------
    name, sex : str
    age : float
        In years on that day; where only full years were said, half a year is added to none.
    state, activity : str
        ``pregnant``, ``nursing`` or ''; ``light``, ``moderate`` or ``hard``.
    days : int or None
        Since the state began.
    weight_kg, height_m : float or None
    ev : int
        The event that says so.
    told : float
        The age, in years, or the day of birth, since 1970, as `told_unit` says.
    """

    name: str
    sex: str
    age: float
    state: str
    days: int | None
    activity: str
    weight_kg: float | None
    height_m: float | None
    ev: int
    told: float
    told_unit: str

    @property
    def is_infant(self) -> bool:
        """Whether no verdict is given: below one year."""
        return self.age < 1

    def energy(self) -> tuple[float, bool, str, str] | None:
        """Return kcal a day, whether it rests on memory, by what, and its source; None for an infant."""
        if self.is_infant:
            return None
        added = needs.energy_added(self.state, self.days)
        more = 0.0 if added is None else added.value
        memory = added is not None and added.from_memory
        if self.weight_kg is not None and self.height_m is not None:
            found = needs.energy_by_size(
                self.sex, self.age, self.activity, self.weight_kg, self.height_m
            )
            if found is not None:
                return (
                    found[0] + more,
                    memory or found[1].from_memory,
                    sentence("eaters-by-weight-and-height"),
                    _EQUATION,
                )
        row = needs.energy(self.sex, self.age, self.activity)
        if row is None:  # from one to two years: the equation with the reference weight
            found = needs.energy_by_size(self.sex, self.age, "light", 12.0, 0.86)
            assert found is not None
            return found[0], True, sentence("eaters-by-reference-weight"), _EQUATION
        by = sentence("eaters-by-calorie-table")
        return row.value + more, memory or row.from_memory, by, row.source


@dataclass
class Eaters:
    """The household at the table at a moment.

    Attributes
    ----------
    people : list of Eater
        Those described and here.
    told : list of int
        The events that describe somebody last, those away too.
    """

    state: State
    people: list[Eater]
    told: list[int]
    notes: list[Assumption] = field(default_factory=list)

    @cached_property
    def figures(self) -> Needs:
        """The same, as figures."""
        return Needs(self)

    @cached_property
    def unknown(self) -> float:
        """How many more the setting `people` counts, of whom no age is known."""
        return self.figures.unknown.value(0)

    @cached_property
    def count(self) -> float:
        """How many eat."""
        return self.figures.people.value(0)

    @cached_property
    def need(self) -> dict[str, float]:
        """The need of a day by nutrient; infants left out."""
        return {name: self.figures.of(name).value(0) for name in needs.NUTRIENTS}

    def needs_of(self, nutrient: str) -> list[Need]:
        """Return what each described person needs of a nutrient, where the tables say it."""
        out = []
        for person in self._grown:
            if nutrient == "energy_kcal":
                energy = person.energy()
                assert energy is not None
                out.append(Need(person, energy[0], *energy[2:]))
            elif (row := self._row(nutrient, person)) is not None:
                by = sentence(
                    "eaters-kind-of-need", kind=Choice(row.kind), group=group_said(row.group)
                )
                out.append(Need(person, row.value, by, row.source))
        return out

    def levels(self) -> tuple[list[Need], float]:
        """Return each person's level of sodium above which risk of illness rises (CDRR), and an adult's."""
        rows = [(person, self._row("sodium_mg", person)) for person in self._grown]
        adult = needs.requirement("sodium_mg", "female", 30)
        assert adult is not None
        return [
            Need(person, row.cdrr or 0.0, group_said(row.group), row.source)
            for person, row in rows
            if row is not None
        ], adult.cdrr or 0.0

    @property
    def _grown(self) -> list[Eater]:
        return [person for person in self.people if not person.is_infant]

    def _row(self, nutrient: str, person: Eater) -> needs.Need | None:
        return needs.requirement(nutrient, person.sex, person.age, person.state)

    def average(self, nutrient: str) -> float | None:
        """Return the average requirement of a day; None where some of the household has none."""
        if nutrient == "energy_kcal" or self.unknown:
            return None
        rows = [row for one in self._grown if (row := self._row(nutrient, one)) is not None]
        if not rows or any(row.ear is None for row in rows):
            return None
        return math.fsum(row.ear or 0.0 for row in rows)

    def adult(self, nutrient: str) -> float:
        """Return the need of somebody of whom no age is known."""
        if nutrient == "energy_kcal":
            return ADULT_KCAL
        rows = [needs.requirement(nutrient, sex, 40) for sex in ("female", "male")]
        return sum(row.value for row in rows if row is not None) / 2

    def assumptions(self) -> list[Assumption]:
        """Return what the needs rest on, in words."""
        out = [Assumption("doctor", sentence("eaters-doctor"))]
        if self.unknown:
            text = sentence("eaters-no-ages", n=self.unknown, kcal=round(ADULT_KCAL))
            out.append(Assumption("no-ages", text))
        infants = [p.name for p in self.people if p.is_infant]
        if infants:
            text = sentence("eaters-no-verdict-given-infants-not", names=Names(tuple(infants)))
            out.append(Assumption("infants", text))
        energies = {p.name: p.energy() for p in self.people if not p.is_infant}
        memory = sorted(name for name, found in energies.items() if found and found[1])
        if memory:
            text = sentence(
                "eaters-energy-from-calorie-table-remembered", names=Names(tuple(memory))
            )
            out.append(Assumption("energy-from-memory", text))
        self._of_states(out)
        return out + self.notes

    def _of_states(self, out: list[Assumption]) -> None:
        for person in self.people:
            if not person.state or person.is_infant:
                continue
            if person.days is None:
                text = sentence("eaters-since-when", name=person.name, state=Choice(person.state))
                out.append(
                    Assumption(f"since-{person.name}", text, (self.state.event_id(person.ev),))
                )
            elif person.days > (300 if person.state == "pregnant" else 730):
                text = sentence(
                    "eaters-down-as", name=person.name, state=Choice(person.state), n=person.days
                )
                out.append(
                    Assumption(f"since-{person.name}", text, (self.state.event_id(person.ev),))
                )


def group_said(group: str) -> Sentence:
    """Return a group of the tables of needs, ``males 31-50``, as a sentence says it."""
    who, _, ages = group.partition(" ")
    if ages.startswith("over "):
        return sentence("eaters-group-over", who=Choice(who), ages=digits(ages[5:]))
    low, _, high = ages.partition("-")
    if low.isdigit() and high.isdigit():
        return sentence("eaters-group", who=Choice(who), low=int(low), high=int(high))
    return sentence("eaters-group-of", who=Choice(who), ages=digits(ages))


def eaters_of(state: State) -> Eaters:
    """Return who eats by a state, the newest word of each person holding."""
    return state.once(_eaters)


def _eaters(state: State) -> Eaters:
    newest: dict[str, tuple[int, dict[str, Any]]] = {}
    for ev, body in state.bodies("person_described"):
        newest[body["person"].casefold()] = ev, body
    here = [_eater(state, ev, body) for ev, body in newest.values() if body.get("table") != "away"]
    told = [ev for ev, _ in newest.values()]
    eaters = Eaters(state, sorted(here, key=lambda p: -p.age), told)
    if not newest and not (state.settings.on("people", state.as_of_day) or "").isdigit():
        text = sentence("eaters-how-many-eat-not-said")
        eaters.notes.append(Assumption("one-person", text))
    return eaters


def _eater(state: State, ev: int, body: dict[str, Any]) -> Eater:
    day = dt.date.fromisoformat(day_text(state.as_of_day))
    said_on = dt.date.fromisoformat(day_text(int(state.moment.on[ev])))
    if "born" in body:
        born = dt.date.fromisoformat(body["born"])
        age, told = (day - born).days / 365.2425, ((born - _EPOCH).days, "day since 1970")
    else:
        age, told = float(body["age"]) + (day - said_on).days / 365.2425, (body["age"], "years")
    since = body.get("since")
    days = None if since is None else (day - dt.date.fromisoformat(since)).days
    weight, height = body.get("weight"), body.get("height")
    return Eater(
        body["person"], body["sex"], max(age, 0.0), body.get("state") or "", days,
        body.get("activity") or "moderate", _kg(weight), _metres(height), ev,
        float(told[0]), told[1],
    )  # fmt: skip


def _kg(text: str | None) -> float | None:
    from ledger.amounts import parse_amount

    return None if text is None else parse_amount(text).whole / 1e6


def _metres(text: str | None) -> float | None:
    from ledger.amounts import parse_measure

    return None if text is None else float(parse_measure(text, "length", "height"))
