"""Why a pay-back says so: what was paid, and what each use earned."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.figures import (
    Array,
    Figure,
    Groups,
    Node,
    assumed,
    choose,
    method,
    said,
    stacked,
    total,
    unknown,
)
from ledger.messages import Day, Message, Typed
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.costs import CostFigures
from ledger.questions.shared.opening import opened
from ledger.questions.shelf.gather import answers_day
from ledger.questions.worth_it.durables import WEAR, Durable, durables_of, interest_rate
from ledger.questions.worth_it.gather import Lots
from ledger.replay import COMPONENTS, day_text

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.garden import Part

__all__ = ["why"]

LABELS = {
    **COST_LABELS,
    "answers-day": "why-answers-day",
    "at-shop": "why-at-shop",
    "charged-in": "why-in-season",
    "charged-in-all": "why-charged",
    "cost-a-year": "why-cost-year",
    "earned": "why-earned",
    "earned-a-year": "why-earned-year",
    "earned-back": "why-earned-its-price-on",
    "earned-of-paid": "why-earned-paid",
    "first-bought": "why-first-bought",
    "gain": "why-worth-less-cost",
    "gain-a-year": "why-gain-year",
    "in-these-years": "why-these-years",
    "interest": "why-interest-year",
    "life": "why-household-says",
    "life-not-said": "why-nobody-said",
    "never": "why-never-rate",
    "nth-year": "why-nth-year",
    "paid-for": "why-paid-for-it",
    "paid-in-all": "why-note-paid",
    "part-gone": "why-part-of-life-gone",
    "part-of-wear": "why-part-wear",
    "pay-back": "why-pay-back",
    "pieces": "why-pieces",
    "recovery": "why-capital-recovery-factor",
    "served-unknown": "why-served-unknown",
    "still-to-earn": "why-still-earn",
    "used-on": "why-used-on",
    "uses": "why-uses",
    "uses-of-it": "why-uses-there",
    "whole-years": "why-whole-years-bought",
    "worn": "why-worn-age",
    "years-gone": "why-years-since-bought",
    "years-to-come": "why-years-come",
    "years-to-then": "why-years-buying-then",
}
"""Ids of messages by the id of a label."""


def why(state: State, item: str, field: str | None, deep: int = 0) -> Node:
    """Return a figure of ``--durables`` as a tree.

    Raises
    ------
    NotFound
        When no such thing that lasts was bought, or there is no such figure.
    """
    number = state.facts.find(item)
    one = next((one for one in state.once(durables_of) if one.item == number), None)
    if one is None:
        raise NotFound(
            "address",
            Message.of("refusal-nothing-lasting", text=Typed(item)),
        )
    figures = _Figures(state, one).of()
    return opened(state, "worth-it", (figures, field or "earned"), 0, LABELS, deep)


class _Figures:
    """Every figure of a thing that lasts, of one row each."""

    def __init__(self, state: State, one: Durable) -> None:
        self.state, self.one = state, one
        self._parts: list[Part] = [
            part
            for part in state.costs.garden.parts
            if part.source.years and state.facts.find(part.source.label) == one.item
        ]
        self._ev = np.array([use.ev for use in one.uses], np.int64)
        self._costs, self._lots = state.once(CostFigures), Lots(state)

    def of(self) -> dict[str, Figure]:
        """Return every figure by the name of its column."""
        one = self.one
        worn = self._method(one.worn_by_age() / one.paid if one.paid else 0.0, "0 to 1",
                            "straight-line", [self.life, self.first, answers_day(self.state)])  # fmt: skip
        worn = worn.called(
            "part-gone", day=self._day(one.first), day2=self._day(one.today), n=max(1, round(one.years))
        )  # fmt: skip
        factor = self._method(one.yearly_cost / one.paid if one.paid else 0.0, "per year",
                              "capital-recovery", [self.interest, self.life])  # fmt: skip
        factor = factor.called("recovery", n=one.interest * 100, n2=one.years)
        yearly = (self.paid * factor).called("cost-a-year", unit="money per year")
        return {
            "paid": self.paid,
            "pieces": self.pieces,
            "uses": self._sum(said(self._each("times"), "times", self._ev)).called("uses"),
            "earned": self.earned,
            "share_back": (self.earned / self.paid).called("earned-of-paid"),
            "earned_per_year": self.rate,
            "yearly_cost": yearly,
            "gain_per_year": (self.rate - yearly).called("gain-a-year"),
            "payback_years": self._payback(),
            "charged": self._charged(),
            "worn_by_age": (self.paid * worn).called("worn"),
            "life_years": self.life,
        }

    # -- what was paid ------------------------------------------------------------------------

    @cached_property
    def _rows(self) -> slice:
        return self.state.costs.durables.rows(self.one.item, self.state.as_of_day)

    @cached_property
    def paid(self) -> Figure:
        """What was paid, purchase by purchase; of a garden input those purchases that last."""
        known = self.state.costs.durables
        money, ev = known.paid[self._rows], np.asarray(known.ev[self._rows], np.int64)
        if self._parts:
            ev = np.array(list(self._lasting), np.int64)
            money = np.array(list(self._lasting.values()), np.float64)
        return self._sum(said(money, "money", ev)).called("paid-in-all")

    @cached_property
    def _lasting(self) -> dict[int, float]:
        """What was paid for a garden input that lasts, by the event."""
        out: dict[int, float] = {}
        for part in self._parts:
            out[part.source.ev] = out.get(part.source.ev, 0.0) + part.money
        return out

    @cached_property
    def pieces(self) -> Figure:
        """How many were bought."""
        known = self.state.costs.durables
        ev = np.asarray(known.ev[self._rows], np.int64)
        return self._sum(said(known.pieces[self._rows], "pieces", ev), "pieces").called("pieces")

    @cached_property
    def first(self) -> Figure:
        """The day on which the first was bought, since 1970."""
        known = self.state.costs.durables
        ev = [int(known.ev[row]) for row in range(self._rows.start, self._rows.stop)]
        ev += [part.source.ev for part in self._parts]
        first = min(ev, key=lambda one: int(self.state.moment.on[one]))
        day = said(np.array([float(self.one.first)]), "day since 1970", np.array([first]))
        return day.called("first-bought", day=self._day(self.one.first))

    @cached_property
    def life(self) -> Figure:
        """Years that it lasts: as somebody said, else as assumed."""
        one, state = self.one, self.state
        entry = state.costs.durables.fact_from(one.item, "years", state.as_of_day)
        ev = self._costs.sources.newest_of.get(entry, -1)
        if ev < 0 and self._parts:
            ev = self._parts[-1].source.ev
        if one.said:
            return said(np.array([one.years]), "years", np.array([ev])).called("life")
        name = state.facts.names[one.item]
        return assumed(np.array([one.years]), "years", f"life:{name}").called("life-not-said")

    @cached_property
    def interest(self) -> Figure:
        """Interest of a year, a share."""
        today = np.array([self.one.today], np.int64)
        rate = self._costs.sources.setting("interest_rate", today, interest_rate, "per year")
        none = assumed(np.zeros(1), "per year", "interest")
        return choose(~np.isnan(rate.values), rate, none).called("interest")

    # -- what it earned -----------------------------------------------------------------------

    @cached_property
    def _uses(self) -> Figure:
        """What each use earned, its part of a gain; shape (uses,)."""
        uses = self.one.uses
        gain = method(lambda: self._each("gain"), "money", "worth-less-cost", self._made)
        share = method(lambda: self._each("share"), "0 to 1", "shared-by-wear", self._served)
        each = gain.called("gain") * share.called("part-of-wear")
        return each.called("used-on", day=lambda row: self._day(uses[row].day))

    def _made(self, row: int) -> list[tuple[Figure, int]]:
        """Return what each lot of the batch or harvest was worth and cost."""
        lots = np.flatnonzero(self.state.lots["ev"] == self.one.uses[row].ev).tolist()
        return [(one, lot) for lot in lots for one in (self._lots.worth_of, self._lots.cost_of)]

    def _served(self, row: int) -> list[tuple[Figure, int]]:
        """Return how often each thing that lasts served there, and what was paid for it."""
        ev, out = self.one.uses[row].ev, []
        for other in self.state.once(durables_of):
            times = [use.times for use in other.uses if use.ev == ev]
            if times:
                name = self.state.facts.names[other.item]
                served = said(np.array([sum(times)]), "times", np.array([ev]))
                out += [(served.called("uses-of-it", name=name), 0), (_paid_for(self, other), 0)]
        return out

    @cached_property
    def earned(self) -> Figure:
        """What its uses earned."""
        if self.one.earned is None:
            return unknown("money", "served-unknown", 1)
        return self._sum(self._uses, "money").called("earned")

    @cached_property
    def rate(self) -> Figure:
        """What it earns a year."""
        one = self.one
        if one.rate() is None:
            return unknown("money per year", "served-unknown", 1)
        flows = one.flows()
        count = max(one.years_to(one.today)[0], 1)
        each = Groups(one.years_of_uses(), len(flows)).sum(self._uses, "money")
        each = each.called("nth-year", n=lambda row: row + 1)
        these = np.where(np.arange(len(flows)) < count, 0, -1)
        whole = Groups(these, 1).sum(each, "money").called("in-these-years")
        given = [self.first, answers_day(self.state)]
        years = self._method(float(count), "years", "whole-years", given).called("whole-years")
        return (whole / years).called("earned-a-year", unit="money per year")

    def _payback(self) -> Figure:
        """Return the years to pay-back: those gone and those to come, or the flows so far."""
        one, years = self.one, self.one.payback_years()
        if years is None:
            return unknown("years", "never", 1)
        back = one.paid_back_on()
        if back is not None:
            given = [self.first, self.paid, self.earned]
            then = self._method(years, "years", "years-by-the-calendar", given)
            return total(then.called("years-to-then")).called("earned-back", day=self._day(back))
        given = [self.first, answers_day(self.state)]
        gone = self._method(one.years_to(one.today)[1], "years", "years-by-the-calendar", given)
        left = (self.paid - self.earned).called("still-to-earn")
        come = (left / self.rate).called("years-to-come", unit="years")
        return total(gone.called("years-gone"), come).called("pay-back")

    # -- what it wore -------------------------------------------------------------------------

    def _charged(self) -> Figure:
        """Return the wear that batches and harvests have borne."""
        state, name = self.state, self.state.facts.find
        figures, rows = list[Figure](), list[int]()
        for part in state.costs.own.parts:
            if part.component in WEAR:
                mine = [i for i in range(part.row.size) if name(part.name(i)) == self.one.item]
                charge = self._costs.charge(COMPONENTS[part.component])
                figures.append(charge.at(np.array(mine, np.int64)))
                rows.append(len(mine))
        borne = [part for part in self._parts if part.season is not None]
        figures.append(
            method(
                lambda: np.array([part.money for part in borne], np.float64),
                "money",
                "spread-over-its-years",
                lambda row: [(self.paid, 0), (self.life, 0)],
            ).called(
                "charged-in",
                name=state.facts.names[self.one.item],
                season=lambda row: int(borne[row].season or 0),
            )
        )
        every = stacked(figures, [*rows, len(borne)])
        return self._sum(every, "money", sum(rows) + len(borne)).called("charged-in-all")

    # -- small things -------------------------------------------------------------------------

    def _each(self, name: str) -> Array:
        return np.array([getattr(use, name) for use in self.one.uses], np.float64)

    def _sum(self, figure: Figure, unit: str = "", count: int | None = None) -> Figure:
        rows = figure.values.size if count is None else count
        return Groups(np.zeros(rows, np.int64), 1).sum(figure, unit or figure.unit)

    def _method(self, value: float, unit: str, by: str, given: list[Figure]) -> Figure:
        return method(lambda: np.array([value]), unit, by, lambda _: [(one, 0) for one in given])

    def _day(self, day: int) -> Day:
        return Day(day_text(day))


def _paid_for(of: _Figures, other: Durable) -> Figure:
    return _Figures(of.state, other).paid.called("paid-for", name=of.state.facts.names[other.item])
