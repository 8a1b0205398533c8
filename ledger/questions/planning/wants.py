"""What a year takes of each item: what the household aims at, else what it ate and gave away."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, assumed, choose, in_part, method, said, work
from ledger.messages import Day, measured, sentence
from ledger.messages.units import amount
from ledger.questions.costs.sources import Sources
from ledger.questions.goes import went
from ledger.questions.quantities import whole_unit
from ledger.questions.targets import YEAR_DAYS, StockTarget, stock_targets, target_figures
from ledger.replay.columns import Array
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["HOW", "LEVELS", "MOST_YEARS", "Level", "Liked", "Want", "Wants"]

LEVELS = ("low", "likely", "high")
_LIKING, _MEALS = 0.2, 4
MOST_YEARS = 5
"""Years of use looked back on for the range."""

Level = int
"""Place in `LEVELS`."""

HOW = {"lowest": "why-lowest", "highest": "why-highest"}
"""What the least and the most of years or batches are called."""


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
    liked : Liked or None
        How it was liked, where that counts.
    amount : str
        Of a target or of what was asked: how much a year, in the household's words.
    """

    item: int
    whole: tuple[float, float, float]
    source: str
    said: str
    liked: Liked | None = None
    amount: str = ""


class Wants:
    """Wants of every item at one moment, a row each.

    Parameters
    ----------
    state : State
    asked : dict of int to (float, str)
        What is wanted instead, by item: whole units a year, and that in words.

    Attributes
    ----------
    items : ndarray of int, shape (wants,)
    of : dict of int to Want
        By item, in the order of the rows.
    missing : list of str
        What keeps a target from being reckoned with.
    """

    def __init__(self, state: State, asked: dict[int, tuple[float, str]]) -> None:
        self.state, self.asked, self._sources = state, asked, state.once(Sources)
        self.targets = state.once(stock_targets)
        draws = state.draws
        self._rows = np.flatnonzero(
            went(state, "eaten", "given") & (draws["day"] <= state.as_of_day)
        )
        self._back = (state.as_of_day - draws["day"][self._rows]) // YEAR_DAYS
        self._seed = np.flatnonzero(went(state, "seed"))
        last = self._rows[(self._back == 0) & (draws["whole"][self._rows] > 0)]
        known = {*np.unique(draws["item"][last]).tolist(), *self.targets, *asked}
        self.items = np.array(sorted(known), np.int64)
        self.missing: list[str] = []
        self._aims = [self._aim(item) for item in self.items.tolist()]
        whole = np.array([level.values for level in self.whole]).T.tolist()
        self.of: dict[int, Want] = {
            item: self._want(item, aim, (low, likely, high))
            for item, aim, (low, likely, high) in zip(
                self.items.tolist(), self._aims, whole, strict=True
            )
        }

    def rows(self, items: list[int]) -> Array:
        """Return the row of each of some items; -1 where nothing is wanted of it."""
        return self._row[np.array(items, np.int64)]

    @cached_property
    def _row(self) -> Array:
        out = np.full(len(self.state.facts), -1, np.int64)
        out[self.items] = np.arange(self.items.size)
        return out

    # -- what was used --------------------------------------------------------------------

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

    def _drawn(self, rows: Array) -> Figure:
        draws = self.state.draws
        unit = self._sources.whole_of(draws["item"][rows])
        return said(draws["whole"][rows], unit, draws["ev"][rows])

    @cached_property
    def _used(self) -> list[Figure]:
        """What was eaten and given away in each year, the last one first."""
        count = self.items.size
        row = self._row[self.state.draws["item"][self._rows]]
        cell = np.where((row >= 0) & (self._back < self.years), self._back * count + row, -1)
        used = Groups(cell, self.years * count).sum(
            self._drawn(self._rows), lambda at: self._unit(at % count)
        )
        return [
            used.at(back * count + np.arange(count)).called(
                "year-back", name=self._name, n=back + 1
            )
            for back in range(self.years)
        ]

    @cached_property
    def _by_level(self) -> list[Figure]:
        """What a year took: the least of the years, the last one, and the most."""
        last = self._used[0].called(
            "as-said", name=self._name, said=lambda row: self.of[int(self.items[row])].said
        )
        if self.years == 1:
            return [last] * 3
        least, most = (
            work(how, *self._used).called("years", how=sentence(HOW[how]), n=self.years)
            for how in ("lowest", "highest")
        )
        return [least, last, most]

    def in_year(self, back: int) -> Figure:
        """Return what was used in a year back, 0 being the last; what is aimed at where that counts."""
        aimed = np.array([aim != "use" for aim, _ in self._aims], bool)
        return choose(aimed, self.whole[LEVELS.index("likely")], self._used[back])

    def kept_for_seed(self, items: list[int]) -> Figure:
        """Return what was kept for seed of some items in the last year, in whole units."""
        draws, of = self.state.draws, np.full(len(self.state.facts), -1, np.int64)
        of[np.array(items, np.int64)] = np.arange(len(items))
        recent = (self.state.as_of_day - draws["day"][self._seed]) // YEAR_DAYS == 0
        by = np.where(recent, of[draws["item"][self._seed]], -1)
        unit = self._sources.whole_of(np.array(items, np.int64))
        return Groups(by, len(items)).sum(self._drawn(self._seed), unit)

    @cached_property
    def _marks(self) -> tuple[Array, Array, Array]:
        """How each item was liked in the last year, meal by meal: item, event, 1 to 5."""
        draws, liked = self.state.draws, self.state.journal.tables["events"]["liked"]
        rows = self._rows[self._back == 0]
        rows = rows[~np.isnan(liked[draws["ev"][rows]])]
        pairs = np.unique(draws["item"][rows].astype(np.int64) << 32 | draws["ev"][rows])
        ev = pairs & 0xFFFFFFFF
        return pairs >> 32, ev, liked[ev]

    @cached_property
    def liked(self) -> dict[int, Liked]:
        """How each item was liked in the last year, where a meal says so."""
        item, _, marks = self._marks
        sums, meals = np.bincount(item, marks).tolist(), np.bincount(item).tolist()
        return {one: Liked(sums[one] / meals[one], meals[one]) for one in np.unique(item).tolist()}

    @cached_property
    def _liking(self) -> Figure:
        """What last year's use counts for."""
        none, found = Liked(3, 0), self.liked
        liked = [found.get(item, none) for item in self.items.tolist()]
        item, ev, liking = self._marks
        marks, meals = said(liking, "of 5", ev), Groups(self._row[item], self.items.size)
        return method(
            lambda: np.array([one.factor for one in liked], np.float64),
            "",
            "liked-counts",
            lambda row: [(marks, at) for at in meals.rows(row)],
        ).called(
            "liked",
            n=lambda row: measured(f"{liked[row].mean:.1f}"),
            n2=lambda row: liked[row].meals,
        )

    # -- what is wanted -------------------------------------------------------------------

    @cached_property
    def whole(self) -> tuple[Figure, Figure, Figure]:
        """What a year takes of each item, low, likely and high, in whole units."""
        asked = [self.asked.get(item, (np.nan, ""))[0] for item in self.items.tolist()]
        as_asked = assumed(np.array(asked, np.float64), self._unit, "as-asked").called(
            "as-asked", name=self._name, said=lambda row: self.of[int(self.items[row])].said
        )
        targets = [target for _, target in self._aims]
        aimed = in_part(*target_figures(self.state, targets, self._unit), "wanted-in-year")
        is_asked = np.array([aim == "asked" for aim, _ in self._aims], bool)
        is_target = np.array([aim == "target" for aim, _ in self._aims], bool)
        low, likely, high = (
            choose(
                is_asked,
                as_asked,
                choose(is_target, aimed, in_part(used, self._liking, "wanted-in-year")),
            )
            for used in self._by_level
        )
        return low, likely, high

    def _aim(self, item: int) -> tuple[str, StockTarget | None]:
        """Return what says how much is wanted of an item, and the target where that does."""
        if item in self.asked:
            return "asked", None
        target = self.targets.get(item)
        if target is not None and target.times is not None:
            return "target", target
        if target is not None:
            name = self.state.facts.names[item]
            self.missing.append(sentence("plan-target-per-person", name=name))
        return "use", None

    def _want(
        self, item: int, aim: tuple[str, StockTarget | None], whole: tuple[float, float, float]
    ) -> Want:
        source, target = aim
        if source == "asked":
            wanted, text = self.asked[item]
            as_asked = sentence("plan-as-asked", amount=amount(text))
            told = as_asked if wanted else sentence("plan-none-asked")
            return Want(item, whole, source, told, amount=amount(text))
        if target is not None:
            told = sentence("plan-as-targeted", amount=target.said)
            return Want(item, whole, source, told, amount=target.said_a_year)
        return Want(item, whole, source, self._eaten, self.liked.get(item))

    @cached_property
    def _eaten(self) -> str:
        until = day_text(self.state.as_of_day)
        return sentence("plan-eaten-in-year-to", day=Day(until))

    def _name(self, row: int) -> str:
        return self.state.facts.names[int(self.items[row])]

    def _unit(self, row: int) -> str:
        return whole_unit(self.state, int(self.items[row]))
