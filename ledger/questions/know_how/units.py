"""Minutes for one of what a batch made: per jar, per pound, or in the measure it is kept in."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, choose, known_where, said, unknown
from ledger.messages.units import unit as unit_name
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.quantities import QUART_UL
from ledger.replay import ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Units"]

_POUND_G = 453.59237
"""Grams in an avoirdupois pound, exactly (NIST Handbook 44, appendix C)."""

_US = (("lb", "g", _POUND_G), ("quart", "ul", QUART_UL), ("piece", "1/1000 piece", 1000.0))
_METRIC = (("kg", "g", 1000.0), ("litre", "ul", 1e6), ("piece", "1/1000 piece", 1000.0))
"""Units of weight, volume and number: each with how many of which it is."""
_LABELS = ("made-weight", "made-volume", "made-number")
_JARS, _WEIGHT, _VOLUME, _COUNT = range(4)


class Units:
    """What each batch made, in the unit by which its skill is timed.

    A skill whose batches mostly fill jars, all of one size, is timed per jar; else per pound (or
    kilogram), where the weight is known; else per quart (litre) or piece, whichever most of them
    made. A method by which several things were put up is not timed: a quart of sauce takes longer than a pint of beans.

    Attributes
    ----------
    made : tuple of Figure
        Jars, weight, volume and number of what each entry made, by place; NaN of what is not known.
    spent : Figure
        All minutes of work of each entry, by place.
    """

    def __init__(self, state: State) -> None:
        self.state, self.skills = state, state.once(Skills)
        is_metric = state.settings.newest("measures", "us") == "metric"
        units = _METRIC if is_metric else _US
        self._names = ("jar", *(name for name, _, _ in units))
        self._unit: dict[int, int | None] = {}
        lots, size, measures = state.lots, state.moment.rank.size, np.array(state.facts.measure)
        rows = np.flatnonzero((lots["origin"] == ORIGINS.index("batch")) & np.isnan(lots["share"]))
        sources, item = state.once(Sources), lots["item"][rows]
        self._jar = self._jars(rows[lots["jars"][rows] > 0])
        of, amount = Groups(lots["ev"][rows], size), sources.amount.at(rows)
        each = [
            (amount * sources.weight(item)).called("made-weight", is_one_of=True),
            *(
                known_where(measures[item] == one, amount, "no-work-or-amount")
                for one in ("volume", "count")
            ),
        ]
        self.made = (
            of.sum(sources.jars.at(rows), "jars"),
            *(
                of.sum(figure, small).called(label)
                / unit_factor(many, f"{small} per {name}", "one-unit").called(
                    "one-unit", name=unit_name(name)
                )
                for figure, label, (name, small, many) in zip(each, _LABELS, units, strict=True)
            ),
        )
        self.spent = said(self.skills.minutes_of, "minutes", np.arange(size))

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
        return None if unit is None else self._names[unit]

    def _of(self, skill: int) -> int | None:
        if skill not in self._unit:
            self._unit[skill] = self._choose(skill)
        return self._unit[skill]

    def _choose(self, skill: int) -> int | None:
        """Return which of `made` a skill is told in."""
        span = self.skills.groups.get((skill, HOUSEHOLD))
        if span is None or self.skills.sorts[skill] not in ("method", "making"):
            return None
        ev = self.skills.ev[slice(*span)]
        ev = ev[self.skills.minutes_of[ev] > 0]
        ev = ev[[at in self.makes for at in ev.tolist()]]
        if len({self.makes[at] for at in ev.tolist()}) != 1:
            return None
        told = [np.count_nonzero(figure.values[ev] > 0) for figure in self.made]
        sizes = set(self._jar[ev].tolist()) - {-1}
        if told[_JARS] * 2 >= ev.size and len(sizes) == 1 and sizes != {-2}:
            return _JARS
        best = _WEIGHT if told[_WEIGHT] else max(_VOLUME, _COUNT, key=told.__getitem__)
        return best if told[best] else None

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
            kind[one] = -1 if unit is None else unit
        made = unknown("", "no-work-or-amount", practices.size)
        for code, figure in enumerate(self.made):
            some = (kind[skill] == code) & (figure.values[ev] > 0)
            made = choose(some, figure.at(ev).called("made-amount"), made)
        return made
