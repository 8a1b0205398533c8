"""The stock of one item day by day, and week by week ahead, as figures."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, Spans, method, said
from ledger.messages import sentence
from ledger.methods.scoring import widened
from ledger.questions.ahead.lasting import ahead_of
from ledger.questions.ahead.widening import lately
from ledger.questions.costs.sources import unit_factor
from ledger.questions.quantities import LISTED_FROM, UNITS, whole_unit
from ledger.questions.shelf.items_gather import Items

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Days", "Weeks"]

_WEEKS = 52


class Days:
    """Days on which something came or went, a row each.

    Attributes
    ----------
    day : ndarray of int64, shape (days,)
        Since 1970, rising.
    came, went, came_by, went_by : Figure
        Of the day, and of all days till then; whole units.
    """

    def __init__(self, state: State, item: int) -> None:
        self.state, self.item = state, item
        flows = [self._of(flow) for flow in (state.lots, state.draws)]
        self.day = np.unique(np.concatenate([days for days, _ in flows])).astype(np.int64)
        (self.came, self.came_by), (self.went, self.went_by) = (self._sums(*one) for one in flows)

    def _of(self, flow: dict[str, Array]) -> tuple[Array, Figure]:
        rows = np.flatnonzero(flow["item"] == self.item)
        rows = rows[np.argsort(flow["day"][rows], kind="stable")]
        unit = whole_unit(self.state, self.item)
        return flow["day"][rows], said(flow["whole"][rows], unit, flow["ev"][rows])

    def _sums(self, days: Array, each: Figure) -> tuple[Figure, Figure]:
        unit, stop = whole_unit(self.state, self.item), np.searchsorted(days, self.day, "right")
        upto = Spans(np.zeros(stop.size, np.int64), stop).sum(each)
        here = Groups(np.searchsorted(self.day, days), self.day.size).sum(each, unit)
        return here, upto

    @cached_property
    def thousand(self) -> Figure:
        """Whole units in one unit of the answer."""
        return unit_factor(1000.0, "", "thousand").called("thousand", unit=self.unit)

    @property
    def unit(self) -> str:
        """The unit of the answer."""
        unit: str = UNITS[self.state.facts.measure[self.item]]
        return unit


class Weeks:
    """Weeks ahead until nine times in ten nothing is left, at most a year, a row each.

    The first is the answer's day.

    Attributes
    ----------
    count : int
        0 where nothing is left, or nobody can say.
    missing : list of str
        Why nobody can.
    """

    def __init__(self, state: State, item: int) -> None:
        self.items = Items(state, ahead_of(state, item))
        self.count, self.missing = 0, list[str]()
        stock = float(state.left[state.lots["item"] == item].sum()) / 1000
        least = LISTED_FROM[state.facts.measure[item]] / 1000
        if stock < least:
            return
        use, name = self.items.ahead.use, state.facts.names[item]
        ahead = use.ahead[0]
        if use.too_few(0):
            self.missing = [sentence("shelf-goes-on", item=name)]
        elif ahead is None:
            self.missing = [sentence("shelf-no-use", item=name)]
        else:
            factor = lately(state).factor
            self._ends = _widened(stock, *ahead.left_after(stock, _WEEKS), factor)
            gone = np.flatnonzero(self._ends[2] < least)
            self.count = (int(gone[0]) if gone.size else _WEEKS) + 1

    def left(self, end: int, stock: Figure) -> Figure:
        """Return what is left at an end of the range, of what is there now."""
        given = [(one, 0) for one in self.items.given(stock)]
        return method(
            lambda: self._ends[end][: self.count], self.items.use.unit(0), "own-weeks",
            lambda _week: given,
        )  # fmt: skip


def _widened(
    stock: float, low: Array, likely: Array, high: Array, factor: float
) -> tuple[Array, Array, Array]:
    """Return what is left with what is used by then as wide as the shelf's other ranges."""
    if factor == 1.0:
        return low, likely, high
    used = widened(np.array([stock - high, stock - likely, stock - low]), factor)
    most, middle, least = np.maximum(stock - used, 0.0)
    return least, middle, most
