"""Why a figure of next-season says so: from plants back through pounds and jars to events."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.methods.yields import FAILED, FAILED_OF
from ledger.projections.base import Node
from ledger.questions.next_season.preserving_why import why_week
from ledger.questions.next_season.trees import Trees
from ledger.questions.next_season.words import Words
from ledger.questions.planning.asked import from_address
from ledger.questions.planning.plan import CropPlan, Plan
from ledger.questions.shared.arithmetic import difference, product, quotient, total
from ledger.questions.shared.common import event_node, whole_unit
from ledger.questions.shared.opening import check_figure

if TYPE_CHECKING:
    from ledger.questions.planning.growth import SeasonYield
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of one crop, or of one week's putting up, as a tree.

    Parameters
    ----------
    key : str
        ``<crop>``, or ``week=<Monday>/<what is made>``, with what was asked otherwise behind it
        (`Asked.address`).
    field : str, optional
        A column of the answer; default: the likely number of plants, else what is needed.

    Raises
    ------
    NotFound
        When there is no such record, or no such figure of it.
    """
    name, *more = key.split("/")
    if name.startswith("week="):
        return why_week(state, name.removeprefix("week="), more, field)
    plan = Plan(state, from_address(state, more))
    crop = next((c for c in plan.crops if c.name == unquote(name)), None)
    if crop is None:
        raise NotFound(
            "address", f"no crop {unquote(name)!r} is planned",
            "Take an address from `croftbook show next-season --json`",
        )  # fmt: skip
    figures = _Figures(plan, crop).all()
    default = "plants.likely" if crop.likely and crop.growth.size == "plants" else "needed_g.likely"
    short = {"needed_g": "needed_g.likely", "plants": "plants.likely"}
    chosen = default if field is None else short.get(field, field)
    check_figure("next-season", chosen, figures)
    return figures[chosen]()


class _Figures:
    """The figures of one crop."""

    def __init__(self, plan: Plan, crop: CropPlan) -> None:
        self.plan, self.crop, self.state = plan, crop, plan.state
        self.trees, self.words = Trees(plan), Words(plan)
        self.unit = crop.unit
        self.whole_unit = whole_unit(plan.state, crop.item)

    def all(self) -> dict[str, Callable[[], Node]]:
        """Return, by column, how each figure is worked out."""
        crop, trees = self.crop, self.trees
        return {
            "needed_g.likely": lambda: self._needed(1),
            "needed_g.low": lambda: self._needed(0),
            "needed_g.high": lambda: self._needed(2),
            "jars_wanted": lambda: trees.jars(crop),
            "fresh_wanted_g": lambda: trees.fresh(crop, 1),
            "into_jars_g": lambda: trees.made(crop, 1, jars=True),
            "otherwise_g": lambda: trees.made(crop, 1, jars=False),
            "trimmed_share": self._trimmed,
            "yield_g.likely": self._yield,
            "yield_g.low": self._low_yield,
            "plants.likely": lambda: self._plants(crop.likely, self._yield()),
            "plants.nine_in_ten": lambda: self._plants(crop.nine, self._low_yield()),
            "plants.planned": self._planned,
            "row_m": self._row,
            "area_m2": self._area,
            "short_g": self._short,
            "fails": self._fails,
            "chance_short": self._chance,
        }

    def _needed(self, level: int) -> Node:
        if self.crop.needed[level] is None:
            return Node("no weight of it is known", None, "g")
        parts = [self.trees.fresh(self.crop, level), self.trees.made(self.crop, level)]
        ready = total(f"{self.crop.name}, ready for use", "g", *parts)
        return quotient(f"{self.crop.name} needed, as picked", "g", ready, self._kept())

    def _kept(self) -> Node:
        picked, trimmed = self.plan.garden.trimmed(self.crop.item)
        if not picked or trimmed >= picked:
            return Node("share left after trimming: nothing was picked yet", 1.0, "0 to 1")
        all_, off = self._picked_lines()
        return quotient("share left after trimming", "0 to 1", difference("left", self.whole_unit, all_, off), all_)  # fmt: skip

    def _picked_lines(self) -> tuple[Node, Node]:
        """Return what was picked and what was trimmed off, event by event."""
        picked = self.plan.garden.field.picked
        rows = self.plan.garden.trim_rows(self.crop.item).tolist()
        nodes = []
        for name, label in (("whole", "picked in all seasons"), ("trimmed", "trimmed off")):
            leaves = [
                event_node(self.state, int(picked["ev"][row]), "", float(picked[name][row]), self.whole_unit)
                for row in rows if picked[name][row]
            ]  # fmt: skip
            nodes.append(total(label, self.whole_unit, *leaves))
        return nodes[0], nodes[1]

    def _trimmed(self) -> Node:
        picked, trimmed = self.plan.garden.trimmed(self.crop.item)
        if not picked or trimmed >= picked:
            return Node("nothing was picked yet", 0.0, "0 to 1")
        all_, off = self._picked_lines()
        return quotient("share trimmed off", "0 to 1", off, all_)

    # -- yields --------------------------------------------------------------------------

    def _yield(self) -> Node:
        """Return what one plant likely brings: own seasons and the published yield, weighed in logs."""
        growth, ahead = self.crop.growth, self.crop.growth.ahead
        if ahead is None:
            return Node("yield not known", None, "g")
        from ledger.questions.shared.arithmetic import power

        good = [one for one in growth.seasons if one.grams > 0]
        if growth.published is None and len(good) == 1:
            return self._season(good[0])
        parts = []
        if growth.published is not None:
            source = "; ".join(str(one) for one in growth.published.sources)
            middle = Node(f"published yield, the middle of its figures ({source})", growth.published.middle_g, "g")  # fmt: skip
            share = Node("its weight", 1 - ahead.weight, "")
            offset = math.exp((1 - ahead.weight) * self.plan.garden.household.offset)
            parts = [power("the published yield, its part", "", middle, share),
                     Node("the household's level against published yields, of all its crops, its part", offset, "times")]  # fmt: skip
        if good:
            share = Node("one season's weight", ahead.weight / len(good), "")
            parts += [
                power(f"season {one.season}, its part", "", self._season(one), share)
                for one in good
            ]
        return product(f"a {self.unit} likely brings (weighed in logs)", "g", *parts)

    def _season(self, one: SeasonYield) -> Node:
        picked = self.plan.garden.field.picked
        leaves = [
            event_node(
                self.state, int(picked["ev"][row]), "",
                float(picked["whole"][row] * picked["grams"][row]), "g",
            )
            for row in one.plot.rows.tolist()
            if picked["grams"][row] == picked["grams"][row]  # one that has a weight
        ]  # fmt: skip
        grams = total(f"picked in season {one.season}", "g", *leaves)
        size = self.crop.growth.size
        if size is None:
            return grams
        planted = [
            event_node(self.state, p.ev, "", float(getattr(p, size)), self.unit)
            for p in one.plot.plantings
        ]
        many = total("planted", self.unit, *planted) if planted else Node("counted when picking", one.size, self.unit)  # fmt: skip
        return quotient(f"season {one.season}: a {self.unit} brought", "g", grams, many)

    def _low_yield(self) -> Node:
        ahead = self.crop.growth.ahead
        if ahead is None:
            return Node("yield not known", None, "g")
        low = ahead.missed_once_in_ten(self.crop.spread)
        how = f"Student's t with {ahead.freedom:g} degrees of freedom, spread {ahead.scale:.2f} in logs; it fails {ahead.failure:.0%} of seasons".replace("%", " %")  # fmt: skip
        if self.crop.spread:
            how += f"; needs differ by {self.crop.spread:.2f} in logs"
        share = Node(f"of that, what nine years in ten still bring ({how})", low / ahead.likely, "0 to 1")  # fmt: skip
        return product(f"a {self.unit} brings in nine years of ten", "g", self._yield(), share)

    # -- plants and ground ---------------------------------------------------------------

    def _plants(self, many: float | None, each: Node) -> Node:
        if self.crop.growth.size != "plants" or many is None:
            return Node("not known how many plants", None, "plants")
        plants = quotient("needed by yield", "plants", self._needed(1), each) if many else Node("none needed", 0.0, "plants")  # fmt: skip
        up = Node("up to whole plants", many - float(plants.value or 0), "plants")
        return total(f"{self.crop.name} plants", "plants", plants, up)

    def _units(self) -> Node:
        """Return the likely number in the crop's own unit."""
        crop = self.crop
        if crop.likely is None:
            return Node("not known how much to plant", None, self.unit)
        if crop.growth.size == "plants":
            return self._plants(crop.likely, self._yield())
        return quotient(f"{self.unit}s", self.unit, self._needed(1), self._yield())

    def _per(self, other: str, unit: str) -> Node:
        """Return how much row or ground one plant took, over the plantings that say both."""
        size = self.crop.growth.size or ""
        garden = self.plan.garden
        known = garden.both(garden.plots[self.crop.item], size, other)
        sides = [
            total(
                label, of, *(event_node(self.state, p.ev, "", float(getattr(p, name)), of) for p in known)
            )
            for label, of, name in (("planted on", unit, other), ("planted", self.unit, size))
        ]  # fmt: skip
        return quotient(f"{unit} for one {self.unit}", unit, *sides)

    def _area(self) -> Node:
        if self.words.area(self.crop) is None:
            return Node("no ground known", None, "m2")
        if self.crop.growth.size == "area_m2":
            return self._units()
        return product("ground", "m2", self._units(), self._per("area_m2", "m2"))

    def _row(self) -> Node:
        if self.words.row(self.crop) is None:
            return Node("no row known", None, "m")
        if self.crop.growth.size == "row_m":
            return self._units()
        return product("row", "m", self._units(), self._per("row_m", "m"))

    def _planned(self) -> Node:
        if self.crop.placed_plants is None:
            return Node("not fitted into beds", None, "plants")
        return self._placed()

    def _placed(self) -> Node:
        """Return how much the beds get (found by the programme), or what stands already."""
        crop = self.crop
        if crop.growth.standing is not None and crop.growth.size is not None:
            planted = crop.growth.standing.plantings
            leaves = [
                event_node(
                    self.state, p.ev, "", float(getattr(p, crop.growth.size) or 0), self.unit
                )
                for p in planted
            ]
            return total(f"{crop.name} standing", self.unit, *leaves)
        if crop.fitted is not None:
            leaves = [Node(f"in {bed}, by the plan that brings most", many, self.unit) for bed, many in crop.fitted.items()]  # fmt: skip
            return total(f"{crop.name} in the beds", self.unit, *leaves)
        if crop.growth.size is None:
            return Node("one season", 1.0, self.unit)
        return self._units()

    def _short(self) -> Node:
        if self.crop.short is None:
            return Node("not known", None, "g")
        brings = product("what is planted likely brings", "g", self._placed(), self._yield())
        if not self.crop.short:
            return Node("nothing short", 0.0, "g")
        return difference("short", "g", self._needed(1), brings)

    def _fails(self) -> Node:
        ahead, household = self.crop.growth.ahead, self.plan.garden.household
        if ahead is None:
            return Node("yield not known", None, "0 to 1")
        sides = []
        for label, own, every, prior in (
            ("failed seasons", ahead.failures, household.failures, FAILED),
            ("seasons", ahead.seasons, household.seasons, float(FAILED_OF)),
        ):
            parts = [Node(f"{label} of its own", float(own), "seasons"),
                     Node(f"half the {label} of the other crops", max(every - own, 0) / 2, "seasons"),
                     Node("taken as seen before any", prior, "seasons")]  # fmt: skip
            sides.append(total(label, "seasons", *parts))
        return quotient("chance that it fails outright", "0 to 1", *sides)

    def _chance(self) -> Node:
        chance = self.crop.chance_short
        if chance is None or self.crop.growth.ahead is None:
            return Node("how far seasons differ is not known", None, "0 to 1")
        label = f"chance that {self.words.units(self.crop, self.crop.planned or 0)} bring less than {self.words.weight(self.crop.wanted)} ({self.crop.growth.source})"  # fmt: skip
        return Node(label, chance, "0 to 1")
