"""Minutes for one of what a batch made: per jar, per pound, or in the measure it is kept in."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.shared.common import QUART_UL
from ledger.replay import ORIGINS
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Units", "units_of"]

_POUND_G = 453.59237
"""Grams in an avoirdupois pound, exactly (NIST Handbook 44, appendix C)."""

_OWN = {"volume": ("quart", QUART_UL), "count": ("piece", 1000.0)}
_METRIC = {"volume": ("litre", 1e6), "count": ("piece", 1000.0)}


@dataclass(frozen=True)
class _Made:
    """What each entry made, by place; NaN where it made none, or none that is known.

    `jar` is which jar: -1 for none, -2 for several sizes.
    """

    jars: Array
    jar: Array
    weight: Array
    own: Array


class Units:
    """What each batch made, in the unit by which its skill is timed.

    A skill whose batches mostly fill jars, all of one size, is timed per jar; else per pound (or
    kilogram), where the weight is known; else per quart (litre) or piece. A method by which
    several things were put up is not timed: a quart of sauce takes longer than a pint of beans.
    """

    def __init__(self, skills: Skills) -> None:
        self.skills = skills
        state = skills.state
        self._metric = state.settings.newest("measures", "us") == "metric"
        self._made = self._amounts(state)
        self._unit: dict[int, tuple[str, Array] | None] = {}

    def _amounts(self, state: State) -> _Made:
        lots, size = state.lots, state.moment.rank.size
        rows = np.flatnonzero((lots["origin"] == ORIGINS.index("batch")) & np.isnan(lots["share"]))
        ev, item, whole = lots["ev"][rows], lots["item"][rows], lots["whole"][rows]
        grams = np.full(len(state.facts), np.nan)
        own = np.full(len(state.facts), np.nan)
        for one in np.unique(item).tolist():
            per = state.facts.grams_per_whole(one)
            grams[one] = np.nan if per is None else per
            known = (_METRIC if self._metric else _OWN).get(state.facts.measure[one])
            own[one] = 1 / known[1] if known else np.nan
        jars = lots["jars"][rows]

        def made(amount: Array) -> Array:
            sums = np.bincount(ev, amount, size)
            return np.where(sums > 0, sums, np.nan)

        return _Made(
            made(jars),
            self._jar(ev[jars > 0], lots["row"][rows][jars > 0], size),
            made(whole * grams[item] / self.weight_g),
            made(whole * own[item]),
        )

    def _jar(self, ev: Array, row: Array, size: int) -> Array:
        """Return which jar each entry filled, by place."""
        state = self.skills.state
        code = state.facts.canon[state.journal.tables["supplies"]["jar"][row]]
        jar = np.full(size, -1, np.int64)
        jar[ev] = code
        jar[ev[jar[ev] != code]] = -2
        return jar

    @property
    def weight_g(self) -> float:
        """Grams in the unit of weight."""
        return 1000.0 if self._metric else _POUND_G

    @cached_property
    def makes(self) -> dict[int, str]:
        """What each batch makes, by place."""
        batches, facts = self.skills.state.journal.tables["batches"], self.skills.state.facts
        rows = self.skills.state.moment.of(batches["ev"])
        items = facts.canon[batches["makes"][rows]].tolist()
        return {
            ev: facts.names[item]
            for ev, item in zip(batches["ev"][rows].tolist(), items, strict=True)
        }

    def of(self, skill: int) -> tuple[str, Array] | None:
        """Return the unit of a skill and how many of it each entry made, shape (events,).

        Returns
        -------
        tuple or None
            None where no batch of it has both a known amount and minutes of work.
        """
        if skill not in self._unit:
            self._unit[skill] = self._choose(skill)
        return self._unit[skill]

    def _choose(self, skill: int) -> tuple[str, Array] | None:
        span = self.skills.groups.get((skill, HOUSEHOLD))
        if span is None or self.skills.sorts[skill] not in ("method", "making"):
            return None
        ev = self.skills.ev[slice(*span)]
        ev = ev[self.skills.minutes_of[ev] > 0]
        ev = ev[[at in self.makes for at in ev.tolist()]]
        made = self._made
        things = {self.makes[at] for at in ev.tolist()}
        if len(things) != 1:
            return None
        jars, sizes = made.jars[ev] > 0, set(made.jar[ev].tolist()) - {-1}
        if jars.sum() * 2 >= ev.size and len(sizes) == 1 and sizes != {-2}:
            return "jar", made.jars
        if (made.weight[ev] > 0).any():
            return ("kg" if self._metric else "lb"), made.weight
        if (made.own[ev] > 0).any():
            item = self.skills.state.facts.find(things.pop())
            measure = self.skills.state.facts.measure[item or 0]
            return (_METRIC if self._metric else _OWN)[measure][0], made.own
        return None

    def minutes(self, skill: int, span: tuple[int, int]) -> list[float]:
        """Return minutes for one unit at each practice of a group; NaN where not known."""
        unit = self.of(skill)
        ev = self.skills.ev[slice(*span)]
        if unit is None:
            return [float("nan")] * ev.size
        out: list[float] = (self.skills.minutes_of[ev] / unit[1][ev]).tolist()
        return out


def units_of(state: State) -> Units:
    """Return the units of a moment; asked for with ``state.once``."""
    return Units(state.once(Skills))
