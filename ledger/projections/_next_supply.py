"""When something comes in again, from when it came in before.

A household's own seasons tell it: what is picked or put up comes back as in earlier years, what
is bought comes after as long as it usually takes. Leftovers, jars that did not seal, and what
a count found are no supply.
"""

from __future__ import annotations

from dataclasses import dataclass
from statistics import median
from typing import TYPE_CHECKING

import numpy as np

from ledger.replay import ORIGINS, day_text
from ledger.replay._columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Supply", "is_supply", "next_supplies", "next_supply"]

_YEAR = 365
_SEASONS = 5
_RHYTHM = 2 * _YEAR
_LEAST = 3


@dataclass(frozen=True)
class Supply:
    """When the next supply is expected, and by what.

    Attributes
    ----------
    day : int or None
        Days since 1970; None where the past does not tell.
    rule : {'season', 'rhythm', ''}
    text : str
        What it comes from, in words.
    like : tuple of int
        The earlier days that it goes by.
    """

    day: int | None
    rule: str = ""
    text: str = ""
    like: tuple[int, ...] = ()


def next_supply(days: Array, today: int, *, fetched: bool) -> Supply:
    """Return when the next supply is expected.

    Parameters
    ----------
    days : ndarray of int, shape (supplies,)
        Days on which it came in, rising, each once, none after today.
    today : int
    fetched : bool
        Whether it last came from a shop or a neighbour: then its rhythm goes first. What was
        picked or put up goes by the season first, once it has been so for more than a year.

    Notes
    -----
    By season: for each of up to five years back, the first supply after this day of that year;
    the middle one of them. By rhythm: of the pauses of the last two years that were longer than
    the present one, the middle one. Both rules are ours.
    """
    if not days.size:
        return Supply(None)
    old = days[0] < today - _YEAR
    rules = (_by_season, _by_rhythm) if old and not fetched else (_by_rhythm, _by_season)
    for rule in rules:
        found = rule(days, today)
        if found.day is not None:
            return found
    return Supply(None)


def _by_season(days: Array, today: int) -> Supply:
    firsts = []
    for years in range(1, _SEASONS + 1):
        start = today - _YEAR * years
        inside = days[(days > start) & (days <= start + _YEAR)]
        if inside.size:
            firsts.append((int(inside[0]), int(inside[0]) + _YEAR * years))
        elif years == 1:  # nothing at all for a year: the household has stopped
            return Supply(None)
    like = tuple(first for first, _ in firsts)
    text = f"as in earlier years, when it came on {', '.join(map(day_text, like))}"
    return Supply(int(median(day for _, day in firsts)), "season", text, like)


def _by_rhythm(days: Array, today: int) -> Supply:
    recent = days[days > today - _RHYTHM]
    if recent.size < _LEAST:
        return Supply(None)
    last = int(recent[-1])
    gaps = np.diff(recent)
    longer = gaps[gaps > today - last]
    if not longer.size:
        return Supply(None)
    pause = int(median(longer.tolist()))
    since = f", and {today - last} have passed" if today > last else ""
    text = f"it came every {pause} days or so{since} since {day_text(last)}"
    return Supply(last + pause, "rhythm", text, tuple(recent.tolist()))


def is_supply(state: State) -> Array:
    """Return which lots are supply, shape (lots,): picked, put up, bought, received."""
    lots = state.lots
    other = np.isin(lots["origin"], [ORIGINS.index("found"), ORIGINS.index("unrecorded")])
    return np.asarray(~other & (lots["suffix"] == 0) & np.isnan(lots["share"]))


def next_supplies(state: State, items: Array) -> list[Supply]:
    """Return the next supply of each of some items."""
    lots = state.lots
    row = np.full(len(state.facts), -1, np.int64)
    row[items] = np.arange(items.size)
    rows = np.flatnonzero(is_supply(state) & (row[lots["item"]] >= 0))
    order = rows[np.lexsort((lots["day"][rows], row[lots["item"][rows]]))]
    bounds = np.searchsorted(row[lots["item"][order]], np.arange(items.size + 1))
    shop = (ORIGINS.index("bought"), ORIGINS.index("given"))
    out = []
    for i in range(items.size):
        mine = order[bounds[i] : bounds[i + 1]]
        fetched = bool(mine.size) and int(lots["origin"][mine[-1]]) in shop
        days = np.unique(lots["day"][mine]).astype(np.int64)
        out.append(next_supply(days, state.as_of_day, fetched=fetched))
    return out
