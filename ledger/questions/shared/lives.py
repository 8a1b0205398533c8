"""How old each thing was when it went, by item and place: the subjects of the survival curves.

A jar, a piece or one taking out of bulk is a subject. It failed where it was discarded as spoiled,
unsealed, too old or eaten by pests; whatever else became of it, and what is still there, was good at
its age. Oldest first, a meal takes the milligram that rounding left of last year before this year's
food: what is too little to list is no subject, else chard had kept for 323 days.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import KINDS
from ledger.methods.survival import Curve, product_limit
from ledger.questions.shared.common import LISTED_FROM, listed_lots
from ledger.replay import KEPT, tables
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ENOUGH", "FAILURES", "FEW", "Group", "groups_of"]

FAILURES = ("spoiled", "seal failed", "too old", "pests")
FEW, ENOUGH = 5, 10
"""Below five failures it is too few to say; from ten on the curve stands beside the chart."""
_DISCARDED = list(KINDS).index("discarded")
_FOOD = SORTS.index("food")
_BAD = [tables.CAUSES.index(name) for name in FAILURES]


@dataclass
class Group:
    """One item in one place.

    Attributes
    ----------
    item : int
    place : str
    times, failed, counts, evs : list
        Age in days, whether it failed, how many subjects, and the event that ended it (-1: still there).
    lots : set of int
    """

    item: int
    place: str
    times: list[float] = field(default_factory=list)
    failed: list[bool] = field(default_factory=list)
    counts: list[float] = field(default_factory=list)
    evs: list[int] = field(default_factory=list)
    lots: set[int] = field(default_factory=set)

    @cached_property
    def curve(self) -> Curve:
        """Its survival curve."""
        return product_limit(self.times, self.failed, self.counts)

    @property
    def failures(self) -> int:
        """How many times something failed."""
        return sum(self.failed)


def groups_of(state: State) -> list[Group]:
    """Return the groups of a state that had food in them, by item and place."""
    return state.once(_groups)


def _groups(state: State) -> list[Group]:
    lots, draws = state.lots, state.draws
    draw, lot, amount = state.allocations
    events = state.journal.tables["events"]
    bad = (events["kind"][draws["ev"][draw]] == _DISCARDED) & np.isin(
        events["cause"][draws["ev"][draw]], _BAD
    )
    age = draws["day"][draw] - lots["day"][lot]
    food = state.facts.sort[lots["item"]] == _FOOD
    least = np.array([LISTED_FROM[m] for m in state.facts.measure] or [1])[lots["item"]]
    out: dict[tuple[int, str], Group] = {}
    for n in np.flatnonzero(food[lot] & (amount >= least[lot])).tolist():
        one = int(lot[n])
        group = _group(out, state, one)
        group.times.append(float(max(age[n], 0)))
        group.failed.append(bool(bad[n]))
        group.counts.append(_count(state, one, float(amount[n])))
        group.evs.append(int(draws["ev"][draw[n]]))
    listed = listed_lots(state)
    for one in listed[food[listed]].tolist():
        group = _group(out, state, one)
        group.times.append(float(state.as_of_day - lots["day"][one]))
        group.failed.append(False)
        group.counts.append(_count(state, one, float(state.left[one])))
        group.evs.append(-1)
    names = state.facts.names
    return sorted(out.values(), key=lambda g: (names[g.item], g.place))


def _group(out: dict[tuple[int, str], Group], state: State, lot: int) -> Group:
    code = int(state.lots["kept"][lot])
    place = (KEPT[code] if code >= 0 else None) or "not said"
    item = int(state.lots["item"][lot])
    group = out.setdefault((item, place), Group(item, place))
    group.lots.add(lot)
    return group


def _count(state: State, lot: int, whole: float) -> float:
    """Return how many subjects an amount is: jars, pieces, else one."""
    jars = float(state.lots["jars"][lot])
    if jars:
        return whole / float(state.lots["whole"][lot]) * jars
    if state.facts.measure[int(state.lots["item"][lot])] == "count":
        return whole / 1000
    return 1.0
