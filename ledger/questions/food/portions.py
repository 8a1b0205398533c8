"""Some allocations of lots and what each is in weight, energy and value, as figures."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, in_part, total
from ledger.questions.food.bases import SIX, UNITS
from ledger.questions.telling import label_day

if TYPE_CHECKING:
    from ledger.questions.food.amounts import FoodFigures
    from ledger.questions.food.carried import MadeFigure

__all__ = ["Grouped", "Portions"]


class Portions:
    """Some allocations, of raw lots and of made ones.

    Parameters
    ----------
    food : FoodFigures
    at : ndarray of int64, shape (portions,)
        Their places among the allocations.
    part : Figure, optional
        What of each counts, 0 to 1; default: all of it.
    label : str
        Id of the label of each.

    Attributes
    ----------
    raw, made : ndarray of int64
        Which of them are of raw lots, and of made ones.
    raw_at, raw_lot, made_at : ndarray of int64
        Their places among the allocations, and the lots of the raw ones.
    """

    def __init__(
        self, food: FoodFigures, at: Array, part: Figure | None = None, label: str = "portion"
    ) -> None:
        self.food, self.at, self._part, self._label = food, at, part, label
        is_made = food.web.made[at]
        self.raw, self.made = np.flatnonzero(~is_made), np.flatnonzero(is_made)
        self.raw_at, self.made_at = at[self.raw], at[self.made]
        self.raw_lot = food.web.lot[self.raw_at]
        self.origin = food.web.origin[self.raw_at]
        self._raw: dict[str, Figure] = {}

    # -- of raw lots --------------------------------------------------------------------

    def of_raw(self, basis: str) -> Figure:
        """Return what each portion of a raw lot is, shape (raw,)."""
        if basis not in self._raw:
            self._raw[basis] = self._named(self._worked(basis), self.raw_at)
        return self._raw[basis]

    def _worked(self, basis: str) -> Figure:
        food, sources = self.food, self.food.sources
        if basis == "value":
            taken = sources.taken.at(self.raw_at).called("taken-amount")
            return self._counted(taken, self.raw) * self.price
        whole = food.of_raw[basis].at(self.raw_lot)
        return self._raw_share * food.named(whole, self.raw_lot, basis)

    @cached_property
    def prices(self) -> tuple[Array, Array, Array]:
        """The shop's price of each portion of a raw lot on its day: price, event, seen later."""
        web, state = self.food.web, self.food.state
        return state.costs.prices.of(state.lots["item"][self.raw_lot], web.day[self.raw_at])

    @cached_property
    def price(self) -> Figure:
        """Money per whole unit of each portion of a raw lot, 0 or more where no price is known."""
        return self.food.price_of(self.food.state.lots["item"][self.raw_lot], *self.prices)

    # -- all of them ----------------------------------------------------------------------

    @cached_property
    def _raw_share(self) -> Figure:
        return self._share(self.raw)

    @cached_property
    def _made_share(self) -> Figure:
        return self._share(self.made)

    def _share(self, of: Array) -> Figure:
        """Return the part of its lot that each is."""
        share = self.food.sources.share_taken.at(self.at[of])
        return self._counted(share, of)

    def _counted(self, figure: Figure, of: Array) -> Figure:
        if self._part is None:
            return figure
        return in_part(figure, self._part.at(of), "part-of-it")

    def _named(self, figure: Figure, at: Array) -> Figure:
        state, lot, day = self.food.state, self.food.web.lot, self.food.web.day
        return figure.called(
            self._label,
            item=lambda row: state.facts.names[int(state.lots["item"][lot[at[row]]])],
            came=lambda row: label_day(int(state.lots["day"][lot[at[row]]])),
            day=lambda row: label_day(int(day[at[row]])),
        )

    def grouped(self, by: Array, count: int) -> Grouped:
        """Return sums over the portions of each group.

        Parameters
        ----------
        by : ndarray of int64, shape (portions,)
            The group of each; below zero: none.
        """
        return Grouped(self, by, count)

    def carried(self, made: MadeFigure) -> Figure:
        """Return what portions of made lots are of what those carry, shape (made,)."""
        whole = made.of_lot(self.food.web.lot[self.made_at])
        return self._named(self._made_share * whole, self.made_at)


class Grouped:
    """Sums over portions of each group.

    Parameters
    ----------
    portions : Portions
    by : ndarray of int64, shape (portions,)
    count : int
    """

    def __init__(self, portions: Portions, by: Array, count: int) -> None:
        self.portions, self.count = portions, count
        self._raw, self._made = by[portions.raw], Groups(by[portions.made], count)
        self._of: dict[str, Figure] = {}

    def of(self, basis: str, origin: str) -> Figure:
        """Return the sums of what came from one origin."""
        every = self._by_origin(basis).at(np.arange(self.count) * len(SIX) + SIX.index(origin))
        return self._with_made(every, basis, self.portions.food.made.of(basis, origin))

    @cached_property
    def _origins(self) -> Groups:
        place = self._raw * len(SIX) + self.portions.origin
        return Groups(np.where(self._raw >= 0, place, -1), self.count * len(SIX))

    def _by_origin(self, basis: str) -> Figure:
        """Return the sums of raw lots by group and origin, all origins at once."""
        if basis not in self._of:
            self._of[basis] = self._origins.sum(self.portions.of_raw(basis), UNITS[basis])
        return self._of[basis]

    def where(self, some: Array, each: Figure, basis: str, made: MadeFigure) -> Figure:
        """Return the sums of some figure of raw lots, and of what made lots carry of the same.

        Parameters
        ----------
        some : ndarray of int64, shape (some,)
            Which portions of raw lots count.
        each : Figure, shape (some,)
        made : MadeFigure
        """
        raw = Groups(self._raw[some], self.count).sum(each, UNITS[basis])
        return self._with_made(raw, basis, made)

    def _with_made(self, raw: Figure, basis: str, made: MadeFigure) -> Figure:
        if not self.portions.made.size:
            return raw
        return total(raw, self._made.sum(self.portions.carried(made), UNITS[basis]))
