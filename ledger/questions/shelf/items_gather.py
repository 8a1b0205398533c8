"""Items of the shelf ahead, as figures: their lots, use, supplies, targets and what passes its best."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, assumed, choose, method, published, said
from ledger.messages import Code, Sentence
from ledger.questions.ahead.lasting import Ahead
from ledger.questions.ahead.supply import is_supply
from ledger.questions.ahead.use import Use
from ledger.questions.ahead.widening import lately
from ledger.questions.costs.sources import UNITS_BY, Sources
from ledger.questions.quantities import whole_unit
from ledger.questions.shared.best_until import Late
from ledger.questions.shared.use_by import Term
from ledger.questions.shared.use_past import people_count
from ledger.questions.shelf.gather import Lots, Terms, answers_day
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["ENDS", "Items"]

ENDS = ("low", "likely", "high")
_YEAR = "year-of-365-days"


class Items:
    """Items with something left or a target, a row each.

    Attributes
    ----------
    of : Groups
        The lots of each; `lots` has them all, one item behind the other.
    use : Use
    """

    def __init__(self, state: State, ahead: Ahead) -> None:
        self.state, self.ahead, self.count = state, ahead, ahead.items.size
        self.use = Use(state, ahead)
        self.lot = np.array([lot for lots in ahead.lots for lot in lots], np.int64)
        by = np.repeat(np.arange(self.count), [len(lots) for lots in ahead.lots])
        self.of, self.lots = Groups(by, self.count), Lots(state, self.lot)

    # -- what is there ----------------------------------------------------------------------

    def whole_unit(self, row: int) -> str:
        """Return the unit of an item's whole amounts."""
        return whole_unit(self.state, int(self.ahead.items[row]))

    @property
    def thousand(self) -> Figure:
        """Whole units in one unit of the answer."""
        return published(1000.0, "", UNITS_BY).called("thousand", unit=self.use.unit)

    @property
    def of_jars(self) -> Groups:
        """The lots of each that came in jars."""
        return Groups(np.where(self.lots.in_jars, self.of.by, -1), self.count)

    @property
    def has_jars(self) -> Array:
        """Which items have some in jars."""
        return np.bincount(self.of.by[self.lots.in_jars], minlength=self.count) > 0

    @property
    def each_left(self) -> Figure:
        """What is left of each lot: a line with its own address."""
        state, lots, items = self.state, self.state.lots, self.state.facts.names
        return self.lots.left.called(
            "lot",
            item=lambda row: items[int(lots["item"][self.lot[row]])],
            day=lambda row: day_text(int(lots["day"][self.lot[row]])),
        ).folds(lambda row: (f"shelf/{state.lot_id(int(self.lot[row]))}", "left.whole"))

    @property
    def each_lot(self) -> Figure:
        """One, for each lot."""
        return said(np.ones(self.lot.size), "lots", self.state.lots["ev"][self.lot])

    # -- what a week takes, and how long it lasts --------------------------------------------

    @property
    def too_few(self) -> Array:
        """Of which items fewer than four weeks with some are known."""
        return np.array([self.ahead.use.too_few(row) for row in range(self.count)], bool)

    @property
    def is_used(self) -> Array:
        """Of which items some was used in the weeks looked back on."""
        return np.asarray(~np.isnan(self.ahead.per_week[1]))

    @property
    def is_reached(self) -> Array:
        """Of which items a chance to last until more comes can be told."""
        return np.asarray(~np.isnan(self.ahead.weeks_left[3]))

    def per_week(self, end: int) -> Figure:
        """Return use a week over the coming weeks; NaN where it is not known."""
        return method(lambda: self.ahead.per_week[end], self.use.a_week, "own-weeks", self.given())

    def weeks_left(self, end: int, stock: Figure) -> Figure:
        """Return the weeks until nothing is left; inf beyond the horizon."""
        return method(lambda: self.ahead.weeks_left[end], "weeks", "own-weeks", self.given(stock))

    def reaches(self, stock: Figure) -> Figure:
        """Return the chance that what is left lasts until more comes."""
        parts = self.given(stock, self.next_day)
        return method(lambda: self.ahead.weeks_left[3], "0 to 1", "own-weeks", parts)

    def given(self, *more: Figure) -> tuple[Figure, ...]:
        """Return what the look ahead was given: its use, beside more, and how wide ranges are now."""
        factor = lately(self.state).factor
        if factor == 1:
            return (*more, self.use.mean)
        wide = assumed(factor, "times", "widened").called("widened")
        wide = wide.folds(lambda _: ("came-true/used-a-week", "widened"))
        return (*more, self.use.mean, wide)

    def out_on(self, end: int, weeks: Figure) -> Figure:
        """Return the day on which nothing is left, since 1970."""
        days = [self.ahead.day_after(float(one)) for one in self.ahead.weeks_left[end]]  # fmt: skip
        day = np.array([np.nan if one is None else float(one) for one in days], np.float64)
        return method(lambda: day, "day since 1970", "whole-days", [weeks, answers_day(self.state)])

    @property
    def beyond(self) -> Array:
        """Whether each end of what is left lies beyond the horizon, shape (3, items)."""
        return np.isinf(self.ahead.weeks_left[:3])

    # -- when more comes ----------------------------------------------------------------------

    @cached_property
    def next_day(self) -> Figure:
        """The day on which more is expected, since 1970; NaN where the past does not tell."""
        supplies, lots = self.ahead.supplies, self.state.lots
        came = said(lots["day"].astype(np.float64), "day since 1970", lots["ev"])
        good = self.state.once(is_supply)

        def parts(row: int) -> list[tuple[Figure, int]]:
            mine = good & (lots["item"] == self.ahead.items[row])
            rows = np.flatnonzero(mine & np.isin(lots["day"], supplies[row].like))
            return [(came, lot) for lot in rows.tolist()]

        day = np.array([np.nan if one.day is None else one.day for one in supplies], np.float64)
        return method(
            lambda: day, "day since 1970", lambda row: f"next-by-{supplies[row].rule}", parts
        ).called("next", text=lambda row: supplies[row].text)

    @property
    def is_awaited(self) -> Array:
        """Of which items the past tells when more comes."""
        return np.array([one.day is not None for one in self.ahead.supplies], bool)

    # -- what is wanted ------------------------------------------------------------------------

    @property
    def has_target(self) -> Array:
        """Which items have a target."""
        return np.array([self.ahead.target(row) is not None for row in range(self.count)], bool)

    @property
    def is_counted(self) -> Array:
        """Of which items it can be reckoned: not for each person of a number that is not set."""
        some = [self.ahead.target(row) for row in range(self.count)]
        return np.array([one is not None and one.times is not None for one in some], bool)

    @property
    def target(self) -> tuple[Figure, Figure, Figure]:
        """What the household aims at, how often a year, and which part should be there now."""
        some = [self.ahead.target(row) for row in range(self.count)]
        ev = np.array([-1 if one is None else one.ev for one in some], np.int64)
        amount, often, part = (np.full(self.count, np.nan) for _ in range(3))
        by_people = np.zeros(self.count, bool)
        today = self.state.as_of_day
        for row, one in enumerate(some):
            if one is None:
                continue
            amount[row], by_people[row] = one.amount, one.per == "person year"
            often[row] = np.nan if one.times is None else one.times
            part[row] = one.share(today, self.ahead.supplies[row].day)
        today_of = np.full(self.count, today, np.int64)
        people = self.state.once(Sources).setting("people", today_of, people_count, "")
        times = choose(by_people, people, assumed(often, "", _YEAR)).called("times-a-year")
        now = method(lambda: part, "0 to 1", "target-until-supply", [self.next_day, answers_day(self.state)])  # fmt: skip
        return said(amount, self.use.unit, ev), times, now.called("until-supply")

    # -- what passes its best -------------------------------------------------------------------

    @cached_property
    def _best(self) -> list[tuple[int, int, Term]]:
        return [
            (row, lot, one.term)
            for row, lots in enumerate(self.ahead.best)
            for lot, one in lots
            if one is not None
        ]

    @property
    def best_of(self) -> Groups:
        """The lots of each item that have a day until which they are at their best."""
        return Groups(np.array([row for row, _, _ in self._best], np.int64), self.count)

    @property
    def best_terms(self) -> Terms:
        """Those days."""
        lots = np.array([lot for _, lot, _ in self._best], np.int64)
        return Terms(self.state, lots, [term for _, _, term in self._best])

    @cached_property
    def _found(self) -> list[list[Late] | None]:
        return [self.ahead.late(row) for row in range(self.count)]

    @cached_property
    def _late(self) -> list[tuple[int, Late]]:
        return [(row, one) for row, several in enumerate(self._found) for one in several or ()]

    @property
    def is_late_known(self) -> Array:
        """Of which items it can be told what passes its best uneaten."""
        return np.array([several is not None for several in self._found], bool)

    @property
    def late_of(self) -> Groups:
        """The lots of each item of which some passes its best uneaten."""
        return Groups(np.array([row for row, _ in self._late], np.int64), self.count)

    @property
    def late_terms(self) -> Terms:
        """The days until which they are at their best."""
        lots = np.array([one.lot for _, one in self._late], np.int64)
        return Terms(self.state, lots, [one.until.term for _, one in self._late])

    @property
    def not_eaten(self) -> Figure:
        """How much of each of them passes it."""
        by, terms, late = self.late_of.by, self.late_terms, self._late
        amount = np.array([one.amount for _, one in late], np.float64)
        left = (Lots(self.state, terms.lots).left / self.thousand.at(by)).called("left")
        best = terms.day.called("best", said=lambda at: late[at][1].until.said)
        given = [left, best, *(one.at(by) for one in self.given())]
        unit = self.use.unit
        return method(lambda: amount, lambda at: unit(int(by[at])), "own-weeks", given).called(
            "not-eaten"
        )

    # -- how it held ----------------------------------------------------------------------------

    def ranges(self, at: int) -> Figure:
        """Return how many earlier ranges held (0), or were said (1); NaN where none was."""
        items = lately(self.state).items
        many = [items.get(int(one), (0, 0)) for one in self.ahead.items.tolist()]
        known = np.array([float(one[at]) if one[1] else np.nan for one in many], np.float64)
        name = self.state.facts.names
        return assumed(known, "times", "earlier-ranges").called(
            ("ranges_held", "ranges_said")[at],
            command=lambda row: _example(name[int(self.ahead.items[row])]),
        )


def _example(name: str) -> str:
    return Sentence(text := f"`croftbook why came-true/used-a-week/{name}`", Code(text))
