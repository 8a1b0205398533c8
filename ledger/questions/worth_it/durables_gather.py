"""What lasts, a row each: what was paid for it, how long it lasts and what it was used for."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    assumed,
    choose,
    method,
    published,
    said,
    stacked,
)
from ledger.methods.money import capital_recovery
from ledger.methods.wear import straight_line
from ledger.questions.costs.durables import JARS_LAST
from ledger.questions.costs.sources import Sources
from ledger.questions.shelf.gather import answers_day
from ledger.questions.worth_it.earned import Earned
from ledger.replay import day_number, day_text
from ledger.replay.durables import DEFAULT_YEARS
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.garden import Input

__all__ = ["Durables", "interest_rate"]

_JAR, _KIT = SORTS.index("jar"), SORTS.index("equipment")


class Durables:
    """The things that last, those with most paid for first.

    Attributes
    ----------
    item, first : ndarray of int, shape (durables,)
        Each by its number, and the day on which the first was bought.
    uses : Earned
    by : ndarray of int, shape (uses,)
        The durable that each use is of; -1: none that was bought.
    served : ndarray of bool, shape (durables,)
        Whether anybody wrote down what it served.
    life, spoken : ndarray, shape (durables,)
        Years that it lasts, and whether somebody said so.
    """

    def __init__(self, state: State) -> None:
        self.state, self.uses = state, state.once(Earned)
        self.costs, self.today = self.uses.costs, state.as_of_day
        bought, facts = state.costs.durables, state.facts
        sources = [part.source for part in state.costs.garden.parts if part.source.years]
        garden: dict[int, list[Input]] = {
            item: [] for one in sources if (item := facts.find(one.label)) is not None
        }
        for one in {id(one): one for one in sources}.values():
            if (item := facts.find(one.label)) is not None:
                garden[item].append(one)
        lent = np.flatnonzero(np.isin(facts.sort, [_JAR, _KIT])).tolist()
        spans = {item: bought.rows(item, self.today) for item in lent}
        found: list[tuple[int, list[Input] | None]] = [
            (item, None) for item in lent if spans[item].stop > spans[item].start
        ]
        every = [*found, *garden.items()]
        paid = [
            sum(o.money for o in of) if of else float(bought.paid[spans[i]].sum())
            for i, of in every
        ]
        order = sorted(range(len(every)), key=lambda at: (-paid[at], facts.names[every[at][0]]))
        self._of = [every[at] for at in order]
        self.item = np.array([item for item, _ in self._of], np.int64)
        self.count = self.item.size
        self.first = np.array(
            [
                min(o.day for o in of) if of else int(bought.day[spans[item]].min())
                for item, of in self._of
            ],
            np.int64,
        )
        row = {item: at for at, item in reversed(list(enumerate(self.item.tolist())))}
        self.by = np.array([row.get(item, -1) for item in self.uses.item.tolist()], np.int64)
        self.served = np.bincount(self.by[self.by >= 0], minlength=self.count) > 0
        lives = [self._life(item, of) for item, of in self._of]
        self.spoken = np.array([years is not None for years, _ in lives], bool)
        self.life = np.array([years or DEFAULT_YEARS for years, _ in lives], np.float64)
        self._life_ev = np.array([ev for _, ev in lives], np.int64)

    def _life(self, item: int, of: list[Input] | None) -> tuple[float | None, int]:
        """Return the years that something lasts and the event that says so; None where nobody did."""
        if of:
            return of[-1].years, self.costs.garden.years_of(of[-1].ev, of[-1].row)[1]
        fact = item, "years", self.today
        bought, newest = self.state.costs.durables, self.state.once(Sources).newest_of
        return bought.fact(*fact), newest.get(bought.fact_from(*fact), -1)

    # -- what was bought --------------------------------------------------------------------

    def _bought(self, column: Figure) -> Figure:
        """Return a column of purchases, summed over those of each."""
        return self.costs.durables.bought(column, self.item.tolist(), self.today)

    @cached_property
    def paid(self) -> Figure:
        """What was paid for each: every purchase, of a garden input those that last."""
        lasting = [(row, one) for row, (_, of) in enumerate(self._of) for one in of or ()]
        money = said(
            np.array([one.money for _, one in lasting]),
            "money",
            np.array([one.ev for _, one in lasting], np.int64),
        )
        by = Groups(np.array([row for row, _ in lasting], np.int64), self.count)
        is_garden = np.array([of is not None for _, of in self._of], bool)
        return choose(is_garden, by.sum(money, "money"), self._bought(self.costs.durables.paid))

    @property
    def pieces(self) -> Figure:
        """How many were bought."""
        return self._bought(self.costs.durables.pieces)

    @property
    def counted(self) -> Array:
        """Which are kept by count."""
        measure = [self.state.facts.measure[item] == "count" for item in self.item.tolist()]
        return np.array(measure, bool)

    # -- how long it lasts ------------------------------------------------------------------

    @cached_property
    def years(self) -> Figure:
        """Years that each lasts: as somebody said, else ten."""
        unsaid = np.full(self.count, DEFAULT_YEARS)
        is_jar = self.state.facts.sort[self.item] == _JAR if self.count else np.zeros(0, bool)
        usual = choose(
            is_jar,
            published(unsaid, "years", JARS_LAST),
            assumed(unsaid, "years", "lasts-ten-years"),
        )
        told = said(self.life, "years", self._life_ev)
        return choose(self.spoken, told.called("years"), usual.called("years"))

    @property
    def begun(self) -> Figure:
        """The day on which the first of each was bought."""
        ev = [
            next(one.ev for one in of if one.day == first) if of else self._first_bought(item)
            for (item, of), first in zip(self._of, self.first.tolist(), strict=True)
        ]
        day = said(self.first, "day since 1970", np.array(ev, np.int64))
        return day.called("first-bought")

    def _first_bought(self, item: int) -> int:
        bought = self.state.costs.durables
        rows = bought.rows(item, self.today)
        return int(bought.ev[rows][bought.day[rows].argmin()])

    def years_to(self, row: int, day: int) -> tuple[int, float]:
        """Return the whole years from buying to the end of a day, and all years with their part."""
        first, end = int(self.first[row]), day + 1
        years = _date(end).year - _date(first).year
        if _anniversary(first, years) > end:
            years -= 1
        start, then = (_anniversary(first, years + n) for n in (0, 1))
        return years, years + (end - start) / (then - start)

    def lasts_until(self, row: int) -> int:
        """Return the day on which its life ends, by the calendar."""
        first, years = int(self.first[row]), float(self.life[row])
        whole = int(min(years, 9998 - _date(first).year - 1))
        return _anniversary(first, whole) + round(min(years - whole, 1.0) * 365.25)

    def _each(self, value: object, unit: str, by: str, given: list[Figure]) -> Figure:
        """Return what a procedure gives for each row."""
        rows = range(self.count)
        return method(lambda: np.array([value(row) for row in rows], np.float64), unit, by, given)  # type: ignore[operator]

    @property
    def _dates(self) -> list[Figure]:
        return [answers_day(self.state), self.begun]

    @cached_property
    def gone(self) -> Figure:
        """Years since each was bought."""
        return self._each(
            lambda row: self.years_to(row, self.today)[1], "years", "by-calendar", self._dates
        )

    @cached_property
    def whole_years(self) -> Array:
        """Whole years since each was bought."""
        return np.array([self.years_to(row, self.today)[0] for row in range(self.count)], np.int64)

    @property
    def counting(self) -> Figure:
        """The whole years that count for a rate: the first counts as one."""
        return self._each(
            lambda row: max(self.whole_years[row], 1), "years", "by-calendar", self._dates
        )

    @property
    def worn_part(self) -> Figure:
        """The part of its price that each has lost by age, in a straight line over whole years."""
        given = [*self._dates, self.years]
        return self._each(self._worn, "0 to 1", "straight-line", given)

    def _worn(self, row: int) -> float:
        years = max(1, round(float(self.life[row])))
        bought, now = _date(int(self.first[row])), _date(self.today)
        months = 13 - bought.month
        wear = straight_line(1.0, 0.0, years, months_in_first=months)
        past = now.year - bought.year
        if past >= len(wear):
            return sum(wear)
        if past == 0:
            return wear[0] * (now.month - bought.month + 1) / months
        owned = 12 if past < years else 12 - months
        return sum(wear[:past]) + wear[past] * min(1.0, now.month / owned)

    @property
    def recovery(self) -> Figure:
        """What of its price each costs a year over its life, with interest, nothing being left at its end."""
        rate = self.state.once(Sources).setting(
            "interest_rate", np.array([self.today]), interest_rate, "0 to 1"
        )
        none = assumed(np.zeros(1), "0 to 1", "interest")
        rate = choose(~np.isnan(rate.values), rate, none).called("interest")
        rate = rate.at(np.zeros(self.count, np.int64))

        def factor(row: int) -> float:
            return capital_recovery(1.0, 0.0, max(float(self.life[row]), 1 / 12), rate.value(row))

        return self._each(factor, "0 to 1 per year", "capital-recovery", [rate, self.years])

    # -- what came of it --------------------------------------------------------------------

    @cached_property
    def charged(self) -> Figure:
        """Wear that batches and harvests have borne."""
        _, _, loads, wear = self.state.costs.own.parts
        garden, facts = self.costs.garden, self.state.facts
        charges = [self.costs.charge("equipment"), self.costs.charge("jar_wear"), garden.money]
        items = [*loads.said["item"].tolist(), *wear.said["item"].tolist()]
        items += [
            facts.find(one.source.label) if one.source.years else None for one in garden.parts
        ]
        many = [loads.ev.size, wear.ev.size, len(garden.parts)]
        row = {item: at for at, item in reversed(list(enumerate(self.item.tolist())))}
        by = np.array([row.get(item, -1) for item in items], np.int64)
        return Groups(by, self.count).sum(stacked(charges, many), "money")

    @cached_property
    def used(self) -> Figure:
        """How often each was used."""
        return Groups(self.by, self.count).sum(self.uses.times, "times")

    @cached_property
    def earned(self) -> Figure:
        """What its uses earned; 0 where nobody wrote down what it served."""
        return Groups(self.by, self.count).sum(self.uses.earned, "money")

    @cached_property
    def earned_by_year(self) -> Figure:
        """What each earned in the whole years since it was bought, or in the first so far."""
        use = np.flatnonzero(self.by >= 0)
        of, day = self.by[use], self.uses.day[use]
        starts = [
            [_anniversary(int(first), n) for n in range(int(whole) + 1)]
            for first, whole in zip(self.first, self.whole_years, strict=True)
        ]
        year = [
            max(int(np.searchsorted(starts[o], d, "right")) - 1, 0)
            for o, d in zip(of, day, strict=True)
        ]
        keep = np.array(year, np.int64) < np.maximum(self.whole_years[of], 1)
        keys = np.stack([of, np.array(year, np.int64)])[:, keep]
        years, which = np.unique(keys, axis=1, return_inverse=True)
        by = np.full(self.by.size, -1, np.int64)
        by[use[keep]] = which.reshape(-1)
        each = Groups(by, years.shape[1]).sum(self.uses.earned, "money")
        each = each.called("nth-year", n=lambda at: int(years[1][at]) + 1)
        return Groups(years[0], self.count).sum(each, "money")

    @cached_property
    def back_on(self) -> list[int | None]:
        """The day on which each had earned its price; None where it has not."""
        earned, paid = self.uses.earned.values, self.paid.values
        out: list[int | None] = []
        for row in range(self.count):
            uses = np.flatnonzero(self.by == row)
            uses = uses[np.argsort(self.uses.day[uses], kind="stable")]
            past = np.flatnonzero(np.cumsum(earned[uses]) >= paid[row] * (1 - 1e-12))
            out.append(int(self.uses.day[uses[past[0]]]) if past.size else None)
        return out

    @property
    def years_to_back(self) -> Figure:
        """Years from buying to the day on which each had earned its price."""
        given = [self.begun, self.paid.called("all-paid"), self.earned.called("earned")]

        def years(row: int) -> float:
            back = self.back_on[row]
            return np.nan if back is None else self.years_to(row, back)[1]

        return self._each(years, "years", "by-calendar", given)


def _date(day: int) -> dt.date:
    return dt.date.fromisoformat(day_text(day))


def _anniversary(day: int, years: int) -> int:
    date = _date(day)
    last = calendar.monthrange(date.year + years, date.month)[1]
    return day_number(date.replace(year=date.year + years, day=min(date.day, last)))


def interest_rate(text: str | None) -> float | None:
    """Return the interest of a year as a share: ``4``, ``4 %`` and ``4 % a year`` are 0.04."""
    match = re.match(r"\s*(\d+(?:\.\d+)?)", text or "")
    return float(match[1]) / 100 if match else None
