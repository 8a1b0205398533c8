"""Lots on the shelf, as figures: what came and what was taken, what they cost, how long they keep."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Opened,
    assumed,
    choose,
    known_where,
    method,
    nothing,
    said,
    solved,
    total,
)
from ledger.messages import fixed
from ledger.questions.costs import CostFigures
from ledger.questions.costs.sources import Sources
from ledger.questions.food import FoodFigures
from ledger.questions.shared.held import held_in
from ledger.questions.shared.use_by import Term, span_of, term_of
from ledger.questions.telling import label_day
from ledger.replay import GRAMS, ORIGINS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["SIX", "Lots", "Terms", "answers_day"]

SIX = ORIGINS[:6]
"""Where food comes from: what is made of it carries its parts."""
_BATCH = ORIGINS.index("batch")


def answers_day(state: State) -> Figure:
    """Return the day that is asked about, since 1970."""
    day = assumed(float(state.as_of_day), "day since 1970", "answers-day")
    return day.called("answers-day", day=label_day(state.as_of_day))


class Terms:
    """How long some lots keep, a row each.

    Parameters
    ----------
    lots : ndarray of int, shape (rows,)
    terms : sequence of Term or None
    """

    def __init__(self, state: State, lots: Array, terms: Sequence[Term | None]) -> None:
        self.state, self.lots, self.terms = state, lots, terms
        self.known = np.array([one is not None for one in terms], bool)

    @cached_property
    def day(self) -> Figure:
        """The last day, since 1970; NaN where there is none."""
        return method(
            lambda: self._each("day"), "day since 1970", "by-calendar", (self._start, self._span)
        ).called("keeps", said=self.word)

    def word(self, row: int) -> str:
        """Return whose word it is."""
        one = self.terms[row]
        return "" if one is None else one.said

    def _each(self, name: str) -> Array:
        return np.array(
            [np.nan if one is None else float(getattr(one, name)) for one in self.terms], np.float64
        )

    @property
    def _start(self) -> Figure:
        opened = np.array([one is not None and one.opened for one in self.terms], bool)
        start, ev = self._each("start"), np.where(opened, self._last_taken(opened), self._came)
        day = said(start, "day since 1970", ev)
        return choose(opened, day.called("opened-on"), day.called("came-on"))

    @property
    def _came(self) -> Array:
        return self.state.lots["ev"][self.lots]

    def _last_taken(self, opened: Array) -> Array:
        """Return the event that last took something of each open lot, shape (rows,)."""
        draw, draws = self.state.allocations[0], self.state.draws
        out = np.full(opened.size, -1, np.int64)
        for row in np.flatnonzero(opened).tolist():
            at = draw[self.state.allocations_of_lot(int(self.lots[row]))]
            out[row] = draws["ev"][at[int(np.argmax(draws["day"][at]))]]
        return out

    @property
    def _span(self) -> Figure:
        """How long, in the unit said; the household's word or a document's."""
        spans = [None if one is None else span_of(one.span) for one in self.terms]
        facts, described = self.state.facts, self.state.once(Sources).described
        item = self.state.lots["item"][self.lots]

        def opens(row: int) -> Opened:
            one = self.terms[row]
            if one is not None and one.source:
                return Opened(source=one.source)
            return Opened(event=described.get((int(facts.item_of[item[row]]), "keeps"), -1))

        return Figure(
            lambda: np.array([np.nan if one is None else one[0] for one in spans], np.float64),
            lambda row: (spans[row] or (0.0, ""))[1],
            opens,
        ).called("keeps-for")


class Lots:
    """Some lots, a row each.

    Parameters
    ----------
    lots : ndarray of int, shape (rows,)

    Attributes
    ----------
    amount, left, jars : Figure
        What came, what is left of it (whole units), and the jars that it came in.
    in_jars, has_weight, is_raw : ndarray of bool, shape (rows,)
    """

    def __init__(self, state: State, lots: Array) -> None:
        self.state, self.lots = state, lots
        sources = state.once(Sources)
        self.amount, self.left = sources.amount.at(lots), sources.left.at(lots)
        self.jars = sources.jars.at(lots)
        self.in_jars = state.once(held_in).jars[lots] > 0
        self._grams = state.costs.lot[lots, GRAMS]
        self.has_weight = self._grams.sum(axis=1) > 0
        self.is_made = state.lots["came"][lots] == _BATCH

    @cached_property
    def cost(self) -> Figure:
        """What each lot cost, all in: a line with its own address."""
        costs, state = self.state.once(CostFigures), self.state
        parts = {name: one.called(f"cost.{name}") for name, one in costs.of.items()}
        whole = total(*parts.values()).called("cost")
        return whole.folds(lambda lot: (f"lot/{state.lot_id(lot)}", "cost")).at(self.lots)

    # -- where it comes from ----------------------------------------------------------------

    def grams(self, origin: str) -> Figure:
        """Return the raw food of an origin in each lot, in grams: of a batch what it carries."""
        code = SIX.index(origin)

        def through(row: int) -> tuple[Figure, int]:
            food, lot = self.state.once(FoodFigures), int(self.lots[row])
            number = int(food.web.rows.number_of_lot[lot])
            if number >= 0:
                made = food.made.of("weight", origin).column
                address = f"food/{self.state.lot_id(lot)}", f"weight.{origin}"
                return made.folds(lambda _: address), number
            mine = int(self.state.lots["came"][lot]) == code
            return (food.of_raw["weight"] if mine else nothing("g")), lot

        none = np.zeros((), np.int8)
        return solved(lambda: self._grams[:, code], lambda: none, "g", through).called(
            "grams-of", origin=lambda _: fixed(origin)
        )

    def came_as(self, origin: str) -> Figure:
        """Return 1 for lots that came in as an origin says, else 0."""
        state, mine = self.state, self.state.lots["came"][self.lots] == ORIGINS.index(origin)
        word = [ORIGINS[code] for code in state.lots["came"][self.lots].tolist()]
        one = said(mine.astype(np.float64), "0 to 1", state.lots["ev"][self.lots])
        plain = one.called("came-as", origin=lambda row: fixed(word[row]))
        return known_where(~self.is_made, plain, "no-weight", "0 to 1")

    # -- how long it keeps ------------------------------------------------------------------

    @cached_property
    def terms(self) -> Terms:
        """The days by which to use them."""
        several = [term_of(self.state, lot) for lot in self.lots.tolist()]
        return Terms(self.state, self.lots, several)
