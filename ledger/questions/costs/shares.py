"""What the lots of a batch carry of it, as figures: by amount, by jars, or in equal parts (rule 9)."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Figure, Groups, choose, said

if TYPE_CHECKING:
    from ledger.questions.costs.sources import Sources
    from ledger.replay import State

__all__ = ["Shares"]

_N_BITS = 24


class Shares:
    """Parts of rows that made lots carry, in the order of `Rows.gives`.

    Attributes
    ----------
    made, row : ndarray of int64, shape (parts,)
        Number of the made lot, and the row that it carries a part of.
    """

    def __init__(self, state: State, sources: Sources) -> None:
        self.state, self.sources = state, sources
        self.rows = state.costs.rows
        self.made, self.row, _ = self.rows.gives

    @cached_property
    def of_batch(self) -> Figure:
        """The part of a batch that each made lot is, by amount; shape (made lots,)."""
        lots, made = self.state.lots, self.rows.made_lots
        ev, n, item = (lots[name][made] for name in ("ev", "n", "item"))
        each = self.sources.amount.at(made)
        amount = each.called("this-entry")
        batch = Groups(ev, self.state.moment.rank.size)
        entry, which = np.unique(ev << _N_BITS | n, return_inverse=True)
        in_batch = np.bincount(entry >> _N_BITS, minlength=batch.count)
        by_amount = amount / batch.sum(each).at(ev).called("all-made")
        of_entry = amount / Groups(which, entry.size).sum(each).at(which).called("all-of-entry")
        entries = said(in_batch[ev], "", ev).called("entries")
        low, high = np.full(batch.count, np.iinfo(np.int64).max), np.full(batch.count, -1)
        np.minimum.at(low, ev, item)
        np.maximum.at(high, ev, item)
        return choose(
            low[ev] < high[ev],
            (of_entry.called("by-amount") / entries).called("by-entries"),
            by_amount.called("by-amount"),
        )

    @cached_property
    def part(self) -> Figure:
        """The part of its row that a made lot carries, shape (parts,)."""
        lots, lot = self.state.lots, self.rows.made_lots[self.made]
        ev = lots["ev"][lot]
        each = self.sources.jars.at(lot)
        jars = each.called("its-jars")
        kept = said(lots["share"][lot], "0 to 1", ev).called("left")
        by_amount = self.of_batch.at(self.made)
        is_shared = self.row == self.rows.shared_of[ev]
        is_entry = ~is_shared & (self.row != self.rows.pot_of[ev])
        in_jars = Groups(ev, self.state.moment.rank.size)
        # A lot stands here once for each row that it has a part of; jars count once.
        once = np.where(is_shared, in_jars.by, -1)
        batch = Groups(once, in_jars.count).sum(each).called("all-jars")
        by_jars = (jars / batch.at(ev)).called("by-jars")
        entry = (
            Groups(np.where(is_entry, self.row, -1), self.rows.count).sum(each).called("all-jars")
        )
        of_entry = (jars / entry.at(self.row)).called("by-jars")
        has_jars = np.bincount(ev, lots["jars"][lot], in_jars.count)[ev] > 0
        left = ~np.isnan(lots["share"][lot])
        return choose(
            left,
            kept,
            choose(is_entry, of_entry, choose(is_shared & has_jars, by_jars, by_amount)),
        )
