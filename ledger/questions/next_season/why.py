"""Why a figure of next-season says so: from plants back through pounds and jars to events."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import TYPE_CHECKING
from urllib.parse import unquote

from ledger.errors import NotFound
from ledger.messages import measured, sentence
from ledger.messages.message import Parameter
from ledger.messages.units import amount
from ledger.messages.units import unit as unit_name
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


_FAILED = ("why-failed-seasons", "why-failed-of-its-own", "why-failed-of-others")
_SEASONS = ("why-seasons", "why-seasons-of-its-own", "why-seasons-of-others")
_SOURCES = {
    "own seasons": "why-by-own-seasons",
    "published yields": "why-by-published",
    "own seasons and published yields": "why-by-both",
}


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
            return Node(sentence("why-no-weight-known"), None, "g")
        parts = [self.trees.fresh(self.crop, level), self.trees.made(self.crop, level)]
        ready = total(sentence("why-ready-use", name=self.crop.name), "g", *parts)
        return quotient(
            sentence("why-needed-picked", name=self.crop.name), "g", ready, self._kept()
        )

    def _kept(self) -> Node:
        picked, trimmed = self.plan.garden.trimmed(self.crop.item)
        if not picked or trimmed >= picked:
            return Node(sentence("why-share-left-after-trimming-nothing"), 1.0, "0 to 1")
        all_, off = self._picked_lines()
        return quotient(sentence("why-share-left-after-trimming"), "0 to 1", difference(sentence("why-left"), self.whole_unit, all_, off), all_)  # fmt: skip

    def _picked_lines(self) -> tuple[Node, Node]:
        """Return what was picked and what was trimmed off, event by event."""
        picked = self.plan.garden.field.picked
        rows = self.plan.garden.trim_rows(self.crop.item).tolist()
        nodes = []
        for name, label in (
            ("whole", sentence("why-picked-all-seasons")),
            ("trimmed", sentence("why-trimmed-off")),
        ):
            leaves = [
                event_node(self.state, int(picked["ev"][row]), "", float(picked[name][row]), self.whole_unit)
                for row in rows if picked[name][row]
            ]  # fmt: skip
            nodes.append(total(label, self.whole_unit, *leaves))
        return nodes[0], nodes[1]

    def _trimmed(self) -> Node:
        picked, trimmed = self.plan.garden.trimmed(self.crop.item)
        if not picked or trimmed >= picked:
            return Node(sentence("why-nothing-picked-yet"), 0.0, "0 to 1")
        all_, off = self._picked_lines()
        return quotient(sentence("why-share-trimmed-off"), "0 to 1", off, all_)

    # -- yields --------------------------------------------------------------------------

    def _yield(self) -> Node:
        """Return what one plant likely brings: own seasons and the published yield, weighed in logs."""
        growth, ahead = self.crop.growth, self.crop.growth.ahead
        if ahead is None:
            return Node(sentence("why-yield-not-known"), None, "g")
        from ledger.questions.shared.arithmetic import power

        good = [one for one in growth.seasons if one.grams > 0]
        if growth.published is None and len(good) == 1:
            return self._season(good[0])
        parts = []
        if growth.published is not None:
            source = "; ".join(str(one) for one in growth.published.sources)
            middle = Node(sentence("why-published-yield-middle-figures", source=source), growth.published.middle_g, "g")  # fmt: skip
            share = Node(sentence("why-its-log-weight"), 1 - ahead.weight, "")
            offset = math.exp((1 - ahead.weight) * self.plan.garden.household.offset)
            parts = [power(sentence("why-published-yield-part"), "", middle, share),
                     Node(sentence("why-household-level-against-published-yields"), offset, "times")]  # fmt: skip
        if good:
            share = Node(sentence("why-one-season-weight"), ahead.weight / len(good), "")
            parts += [
                power(
                    sentence("why-season-its-part", season=int(one.season)),
                    "",
                    self._season(one),
                    share,
                )
                for one in good
            ]
        return product(
            sentence("why-likely-brings-weighed-logs", unit=unit_name(self.unit)), "g", *parts
        )

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
        grams = total(sentence("why-picked-season", season=int(one.season)), "g", *leaves)
        size = self.crop.growth.size
        if size is None:
            return grams
        planted = [
            event_node(self.state, p.ev, "", float(getattr(p, size)), self.unit)
            for p in one.plot.plantings
        ]
        many = total(sentence("why-planted"), self.unit, *planted) if planted else Node(sentence("why-counted-when-picking"), one.size, self.unit)  # fmt: skip
        return quotient(
            sentence("why-season-brought", season=int(one.season), unit=unit_name(self.unit)),
            "g",
            grams,
            many,
        )

    def _low_yield(self) -> Node:
        ahead = self.crop.growth.ahead
        if ahead is None:
            return Node(sentence("why-yield-not-known"), None, "g")
        low = ahead.missed_once_in_ten(self.crop.spread)
        about: dict[str, Parameter] = {
            "n": ahead.freedom,
            "n2": measured(f"{ahead.scale:.2f}"),
            "n3": round(100 * ahead.failure),
        }
        if self.crop.spread:
            needs = measured(f"{self.crop.spread:.2f}")
            label = sentence("why-nine-in-ten-and-needs", **about, n4=needs)
        else:
            label = sentence("why-nine-in-ten", **about)
        share = Node(label, low / ahead.likely, "0 to 1")
        return product(
            sentence("why-brings-nine-years-ten", unit=unit_name(self.unit)),
            "g",
            self._yield(),
            share,
        )

    # -- plants and ground ---------------------------------------------------------------

    def _plants(self, many: float | None, each: Node) -> Node:
        if self.crop.growth.size != "plants" or many is None:
            return Node(sentence("why-not-known-how-many-plants"), None, "plants")
        plants = quotient(sentence("why-needed-yield"), "plants", self._needed(1), each) if many else Node(sentence("why-none-needed"), 0.0, "plants")  # fmt: skip
        up = Node(sentence("why-up-whole-plants"), many - float(plants.value or 0), "plants")
        return total(sentence("why-crop-plants", name=self.crop.name), "plants", plants, up)

    def _units(self) -> Node:
        """Return the likely number in the crop's own unit."""
        crop = self.crop
        if crop.likely is None:
            return Node(sentence("why-not-known-how-much-plant"), None, self.unit)
        if crop.growth.size == "plants":
            return self._plants(crop.likely, self._yield())
        return quotient(unit_name(f"{self.unit}s"), self.unit, self._needed(1), self._yield())

    def _per(self, other: str, unit: str) -> Node:
        """Return how much row or ground one plant took, over the plantings that say both."""
        size = self.crop.growth.size or ""
        garden = self.plan.garden
        known = garden.both(garden.plots[self.crop.item], size, other)
        sides = [
            total(
                label, of, *(event_node(self.state, p.ev, "", float(getattr(p, name)), of) for p in known)
            )
            for label, of, name in ((sentence("why-planted-on"), unit, other), (sentence("why-planted"), self.unit, size))
        ]  # fmt: skip
        return quotient(
            sentence("why-unit-for-one", unit=unit_name(unit), unit2=unit_name(self.unit)),
            unit,
            *sides,
        )

    def _area(self) -> Node:
        if self.words.area(self.crop) is None:
            return Node(sentence("why-no-ground-known"), None, "m2")
        if self.crop.growth.size == "area_m2":
            return self._units()
        return product(sentence("why-ground"), "m2", self._units(), self._per("area_m2", "m2"))

    def _row(self) -> Node:
        if self.words.row(self.crop) is None:
            return Node(sentence("why-no-row-known"), None, "m")
        if self.crop.growth.size == "row_m":
            return self._units()
        return product(sentence("why-row"), "m", self._units(), self._per("row_m", "m"))

    def _planned(self) -> Node:
        if self.crop.placed_plants is None:
            return Node(sentence("why-not-fitted-into-beds"), None, "plants")
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
            return total(sentence("why-standing", name=crop.name), self.unit, *leaves)
        if crop.fitted is not None:
            leaves = [Node(sentence("why-in-bed-by-plan", bed=bed), many, self.unit) for bed, many in crop.fitted.items()]  # fmt: skip
            return total(sentence("why-in-beds", name=crop.name), self.unit, *leaves)
        if crop.growth.size is None:
            return Node(sentence("why-one-season"), 1.0, self.unit)
        return self._units()

    def _short(self) -> Node:
        if self.crop.short is None:
            return Node(sentence("why-path-not-known"), None, "g")
        brings = product(
            sentence("why-what-planted-likely-brings"), "g", self._placed(), self._yield()
        )
        if not self.crop.short:
            return Node(sentence("why-nothing-short"), 0.0, "g")
        return difference(sentence("why-short"), "g", self._needed(1), brings)

    def _fails(self) -> Node:
        ahead, household = self.crop.growth.ahead, self.plan.garden.household
        if ahead is None:
            return Node(sentence("why-yield-not-known"), None, "0 to 1")
        sides = []
        for ids, own, every, prior in (
            (_FAILED, ahead.failures, household.failures, FAILED),
            (_SEASONS, ahead.seasons, household.seasons, float(FAILED_OF)),
        ):
            label, mine, others = map(sentence, ids)
            parts = [
                Node(mine, float(own), "seasons"),
                Node(others, max(every - own, 0) / 2, "seasons"),
                Node(sentence("why-taken-seen-before-any"), prior, "seasons"),
            ]
            sides.append(total(label, "seasons", *parts))
        return quotient(sentence("why-chance-fails-outright"), "0 to 1", *sides)

    def _chance(self) -> Node:
        chance = self.crop.chance_short
        if chance is None or self.crop.growth.ahead is None:
            return Node(sentence("why-how-far-seasons-differ-not"), None, "0 to 1")
        label = sentence(
            "why-chance-bring-less",
            many=self.words.units(self.crop, self.crop.planned or 0),
            amount=amount(self.words.weight(self.crop.wanted) or ""),
            source=sentence(_SOURCES[self.crop.growth.source or "published yields"]),
        )
        return Node(label, chance, "0 to 1")
