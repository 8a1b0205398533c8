"""What was used of each item in each past week, made ready for looking ahead.

Used is what was eaten, cooked with, put up, burnt, sown or given away, and what a count says was
eaten; what was thrown away or lost is no use. A week in which there was none of an item says
nothing of how much of it was wanted: such weeks are left out, or, where use follows the season
and the place of each week in the year matters, filled from weeks with some.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.events import KINDS
from ledger.methods.runout import LEAST_WEEKS, run_out, use_range
from ledger.methods.use import croston, is_sparse, weekly_use
from ledger.projections._common import LISTED_FROM
from ledger.replay import _tables
from ledger.replay._columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["AHEAD", "CYCLE", "HORIZON", "PATHS", "UseWeeks", "first_days", "is_use", "use_weeks"]

CYCLE = 52
"""Weeks in a year of seasons."""
KEPT_WEEKS = 5 * CYCLE
"""Older weeks are not looked at: households change. Our choice."""
AHEAD = 12
"""Weeks to come over which use a week is told: about a quarter of a year. Our choice."""
HORIZON = 5 * CYCLE
"""Weeks ahead beyond which nobody says when something runs out. Our choice."""
SEEN_GAP = 4
"""Used less than once in so many weeks, an item shows no seasons unless its years agree. Ours."""
PATHS = 2000

_DISCARDED = list(KINDS).index("discarded")
_LINES, _MISSING = _tables.ROLES.index("lines"), len(_tables.ROLES)
_EATEN = _tables.CAUSES.index("eaten")


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


@dataclass(frozen=True)
class UseWeeks:
    """Past weeks of some items; amounts are whole units / 1000 (g, ml, pieces, kJ).

    Attributes
    ----------
    items : ndarray of int, shape (items,)
    used : ndarray, shape (items, weeks)
        Use in each week, oldest first and ending with the answer's day; NaN before the item
        was in the book, and where there was none of it.
    known : ndarray of int, shape (items,)
        Weeks in which there was some.
    gaps : ndarray of bool, shape (items,)
        Whether weeks without any had to be filled.
    seasonal : ndarray of bool, shape (items,)
        Whether weeks are drawn from the same time of the year.
    sparse : ndarray of bool, shape (items,)
        Whether the level comes from the method for intermittent use.
    size, gap, level : ndarray, shape (items,)
        By that method: the amount of a use, the weeks from use to use, and the use a week that
        they give; NaN for the others.
    ready : ndarray, shape (items, weeks)
        What is drawn from: `used` with its gaps filled or its level set.
    """

    items: Array
    used: Array
    known: Array
    gaps: Array
    seasonal: Array
    sparse: Array
    size: Array
    gap: Array
    level: Array
    ready: Array

    def per_week(self) -> tuple[Array, Array, Array]:
        """Return low, likely and high use a week over the coming `AHEAD` weeks."""
        out = np.full((3, self.items.size), np.nan)
        for rows, season in self._groups():
            found = use_range(self.ready[rows], season=season, weeks=AHEAD, paths=PATHS)
            out[:, rows] = found.low, found.likely, found.high
        out[1] = np.where(self.sparse, self.level, out[1])
        return np.fmin(out[0], out[1]), out[1], np.fmax(out[2], out[1])

    def run_out(self, stock: Array, supply_weeks: Array) -> tuple[Array, Array, Array, Array]:
        """Return weeks left (low, likely, high; inf beyond `HORIZON`) and the chance to reach.

        Parameters
        ----------
        stock, supply_weeks : ndarray, shape (items,)
            What is there; weeks until something new is, NaN where nobody knows.
        """
        out = np.full((4, self.items.size), np.nan)
        for rows, season in self._groups():
            found = run_out(
                stock[rows],
                self.ready[rows],
                season=season,
                next_supply_week=supply_weeks[rows],
                paths=PATHS,
                horizon=HORIZON,
            )
            out[:, rows] = found.low, found.likely, found.high, found.reaches
        return out[0], out[1], out[2], out[3]

    def season(self, row: int) -> int | None:
        """Return the weeks in the cycle of an item, None where it has none."""
        return CYCLE if self.seasonal[row] else None

    def _groups(self) -> list[tuple[Array, int | None]]:
        groups = [(np.flatnonzero(~self.seasonal), None), (np.flatnonzero(self.seasonal), CYCLE)]
        return [(rows, season) for rows, season in groups if rows.size]


def use_weeks(state: State, items: Array) -> UseWeeks:
    """Return the past weeks of some items.

    Parameters
    ----------
    state : State
    items : ndarray of int, shape (items,)
    """
    whole_weeks = np.maximum((state.as_of_day + 1 - first_days(state)[items]) // 7, 0)
    weeks = int(min(whole_weeks.max(initial=0), KEPT_WEEKS))
    used, there = _tabled(state, items, weeks)
    in_book = np.arange(weeks)[::-1] < whole_weeks[:, None]
    used = np.where(in_book & there, used, np.nan)
    known = (~np.isnan(used)).sum(axis=1)
    enough = known >= LEAST_WEEKS
    mean = np.nansum(used, axis=1) / np.maximum(known, 1)
    filled = _filled(used, in_book)
    now_and_then = np.asarray(is_sparse(used)) & enough
    long = (whole_weeks > CYCLE) & enough
    seldom = now_and_then & (known > SEEN_GAP * (used > 0).sum(axis=1))
    seasonal = long & ~seldom
    for row in np.flatnonzero(long & seldom).tolist():
        seasonal[row] = _comes_back(filled[row][in_book[row]])
    size, gap, level = np.full((3, items.size), np.nan)
    rows = np.flatnonzero(now_and_then & ~seasonal)
    size[rows], gap[rows], level[rows] = _levels(used[rows])
    sparse = ~np.isnan(level)
    factor = np.where(sparse, level / np.where(mean > 0, mean, 1.0), 1.0)
    ready = np.where(seasonal[:, None], filled, used * factor[:, None])
    ready[~enough] = np.nan
    gaps = seasonal & (in_book & ~there).any(axis=1)
    return UseWeeks(items, used, known, gaps, seasonal, sparse, size, gap, level, ready)


def _tabled(state: State, items: Array, weeks: int) -> tuple[Array, Array]:
    """Return use by week, and whether there was any of the item in it; shape (items, weeks)."""
    lots, draws, facts = state.lots, state.draws, state.facts
    row = np.full(len(facts), -1, np.int64)
    row[items] = np.arange(items.size)
    last = state.as_of_day

    def table(flow: dict[str, Array], keep: Array) -> Array:
        at = np.flatnonzero(keep & (row[flow["item"]] >= 0))
        return weekly_use(
            flow["day"][at], flow["whole"][at] / 1000, first=last - 7 * weeks + 1, last=last,
            items=row[flow["item"][at]], n_items=items.size,
        )  # fmt: skip

    came = table(lots, np.ones(lots["item"].size, bool))
    went = table(draws, np.ones(draws["item"].size, bool))
    left = np.zeros(items.size)
    mine = np.flatnonzero(row[lots["item"]] >= 0)
    np.add.at(left, row[lots["item"][mine]], state.left[mine] / 1000)
    net = came - went
    after = np.cumsum(net[:, ::-1], axis=1)[:, ::-1]
    least = np.array([LISTED_FROM[facts.measure[i]] / 1000 for i in items.tolist()])
    there = (left[:, None] - after >= least[:, None] / 2) | (came > 0)
    return table(draws, is_use(state)), there


def _filled(used: Array, in_book: Array) -> Array:
    """Return the weeks with those without any filled from weeks with some.

    Picks are spread evenly over the past, so that mean and scatter stay what they were.
    """
    out = used.copy()
    for row, empty in zip(out, in_book & np.isnan(used), strict=True):
        some, count = row[~np.isnan(row)], int(empty.sum())
        if some.size and count:
            row[empty] = some[((np.arange(count) + 0.5) * some.size / count).astype(np.int64)]
    return out


def _comes_back(weeks: Array) -> bool:
    """Say whether use now and then comes at the same time of each year.

    Sums of four weeks are compared with those a year before: their correlation lies above
    1.96 / sqrt(pairs), the usual bound for no relation (Hyndman and Athanasopoulos,
    Forecasting: Principles and Practice, 2nd ed., 2.9). Nothing in either agrees as well: the
    season is still to come.
    """
    months = weeks[len(weeks) % 4 :].reshape(-1, 4).sum(axis=1)
    year = CYCLE // 4
    now, before = months[year:], months[:-year]
    if not now.any() and not before.any():
        return True
    if len(now) < 4 or not now.std() or not before.std():
        return False
    return bool(np.corrcoef(now, before)[0, 1] > 1.96 / np.sqrt(len(now)))


def _levels(used: Array) -> Array:
    """Return size, gap and level of intermittent use; NaN where it was used too seldom to say.

    The first gap is that from the first use to the second, so the weeks up to the first are
    dropped; and nothing is said after a pause of more than twice the longest gap, as the method
    keeps its level until the next use.
    """
    after = used.copy()
    can = np.zeros(len(used), bool)
    for i, row in enumerate(used):
        seen = row[~np.isnan(row)]
        at = np.flatnonzero(seen > 0)
        if at.size > 2:
            can[i] = len(seen) - 1 - at[-1] <= 2 * np.diff(at).max()
            after[i, : np.flatnonzero(row > 0)[0] + 1] = np.nan
    out = np.full((3, len(used)), np.nan)
    if can.any():
        found = croston(after[can])
        out[:, can] = found.size, found.gap, found.corrected
    return out
