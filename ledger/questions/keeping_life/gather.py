"""How old each thing was when it went, by item and place: the subjects of the survival curves.

A jar, a piece or one taking out of bulk is a subject. It failed where it was discarded as spoiled,
unsealed, too old or eaten by pests; whatever else became of it, and what is still there, was good at
its age. Oldest first, a meal takes the milligram that rounding left of last year before this year's
food: what is too little to list is no subject, else chard had kept for 323 days.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, Spans, assumed, method, published, said
from ledger.items import item_key
from ledger.kinds import KINDS
from ledger.methods.survival import Curve, product_limit
from ledger.questions.shared.common import LISTED_FROM, listed_lots
from ledger.questions.shared.keeping import keeping_of
from ledger.questions.shared.put_up_as import put_up_as
from ledger.reference import winter
from ledger.replay import KEPT, tables
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["DISCARDED", "FOOD", "Lives", "is_known"]

DISCARDED, FOOD = list(KINDS).index("discarded"), SORTS.index("food")
_FAILURES = ("spoiled", "seal failed", "too old", "pests")
_BAD = [tables.CAUSES.index(name) for name in _FAILURES]


class Lives:
    """Subjects by item and place, the youngest of each first.

    Attributes
    ----------
    keys : list of (int, str)
        Item and place of each group, shape (groups,).
    by, lot, age, failed, counts, ends : ndarray, shape (subjects,)
        The group and lot of each, its age in days, whether it failed, how many subjects it stands for,
        and the event that ended it (-1: still there).
    step : ndarray of int, shape (subjects,)
        A step is an age of a group at which subjects ended; `first` is the first subject of each.
    count, aged : Figure
        Of each subject: how many it stands for, and its age.
    nothing_failed : Figure
        What the curve is where no subject failed.
    """

    def __init__(self, state: State) -> None:
        self.state, lots, facts = state, state.lots, state.facts
        draw, lot, amount = state.allocations
        food = facts.sort[lots["item"]] == FOOD
        least = np.array([LISTED_FROM[m] for m in facts.measure] or [1])[lots["item"]]
        taken = np.flatnonzero(food[lot] & (amount >= least[lot]))
        still = listed_lots(state)
        still = still[food[still]]
        self.lot = np.r_[lot[taken], still].astype(np.int64)
        end = state.draws["ev"][draw[taken]]
        self.ends = np.r_[end, np.full(still.size, -1)].astype(np.int64)
        gone = np.r_[state.draws["day"][draw[taken]], np.full(still.size, state.as_of_day)]
        self.age = np.maximum(gone - lots["day"][self.lot], 0)
        events = state.journal.tables["events"]
        bad = (events["kind"][end] == DISCARDED) & np.isin(events["cause"][end], _BAD)
        self.failed = np.r_[bad, np.zeros(still.size, bool)]
        self.counts = self._counts(np.r_[amount[taken], state.left[still]])
        self._in_order()
        ev = np.where(self.ends < 0, lots["ev"][self.lot], self.ends)
        self.count, self.aged = said(self.counts, "subjects", ev), said(self.age, "days", ev)
        self.failure = said(1.0, "times", ev)
        self.nothing_failed = assumed(1.0, "0 to 1", "curve").called("nothing-failed")

    def _counts(self, whole: Array) -> Array:
        """Return how many subjects amounts are: jars, pieces, else one."""
        lots, item = self.state.lots, self.state.lots["item"][self.lot]
        jars, all_of_it = lots["jars"][self.lot], np.maximum(lots["whole"][self.lot], 1)
        pieces = np.array([m == "count" for m in self.state.facts.measure] or [False])[item]
        return np.where(jars > 0, whole / all_of_it * jars, np.where(pieces, whole / 1000, 1.0))

    def _in_order(self) -> None:
        names, lots = self.state.facts.names, self.state.lots
        kept = [
            (KEPT[code] if code >= 0 else None) or "not said" for code in lots["kept"][self.lot]
        ]
        each = list(zip(lots["item"][self.lot].tolist(), kept, strict=True))
        self.keys = sorted(dict.fromkeys(each), key=lambda key: (names[key[0]], key[1]))
        place = {key: at for at, key in enumerate(self.keys)}
        self.by = np.array([place[key] for key in each], np.int64)
        order = np.lexsort((self.ends, self.age, self.by))
        for name in ("by", "lot", "ends", "age", "failed", "counts"):
            setattr(self, name, getattr(self, name)[order])
        begins = (np.diff(self.by, prepend=-1) != 0) | (np.diff(self.age, prepend=-1) != 0)
        self.first, self.step = np.flatnonzero(begins), np.cumsum(begins) - 1

    def address(self, figure: str) -> Callable[[int], tuple[str, str]]:
        """Return how a figure of a group is asked for."""
        return lambda group: (f"keeping-life/{self.name(group)}", figure)

    def address_of_step(self, figure: str) -> Callable[[int], tuple[str, str]]:
        """Return how a figure of a step is asked for."""

        def address(step: int) -> tuple[str, str]:
            first = self.first[step]
            return f"keeping-life/@{self.age[first]}/{self.name(int(self.by[first]))}", figure

        return address

    def name(self, group: int) -> str:
        """Return item and place of a group, as its address has them."""
        item, place = self.keys[group]
        return f"{self.state.facts.strand_name(item)}/{place}"

    # -- from subjects to steps and groups ----------------------------------------------

    @property
    def of(self) -> Groups:
        """Subjects by group."""
        return Groups(self.by, len(self.keys))

    @property
    def of_failed(self) -> Groups:
        """Subjects that failed, by group."""
        return Groups(np.where(self.failed, self.by, -1), len(self.keys))

    @property
    def failed_at(self) -> Groups:
        """Subjects that failed, by step."""
        return Groups(np.where(self.failed, self.step, -1), self.first.size)

    @property
    def from_on(self) -> Spans:
        """Subjects of a step's group that were there just before it."""
        return Spans(self.first, np.searchsorted(self.by, self.by[self.first], "right"))

    @property
    def steps(self) -> Groups:
        """Steps at which something failed, by group."""
        some = np.bincount(self.step, self.failed, self.first.size) > 0
        return Groups(np.where(some, self.by[self.first], -1), len(self.keys))

    @property
    def last_good(self) -> Array:
        """The last subject of each group that did not fail, -1 where all did; shape (groups,)."""
        out = np.full(len(self.keys), -1, np.int64)
        good = np.flatnonzero(~self.failed)
        out[self.by[good]] = good
        return out

    def curve(self, name: str, unit: str, where: Array, given: list[Figure]) -> Figure:
        """Return what the curve of each group has by a name, where it may be said."""

        def values() -> Array:
            each = zip(self._curves, where.tolist(), strict=True)
            return np.array([getattr(one, name) if may else None for one, may in each], np.float64)

        return method(values, unit, "curve", given)

    @cached_property
    def _curves(self) -> list[Curve]:
        ends = np.searchsorted(self.by, np.arange(len(self.keys) + 1)).tolist()
        return [
            product_limit(
                *(column[a:b].tolist() for column in (self.age, self.failed, self.counts))
            )
            for a, b in pairwise(ends)
        ]

    # -- what is published --------------------------------------------------------------

    @cached_property
    def published_from(self) -> list[str | None]:
        """Where the life of each group is published."""
        return [source for _, source in self._published]

    @property
    def published(self) -> Figure:
        """The longer end of the published life of each group's food in its place; NaN: none is."""
        days = np.array([days for days, _ in self._published], np.float64)
        return published(days, "days", lambda group: self.published_from[group] or "")

    @cached_property
    def _published(self) -> list[tuple[float | None, str | None]]:
        return [self._published_of(group) for group in range(len(self.keys))]

    def _published_of(self, group: int) -> tuple[float | None, str | None]:
        item, place = self.keys[group]
        if place == "cellar":
            key = item_key(self.state.facts.names[item])
            for one in winter.figures("keeping", "storage_life"):
                if item_key(one.item) == key and one.high is not None and not one.from_memory:
                    return one.high * 365.25 / 12, winter.document(one.source)
        lots = np.unique(self.lot[self.by == group]).tolist()
        if len({put_up_as(self.state, lot) for lot in lots}) > 1:
            return (
                None,
                None,
            )  # fresh food and what was put up under its name: no one period is of both
        for lot in lots:
            found = keeping_of(self.state, lot)
            if found is not None:
                return found.high_days, found.source
        return None, None


def is_known(figure: Figure) -> Array:
    """Return which rows of a figure can be said."""
    return np.asarray(~np.isnan(figure.values))
