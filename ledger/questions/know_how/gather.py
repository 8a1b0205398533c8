"""Practices and the records of an answer as tables: a row each, and which belong together."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, method, said
from ledger.messages import Day
from ledger.methods.lapse import Standing, standing
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["STANDINGS", "Records", "Standings"]

STANDINGS = ("never tried", "out of practice", "going rusty", "in hand")
"""How a skill stands, as the answer sorts it: a figure has its place here."""

_EPOCH = dt.date(1970, 1, 1).toordinal()
_LATEST = 3
_MONTHS = 12


class Records:
    """Skills by person, a row each: that of the household, then those of its people, skill by skill.

    Attributes
    ----------
    keys : list of (int, int)
        Skill and person of each record; `place` gives the row of both.
    spans : list of (int, int)
        Start and end of its practices, which stand one behind the other.
    of : ndarray of int, shape (practices,)
        The record that each practice belongs to.
    one, day, went, minutes : Figure
        Of each practice: that it was one, when it was, how it went, and its minutes of work.
    """

    def __init__(self, state: State) -> None:
        self.state, self.skills = state, state.once(Skills)
        skills = self.skills
        self.keys = [
            (skill, person)
            for skill in range(len(skills.names))
            for person in (HOUSEHOLD, *skills.people_of(skill))
        ]
        self.place = {key: row for row, key in enumerate(self.keys)}
        self.count = len(self.keys)
        self.spans = [skills.groups.get(key, (0, 0)) for key in self.keys]
        rows = np.array([self.place[key] for key in skills.groups], np.int64)
        self.of = np.repeat(rows, [end - start for start, end in skills.groups.values()])
        self.one = said(np.ones(skills.ev.size), "times", skills.ev)
        self.day = said(skills.day, "day since 1970", skills.ev)
        self.went = said(skills.went, "1 to 5", skills.ev)
        self.minutes = said(skills.minutes, "minutes", skills.ev)

    def among(self, which: Array) -> Groups:
        """Return the practices of each record for which `which`, shape (practices,), holds."""
        return Groups(np.where(which, self.of, -1), self.count)

    def times(self, which: Array) -> Figure:
        """Return how many practices of each record there are for which `which` holds, by year."""
        year, first = self._years
        of_year = Groups(np.where(which, year, -1), first.size).sum(self.one, "times")
        named = of_year.called("year", is_one_of=True, text=lambda at: self.on(int(first[at]))[:4])
        return Groups(self.of[first], self.count).sum(named, "times")

    @cached_property
    def _years(self) -> tuple[Array, Array]:
        """The year of its record that each practice belongs to, and the first practice of each."""
        year = self.skills.day.astype("datetime64[D]").astype("datetime64[Y]").astype(np.int64)
        new = _begins(self.of, year)
        return np.cumsum(new) - 1, np.flatnonzero(new)

    def on(self, practice: int) -> str:
        """Return the day of a practice."""
        return day_text(int(self.skills.day[practice]))

    @cached_property
    def last(self) -> Array:
        """The last practice of each record; -1 where there is none."""
        return np.array([end - 1 if end > start else -1 for start, end in self.spans], np.int64)

    def latest(self, figure: Figure) -> list[Groups]:
        """Return the latest three practices of each record that tell, and those before them.

        Parameters
        ----------
        figure : Figure
            What they tell, shape (practices,); NaN where nobody said.
        """
        told = np.isfinite(figure.values)
        upto = np.cumsum(told)
        later = upto[self.last[self.of]] - upto
        return [self.among(told & (later < _LATEST)), self.among(told & (later >= _LATEST))]

    def months(self, year: int) -> tuple[list[Figure], int]:
        """Return how often each was practised in the months of a year, and how many have begun."""
        first = (year - 1970) * _MONTHS
        month, begun = (
            _month(self.skills.day) - first,
            _month(np.array(self.state.as_of_day)) - first + 1,
        )
        by = np.where((month >= 0) & (month < _MONTHS), self.of * _MONTHS + month, -1)
        every = Groups(by, self.count * _MONTHS).sum(self.one, "times")
        rows = np.arange(self.count) * _MONTHS
        return [every.at(rows + at) for at in range(_MONTHS)], int(begun)

    @cached_property
    def gaps(self) -> tuple[Figure, Groups, Array]:
        """Gaps between days of practice; of each record the one or two in the middle, and how many."""
        first = np.flatnonzero(_begins(self.of, self.skills.day))
        follows = self.of[first[1:]] == self.of[first[:-1]]
        before, after = first[:-1][follows], first[1:][follows]
        of, size = self.of[after], self.skills.day[after] - self.skills.day[before]
        order = np.lexsort((size, of))
        many = np.bincount(of, minlength=self.count)
        mine = of[order]
        at = np.arange(of.size) - (np.cumsum(many) - many)[mine]
        middle = order[(at == (many[mine] - 1) // 2) | (at == many[mine] // 2)]
        by = np.full(of.size, -1, np.int64)
        by[middle] = of[middle]
        gap = (self.day.at(after) - self.day.at(before)).called(
            "from-to",
            unit="days",
            day=lambda at: Day(self.on(before[at])),
            day2=lambda at: Day(self.on(after[at])),
        )
        return gap, Groups(by, self.count), many


def _month(day: Array) -> Array:
    """Return months since 1970 of days since 1970."""
    return np.asarray(day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64))


def _begins(of: Array, by: Array) -> Array:
    """Return where a row differs from the one before it in either; shape as both."""
    changes = (np.diff(of) != 0) | (np.diff(by) != 0)
    return np.concatenate([np.ones(min(of.size, 1), bool), changes])


class Standings:
    """How the skills of all records stand, as the rules of lapsing say."""

    def __init__(self, state: State) -> None:
        self._records = state.once(Records)

    @cached_property
    def of(self) -> list[Standing]:
        """How each record stands."""
        records, skills = self._records, self._records.skills
        today = dt.date.fromordinal(_EPOCH + records.state.as_of_day)
        first, turn = np.unique(skills.day, return_inverse=True)
        dates = [dt.date.fromordinal(_EPOCH + day) for day in first.tolist()]
        days, went = [dates[at] for at in turn.tolist()], skills.went.tolist()
        return [
            standing(days[start:end], today, skills.has_season(skill), went[start:end])
            for (skill, _), (start, end) in zip(records.keys, records.spans, strict=True)
        ]

    def _each(self, number: Callable[[Standing], float | None]) -> Callable[[], Array]:
        """Return how to get a number of every record."""
        return lambda: np.array(
            [np.nan if (one := number(found)) is None else one for found in self.of], np.float64
        )

    def keeps(self) -> Figure:
        """Return the days for which good practices keep each."""

        def parts(row: int) -> list[tuple[Figure, int]]:
            return self._told(self._kept(row))

        return method(self._each(lambda one: one.keeps_days), "days", "practice", parts)

    def rusts_on(self, keeps: Figure) -> Figure:
        """Return the first day on which each is going rusty if it is not practised before."""

        def parts(row: int) -> list[tuple[Figure, int]]:
            return [(keeps, row), (self._records.day, self._kept(row)[-1])]

        def day(one: Standing) -> int | None:
            return one.rusts_on.toordinal() - _EPOCH if one.rusts_on else None

        return method(self._each(day), "day since 1970", "practice", parts)

    def word(self, days_since: Figure, keeps: Figure, wanted: Figure) -> Figure:
        """Return how each stands, by its place among `STANDINGS`."""

        def parts(row: int) -> list[tuple[Figure, int]]:
            start, end = self._records.spans[row]
            if start == end:
                return [(wanted, row)]
            if self.of[row].keeps_days is None:
                return [(days_since, row), *self._told(range(start, end))]
            since = (self._kept(row) or [start - 1])[-1] + 1
            return [(days_since, row), (keeps, row), *self._told(range(since, end))]

        def rule(row: int) -> str:
            return "season" if self.of[row].seasonal else "practice"

        return method(self._each(lambda one: STANDINGS.index(one.word)), "", rule, parts)

    def _kept(self, row: int) -> list[int]:
        """Return the good practices of a record."""
        went = self._records.skills.went
        return [one for one in range(*self._records.spans[row]) if not went[one] < 3]

    def _told(self, practices: Iterable[int]) -> list[tuple[Figure, int]]:
        """Return when each was, and how it went where somebody said."""
        day, went = self._records.day, self._records.went.called("how-it-went")
        return [
            (one, at) for at in practices for one in (day, went) if not np.isnan(one.values[at])
        ]
