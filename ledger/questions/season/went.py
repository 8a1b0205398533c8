"""Where what was picked went: its lots by fate, what was not eaten in time, and what it cost."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, Groups
from ledger.questions.garden.grown import where
from ledger.questions.garden.uneaten import composted, fed, not_for_people, uneaten
from ledger.questions.goes import goes

if TYPE_CHECKING:
    from ledger.questions.garden.grown import Grown

__all__ = ["FATES", "Went"]

FATES = ("eaten fresh", "put up", "given", "lost", "sown", "on hand")
_FATE_OF = {
    "eaten": "eaten fresh", "used": "put up", "fuel": "put up", "lids": "put up",
    "given": "given", "discarded": "lost", "lost": "lost", "seed": "sown",
}  # fmt: skip
"""What became of a draw, in the words of this answer."""


class Went:
    """The lots of plots and what became of them.

    Parameters
    ----------
    grown : Grown
    """

    def __init__(self, grown: Grown) -> None:
        self.grown, self.state, self.sources = grown, grown.state, grown.sources
        self.count = grown.count

    # -- lots ---------------------------------------------------------------------------

    @cached_property
    def lots(self) -> Array:
        """The plot of each lot of the book; -1: it was not picked."""
        out = np.full(self.state.lots["ev"].size, -1, np.int64)
        has = self.grown.picked["lot"] >= 0
        out[self.grown.picked["lot"][has]] = self.grown.of[has]
        return out

    @cached_property
    def lot_grams(self) -> Figure:
        """Grams in one whole unit of each lot."""
        return self.sources.weight(self.state.lots["item"])

    @cached_property
    def weighed_lots(self) -> Array:
        """Which lots have a weight."""
        item = self.state.lots["item"]
        return ~np.isnan(self.state.facts.grams[item]) if item.size else np.zeros(0, bool)

    @cached_property
    def fates_known(self) -> Array:
        """Whether it can be said where a plot's pickings went, shape (plots,)."""
        known = self.lots[self.weighed_lots & (self.lots >= 0)]
        return (np.bincount(known, minlength=self.count) > 0) | self.grown.has_weight

    def went(self, fate: str) -> Groups:
        """Return the allocations of each plot's lots that went one way."""
        draw, lot, _ = self.state.allocations
        mine = self._fates[draw] == FATES.index(fate)
        return Groups(where(self.lots[lot], mine, self.weighed_lots[lot]), self.count)

    @cached_property
    def _fates(self) -> Array:
        words = self.state.once(goes)
        out = np.full(words.size, -1, np.int64)
        for word, fate in _FATE_OF.items():
            out[words == word] = FATES.index(fate)
        return out

    @cached_property
    def here(self) -> Groups:
        """The lots of each plot that have a weight."""
        return Groups(where(self.lots, self.weighed_lots), self.count)

    # -- what is not counted ------------------------------------------------------------

    @cached_property
    def late(self) -> Groups:
        """Pickings that were not eaten until their keeping was over."""
        over = np.zeros(self.lots.size, bool)
        over[self.state.once(uneaten).lot] = True
        return self.grown.among(self._lot(over), self.grown.priced)

    @cached_property
    def surplus(self) -> Groups:
        """Pickings of which some was fed to animals or composted."""
        gone = self.state.once(composted) > 0
        gone[self.state.once(fed).lot] = True
        return self.grown.among(self._lot(gone), self.grown.priced)

    @property
    def whole(self) -> Figure:
        """What each lot came in as, in whole units."""
        return self.sources.amount.called("the-lot")

    def of_allocation(self, figure: Figure) -> Figure:
        """Return a figure of lots for the lot of each allocation."""
        return figure.at(self.state.allocations[1])

    def of_lot(self, figure: Figure) -> Figure:
        """Return a figure of lots for the lot of each picking."""
        return figure.at(self.grown.picked["lot"])

    @cached_property
    def surplus_taken(self) -> Groups:
        """Allocations to animals and the compost, by lot."""
        _, lot, _ = self.state.allocations
        return Groups(where(lot, not_for_people(self.state)), self.lots.size)

    @cached_property
    def spared(self) -> Figure:
        """Money of the feed that each lot spared."""
        spared = self.state.once(fed)
        return Groups(spared.lot, self.lots.size).sum(spared.worth, "money").called("feed-spared")

    def _lot(self, which: Array) -> Array:
        lot = self.grown.picked["lot"]
        return (lot >= 0) & which[lot] if which.size else np.zeros(lot.size, bool)

    # -- garden inputs ------------------------------------------------------------------

    @cached_property
    def strands(self) -> tuple[Groups, Figure, Figure]:
        """Strands of each plot: those of each, what was picked here of each, and their inputs."""
        garden = self.grown.costs.garden
        place_of = np.full(self.lots.size, -1, np.int64)
        place_of[garden.lots] = garden.garden.which
        lot = self.grown.picked["lot"]
        place = np.where(lot >= 0, place_of[lot], -1) if self.lots.size else np.full(lot.shape, -1)
        some = np.flatnonzero((place >= 0) & (self.grown.of >= 0))
        pairs, which = np.unique(self.grown.of[some] << 32 | place[some], return_inverse=True)
        by = np.full(lot.size, -1, np.int64)
        by[some] = which
        place = pairs & 0xFFFFFFFF
        amount = self.of_lot(self.sources.amount)
        here = Groups(by, pairs.size).sum(amount).called("picked-here")
        share = (here / garden.picked.at(place)).called("part-of-crop")
        return Groups(pairs >> 32, self.count), share, garden.inputs.at(place)
