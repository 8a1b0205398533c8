"""What was on the table in some periods: by dish, and by the days on which it was; and the need then."""

from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

import numpy as np

from ledger.figures import Array, Figure, Groups, published
from ledger.messages import Code
from ledger.questions.costs.sources import Sources
from ledger.questions.food import FoodFigures
from ledger.questions.food.portions import Grouped
from ledger.questions.our_table.marks import Marks
from ledger.questions.periods import Period, periods_of, places_of
from ledger.questions.telling import label_day
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Need", "Table"]

_CALENDAR = "ISO 8601"
"""Source of how many days a period has (docs/sources.md)."""
_NAMES = ("people", "kcal_per_person_day")
_YEARS = 2 * 366
"""Days from which a dish opens year by year, below that month by month."""

Address = Callable[[int], tuple[str, str] | None]


class Table:
    """What the household ate in some periods, a row a period.

    Parameters
    ----------
    state : State
    periods : list of Period
        In order, none of them overlapping.

    Attributes
    ----------
    by_dish, by_period : Groups
        Which part of a period's days of a dish belongs to which dish, which dish to which period.
    marks : list of set of Mark
        What the figures of each period rest on.
    feed_known : ndarray of bool, shape (periods,)
        Whether it is known what all animals behind what was eaten were given.
    """

    def __init__(self, state: State, periods: list[Period]) -> None:
        self.state, self.periods = state, periods
        self.food = state.once(FoodFigures)
        self.marks = state.once(Marks).of(periods)
        self.feed_known = np.array(
            [not any(kind == "feed" for kind, _, _ in marks) for marks in self.marks], bool
        )
        eaten = self.food.eaten
        several = [_parts(one) for one in periods]
        self._spans = [span for spans in several for span in spans]
        self._period_of = np.repeat(np.arange(len(periods)), [len(one) for one in several])
        item = state.lots["item"][eaten.web.lot[eaten.at]]
        items, place = len(state.facts), places_of(self._spans, eaten.day)
        cells, self._cell = _numbered(
            np.where(place >= 0, place * items + item, -1), len(self._spans) * items
        )
        self._span_of, self._item_of_cell = np.divmod(cells, max(items, 1))
        period = self._period_of[self._span_of]
        dishes, dish = _numbered(period * items + self._item_of_cell, len(periods) * items)
        self._period_of_dish, self._item = np.divmod(dishes, max(items, 1))
        self.by_dish = Groups(dish, dishes.size)
        self.by_period = Groups(self._period_of_dish, len(periods), largest_first=True)

    def served(self, basis: str, origin: str) -> Figure:
        """Return what was eaten of one origin: of each dish, in each month or year of its period."""
        return self._cells.of(basis, origin)

    @cached_property
    def _cells(self) -> Grouped:
        return self.food.on_table.grouped(self._cell, self._span_of.size)

    @property
    def has_fed(self) -> bool:
        """Whether there are products of our own animals of which the feed is known."""
        return bool((self.food.feed.season_of_lot >= 0).any())

    def from_bought_feed(self, basis: str) -> Figure:
        """Return what feed from elsewhere made of it; the parts as in `served`."""
        some, each = self.food.fed_elsewhere(self.food.on_table, basis)
        return self._cells.where(some, each, basis, self.food.made.bought_feed[basis])

    # -- names and addresses ----------------------------------------------------------------

    @property
    def days(self) -> dict[str, Any]:
        """First and last day of a period, for its label."""
        return {
            "first": lambda row: label_day(self.periods[row].start),
            "last": lambda row: label_day(self.periods[row].end),
        }

    def span(self, cell: int) -> Code:
        """Return the month or year of a part of a dish."""
        return Code(self._spans[int(self._span_of[cell])].label)

    def item_of_cell(self, cell: int) -> str:
        """Return the name of what a part of a dish is."""
        return self.state.facts.names[int(self._item_of_cell[cell])]

    def item(self, dish: int) -> str:
        """Return the name of what a dish is."""
        return self.state.facts.names[int(self._item[dish])]

    def address(self, basis: str, origin: str, figure: str = "amount") -> Address:
        """Return the address of a period."""
        return lambda row: (f"our-table/{self.periods[row].address}/{basis}/{origin}", figure)

    def address_of_dish(self, basis: str, origin: str, figure: str) -> Address:
        """Return the address of a dish in a period."""

        def address(dish: int) -> tuple[str, str]:
            period = self.periods[int(self._period_of_dish[dish])]
            return self._address(period, basis, origin, int(self._item[dish])), figure

        return address

    def address_of_span(self, basis: str, origin: str, figure: str) -> Address:
        """Return the address of a dish in a month or year; None where that is the whole period."""

        def address(cell: int) -> tuple[str, str] | None:
            place = int(self._span_of[cell])
            span, period = self._spans[place], self.periods[int(self._period_of[place])]
            if (span.start, span.end) == (period.start, period.end):
                return None
            return self._address(span, basis, origin, int(self._item_of_cell[cell])), figure

        return address

    def _address(self, period: Period, basis: str, origin: str, item: int) -> str:
        name = quote(self.state.facts.strand_name(item), safe="")
        return f"our-table/{period.address}/{basis}/{origin}/{name}"

    def find(self, item: int) -> int | None:
        """Return the dish that is an item, in the first period; None where it was not eaten."""
        rows = np.flatnonzero((self._period_of_dish == 0) & (self._item == item))
        return int(rows[0]) if rows.size else None

    @cached_property
    def need(self) -> Need:
        """What the people at the table need in each period."""
        return Need(self.state, self.periods)


class Need:
    """Who was at the table and what each needs, day by day put together.

    Attributes
    ----------
    people, each, days : Figure
        Of each stretch of days through which one number of people and one need hold.
    of_period : Groups
        Which stretch belongs to which period.
    is_set : ndarray of bool, shape (periods,)
    """

    def __init__(self, state: State, periods: list[Period]) -> None:
        marks = sorted({day for name in _NAMES for day in state.settings.days(name)})
        stretches = []
        for place, one in enumerate(periods):
            inside = [day for day in marks if one.start < day <= one.end]
            ends = [one.start, *inside, one.end + 1]
            stretches += [(place, first, after) for first, after in pairwise(ends)]
        period, self.first, self.after = np.array(stretches, np.int64).reshape(-1, 3).T
        sources = state.once(Sources)
        units = ("people", "kcal per person per day")
        self.people, self.each = (
            sources.setting(name, self.first, _number, unit).called(name)
            for name, unit in zip(_NAMES, units, strict=True)
        )
        self.days = published(self.after - self.first, "days", _CALENDAR).called("days")
        self.of_period = Groups(period, len(periods))
        known = ~np.isnan(self.people.values * self.each.values)
        self.is_set = np.bincount(period[~known], minlength=len(periods)) == 0

    @property
    def between(self) -> dict[str, Any]:
        """First and last day of a stretch, for its label."""
        return {
            "first": lambda row: label_day(int(self.first[row])),
            "last": lambda row: label_day(int(self.after[row]) - 1),
        }


def _parts(period: Period) -> list[Period]:
    """Return the years or months that a period falls into; itself where it is within one month."""
    if day_text(period.start)[:7] == day_text(period.end)[:7]:
        return [period]
    return periods_of(period.start, period.end, "year" if period.days > _YEARS else "month")


def _numbered(key: Array, size: int) -> tuple[Array, Array]:
    """Return the keys that there are, in order, and the number of each key among them; below 0: -1."""
    some = key >= 0
    there = np.bincount(key[some], minlength=size) > 0
    number = np.cumsum(there) - 1
    return np.flatnonzero(there), np.where(
        some, number[np.where(some, key, 0)], -1
    ) if size else key


def _number(text: str | None) -> float | None:
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if np.isfinite(value) else None
