"""Who eats and what they need in a day, as figures: each by age and the tables, and all together."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from ledger.figures import (
    Figure,
    Groups,
    assumed,
    at_least_none,
    choose,
    method,
    nothing,
    published,
    said,
    stacked,
    total,
)
from ledger.questions.costs.sources import Sources
from ledger.questions.shelf.gather import answers_day
from ledger.reference.nutrients import AMOUNTS

if TYPE_CHECKING:
    from ledger.questions.who_eats.eaters import Eater, Eaters

__all__ = ["LABELS", "Need", "Needs"]

LABELS = {
    "need": "eaters-need-household",
    "level": "enough-level-household",
    "need-of": "eaters-need-of",
    "level-of": "enough-why-level",
    "of-table": "eaters-of-table",
    "no-known-age": "eaters-people-no-known-age",
    "one-adult": "eaters-one-adult-assumed",
    "people": "eaters-people",
    "people-set": "eaters-people-set",
    "people-described": "eaters-people-described",
    "age": "eaters-age",
    "full-years": "eaters-full-years",
    "age-said": "eaters-age-said",
    "weight": "eaters-weight",
    "height": "eaters-height",
    "answers-day": "why-answers-day",
}


class Need(NamedTuple):
    """What one person needs: the amount of a day, by what, and the document that says so."""

    person: Eater
    value: float
    by: str
    source: str


class Needs:
    """Needs of a day of those at the table.

    Parameters
    ----------
    eaters : Eaters
    """

    def __init__(self, eaters: Eaters) -> None:
        self.eaters, self.state = eaters, eaters.state
        self._of: dict[str, Figure] = {}

    # -- how many ---------------------------------------------------------------------------

    @cached_property
    def people(self) -> Figure:
        """How many eat; shape (1,)."""
        here = _together(self._one_each([one.ev for one in self.eaters.people]), "people")
        return total(here, self.unknown).called("people")

    @cached_property
    def unknown(self) -> Figure:
        """Of how many no age is known: those that the setting counts more than were described; shape (1,)."""
        today = np.array([self.state.as_of_day], np.int64)
        count = self.state.once(Sources).setting("people", today, _count, "people")
        is_set, told = ~np.isnan(count.values), self.eaters.told
        if not told:
            one = assumed(np.ones(1), "people", "one-person")
            return choose(is_set, count, one).called("no-known-age")
        none = nothing("people").called("no-known-age")
        described = _together(self._one_each(told), "people").called("people-described")
        more = (count.called("people-set") - described).called("no-known-age")
        more = at_least_none(more, "no-known-age")
        return choose(is_set, more, none).called("no-known-age")

    def _one_each(self, events: list[int]) -> Figure:
        return said(np.ones(len(events)), "people", np.array(events, np.int64))

    # -- what they need ---------------------------------------------------------------------

    def each(self, nutrient: str) -> Figure:
        """Return what each needs, those of no known age together in the last row; shape (parts,)."""
        found, unit = self.eaters.needs_of(nutrient), f"{AMOUNTS[nutrient]} a day"
        own = self._own(unit, "need-of", found)
        own = own.folds(lambda row: (f"who-eats/{found[row].person.name}", nutrient))
        return self._with_unknown(unit, own, len(found), self.eaters.adult(nutrient))

    def of(self, nutrient: str) -> Figure:
        """Return what all need of a nutrient; shape (1,)."""
        if nutrient not in self._of:
            unit = f"{AMOUNTS[nutrient]} a day"
            self._of[nutrient] = _together(self.each(nutrient), unit).called("need")
        return self._of[nutrient]

    @cached_property
    def level(self) -> Figure:
        """The level of sodium above which risk of illness rises (CDRR), of all; shape (1,)."""
        found, adult = self.eaters.levels()
        unit = "mg of sodium a day"
        own = self._own(unit, "level-of", found)
        each = self._with_unknown(unit, own, len(found), adult)
        return _together(each, unit).called("level")

    def _own(self, unit: str, label: str, found: list[Need]) -> Figure:
        table = published(
            np.array([one.value for one in found], np.float64), unit, lambda row: found[row].source
        ).called("of-table", by=lambda row: found[row].by)

        def parts(row: int) -> list[tuple[Figure, int]]:
            return [(table, row), *self._said(found[row].person, sized=label == "need-of")]

        return method(lambda: table.values, unit, "need-by-age", parts).called(
            label, name=lambda row: found[row].person.name, by=lambda row: found[row].by
        )

    def _with_unknown(self, unit: str, own: Figure, count: int, adult: float) -> Figure:
        """Return needs with those of no known age, as adults, in the last row, if there are some."""
        if not self.eaters.unknown:
            return own
        one = assumed(np.full(1, adult), unit, "no-ages").called("one-adult")
        return stacked([own, (self.unknown * one).called("no-known-age", unit=unit)], [count, 1])

    def _said(self, person: Eater, *, sized: bool) -> list[tuple[Figure, int]]:
        """Return what was said of a person that a need goes by."""
        sizes = {"weight": (person.weight_kg, "kg"), "height": (person.height_m, "m")}
        return [(self.age(person).called("age"), 0)] + [
            (said(np.array([value]), unit, np.array([person.ev])).called(name), 0)
            for name, (value, unit) in sizes.items()
            if sized and value is not None
        ]

    def age(self, person: Eater, *, full: bool = False) -> Figure:
        """Return a person's age in years, or in full years; shape (1,)."""
        told = said(np.array([person.told]), person.told_unit, np.array([person.ev]))
        years = np.array([float(int(person.age)) if full else person.age])
        given = (answers_day(self.state), told.called("age-said"))
        return method(lambda: years, "years", "by-calendar", given)


def _together(figure: Figure, unit: str) -> Figure:
    return Groups(np.zeros(figure.values.size, np.int64), 1).sum(figure, unit)


def _count(text: str | None) -> float | None:
    return float(text) if text and text.isdigit() else None
