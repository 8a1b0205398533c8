"""What was used of each item on each past day, and what that says of the weeks to come.

Used is what was eaten, cooked with, put up, burnt, sown or given away, and what a count says was
eaten; what was thrown away or lost is no use. A day on which there was none of an item says
nothing of how much of it was wanted. Where the number of people changed, food used before
counts by it.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import KINDS
from ledger.methods.looking_ahead import LEAST_WEEKS, look_ahead
from ledger.methods.past import KEPT_WEEKS, Past, past_of
from ledger.methods.predictive import LookingAhead
from ledger.questions.shared.common import LISTED_FROM
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "AHEAD",
    "UseDays",
    "UsePast",
    "first_days",
    "is_use",
    "people_count",
    "people_factor",
    "use_days",
    "use_past",
]

AHEAD = 12
"""Weeks to come over which use a week is told: about a quarter of a year. Our choice."""

_DAYS = 7 * KEPT_WEEKS
_AT_ONCE = 256
_DISCARDED = list(KINDS).index("discarded")
_LINES, _MISSING = tables.ROLES.index("lines"), len(tables.ROLES)
_EATEN = tables.CAUSES.index("eaten")
_FOOD = SORTS.index("food")


def is_use(state: State) -> Array:
    """Return which draws are use, shape (draws,)."""
    events, draws = state.journal.tables["events"], state.draws
    role, ev = draws["role"], draws["ev"]
    given = (role == _LINES) & (events["kind"][ev] != _DISCARDED)
    counted = (role == _MISSING) & (events["cause"][ev] == _EATEN)
    return np.asarray((role < _LINES) | given | counted)


def first_days(state: State) -> Array:
    """Return the day on which each item first came into the book, shape (items,).

    An item that never came in has a day far ahead.
    """
    first = np.full(len(state.facts), np.iinfo(np.int64).max // 2)
    np.minimum.at(first, state.lots["item"], state.lots["day"].astype(np.int64))
    return first


def people_factor(state: State, days: Array) -> Array:
    """Return people now / people on each day; 1 where either is not known."""
    known = state.settings.numbers("people", np.r_[days, state.as_of_day], people_count)
    factor = known[-1] / known[:-1]
    return np.asarray(np.where(np.isnan(factor), 1.0, factor))


def people_count(text: str | None) -> float | None:
    """Return how many people a setting says; None where it says no number above zero."""
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if value > 0 else None


@dataclass(frozen=True)
class UseDays:
    """Use of some items by day; amounts are whole units / 1000 (g, ml, pieces, kJ).

    Attributes
    ----------
    items : ndarray of int, shape (items,)
    use : ndarray, shape (items, days)
        Ending with the answer's day.
    there : ndarray of bool, shape (items, days)
        Whether there was some at the beginning of the day, or some came in on it.
    known : ndarray of int, shape (items,)
        How many of the newest days each item was in the book, at most as many as there are.
    """

    items: Array
    use: Array
    there: Array
    known: Array

    def past(self, row: int, before: int = 0) -> Past:
        """Return the past of an item, as it was so many days before the answer's."""
        end = self.use.shape[1] - before
        days = slice(max(self.use.shape[1] - int(self.known[row]), 0), max(end, 0))
        return past_of(self.use[row, days], self.there[row, days])


def use_days(state: State, items: Array) -> UseDays:
    """Return the days of some items.

    Parameters
    ----------
    items : ndarray of int, shape (items,)
    """
    lots, draws, facts = state.lots, state.draws, state.facts
    known = np.clip(state.as_of_day + 1 - first_days(state)[items], 0, _DAYS)
    days = int(known.max(initial=0))
    row = np.full(len(facts), -1, np.int64)
    row[items] = np.arange(items.size)

    def lately(flow: dict[str, Array]) -> tuple[Array, Array]:
        """Return the rows of the items on the days looked back on, and the cell of each."""
        place = row[flow["item"]]
        back = state.as_of_day - flow["day"].astype(np.int64)
        at = np.flatnonzero((place >= 0) & (back >= 0) & (back < days))
        return at, place[at] * days + days - 1 - back[at]

    def table(cells: Array, whole: Array) -> Array:
        amounts = whole / 1000
        return np.bincount(cells, amounts, items.size * days).reshape(items.size, days)

    at, cells = lately(lots)
    came = table(cells, lots["whole"][at])
    at, cells = lately(draws)
    net = came - table(cells, draws["whole"][at])
    left = np.zeros(items.size)
    mine = np.flatnonzero(row[lots["item"]] >= 0)
    np.add.at(left, row[lots["item"][mine]], state.left[mine] / 1000)
    begins = left[:, None] - np.cumsum(net[:, ::-1], axis=1)[:, ::-1]
    least = np.array([LISTED_FROM[facts.measure[i]] / 1000 for i in items.tolist()])
    used = state.once(is_use)[at]
    at, cells = at[used], cells[used]
    food = facts.sort[draws["item"][at]] == _FOOD if at.size else np.zeros(0, bool)
    factor = np.where(food, people_factor(state, draws["day"][at].astype(np.int64)), 1.0)
    use = table(cells, draws["whole"][at] * factor)
    return UseDays(items, use, (begins >= least[:, None] / 2) | (came > 0), known)


@dataclass(frozen=True)
class UsePast:
    """The past of some items, and what it says of the weeks to come.

    Attributes
    ----------
    items : ndarray of int, shape (items,)
    pasts : list of Past
    scaled : list of bool
        Whether use of each was scaled, as the number of people changed.
    """

    items: Array
    pasts: list[Past]
    scaled: list[bool]

    @cached_property
    def ahead(self) -> list[LookingAhead | None]:
        """What may be used of each; None where too little is known, or nothing was used."""
        return [look_ahead(past) for past in self.pasts]

    def too_few(self, row: int) -> bool:
        """Whether fewer than four weeks are known of an item."""
        return self.pasts[row].weeks < LEAST_WEEKS or self.known(row) < 1

    def known(self, row: int) -> float:
        """Return the weeks looked back on in which there was some of an item."""
        return float(self.pasts[row].there.sum())

    @cached_property
    def per_week(self) -> Array:
        """Use a week over the coming `AHEAD` weeks: low, likely, high; shape (3, items)."""
        out = np.full((3, len(self.pasts)), np.nan)
        for row, one in enumerate(self.ahead):
            if one is not None:
                out[:, row] = np.array(one.use_over(AHEAD)) / AHEAD
        return out


def use_past(state: State, items: Array) -> UsePast:
    """Return the past of some items.

    Parameters
    ----------
    items : ndarray of int, shape (items,)
    """
    pasts: list[Past] = []
    for start in range(0, items.size, _AT_ONCE):
        some = use_days(state, items[start : start + _AT_ONCE])
        pasts += [some.past(row) for row in range(some.items.size)]
    changed = np.array(state.settings.days("people")[1:], np.int64)
    food = state.facts.sort[items] == _FOOD if items.size else []
    scaled = [
        bool(eats) and bool((changed > state.as_of_day - 7 * past.weeks).any())
        for eats, past in zip(food, pasts, strict=True)
    ]
    return UsePast(items, pasts, scaled)
