"""What a year takes of each item: what the household aims at, else what it ate and gave away."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.messages import Day, sentence
from ledger.messages.units import amount
from ledger.questions.goes import goes
from ledger.questions.targets import YEAR_DAYS, stock_targets
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LEVELS", "MOST_YEARS", "Level", "Liked", "Want", "Wants"]

LEVELS = ("low", "likely", "high")
_LIKING, _MEALS = 0.2, 4
MOST_YEARS = 5
"""Years of use looked back on for the range."""

Level = int
"""Place in `LEVELS`."""


@dataclass(frozen=True)
class Liked:
    """How an item was liked: the mean, 1 to 5, of so many meals of the last year that say so."""

    mean: float
    meals: int

    @property
    def factor(self) -> float:
        """What last year's use counts for: 0.8 to 1.2, the nearer to 1 the fewer meals. Our choice."""
        return 1 + _LIKING * (self.mean - 3) / 2 * self.meals / (self.meals + _MEALS)


@dataclass(frozen=True)
class Want:
    """What a year takes of an item.

    Attributes
    ----------
    item : int
    whole : (float, float, float)
        Low, likely and high, in whole units a year.
    source : {'target', 'use', 'asked'}
    said : str
        In words.
    ev : int or None
        Event of the target.
    liked : Liked or None
        How it was liked, where that counts.
    amount : str
        Of a target or of what was asked: how much a year, in the household's words.
    """

    item: int
    whole: tuple[float, float, float]
    source: str
    said: str
    ev: int | None = None
    liked: Liked | None = None
    amount: str = ""


class Wants:
    """Wants of every item at one moment.

    Parameters
    ----------
    state : State
    asked : dict of int to (float, str)
        What is wanted instead, by item: whole units a year, and that in words.

    Attributes
    ----------
    missing : list of str
        What keeps a target from being reckoned with.
    """

    def __init__(self, state: State, asked: dict[int, tuple[float, str]]) -> None:
        self.state, self.asked = state, asked
        self.targets = state.once(stock_targets)
        words = state.once(goes)
        counts = np.isin(words, ["eaten", "given"])
        self._rows = np.flatnonzero(counts & (state.draws["day"] <= state.as_of_day))
        self._seed = np.flatnonzero(words == "seed")
        self.missing: list[str] = []
        self.of: dict[int, Want] = {}
        for item in sorted({*self._by_year[0].nonzero()[0].tolist(), *self.targets, *asked}):
            self.of[item] = self._want(item)

    @cached_property
    def first_day(self) -> int:
        """The day on which the first use is written down; the day after `as_of` without any."""
        days = self.state.draws["day"][self._rows]
        return int(days.min()) if days.size else self.state.as_of_day + 1

    @property
    def days(self) -> int:
        """How many days of use the last year rests on, up to 365."""
        return min(YEAR_DAYS, self.state.as_of_day - self.first_day + 1)

    @property
    def years(self) -> int:
        """How many whole years of use are written down (at least 1, at most `MOST_YEARS`)."""
        whole = (self.state.as_of_day - self.first_day + 1) // YEAR_DAYS
        return max(1, min(MOST_YEARS, whole))

    @cached_property
    def _by_year(self) -> Array:
        """Eaten and given away by year back and item, shape (years, items); the last year first."""
        return self._table(self._rows, self.years)

    @cached_property
    def seed(self) -> Array:
        """What was kept for seed in the last year, in whole units, shape (items,)."""
        return np.asarray(self._table(self._seed, 1)[0])

    def _table(self, rows: Array, years: int) -> Array:
        draws, items = self.state.draws, len(self.state.facts)
        back = (self.state.as_of_day - draws["day"][rows]) // YEAR_DAYS
        keep = (back >= 0) & (back < years)
        key = back[keep] * items + draws["item"][rows][keep]
        weights = draws["whole"][rows][keep].astype(np.float64)
        return np.bincount(key, weights, years * items).reshape(years, items)

    @cached_property
    def liked(self) -> dict[int, Liked]:
        """How each item was liked in the last year, where a meal says so."""
        draws, events = self.state.draws, self.state.journal.tables["events"]
        rows = self._rows[self.state.as_of_day - draws["day"][self._rows] < YEAR_DAYS]
        rows = rows[~np.isnan(events["liked"][draws["ev"][rows]])]
        marks: dict[int, list[float]] = {}
        for item, ev in sorted({*zip(draws["item"][rows].tolist(), draws["ev"][rows].tolist(), strict=True)}):  # fmt: skip
            marks.setdefault(item, []).append(float(events["liked"][ev]))
        return {item: Liked(sum(some) / len(some), len(some)) for item, some in marks.items()}

    def used(self, item: int) -> list[tuple[int, int]]:
        """Return (event, whole units) of what was eaten and given away in the last year."""
        return self._events(self._rows, item)

    def seeded(self, item: int) -> list[tuple[int, int]]:
        """Return (event, whole units) of what was kept for seed in the last year."""
        return self._events(self._seed, item)

    def _events(self, rows: Array, item: int) -> list[tuple[int, int]]:
        draws = self.state.draws
        at = rows[draws["item"][rows] == item]
        at = at[self.state.as_of_day - draws["day"][at] < YEAR_DAYS]
        return list(zip(draws["ev"][at].tolist(), draws["whole"][at].tolist(), strict=True))

    def in_year(self, item: int, back: int) -> float:
        """Return what was eaten and given away in a year back, 0 being the last, in whole units."""
        return float(self._by_year[back, item])

    def year_back(self, item: int, level: Level) -> float:
        """Return what a year took: the least of the years, the last one, or the most."""
        column = self._by_year[:, item]
        return float((column.min(), column[0], column.max())[level])

    def _want(self, item: int) -> Want:
        if item in self.asked:
            whole, text = self.asked[item]
            said = (
                sentence("plan-as-asked", amount=amount(text))
                if whole
                else sentence("plan-none-asked")
            )
            return Want(item, (whole, whole, whole), "asked", said, amount=amount(text))
        target = self.targets.get(item)
        if target is not None:
            if target.times is not None:
                whole = target.amount * 1000 * target.times
                said = sentence("plan-as-targeted", amount=target.said)
                much = target.said_a_year
                return Want(item, (whole, whole, whole), "target", said, target.ev, amount=much)
            name = self.state.facts.names[item]
            self.missing.append(sentence("plan-target-per-person", name=name))
        liked = self.liked.get(item)
        times = 1.0 if liked is None else liked.factor
        low, likely, high = (times * self.year_back(item, level) for level in range(3))
        until = day_text(self.state.as_of_day)
        return Want(item, (low, likely, high), "use", sentence("plan-eaten-in-year-to", day=Day(until)), None, liked)  # fmt: skip
