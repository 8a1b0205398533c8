"""The plan of a season: from wants through recipes to raw produce, plants and beds."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds.methods import METHODS
from ledger.methods.beds import Bed, Crop
from ledger.methods.yields import need_spread
from ledger.questions.ahead.plain import SURELY
from ledger.questions.garden.field import crops_of
from ledger.questions.planning.asked import AIMS, Asked
from ledger.questions.planning.beds import Fitted, fit
from ledger.questions.planning.growth import SIZES, Garden, Growth
from ledger.questions.planning.recipes import Recipes
from ledger.questions.planning.wants import LEVELS, Want, Wants
from ledger.reference.planting import plant_family, published_range
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["KEEPING", "CropPlan", "Plan"]

KEEPING = frozenset(METHODS) - {"cook"}
"""Ways of putting up that keep food; what is only cooked is made as it is eaten."""

_PUT_UP = frozenset(
    ("frozen", "dried", "canned", "pickled", "fermented", "smoked", "candied", "salted", "stewed")
)
"""Words that make of a crop's name the name of something put up."""

_LIKELY = LEVELS.index("likely")
Three = tuple[float | None, float | None, float | None]


@dataclass
class CropPlan:
    """One crop of the plan; weights in grams, a tuple of three being low, likely and high.

    Attributes
    ----------
    item, name
    fresh, made : tuple of three
        Eaten or given away as it is (and kept for seed), and what goes into what is made; ready
        for use, so without what is trimmed off. None where no weight of the crop is known.
    kept : float
        Share of what is picked that is left after trimming.
    needed : tuple of three
        As picked.
    products : list of (Want, float)
        What it goes into in the end, and how many whole units of the crop that takes.
    jars : float or None
        Jars of all those that are put up in jars.
    target : Want or None
        Where the household aims at an amount of the crop itself.
    growth : Growth
    likely, nine : int, float or None
        Plants (or metres of row, or square metres) for an even chance, and nine years in ten.
    spread : float
        Of the log of what a further year needs; 0 where all of it is aimed at.
    fitted : dict of str to float or None
        By bed; None where it could not be fitted.
    """

    item: int
    name: str
    fresh: Three
    made: Three
    kept: float
    needed: Three
    products: list[tuple[Want, float]]
    jars: float | None
    jars_g: float | None
    target: Want | None
    growth: Growth
    likely: float | None = None
    nine: float | None = None
    spread: float = 0.0
    fitted: dict[str, float] | None = None

    @property
    def wanted(self) -> float | None:
        """Grams needed, as picked, likely."""
        return self.needed[_LIKELY]

    @property
    def planned(self) -> float | None:
        """Plants that the beds get, else that are wanted; None where not known."""
        if self.growth.standing is not None and self.growth.size is not None:
            return float(getattr(self.growth.standing, self.growth.size) or 0) or None
        if self.fitted is not None:
            return sum(self.fitted.values())
        if self.growth.size is None and self.growth.ahead is not None:
            return 1.0
        return self.likely

    @property
    def unit(self) -> str:
        """What a yield is of, in words."""
        return SIZES.get(self.growth.size or "", "whole season")

    @property
    def placed_plants(self) -> int | None:
        """How many plants the beds get, or stand already."""
        placed = self.fitted is not None or self.growth.standing is not None
        if self.growth.size != "plants" or not placed or self.planned is None:
            return None
        return round(self.planned)

    @property
    def brings(self) -> float | None:
        """Grams that these likely bring."""
        if self.planned is None or self.growth.ahead is None:
            return None
        return self.planned * self.growth.ahead.likely

    @property
    def short(self) -> float | None:
        """Grams by which that is less than needed."""
        if self.wanted is None or self.brings is None:
            return None
        gap = self.wanted - self.brings
        return gap if gap > 1e-9 * self.wanted else 0.0

    @property
    def chance_short(self) -> float | None:
        """Chance of a season that brings less than needed from the plants planned."""
        ahead = self.growth.ahead
        if not self.wanted or not self.planned or ahead is None:
            return None
        chance = ahead.chance_short(self.wanted, self.planned, self.spread)
        return min(max(chance, SURELY), 1 - SURELY)


@dataclass
class Plan:
    """Everything that next-season says, worked out once a question."""

    state: State
    asked: Asked
    garden: Garden = field(init=False)
    crops: list[CropPlan] = field(init=False)

    def __post_init__(self) -> None:
        state = self.state
        self.garden = Garden(crops_of(state))
        self.wants = Wants(state, self.asked.wants)
        grown = self._grown() | self._aimed_at()
        self.garden.crops = grown
        self.recipes = Recipes(state, grown)
        self.crops = [self._crop(item) for item in sorted(grown)]
        self.crops = [c for c in self.crops if c.wanted is None or c.wanted > 0 or self._stands(c)]
        self.crops.sort(key=lambda c: (c.wanted is None, -(c.wanted or 0.0), c.name))
        self.beds = self._beds()
        self.fitted = self._fit()

    def _grown(self) -> set[int]:
        """Return what grows: planted or picked, but not what animals give."""
        from ledger.questions.food.feed import ANIMAL_GROUPS
        from ledger.reference import foods

        facts = self.state.facts
        fed = {facts.find(one.feeds) for one in facts.facts if one.feeds}
        planted = {p.crop for plots in self.garden.plots.values() for q in plots for p in q.plantings}  # fmt: skip
        out = set()
        for item in self.garden.plots:
            food = facts.facts[item].food
            row = foods.by_id(food) if food else None
            animal = item in fed or (row is not None and row.group in ANIMAL_GROUPS)
            if item in planted or not animal:
                out.add(item)
        return out

    def _aimed_at(self) -> set[int]:
        """Return crops that never came in and are aimed at, where a yield by row is published."""
        facts = self.state.facts
        came = set(self.state.lots["item"].tolist())
        made = {facts.find(body["makes"]) for _, body in self.state.bodies("recipe_written")}
        return {
            item
            for item, want in self.wants.of.items()
            if want.source != "use" and item not in came and item not in made
            and SORTS[facts.sort[item]] == "food"
            and not any(word in _PUT_UP for word in facts.names[item].casefold().split())
            and published_range(facts.names[item], row_m=1.0) is not None
        }  # fmt: skip

    def _stands(self, crop: CropPlan) -> bool:
        """Whether a crop that nobody wants was grown in the season before the planned one."""
        plots = self.garden.plots.get(crop.item)
        return plots is not None and plots[-1].season >= self.garden.next - 1

    # -- from wants to raw produce -------------------------------------------------------

    def _crop(self, item: int) -> CropPlan:
        per = self.state.facts.grams_per_whole(item)
        picked, trimmed = self.garden.trimmed(item)
        kept = (picked - trimmed) / picked if picked and trimmed < picked else 1.0
        target = self.wants.of.get(item)
        target = target if target is not None and target.source != "use" else None
        fresh, made = [], []
        for level in range(len(LEVELS)):
            into = sum(whole for _, whole in self.into(item, level))
            made.append(into)
            fresh.append(self._fresh(item, level, into))
        products = self.into(item, _LIKELY)
        jars = [self.jars_of(want) for want, _ in products]
        in_jars = [whole for (_, whole), many in zip(products, jars, strict=True) if many is not None]  # fmt: skip
        needed = [(f + m) / kept for f, m in zip(fresh, made, strict=True)]
        out = CropPlan(
            item, self.state.facts.names[item], _grams(fresh, per), _grams(made, per), kept,
            _grams(needed, per), products, sum(m for m in jars if m is not None) if in_jars else None,
            None if per is None else sum(in_jars) * per, target, self.garden.growth(item),
        )  # fmt: skip
        out.spread = self._need_spread(item)
        self._plants(out)
        return out

    def _need_spread(self, item: int) -> float:
        """Return how far a further year's need of a crop may lie from the likely one, in logs."""
        own = self.wants.of.get(item)
        takes = [(want, self.recipes.take(want.item, item, _LIKELY)) for want, _ in self.into(item, _LIKELY)]  # fmt: skip
        takes += [] if own is None else [(own, 1.0)]
        if not any(want.source == "use" for want, _ in takes):
            return 0.0
        years = range(self.wants.years)
        return need_spread([sum(part * self._in_year(want, back) for want, part in takes) for back in years])  # fmt: skip

    def _in_year(self, want: Want, back: int) -> float:
        if want.source != "use":
            return want.whole[_LIKELY]
        return self.wants.in_year(want.item, back)

    def _fresh(self, item: int, level: int, into: float) -> float:
        """Return what is wanted as it is; an aim for the crop itself counts what is put up in."""
        want = self.wants.of.get(item)
        if want is None:
            return float(self.wants.seed[item])
        if want.source == "use":
            return want.whole[level] + float(self.wants.seed[item])
        return max(0.0, want.whole[level] - into)

    def into(self, item: int, level: int) -> list[tuple[Want, float]]:
        """Return what a year's wants of made things take of a crop (whole units), largest first."""
        if item not in self.recipes.place:
            return []
        takes = self.recipes.takes(level)[:, self.recipes.place[item]]
        found = [
            (want, want.whole[level] * float(takes[self.recipes.place[want.item]]))
            for want in self.wants.of.values()
            if want.item in self.recipes.place and want.item != item
        ]
        return sorted(
            (pair for pair in found if pair[1] > 0), key=lambda pair: (-pair[1], pair[0].item)
        )

    def jars_of(self, want: Want) -> float | None:
        """Return how many jars a want is; None where it is not put up in jars."""
        made = self.recipes.made.get(want.item)
        return None if made is None or not made.per_jar else want.whole[_LIKELY] / made.per_jar

    # -- from raw produce to plants and beds ---------------------------------------------

    def _plants(self, crop: CropPlan) -> None:
        ahead, wanted = crop.growth.ahead, crop.wanted
        if ahead is None or wanted is None or crop.growth.size is None:
            return
        crop.likely = ahead.units(wanted)
        crop.nine = ahead.units(wanted, nine=True, spread=crop.spread)
        if crop.growth.size == "plants":
            crop.likely, crop.nine = (math.ceil(n - 1e-9 * n) for n in (crop.likely, crop.nine))

    def _beds(self) -> dict[str, float]:
        area, _, _ = self.garden.beds
        out = dict(area)
        spelled = {name.casefold(): name for name in [*area, *self.garden.beds[2]]}
        for name, ground in self.asked.beds.items():
            out[spelled.get(name.casefold(), name)] = ground
        for crop in self.crops:  # trees and perennials stay where they are
            for planting in crop.growth.standing.plantings if crop.growth.standing else ():
                bed = self.bed_name(planting.pair[1])
                if bed in out and planting.area_m2:
                    out[bed] = max(0.0, out[bed] - planting.area_m2)
        return {bed: ground for bed, ground in out.items() if ground > 0}

    def bed_name(self, code: int) -> str | None:
        """Return the bed of a text's number; None for -1."""
        return None if code < 0 else self.state.journal.garden.texts[code]

    def _fit(self) -> Fitted | None:
        if not self.beds:
            return None
        ready = [c for c in self.crops if self.can_fit(c)]
        crops = [
            Crop(
                c.name, c.wanted, c.growth.ahead.likely, c.growth.space_m2,  # type: ignore[union-attr, arg-type]
                c.growth.size == "plants", self.value_of(c.item) or 0.0,
                self.state.facts.kcal_per_gram(c.item) or 0.0, self.family(c.item),
            )
            for c in ready
        ]  # fmt: skip
        beds = [
            Bed(name, ground, frozenset(self.family(c) for c in self.garden.grew(name)))
            for name, ground in self.beds.items()
        ]
        most = {c.name: c.likely or 0.0 for c in ready}
        out = fit(crops, beds, most, aim=AIMS[self.asked.aim], rotation=self.asked.rotate)
        for crop in ready:
            crop.fitted = out.of(crop.name)
        return out

    def can_fit(self, crop: CropPlan) -> bool:
        """Whether all is known that a place in a bed needs."""
        return bool(
            crop.wanted and crop.likely and crop.growth.ahead is not None
            and crop.growth.space_m2 and crop.growth.standing is None
        )  # fmt: skip

    def family(self, item: int) -> str:
        """Return a crop's plant family; its own name where that is not known."""
        name = self.state.facts.names[item]
        return plant_family(name) or name

    @cached_property
    def _prices(self) -> dict[int, float]:
        items = np.array([c.item for c in self.crops], np.int64)
        days = np.full(items.size, self.state.as_of_day, np.int64)
        price, _, _ = self.state.costs.prices.of(items, days)
        return dict(zip(items.tolist(), price.tolist(), strict=True))

    def value_of(self, item: int) -> float | None:
        """Return the shop's price of one gram today, or None."""
        price, per = self._prices[item], self.state.facts.grams_per_whole(item)
        return None if np.isnan(price) or not per else price / per


def _grams(whole: list[float], per: float | None) -> Three:
    low, likely, high = (None if per is None else one * per for one in whole)
    return low, likely, high
