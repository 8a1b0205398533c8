"""What was picked and put up, a row an item and season: its lots, its units and what equipment served it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups, published, said
from ledger.questions.costs.sources import UNITS_BY
from ledger.questions.quantities import QUART_UL
from ledger.questions.worth_it.gather import LINES, Lots, line_of_batches

if TYPE_CHECKING:
    from ledger.questions.costs import CostFigures
    from ledger.replay import State

__all__ = ["Grouped"]

_POUND_MG = 453_592.37
"""Milligrams in a pound avoirdupois (NIST Handbook 44, appendix C)."""

_PER = {"volume": ("quart", QUART_UL), "mass": ("pound", _POUND_MG), "count": ("dozen", 12_000.0)}
"""What a price is given per, by measure: its name, and how many whole units it has."""
_METRIC = {"volume": ("litre", 1_000_000.0), "mass": ("kilogram", 1_000_000.0)}
"""The same in a book kept in metric measures."""

_HOME = [LINES.index(name) for name in ("garden", "animals", "preserving", "cooking")]


class Grouped:
    """What was picked and put up, by line, item and season.

    Jars and dishes keep what batches took out of them: a jar is a jar, wherever it went.

    Attributes
    ----------
    lots : Lots
    rows : ndarray of int, shape (lots of all groups,)
    of : Groups
        The group that each of `rows` belongs to.
    line, item, season : ndarray of int, shape (groups,)
    before : ndarray of int, shape (groups,)
        The item's season before, -1 where there is none.
    """

    def __init__(self, state: State) -> None:
        self.state, self.lots = state, state.once(Lots)
        table = state.lots
        rows = np.flatnonzero(np.isin(self.lots.line, _HOME))
        season = state.costs.garden.season.of(table["day"][rows]) if rows.size else rows
        key = np.stack([self.lots.line[rows], table["item"][rows], season])
        groups, by = np.unique(key, axis=1, return_inverse=True)
        self.line, self.item, self.season = groups
        order = np.argsort(by.reshape(-1), kind="stable")
        self.rows, self.count = rows[order], self.line.size
        self.of = Groups(by.reshape(-1)[order], self.count)
        same = (groups[:2, 1:] == groups[:2, :-1]).all(axis=0)
        self.before = np.where(
            np.r_[np.zeros(min(self.count, 1), bool), same], np.arange(self.count) - 1, -1
        )
        measures = [state.facts.measure[item] for item in self.item.tolist()]
        self.measure = np.array(measures, object)
        per = (_METRIC if state.settings.newest("measures") == "metric" else {}) or _PER
        self.per = [per.get(one) or _PER.get(one) for one in measures]

    @property
    def costs(self) -> CostFigures:
        """What lots cost."""
        return self.lots.costs

    def lots_of(self, group: int) -> Array:
        """Return the lots of a group."""
        return self.rows[self.of.rows(group)]

    # -- what they are ----------------------------------------------------------------------

    @cached_property
    def whole(self) -> Figure:
        """How much was made, in whole units."""
        return self.of.sum(self.costs.sources.amount.at(self.rows))

    @cached_property
    def jars(self) -> Figure:
        """How many jars were made."""
        table = self.state.lots
        return self.of.sum(said(table["jars"], "jars", table["ev"]).at(self.rows), "jars")

    @cached_property
    def in_one(self) -> Figure:
        """Whole units in what a price is given per; NaN where it is given per nothing."""
        whole = self.costs.sources.whole_of(self.item)
        values = [None if one is None else one[1] for one in self.per]
        return published(
            np.array(values, np.float64), lambda row: f"{whole(row)} per {self.unit(row)}", UNITS_BY
        )

    def unit(self, row: int) -> str:
        """Return what the price of a group is given per."""
        per = self.per[row]
        return "unit" if per is None else per[0]

    # -- money ------------------------------------------------------------------------------

    @cached_property
    def worth(self) -> Figure:
        """What all of it costs at the shop; NaN where a price is not known."""
        return self.of.sum(self.lots.at_shop.at(self.rows), "money")

    def cost(self, name: str) -> Figure:
        """Return a component of what they cost; each lot is one line with its address."""
        of = self.costs.of[name].called("lot", item=self.costs.item, day=self.costs.day)
        each = of.folds(lambda lot: (f"lot/{self.state.lot_id(lot)}", f"cost.{name}"))
        return self.of.sum(each.at(self.rows), "money")

    @cached_property
    def kit(self) -> Figure:
        """What the equipment that its batches named has cost so far, whole."""
        durables, day = self.costs.durables, self.state.as_of_day
        used = _equipment_by_batch(self.state)
        event = self.state.lots["ev"][self.rows].tolist()
        of = zip(self.of.by.tolist(), event, strict=True)
        pairs = sorted({(group, item) for group, ev in of for item in used.get(ev, ())})
        names = self.state.facts.names
        paid = durables.bought(durables.paid, [item for _, item in pairs], day)
        each = paid.called("charge", text=lambda pair: names[pairs[pair][1]])
        by = np.array([group for group, _ in pairs], np.int64)
        return Groups(by, self.count).sum(each, "money")


def _equipment_by_batch(state: State) -> dict[int, set[int]]:
    table = state.journal.tables["equipment"]
    rows = state.moment.rows(state.journal, "equipment")
    out: dict[int, set[int]] = {}
    batch = line_of_batches(state) >= 0
    for ev, item in zip(
        table["ev"][rows].tolist(), state.facts.canon[table["item"][rows]].tolist(), strict=True
    ):
        if batch[ev]:
            out.setdefault(ev, set()).add(item)
    return out
