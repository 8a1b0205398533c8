"""Plots: one crop, variety and bed in one season, with its plantings and pickings.

A picking or planting that leaves out variety or bed belongs to the one plot of its crop and season
that it fits; where it fits several it stays apart.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cache

from ledger.amounts import parse_measure
from ledger.errors import InputError
from ledger.replay.columns import Array

__all__ = ["Pair", "Planting", "Plot", "fit", "key_of", "measured", "settle", "slug"]

Pair = tuple[int, int]
"""Variety and bed as text numbers; -1: not written."""


@dataclass(frozen=True)
class Planting:
    """One planting: its event, its day, and its size where that was written down."""

    ev: int
    crop: int
    pair: Pair
    day: int
    plants: int | None
    area_m2: float | None
    row_m: float | None


@dataclass
class Plot:
    """One crop, variety and bed in one season.

    Attributes
    ----------
    rows : ndarray of int
        Its pickings, as rows of `Field.picked`.
    standing : bool
        Whether its plantings are of an earlier season and bear on (trees, perennials).
    """

    season: int
    crop: int
    variety: str | None
    bed: str | None
    rows: Array
    plantings: list[Planting] = field(default_factory=list)
    standing: bool = False
    plants_picked: int | None = None

    @property
    def plants(self) -> int | None:
        """How many plants were planted, else the most that a picking names."""
        if not self.plantings:
            return self.plants_picked
        known = [p.plants for p in self.plantings if p.plants is not None]
        return sum(known) if len(known) == len(self.plantings) else None

    @property
    def area_m2(self) -> float | None:
        """Ground of its plantings; None where one of them does not say."""
        return _all([p.area_m2 for p in self.plantings])

    @property
    def row_m(self) -> float | None:
        """Length of row of its plantings; None where one of them does not say."""
        return _all([p.row_m for p in self.plantings])


def _all(sizes: list[float | None]) -> float | None:
    known = [size for size in sizes if size is not None]
    return sum(known) if known and len(known) == len(sizes) else None


def settle(pairs: set[Pair]) -> dict[Pair, Pair]:
    """Return for each pair the fullest pair that it stands for.

    That is all that the pairs fitting it say, where they do not contradict each other.

    Examples
    --------
    >>> settle({(1, 2), (-1, -1)})[(-1, -1)]
    (1, 2)
    >>> settle({(1, 2), (1, 3), (1, -1)})[(1, -1)]
    (1, -1)
    """
    goal = {}
    for one in pairs:
        near = [two for two in pairs if fit(one, two)]
        both = (max(p[0] for p in near), max(p[1] for p in near))
        goal[one] = both if all(fit(both, two) for two in near) else one
    return goal


def fit(one: Pair, two: Pair) -> bool:
    """Return whether two pairs agree where both say something."""
    return all(a == b or -1 in (a, b) for a, b in zip(one, two, strict=True))


@cache
def measured(text: str, wanted: str) -> float | None:
    """Return metres or square metres of a size as typed; None where it cannot be read."""
    try:
        return float(parse_measure(text, wanted))
    except InputError:  # what an older version wrote down
        return None


def key_of(names: list[str], plot: Plot, *, whole: bool = False) -> str:
    """Return what follows ``season/`` in a plot's address: ``2026/tomato/red-egg/south-bed``."""
    words = [slug(names[plot.crop])]
    if whole:
        words.append("all")
    elif plot.variety is not None or plot.bed is not None:
        words += [slug(plot.variety or "-"), slug(plot.bed or "-")]
    return "/".join([str(plot.season), *words])


def slug(text: str) -> str:
    """Return a name as it stands in an address."""
    return "-".join(text.casefold().replace("/", "-").split())
