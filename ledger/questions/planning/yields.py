"""What one plant of each crop brings, as figures: own seasons and the published yield, weighed."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Array,
    Figure,
    Groups,
    assumed,
    at_least_none,
    choose,
    known_where,
    method,
    published,
    total,
)
from ledger.methods.yields import FAILED, FAILED_OF
from ledger.questions.garden.grown import floats
from ledger.questions.planning.growth import SIZES
from ledger.reference.planting import published_range

if TYPE_CHECKING:
    from ledger.methods.yields import YieldAhead
    from ledger.questions.planning.growth import Garden

__all__ = ["WHOLE", "Yields", "by_size"]

WHOLE = "yields=all"
"""What the figures of the whole household are addressed by."""

_COLUMN_OF = {
    "plants": "per_plant_g",
    "row_m": "per_row_m_g",
    "area_m2": "per_m2_g",
    None: "picked_g",
}
"""The column of `season` that says what one of each size brought."""

Parts = list[tuple[Figure, int]]


class Yields:
    """What one of each crop brings, a row a crop.

    Parameters
    ----------
    items : list of int
        The crops.
    name : callable
        Gives the name of a row's crop.

    Attributes
    ----------
    household : dict of str to Figure
        What all crops say together, one row each: ``level``, ``between``, ``within``,
        ``failures``, ``seasons``.
    growths : list of Growth
    sizes : list of str or None
        Which of `SIZES` each is measured by.
    of : dict of str to Figure
        ``yield_g.likely``, ``scale``, ``fails``.
    """

    def __init__(self, garden: Garden, items: list[int], name: Callable[[int], str]) -> None:
        self._garden, self._items, self._name = garden, items, name
        self.growths = [garden.growth(item) for item in items]
        self.sizes = [one.size for one in self.growths]
        seasons = [(at, s) for at, one in enumerate(self.growths) for s in one.seasons]
        self._seasons = Groups(np.array([at for at, _ in seasons], np.int64), len(items))
        rows, by = np.array([s.row for _, s in seasons], np.int64), self._seasons.by
        sizes = [self.sizes[at] for at, _ in seasons]
        each = by_size(sizes, {size: one.at(rows) for size, one in garden.each.items()})
        year = [s.season for _, s in seasons]
        self._each = each.called(
            "season-brought", season=lambda at: year[at], crop=lambda at: name(int(by[at]))
        )
        self._line = self._each.folds(
            lambda at: (garden.grown.address(int(rows[at])), _COLUMN_OF[sizes[at]])
        )
        self._of_crop = self._line.called(
            "crop-brought", crop=lambda at: name(int(by[at])), season=lambda at: year[at]
        )
        self._known = np.array([one.ahead is not None for one in self.growths], bool)
        self.household = self._household()
        self.of = {**self._ahead(), "fails": self._fails()}

    def values(self, of: Callable[[YieldAhead, int], float]) -> Callable[[], Array]:
        """Return how a column is filled from the yield ahead of each row; NaN where there is none."""
        some = [one.ahead for one in self.growths]
        return lambda: floats([None if one is None else of(one, at) for at, one in enumerate(some)])

    def where_known(self, figure: Figure) -> Figure:
        """Return a figure where the yield is known."""
        return known_where(self._known, figure, "yield-not-known")

    # -- the household --------------------------------------------------------------------

    def _household(self) -> dict[str, Figure]:
        every = self._garden.household
        return {
            "level": self._of_all("level", math.exp(every.offset)),
            "between": self._of_all("between", math.sqrt(every.between)),
            "within": self._of_all("within", math.sqrt(every.within)),
            "failures": self._of_all("failures", every.failures, "seasons"),
            "seasons": self._of_all("seasons", every.seasons, "seasons"),
        }

    def _of_all(self, name: str, value: float, unit: str = "") -> Figure:
        of_all = method(lambda: np.full(1, value), unit, "household-yields", self._all)
        return of_all.called(f"{name}-of-all").folds(lambda _: (f"next-season/{WHOLE}", name))

    def _all(self, _row: int) -> Parts:
        """Return every season of every crop, beside its published yield."""
        grew = [row for row in range(len(self._items)) if self._seasons.rows(row)]
        seasons = [(self._of_crop, at) for at in range(self._seasons.by.size)]
        return seasons + [p for row in grew for p in self._published_of(row)]

    def _own(self, row: int) -> Parts:
        return [(self._each, at) for at in self._seasons.rows(row)]

    def _published_of(self, row: int) -> Parts:
        return [(self.published, row)] if self.growths[row].published is not None else []

    # -- the yield ahead ------------------------------------------------------------------

    @cached_property
    def published(self) -> Figure:
        """The middle of the published yields for one plant of each crop."""
        found = [one.published for one in self.growths]
        names = [self._name(row) for row in range(len(self._items))]
        ones = [
            None if one is None
            else published_range(name, **({"row_m": 1.0} if one.per == "m" else {"area_m2": 1.0}))
            for name, one in zip(names, found, strict=True)
        ]  # fmt: skip
        each = published(
            floats([None if one is None else one.middle_g for one in ones]),
            lambda row: "" if found[row] is None else f"g per {found[row].per}",  # type: ignore[union-attr]
            lambda row: "; ".join(str(one) for one in getattr(found[row], "sources", ())),
        ).called("published-middle")
        other = ["row_m" if one is not None and one.per == "m" else "area_m2" for one in found]
        same = np.array([a == b for a, b in zip(other, self.sizes, strict=True)], bool)
        by_row = np.array([name == "row_m" for name in other], bool)
        needs = choose(by_row, self.ratio("row_m"), self.ratio("area_m2"))
        return choose(same, each, (each * needs).called("published-for-one"))

    def ratio(self, other: str) -> Figure:
        """Return how much row or ground one of each crop takes."""
        at = np.array([self._garden.place.get(item, -1) for item in self._items], np.int64)
        sizes = {size: self._garden.ratio(size, other).at(at) for size in SIZES}
        return by_size([size or "plants" for size in self.sizes], sizes)

    def _ahead(self) -> dict[str, Figure]:
        whole = [(self.household[name], 0) for name in ("level", "between", "within")]

        def parts(row: int) -> Parts:
            book = self._published_of(row)
            return [*self._own(row), *book, *(whole if book else [])]

        def differ(row: int) -> Parts:
            own = [(self._line, at) for _, at in self._own(row)]
            return [*own, *self._published_of(row), *whole]

        def unit(row: int) -> str:
            per = {"plants": "plant", "row_m": "m", "area_m2": "m2"}.get(self.sizes[row] or "")
            return f"g per {per}" if per else "g"

        likely = method(self.values(lambda one, _: one.likely), unit, "seasons-weighed", parts)
        scale = method(self.values(lambda one, _: one.scale), "", "seasons-weighed", differ)
        return {
            "yield_g.likely": self.where_known(likely.called("likely-brings")),
            "scale": self.where_known(scale.called("seasons-differ")),
        }

    # -- failures -------------------------------------------------------------------------

    def _fails(self) -> Figure:
        half = assumed(0.5, "", "others-count-half").called("half")
        sides = []
        for name, prior in (("failures", FAILED), ("seasons", FAILED_OF)):
            counted = self.values(lambda one, _, n=name: float(getattr(one, n)))  # type: ignore[misc]
            own = method(counted, "seasons", "seasons-counted", self._own)
            own = own.called(f"{name}-of-its-own")
            every = self.household[name].at(np.zeros(len(self._items), np.int64))
            others = at_least_none((every - own).called(f"{name}-of-others"), "no-others")
            others = others.called(f"{name}-of-others")
            before = assumed(float(prior), "seasons", "seen-before-any").called("seen-before-any")
            sides.append(
                total(own, (others * half).called(f"half-the-{name}"), before).called(name)
            )
        return self.where_known((sides[0] / sides[1]).called("fails"))


def by_size(
    sizes: Sequence[str | None], of: dict[str | None, Figure] | dict[str, Figure]
) -> Figure:
    """Return of each row the figure of its size.

    Parameters
    ----------
    sizes : sequence of str or None
        One of the keys of `of`, for each row.
    """
    keys = list(of)
    out: Figure = of[keys[0]]  # type: ignore[index]
    for key in keys[1:]:
        out = choose(np.array([size == key for size in sizes], bool), of[key], out)  # type: ignore[index]
    return out
