"""Minutes for one of what a batch made: per jar, per pound, or in the measure it is kept in."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, published, said, unknown
from ledger.messages.units import unit as unit_name
from ledger.questions.costs.sources import UNITS_BY, Sources, unit_factor
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.quantities import QUART_UL
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Units"]

_POUND_G = 453.59237
"""Grams in an avoirdupois pound, exactly (NIST Handbook 44, appendix C)."""

_OWN = {"volume": ("quart", QUART_UL), "count": ("piece", 1000.0)}
_METRIC = {"volume": ("litre", 1e6), "count": ("piece", 1000.0)}
_JARS, _WEIGHT, _MEASURE = range(3)


class Units:
    """What each batch made, in the unit by which its skill is timed.

    A skill whose batches mostly fill jars, all of one size, is timed per jar; else per pound (or
    kilogram), where the weight is known; else per quart (litre) or piece. A method by which
    several things were put up is not timed: a quart of sauce takes longer than a pint of beans.

    Attributes
    ----------
    made : tuple of Figure
        Jars, weight and the amount in its own measure of what each entry made, by place.
    spent : Figure
        All minutes of work of each entry, by place.
    """

    def __init__(self, state: State) -> None:
        self.state, self.skills = state, state.once(Skills)
        is_metric = state.settings.newest("measures", "us") == "metric"
        self._weight, weight_g = ("kg", 1000.0) if is_metric else ("lb", _POUND_G)
        self._own = _METRIC if is_metric else _OWN
        self._unit: dict[int, tuple[str, int] | None] = {}
        lots, size = state.lots, state.moment.rank.size
        rows = np.flatnonzero((lots["origin"] == ORIGINS.index("batch")) & np.isnan(lots["share"]))
        sources, item = state.once(Sources), lots["item"][rows]
        self._jar = self._jars(rows[lots["jars"][rows] > 0])
        of = Groups(lots["ev"][rows], size)
        amount = sources.amount.at(rows)
        weight = (amount * sources.weight(item)).called("made-weight", is_one_of=True)
        grams = of.sum(weight, "g").called("made-weight")
        each = unit_factor(weight_g, f"g per {self._weight}", "one-unit")
        each = each.called("one-unit", name=unit_name(self._weight))
        own = (amount / self._measure(item)).called("made-amount", is_one_of=True)
        self.made = (
            of.sum(sources.jars.at(rows), "jars"),
            grams / each,
            of.sum(own),
        )
        self.spent = said(self.skills.minutes_of, "minutes", np.arange(size))

    def _measure(self, item: Array) -> Figure:
        """Return whole units in one unit of each item's own measure; NaN where there is none."""
        facts = self.state.facts
        known = [self._own.get(facts.measure[one], ("", np.nan)) for one in range(len(facts))]
        whole = {"volume": "ul", "count": "1/1000 piece"}
        factor = published(
            lambda: np.array([one[1] for one in known], np.float64)[item],
            lambda row: f"{whole.get(facts.measure[item[row]], '')} per {known[item[row]][0]}",
            UNITS_BY,
        )
        return factor.called("one-unit", name=lambda row: unit_name(known[item[row]][0]))

    def _jars(self, lots: Array) -> Array:
        """Return which jar each entry filled, by place: -1 for none, -2 for several sizes."""
        state = self.state
        supplied = state.journal.tables["supplies"]["jar"][state.lots["row"][lots]]
        ev, code = state.lots["ev"][lots], state.facts.canon[supplied]
        jar = np.full(state.moment.rank.size, -1, np.int64)
        jar[ev] = code
        jar[ev[jar[ev] != code]] = -2
        return jar

    @cached_property
    def makes(self) -> dict[int, str]:
        """What each batch makes, by place."""
        batches, facts = self.state.journal.tables["batches"], self.state.facts
        rows = self.state.moment.of(batches["ev"])
        items = facts.canon[batches["makes"][rows]].tolist()
        return {
            ev: facts.names[item]
            for ev, item in zip(batches["ev"][rows].tolist(), items, strict=True)
        }

    def name(self, skill: int) -> str | None:
        """Return the unit of a skill; None where no batch has both a known amount and minutes."""
        unit = self._of(skill)
        return unit[0] if unit else None

    def _of(self, skill: int) -> tuple[str, int] | None:
        if skill not in self._unit:
            self._unit[skill] = self._choose(skill)
        return self._unit[skill]

    def _choose(self, skill: int) -> tuple[str, int] | None:
        """Return the unit of a skill, and which of `made` is told in it."""
        span = self.skills.groups.get((skill, HOUSEHOLD))
        if span is None or self.skills.sorts[skill] not in ("method", "making"):
            return None
        ev = self.skills.ev[slice(*span)]
        ev = ev[self.skills.minutes_of[ev] > 0]
        ev = ev[[at in self.makes for at in ev.tolist()]]
        things = {self.makes[at] for at in ev.tolist()}
        if len(things) != 1:
            return None
        jars, weight, own = (figure.values[ev] > 0 for figure in self.made)
        sizes = set(self._jar[ev].tolist()) - {-1}
        if jars.sum() * 2 >= ev.size and len(sizes) == 1 and sizes != {-2}:
            return "jar", _JARS
        if weight.any():
            return self._weight, _WEIGHT
        if own.any():
            item = self.state.facts.find(things.pop())
            return self._own[self.state.facts.measure[item or 0]][0], _MEASURE
        return None

    def amounts(self, practices: Array) -> Figure:
        """Return how many of its skill's unit each practice made; NaN where that is not known.

        Parameters
        ----------
        practices : ndarray of int, shape (rows,)
        """
        skill, ev = self.skills.skill[practices], self.skills.ev[practices]
        kind = np.full(len(self.skills.names), -1)
        for one in np.unique(skill).tolist():
            unit = self._of(one)
            kind[one] = -1 if unit is None else unit[1]
        made = unknown("", "no-work-or-amount", practices.size)
        for code, figure in enumerate(self.made):
            some = (kind[skill] == code) & (figure.values[ev] > 0)
            made = choose(some, figure.at(ev).called("made-amount"), made)
        return made
