"""Bought staples as figures: stock, use, target, the cheapest pack, and what was asked."""

from __future__ import annotations

import math
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.figures import Array, Figure, Groups, Opened, assumed, choose, method, nothing, said
from ledger.messages import sentence
from ledger.methods.supply import past_best
from ledger.questions.ahead.plain import Plain
from ledger.questions.ahead.use import Use
from ledger.questions.costs.sources import Sources, unit_factor
from ledger.questions.quantities import whole_unit
from ledger.questions.shared.use_by import span_of, term_of
from ledger.questions.shared.use_past import AHEAD
from ledger.questions.shelf.gather import Lots, Terms, answers_day
from ledger.questions.stocking_up.found import found
from ledger.questions.stocking_up.plan import OVER_WEEKS
from ledger.questions.targets import YEAR, YEAR_DAYS, target_figures
from ledger.replay import day_text

if TYPE_CHECKING:
    from ledger.questions.stocking_up.plan import Asked
    from ledger.replay import State

__all__ = ["Staples"]

_LIKELY = 1


class Staples:
    """Bought staples, a row each, by name; amounts are whole units.

    Parameters
    ----------
    asked : Asked
    only : int, optional
        The number of the one item that is asked about.

    Attributes
    ----------
    found : Found
    names : list of str
        What each is addressed by.
    has_target, is_counted : ndarray of bool, shape (staples,)
        Which have a target of their own, and of which it can be reckoned.
    too_few, is_used : ndarray of bool, shape (staples,)
        Of which fewer than four weeks are known, and of which some was used in them.
    uses, target_known, has_pack, keeps_known : ndarray of bool, shape (staples,)
        Of which a week takes some, and a target, a price and the time a pack keeps are known.
    """

    def __init__(self, state: State, asked: Asked, only: int | None = None) -> None:
        self.state, self.asked = state, asked
        self.found = found(state, only)
        self.items = self.found.items
        self.count = self.items.size
        self.names = [state.facts.strand_name(item) for item in self.items.tolist()]
        targets = self.found.targets
        self.has_target = _which(one is not None for one in targets)
        self.is_counted = _which(one is not None and one.times is not None for one in targets)
        self.too_few = _which(self.found.use.too_few(row) for row in range(self.count))
        self.is_used = np.asarray(~np.isnan(self.found.use.per_week[_LIKELY]))
        likely = np.nan_to_num(self.found.use.per_week[_LIKELY])
        self.uses = np.asarray(~self.too_few & (likely > 0))
        self.target_known = np.where(self.has_target, self.is_counted, ~self.too_few)
        self.has_pack = _which(one is not None for one in self.found.packs)
        self.keeps_known = _which(one is not None for one in self.found.keeps)

    def unit(self, row: int) -> str:
        """Return the unit of a staple's amounts."""
        return whole_unit(self.state, int(self.items[row]))

    def a_week(self, row: int) -> str:
        """Return the unit of what a week takes of it."""
        return f"{self.unit(row)} a week"

    def money(self, row: int) -> str:
        """Return the unit of its price by amount."""
        return f"money per {self.unit(row)}"

    # -- what is there ----------------------------------------------------------------------

    @cached_property
    def _lots(self) -> Lots:
        lots = np.concatenate([np.zeros(0, np.int64), *self.found.lots])
        return Lots(self.state, lots)

    @cached_property
    def of(self) -> Groups:
        """The lots of each with something left."""
        return Groups(np.repeat(np.arange(self.count), self._sizes), self.count)

    @property
    def _sizes(self) -> list[int]:
        return [lots.size for lots in self.found.lots]

    @cached_property
    def each_left(self) -> Figure:
        """What is left of each lot: a line with its own address."""
        state, lots = self.state, self._lots.lots
        item, day = (state.lots[name][lots] for name in ("item", "day"))
        return self._lots.left.called(
            "lot",
            item=lambda row: state.facts.names[int(item[row])],
            day=lambda row: day_text(int(day[row])),
        ).folds(lambda row: (f"shelf/{state.lot_id(int(lots[row]))}", "left.whole"))

    def late(self, per_week: Figure) -> Figure:
        """Return how much of each passes its date, when what is dated first is used first."""
        terms = Terms(self.state, self._lots.lots, [term_of(self.state, lot) for lot in self._lots.lots.tolist()])  # fmt: skip
        today = self.state.as_of_day
        ends = np.cumsum([0, *self._sizes])

        def values() -> Array:
            left, a_week = self.each_left.values, np.nan_to_num(per_week.values)
            until = [math.inf if one is None else (one.day - today) / 7 for one in terms.terms]
            return np.array([
                math.fsum(past_best(left[a:b].tolist(), until[a:b], float(a_week[row])))
                for row, (a, b) in enumerate(zip(ends[:-1].tolist(), ends[1:].tolist(), strict=True))
            ])  # fmt: skip

        def parts(row: int) -> list[tuple[Figure, int]]:
            dated = [lot for lot in self.of.rows(row) if terms.known[lot]]
            if not dated:
                return []
            each = [(one, lot) for lot in dated for one in (self.each_left, terms.day)]
            return [(per_week, row), (answers_day(self.state), 0), *each]

        late = method(values, self.unit, "dated-first", parts)
        dated = Groups(np.where(terms.known, self.of.by, -1), self.count)
        return choose(dated.first >= 0, late, nothing("").called("late", unit=self.unit))

    # -- what a week takes ------------------------------------------------------------------

    @cached_property
    def likely_use(self) -> Figure:
        """What a week likely takes over the coming weeks, as on the shelf."""
        one, state = self.found, self.state
        use = Use(state, Plain(state, self.items, [], one.use, [], {}))
        likely = method(lambda: one.use.per_week[_LIKELY], use.a_week, "likely-use", [use.mean])
        about: dict[str, Any] = {"n": AHEAD, "which": lambda _row: sentence("why-likely")}
        whole = likely.called("used_per_week", **about) * unit_factor(1000.0, "", "thousand")
        return whole.called("per_week", unit=self.a_week, **about)

    @property
    def none_used(self) -> Figure:
        """Use of what was not used."""
        return nothing("").called("none-used", unit=self.a_week)

    # -- what is wanted ---------------------------------------------------------------------

    @property
    def target(self) -> tuple[Figure, Figure]:
        """The household's own target, and how often it is wanted in a year, or once."""
        return target_figures(self.state, self.found.targets, self.unit)

    @property
    def is_part(self) -> Array:
        """Of which targets a part is wanted now: those of a period, unless their day lies ahead."""
        today = self.state.as_of_day
        return _which(
            one is not None and one.per is not None and not (one.by is not None and today <= one.by)
            for one in self.found.targets
        )

    @property
    def weeks_wanted(self) -> Figure:
        """Weeks to have in the house, as asked."""
        return assumed(self.asked.weeks, "weeks", "target-weeks").called("weeks-wanted")

    @property
    def weeks_a_year(self) -> Figure:
        """Weeks in a year."""
        return assumed(YEAR_DAYS / 7, "weeks", YEAR).called("weeks-a-year")

    # -- the cheapest pack, and how long it keeps -------------------------------------------

    @property
    def pack(self) -> tuple[Figure, Figure]:
        """What the cheapest pack holds, and its price."""
        some = self.found.packs
        ev = np.array([-1 if one is None else one.ev for one in some], np.int64)
        whole, price = (
            np.array([np.nan if one is None else getattr(one, name) for one in some], np.float64)
            for name in ("whole", "price")
        )
        return said(whole, self.unit, ev), said(price, "money", ev)

    @property
    def keeps_until(self) -> Figure:
        """The last day of a pack bought now, since 1970."""
        day = [np.nan if one is None else float(one.day) for one in self.found.keeps]
        return method(
            lambda: np.array(day, np.float64),
            "day since 1970",
            "by-calendar",
            [answers_day(self.state), self._span],
        ).called("keeps", said=self.keeps_said)

    def keeps_said(self, row: int) -> str:
        """Return who says how long a pack keeps."""
        one = self.found.keeps[row]
        return sentence("why-nobody-says") if one is None else one.said

    @property
    def _span(self) -> Figure:
        spans = [None if one is None else span_of(one.span) for one in self.found.keeps]
        facts, described = self.state.facts, self.state.once(Sources).described

        def opens(row: int) -> Opened:
            one = self.found.keeps[row]
            if one is not None and one.source:
                return Opened(source=one.source)
            item = int(facts.item_of[self.items[row]])
            return Opened(event=described.get((item, "keeps"), -1))

        return Figure(
            lambda: np.array([np.nan if one is None else one[0] for one in spans], np.float64),
            lambda row: (spans[row] or (0.0, ""))[1],
            opens,
        ).called("keeps-for")

    @property
    def today(self) -> Figure:
        """The day that is asked about, since 1970."""
        return answers_day(self.state)

    @property
    def days_a_week(self) -> Figure:
        """Days in a week."""
        return unit_factor(7.0, "days", "days-a-week")

    # -- what was asked ---------------------------------------------------------------------

    rise_weeks = OVER_WEEKS

    @property
    def year(self) -> Figure:
        """Weeks over which a price rise is told."""
        return assumed(float(OVER_WEEKS), "weeks", "rise-of-a-year").called("weeks-of-rise")

    @property
    def rise(self) -> Figure | None:
        """The price rise, as a part of the price; None where none was asked about."""
        value = self.asked.price_rise
        return None if value is None else assumed(value / 100, "", "price-rise").called("rise")

    @property
    def shortage(self) -> Figure | None:
        """Weeks without a shop; None where none were asked about."""
        value = self.asked.shortage
        return None if value is None else assumed(value, "weeks", "shortage").called("no-shop")


def _which(several: object) -> Array:
    return np.fromiter(several, bool)  # type: ignore[call-overload,no-any-return]
