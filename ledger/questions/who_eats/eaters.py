"""Who eats at a moment, and what they need in a day: age, sex, and what changes it."""

from __future__ import annotations

import datetime as dt
import math
import re
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.messages import joined, sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import product, total
from ledger.questions.shared.common import event_node
from ledger.reference import needs
from ledger.reference.nutrients import AMOUNTS
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ADULT_KCAL", "DOCTOR", "Eater", "Eaters", "eaters_of"]

ADULT_KCAL = 2000.0
"""Energy of somebody of whom no age is known: an assumption, and shown as one."""
DOCTOR = (
    "This sets food at hand beside tables for healthy people. Pregnancy, illness, diets and "
    "infants are a doctor's matter."
)

_KINDS = {"RDA": "need-rda", "AI": "need-ai"}
_WHO = {
    "males": "need-males",
    "females": "need-females",
    "children": "need-children",
    "pregnancy": "need-pregnancy",
    "lactation": "need-lactation",
}
_GROUP = re.compile(r"(\w+) (?:(\d+)-(\d+)|over (\d+))")


def group_words(group: str) -> str:
    """Return a group of the published tables, ``males 31-50``, as a text that can be said in any language."""
    found = _GROUP.fullmatch(group)
    if found is None or found[1] not in _WHO:
        return group
    who = sentence(_WHO[found[1]])
    if found[4]:
        return sentence("need-over", who=who, n=int(found[4]))
    return sentence("need-ages", who=who, n=int(found[2]), n2=int(found[3]))


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

    @property
    def is_infant(self) -> bool:
        """Whether no verdict is given: below one year."""
        return self.age < 1

    def energy(self) -> tuple[float, bool, str] | None:
        """Return kcal a day, whether it rests on memory, and by what; None for an infant."""
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
                return found[0] + more, memory or found[1].from_memory, sentence("need-by-size")
        row = needs.energy(self.sex, self.age, self.activity)
        if row is None:  # from one to two years: the equation with the reference weight
            found = needs.energy_by_size(self.sex, self.age, "light", 12.0, 0.86)
            assert found is not None
            return found[0], True, sentence("need-by-reference")
        return row.value + more, memory or row.from_memory, sentence("need-by-table")


@dataclass
class Eaters:
    """The household at the table at a moment.

    Attributes
    ----------
    people : list of Eater
        Those described and here.
    unknown : float
        How many more the setting `people` counts, of whom no age is known.
    """

    state: State
    people: list[Eater]
    unknown: float
    notes: list[Assumption] = field(default_factory=list)

    @property
    def count(self) -> float:
        """How many eat."""
        return len(self.people) + self.unknown

    @cached_property
    def need(self) -> dict[str, float]:
        """The need of a day by nutrient; infants left out."""
        return {
            name: math.fsum(value for _, value, _ in self.parts(name)) for name in needs.NUTRIENTS
        }

    def parts(self, nutrient: str) -> list[tuple[Eater | None, float, needs.Need | None]]:
        """Return what each person needs of a nutrient; None stands for those of no known age."""
        out: list[tuple[Eater | None, float, needs.Need | None]] = []
        for person in self.people:
            if person.is_infant:
                continue
            if nutrient == "energy_kcal":
                energy = person.energy()
                assert energy is not None
                out.append((person, energy[0], None))
                continue
            row = needs.requirement(nutrient, person.sex, person.age, person.state)
            if row is not None:
                out.append((person, row.value, row))
        if self.unknown:
            out.append((None, self.unknown * _adult(nutrient), None))
        return out

    def average(self, nutrient: str) -> float | None:
        """Return the average requirement of a day; None where some of the household has none."""
        rows = [row for who, _, row in self.parts(nutrient) if who is not None]
        if self.unknown or not rows or any(row is None or row.ear is None for row in rows):
            return None
        return math.fsum(row.ear or 0.0 for row in rows if row is not None)

    def sodium_level(self) -> float:
        """Return the sum of the levels of sodium above which risk of illness rises (CDRR)."""
        rows = [row for _, _, row in self.parts("sodium_mg") if row is not None]
        known = math.fsum(row.cdrr or 0.0 for row in rows)
        adult = needs.requirement("sodium_mg", "female", 30)
        assert adult is not None
        return known + self.unknown * (adult.cdrr or 0.0)

    def node(self, nutrient: str) -> Node:
        """Return the need of a day as a tree down to who was described."""
        unit, nodes = AMOUNTS[nutrient], []
        for person, value, row in self.parts(nutrient):
            if person is None:
                count = Node(sentence("why-people-no-known-age"), self.unknown, "people")
                each = Node(sentence("why-one-adult-assumed"), _adult(nutrient), f"{unit} a day")
                nodes.append(
                    product(sentence("why-people-no-known-age"), f"{unit} a day", count, each)
                )
                continue
            energy = (person.energy() or ("", "", ""))[2]
            by = (
                joined(", ", (sentence(_KINDS[row.kind]), group_words(row.group)))
                if row
                else energy
            )
            label = sentence("why-name-by", name=person.name, by=by)
            nodes.append(event_node(self.state, person.ev, label, value, f"{unit} a day"))
        return total(sentence("why-need-household"), f"{unit} a day", *nodes)

    def assumptions(self) -> list[Assumption]:
        """Return what the needs rest on, in words."""
        out = [Assumption("doctor", DOCTOR)]
        if self.unknown:
            many = f"{self.unknown:g} at the table"
            text = (
                f"No age is known of {many}: each counts {ADULT_KCAL:,.0f} kcal and the needs of ages 19 to 50, "
                "the mean of both sexes. `croftbook person` says who eats."
            )
            out.append(Assumption("no-ages", text))
        infants = [p.name for p in self.people if p.is_infant]
        if infants:
            text = f"No verdict is given for infants: {', '.join(infants)} is not counted."
            out.append(Assumption("infants", text))
        energies = {p.name: p.energy() for p in self.people if not p.is_infant}
        memory = sorted(name for name, found in energies.items() if found and found[1])
        if memory:
            text = (
                f"The energy of {', '.join(memory)} is from the calorie table as remembered, not read: within 132 kcal "
                "of the published equation. Weight and height give it by that equation."
            )
            out.append(Assumption("energy-from-memory", text))
        self._of_states(out)
        return out + self.notes

    def _of_states(self, out: list[Assumption]) -> None:
        for person in self.people:
            if not person.state or person.is_infant:
                continue
            if person.days is None:
                usual = (
                    "the middle three months"
                    if person.state == "pregnant"
                    else "the first half year"
                )
                text = f"Since when {person.name} is {person.state} is not said: {usual} is taken."
                out.append(
                    Assumption(f"since-{person.name}", text, (self.state.event_id(person.ev),))
                )
            elif person.days > (300 if person.state == "pregnant" else 730):
                text = f"{person.name} is down as {person.state} for {person.days} days: say anew how it is."
                out.append(
                    Assumption(f"since-{person.name}", text, (self.state.event_id(person.ev),))
                )


def _adult(nutrient: str) -> float:
    """Return the need of somebody of whom no age is known."""
    if nutrient == "energy_kcal":
        return ADULT_KCAL
    rows = [needs.requirement(nutrient, sex, 40) for sex in ("female", "male")]
    return sum(row.value for row in rows if row is not None) / 2


def eaters_of(state: State) -> Eaters:
    """Return who eats by a state, the newest word of each person holding."""
    return state.once(_eaters)


def _eaters(state: State) -> Eaters:
    newest: dict[str, tuple[int, dict[str, Any]]] = {}
    for ev, body in state.bodies("person_described"):
        newest[body["person"].casefold()] = ev, body
    here = [_eater(state, ev, body) for ev, body in newest.values() if body.get("table") != "away"]
    said = state.settings.on("people", state.as_of_day)
    count = float(said) if said and said.isdigit() else None
    unknown = max(0.0, (count or 0.0) - len(newest)) if newest else (count or 1.0)
    eaters = Eaters(state, sorted(here, key=lambda p: -p.age), unknown)
    if not newest and count is None:
        text = "How many eat is not said: the answer is for one person. `croftbook setting people 6` says so."
        eaters.notes.append(Assumption("one-person", text))
    return eaters


def _eater(state: State, ev: int, body: dict[str, Any]) -> Eater:
    day = dt.date.fromisoformat(day_text(state.as_of_day))
    said_on = dt.date.fromisoformat(day_text(int(state.moment.on[ev])))
    if "born" in body:
        age = (day - dt.date.fromisoformat(body["born"])).days / 365.2425
    else:
        age = float(body["age"]) + (day - said_on).days / 365.2425
    since = body.get("since")
    days = None if since is None else (day - dt.date.fromisoformat(since)).days
    weight, height = body.get("weight"), body.get("height")
    return Eater(
        body["person"], body["sex"], max(age, 0.0), body.get("state") or "", days,
        body.get("activity") or "moderate", _kg(weight), _metres(height), ev,
    )  # fmt: skip


def _kg(text: str | None) -> float | None:
    from ledger.amounts import parse_amount

    return None if text is None else parse_amount(text).whole / 1e6


def _metres(text: str | None) -> float | None:
    from ledger.amounts import parse_measure

    return None if text is None else float(parse_measure(text, "length", "height"))
