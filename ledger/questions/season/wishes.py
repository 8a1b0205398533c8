"""What the tables say and the household wants of each plot."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array, Figure, assumed, published
from ledger.messages import sentence
from ledger.questions.garden.grown import floats
from ledger.questions.garden.targets import Targets, Wanted
from ledger.reference.planting import PublishedRange, published_range

if TYPE_CHECKING:
    from ledger.questions.garden.grown import Grown

__all__ = ["Wishes"]


class Wishes:
    """Published yields and targets of plots.

    Parameters
    ----------
    grown : Grown
    """

    def __init__(self, grown: Grown) -> None:
        self.grown, self.targets = grown, Targets(grown.field)

    # -- tables and wishes --------------------------------------------------------------

    @cached_property
    def _published(self) -> list[PublishedRange | None]:
        return [
            published_range(self.grown.name(at), row_m=plot.row_m, area_m2=plot.area_m2)
            for at, plot in enumerate(self.grown.plots)
        ]

    @cached_property
    def by_row(self) -> Array:
        """Which plots' published range is by the metre of row, shape (plots,)."""
        return np.array([f is not None and f.per == "m" for f in self._published], bool)

    def published(self, end: str, size: Figure) -> Figure:
        """Return the ``low`` or ``high`` of the published range for as much as one of a size."""
        found = self._published
        whole = floats([None if f is None else getattr(f, f"{end}_g") for f in found])
        with np.errstate(divide="ignore", invalid="ignore"):
            each = whole / size.values
        return published(
            each,
            lambda at: f"g per {size.unit_of(at)}",
            lambda at: _sources(found[at]),
        ).called("published-each", note=lambda at: getattr(found[at], "note", ""))

    def published_from(self, row: int) -> str | None:
        """Return where the published range of a plot stands, and what it rests on."""
        found = self._published[row]
        if found is None:
            return None
        return sentence("yield-published-in", source=_sources(found), note=found.note)

    @cached_property
    def has_published(self) -> Array:
        """Which plots a published range fits, shape (plots,)."""
        return np.array([one is not None for one in self._published], bool)

    @cached_property
    def wanted(self) -> Wanted:
        """The target of each plot's crop in its season."""
        return self.targets.wanted(self.grown.crop, self.grown.season)

    @cached_property
    def evenly(self) -> Figure:
        """An even part of the crop's season for each plot."""
        several = np.bincount(self.grown.same, minlength=self.grown.crops)[self.grown.same]
        return assumed(1 / several, "0 to 1", "evenly").called("evenly")

    @cached_property
    def kept_any(self) -> Array:
        """Which plots are of a crop of which something was kept in the season, shape (plots,)."""
        kept = np.where(self.by_weight[self.grown.of], self._milligrams, self.grown.picked["kept"])
        sums = (
            np.bincount(self.grown.same[self.grown.of], kept, self.grown.crops)
            if kept.size
            else np.zeros(self.grown.crops)
        )
        return np.asarray(sums[self.grown.same] > 0)

    @cached_property
    def _milligrams(self) -> Array:
        return np.nan_to_num(self.grown.picked["grams"]) * self.grown.picked["kept"]

    @cached_property
    def by_weight(self) -> Array:
        """Which plots are of a crop that was picked in several measures, shape (plots,)."""
        several = np.zeros(self.grown.crops, bool)
        if self.grown.of.size:
            same, strand = self.grown.same[self.grown.of], self.grown.picked["strand"]
            pairs = np.unique(same << 32 | strand)
            several = np.bincount(pairs >> 32, minlength=self.grown.crops) > 1
        return several[self.grown.same] if self.grown.count else np.zeros(0, bool)


def _sources(found: PublishedRange | None) -> str:
    return "" if found is None else "; ".join(map(str, found.sources))
