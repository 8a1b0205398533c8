"""When something comes in again, from when it came in before.

A household's own seasons tell it: what is picked or put up comes back as in earlier years, what
is bought or cooked comes after as long as it usually takes. Leftovers, jars that did not seal, and what
a count found are no supply.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from statistics import median
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import METHODS
from ledger.messages import Day, Message, Names, sentence
from ledger.methods.waiting import after_pauses, in_season
from ledger.replay import ORIGINS, day_text
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Supply", "is_supply", "next_supplies", "next_supply"]

_YEAR = 365
_SEASONS = 5
_RHYTHM = 2 * _YEAR
_LEAST = 3
_KEPT = 4096
"""Items whose next supply is kept."""


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
    waits : tuple of float
        Equally likely days from now until then (`ledger.methods.waiting`).
    laid_in : bool
        Whether it was last picked, or put up to keep.
    """

    day: int | None
    rule: str = ""
    text: str = ""
    like: tuple[int, ...] = ()
    waits: tuple[float, ...] = ()
    laid_in: bool = False


def next_supply(days: Array, today: int, *, laid_in: bool) -> Supply:
    """Return when the next supply is expected.

    Parameters
    ----------
    days : ndarray of int, shape (supplies,)
        Days on which it came in, rising, each once, none after today.
    today : int
    laid_in : bool
        Whether it was last picked, or put up to keep. Such a thing comes once a year or so: one
        season tells of the next, and seasons go before the rhythm once the first is more than a
        year ago. What is bought, received or cooked goes by its rhythm first, and has seasons
        only when two years show them.

    Notes
    -----
    By season: for each of up to five years back, the first supply after this day of that year;
    the middle one of them. By rhythm: of the pauses of the last two years that were longer than
    the present one, the middle one. Both rules are ours.
    """
    return _next_supply(days.astype(np.int64).tobytes(), today, laid_in)


@lru_cache(_KEPT)
def _next_supply(kept: bytes, today: int, laid_in: bool) -> Supply:
    """Return the same of the bytes of the days: an item's are the same while others come in."""
    days = np.frombuffer(kept, np.int64)
    if not days.size:
        return Supply(None, laid_in=laid_in)
    by_season, by_rhythm = _by_season(days, today, 1 if laid_in else 2), _by_rhythm(days, today)
    seasons_first = laid_in and days[0] < today - _YEAR
    first, second = (by_season, by_rhythm) if seasons_first else (by_rhythm, by_season)
    return replace(second if first.day is None else first, laid_in=laid_in)


def _by_season(days: Array, today: int, least: int) -> Supply:
    firsts = []
    for years in range(1, _SEASONS + 1):
        start = today - _YEAR * years
        at = int(days.searchsorted(start, "right"))
        if at < days.size and days[at] <= start + _YEAR:
            firsts.append((int(days[at]), int(days[at]) + _YEAR * years))
        elif years == 1:  # nothing at all for a year: the household has stopped
            return Supply(None)
    if len(firsts) < least:
        return Supply(None)
    like = tuple(first for first, _ in firsts)
    came = Names(tuple(Message.of("supply-on", day=Day(day_text(day))) for day in like))
    text = sentence("supply-by-season", list=came)
    waits = tuple(in_season([day - today for _, day in firsts]).tolist())
    return Supply(int(median(day for _, day in firsts)), "season", text, like, waits)


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
    on, waited = Day(day_text(last)), today - last
    text = (
        sentence("supply-by-rhythm-waiting", n=pause, n2=waited, day=on)
        if waited
        else sentence("supply-by-rhythm", n=pause, day=on)
    )
    waits = tuple(after_pauses(gaps, today - last).tolist())
    return Supply(last + pause, "rhythm", text, tuple(recent.tolist()), waits)


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
    rows = np.flatnonzero(state.once(is_supply) & (row[lots["item"]] >= 0))
    order = rows[np.lexsort((lots["day"][rows], row[lots["item"][rows]]))]
    of, day = row[lots["item"][order]], lots["day"][order].astype(np.int64)
    begins = np.flatnonzero((np.diff(of, prepend=-1) != 0) | (np.diff(day, prepend=-1) != 0))
    ends = np.searchsorted(of, np.arange(items.size + 1))
    of, day = of[begins], day[begins]
    bounds, kept = np.searchsorted(of, np.arange(items.size + 1)).tolist(), _laid_in(state)
    out = []
    for i in range(items.size):
        laid_in = bool(ends[i + 1] > ends[i]) and bool(kept[order[ends[i + 1] - 1]])
        days = day[bounds[i] : bounds[i + 1]]
        out.append(next_supply(days, state.as_of_day, laid_in=laid_in))
    return out


def _laid_in(state: State) -> Array:
    """Return which lots were picked, or put up to keep, shape (lots,)."""
    lots, batches = state.lots, state.journal.tables["batches"]
    cooked = np.zeros(len(state.journal), bool)
    cooked[batches["ev"][batches["method"] == METHODS.index("cook")]] = True
    put_up = (lots["origin"] == ORIGINS.index("batch")) & ~cooked[lots["ev"]]
    picked = np.isin(lots["origin"], [ORIGINS.index("grown"), ORIGINS.index("foraged")])
    return np.asarray(picked | put_up)
