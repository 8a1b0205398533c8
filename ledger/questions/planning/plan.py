"""The plan of a season: from wants through recipes to raw produce, plants and beds."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote

from ledger.figures import Figure
from ledger.kinds.methods import METHODS
from ledger.methods.beds import Bed, Crop
from ledger.questions.garden.field import crops_of
from ledger.questions.planning.asked import AIMS, Asked
from ledger.questions.planning.beds import Fitted, fit
from ledger.questions.planning.growth import SIZES, Garden, Growth
from ledger.questions.planning.needs import Needs
from ledger.questions.planning.places import Grounds, placed, wanted, worth
from ledger.questions.planning.recipes import Recipes
from ledger.questions.planning.wants import LEVELS, Want, Wants
from ledger.questions.planning.yields import Yields
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


@dataclass
class CropPlan:
    """One crop of the plan: a row of its figures.

    Attributes
    ----------
    item, name
    row : int
        Of the plan's figures, `known`.
    products : list of (Want, float)
        What it goes into in the end, and how many whole units of the crop that takes.
    target : Want or None
        Where the household aims at an amount of the crop itself.
    growth : Growth
    fitted : dict of str to float or None
        By bed; None where it could not be fitted.
    """

    item: int
    name: str
    row: int
    known: dict[str, Figure]
    products: list[tuple[Want, float]]
    target: Want | None
    growth: Growth
    fitted: dict[str, float] | None = None

    def value(self, figure: str) -> float | None:
        """Return a figure of it; None where it cannot be said, or was not asked about."""
        value = self.known[figure].value(self.row) if figure in self.known else math.nan
        return None if math.isnan(value) else value

    @property
    def wanted(self) -> float | None:
        """Grams needed, as picked, likely."""
        return self.value("needed_g.likely")

    @property
    def kept(self) -> float:
        """Share of what is picked that is left after trimming."""
        return self.known["kept"].value(self.row)

    @property
    def likely(self) -> float | None:
        """Plants (or metres of row, or square metres) for an even chance."""
        return self._many("likely")

    @property
    def nine(self) -> float | None:
        """The same for nine years in ten."""
        return self._many("nine_in_ten")

    @property
    def spread(self) -> float:
        """Of the log of what a further year needs; 0 where all of it is aimed at."""
        return self.known["spread"].value(self.row)

    @property
    def planned(self) -> float | None:
        """Plants that the beds get, else that are wanted; None where not known."""
        return self.value("planned")

    @property
    def unit(self) -> str:
        """What a yield is of, in words."""
        return SIZES.get(self.growth.size or "", "whole season")

    @property
    def placed_plants(self) -> int | None:
        """How many plants the beds get, or stand already."""
        many = self.value("plants.planned")
        return None if many is None else round(many)

    @property
    def brings(self) -> float | None:
        """Grams that these likely bring."""
        return self.value("brings")

    @property
    def short(self) -> float | None:
        """Grams by which that is less than needed."""
        return self.value("short_g")

    @property
    def chance_short(self) -> float | None:
        """Chance of a season that brings less than needed from the plants planned."""
        return self.value("chance_short")

    def _many(self, name: str) -> float | None:
        many = self.value(name)
        return many if many is None or self.growth.size != "plants" else int(many)


class Plan:
    """Everything that next-season says, worked out once a question.

    Attributes
    ----------
    crops : list of CropPlan
        What is needed most first.
    known : dict of str to Figure
        By the name of the column, a row a crop that grows or is aimed at.
    beds : dict of str to float
        Their ground, in square metres.
    """

    def __init__(self, state: State, asked: Asked) -> None:
        self.state, self.asked = state, asked
        self.garden = Garden(crops_of(state))
        self.wants = Wants(state, asked.wants)
        grown = self._grown() | self._aimed_at()
        self.garden.crops = grown
        self.recipes = Recipes(state, grown)
        items = sorted(grown)
        self.needs = Needs(self.wants, self.recipes, self.garden, items)
        self.yields = Yields(self.garden, items, self.needs.name)
        self.known = {**self.needs.of, **self.yields.of}
        self.known |= wanted(self) | worth(self, items, self.needs.per)
        every = [self._crop(row, item) for row, item in enumerate(items)]
        self.crops = [c for c in every if c.wanted is None or c.wanted > 0 or self._stands(c)]
        self.crops.sort(key=lambda c: (c.wanted is None, -(c.wanted or 0.0), c.name))
        self.grounds = Grounds(self)
        areas = zip(self.grounds.beds, self.grounds.of.values.tolist(), strict=True)
        self.beds = {bed: ground for bed, ground in areas if ground > 0}
        self.fitted = self._fit()
        self.known |= placed(self, every)

    def address(self, crop: str) -> str:
        """Return the address of a crop's figures."""
        return self.address_of(quote(crop, safe=" "))

    def line(self, name: str) -> Figure:
        """Return a figure of the crops as one line of a tree, with its address."""
        return self.known[name].folds(lambda row: (self.address(self.needs.name(row)), name))

    def address_of(self, *parts: str) -> str:
        """Return the address of something of the plan, with what was asked otherwise."""
        return "/".join(filter(None, ("next-season", *parts, self.asked.address)))

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

    # -- crops and beds ------------------------------------------------------------------

    def _crop(self, row: int, item: int) -> CropPlan:
        own = self.wants.of.get(item)
        target = own if own is not None and own.source != "use" else None
        name, products = self.state.facts.names[item], self.needs.products(row)
        return CropPlan(item, name, row, self.known, products, target, self.yields.growths[row])

    def jars_of(self, want: Want) -> float | None:
        """Return how many jars a want is; None where it is not put up in jars."""
        made = self.recipes.made.get(want.item)
        return None if made is None or not made.per_jar else want.whole[_LIKELY] / made.per_jar

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
                c.growth.size == "plants", c.value("value") or 0.0, c.value("energy") or 0.0,
                self.family(c.item),
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
