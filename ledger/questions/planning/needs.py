"""What a year takes of each crop, as figures: from wants through what is made to raw produce."""

from __future__ import annotations

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
    nothing,
    said,
    total,
)
from ledger.methods.yields import need_spread
from ledger.questions.costs.sources import Sources
from ledger.questions.planning.wants import LEVELS

if TYPE_CHECKING:
    from ledger.questions.planning.growth import Garden
    from ledger.questions.planning.recipes import Recipes
    from ledger.questions.planning.wants import Want, Wants

__all__ = ["Needs"]

_LIKELY = LEVELS.index("likely")


class Needs:
    """What is needed of crops, a row each.

    Parameters
    ----------
    items : list of int
        The crops.

    Attributes
    ----------
    of : dict of str to Figure
        By the name of the column; beside them `kept`, `made_g` and `spread`.
    """

    def __init__(self, wants: Wants, recipes: Recipes, garden: Garden, items: list[int]) -> None:
        self._wants, self._recipes, self._garden, self.items = wants, recipes, garden, items
        self._sources = wants.state.once(Sources)
        crops = np.array(items, np.int64)
        self._unit, self.name = self._sources.whole_of(crops), self._sources.name_of(crops)
        self.per = self._sources.weight(crops)
        self._weighed = ~np.isnan(self.per.values)
        self._own = wants.rows(items)
        pairs = recipes.rates.pairs(wants.items.tolist(), items)
        self._want, self._crop = np.nonzero(pairs >= 0)
        self._into = self._of_wants(pairs[self._want, self._crop])
        self._jars, self._in_jars = self._jars_of_wants()
        self.of: dict[str, Figure] = {**self._trimming(), "spread": self._spread()}
        self.of |= self._raw() | self._made()

    def products(self, row: int) -> list[tuple[Want, float]]:
        """Return what a crop goes into in the end, and whole units that takes; the largest first."""
        wants = list(self._wants.of.values())
        into = self._into[_LIKELY].values
        found = [
            (wants[int(self._want[at])], float(into[at]))
            for at in np.flatnonzero((self._crop == row) & (into > 0)).tolist()
        ]
        return sorted(found, key=lambda pair: (-pair[1], pair[0].item))

    def _of_wants(self, pair: Array) -> list[Figure]:
        """Return what each want takes of each crop, by level, in whole units."""
        self._take = [take.at(pair) for take in self._recipes.rates.take]
        return [
            self._for_item(whole, take)
            for whole, take in zip(self._wants.whole, self._take, strict=True)
        ]

    def _for_item(self, whole: Figure, take: Figure) -> Figure:
        """Return what so much of each want takes of each crop."""
        return (whole.at(self._want) * take).called(
            "for-item",
            name=lambda at: self.name(int(self._crop[at])),
            item=self._sources.name_of(self._wants.items[self._want]),
            unit=lambda at: self._unit(int(self._crop[at])),
        )

    def _jars_of_wants(self) -> tuple[Figure, Array]:
        """Return the jars of what each want takes, and which are put up in jars."""
        rates, item = self._recipes.rates, self._wants.items[self._want]
        made = np.array([rates.row.get(i, -1) for i in item.tolist()], np.int64)
        each = rates.per_jar.at(made)
        jars = self._wants.whole[_LIKELY].at(self._want) / each
        return jars.called(
            "jars-of", name=self._sources.name_of(item), unit="jars"
        ), each.values > 0

    def _among(self, *conditions: Array) -> Groups:
        crop = self._crop.copy()
        for one in conditions:
            crop[~one] = -1
        return Groups(crop, len(self.items), largest_first=True)

    # -- what is needed -------------------------------------------------------------------

    def _raw(self) -> dict[str, Figure]:
        out: dict[str, Figure] = {}
        for level, name in enumerate(LEVELS):
            made = self._among().sum(self._into[level], self._unit)
            fresh = self._weight(self._fresh(level, made).called("an-amount"))
            fresh = fresh.called("as-it-is", name=self.name)
            into = self._weight(made.called("in-all")).called("into-made", name=self.name)
            ready = total(fresh, into).called("ready-for-use", name=self.name)
            needed = (ready / self.of["kept"]).called("needed-as-picked", name=self.name)
            out[f"needed_g.{name}"] = known_where(self._weighed, needed, "no-weight-of-it", "g")
            if level == _LIKELY:
                out["fresh_wanted_g"], out["made_g"] = fresh, into
        return out

    def _weight(self, amount: Figure) -> Figure:
        return known_where(self._weighed, amount * self.per, "no-weight-of-it", "g")

    def _fresh(self, level: int, made: Figure) -> Figure:
        """Return what is wanted as it is; an aim for the crop itself counts what is put up in."""
        wants = [self._wants.of.get(item) for item in self.items]
        is_aimed = np.array([one is not None and one.source != "use" for one in wants], bool)
        own = self._wants.whole[level].at(self._own)
        rest = (own - made.called("of-that-put-up")).called("rest-of-it")
        rest = at_least_none(rest, "nothing-left")
        seed = self._wants.kept_for_seed(self.items).called("kept-for-seed", name=self.name)
        used = choose(self._own >= 0, total(own, seed), seed)
        return choose(is_aimed, rest, used)

    def _made(self) -> dict[str, Figure]:
        into, likely = self._into[_LIKELY], self._into[_LIKELY].values > 0
        in_jars = self._among(self._in_jars)
        has_jars = np.bincount(self._crop[self._in_jars & likely], minlength=len(self.items)) > 0
        jars = in_jars.sum(self._jars, "jars").called("all-jars-wanted")
        out = {"jars_wanted": known_where(has_jars, jars, "goes-into-no-jar", "jars")}
        for name, some in (("into_jars", in_jars), ("otherwise", self._among(~self._in_jars))):
            weight = self._weight(some.sum(into, self._unit).called("in-all"))
            out[f"{name}_g"] = weight.called(name, name=self.name)
        return out

    def _trimming(self) -> dict[str, Figure]:
        """Return the shares that trimming left, and took, of all that was picked."""
        picked, off = self._picked("whole"), self._picked("trimmed")
        some = (picked.values > 0) & (off.values < picked.values)
        left = ((picked - off).called("left-after-trimming") / picked).called("kept")
        whole, none = (assumed(n, "0 to 1", "nothing-trimmed") for n in (1.0, 0.0))
        return {
            "kept": choose(some, left, whole.called("nothing-picked")),
            "trimmed_share": choose(
                some, (off / picked).called("trimmed_share"), none.called("nothing-picked")
            ),
        }

    def _picked(self, column: str) -> Figure:
        picked = self._garden.field.picked
        by = np.full(picked["ev"].size, -1, np.int64)
        for row, item in enumerate(self.items):
            by[self._garden.trim_rows(item)] = row
        each = said(picked[column], self._sources.whole_of(picked["strand"]), picked["ev"])
        return Groups(by, len(self.items)).sum(each, self._unit).called(f"all-{column}")

    # -- how needs differ -----------------------------------------------------------------

    def _spread(self) -> Figure:
        """Return how far a further year's need may lie from the likely one, in logs."""
        of = self._among(self._into[_LIKELY].values > 0)
        years = []
        for back in range(self._wants.years):
            used = self._wants.in_year(back)
            made = of.sum(self._for_item(used, self._take[_LIKELY]), self._unit)
            own = choose(self._own >= 0, used.at(self._own), nothing(""))
            years.append(
                total(made, own).called("year-back", name=self.name, n=back + 1, unit=self._unit)
            )
        by_use = np.array([want.source == "use" for want in self._wants.of.values()], bool)
        crops = np.r_[self._crop[(of.by >= 0) & by_use[self._want]], self._own_by_use(by_use)]
        differs = np.bincount(crops, minlength=len(self.items)) > 0

        def values() -> Array:
            needs = np.array([year.values for year in years]).T.tolist()
            return np.array([need_spread(row) for row in needs], np.float64)

        spread = method(values, "", "needs-differ", years)
        return choose(
            differs, spread, assumed(0.0, "", "aims-are-the-same").called("all-is-aimed-at")
        ).called("spread")

    def _own_by_use(self, by_use: Array) -> Array:
        return (
            np.flatnonzero((self._own >= 0) & by_use[self._own]) if by_use.size else self._own[:0]
        )
