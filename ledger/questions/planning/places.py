"""Plants and ground of each crop as figures: what is wanted, what the beds get, and what that brings."""

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
    none_below,
    said,
    work,
)
from ledger.questions.ahead.plain import SURELY
from ledger.questions.costs.sources import Sources
from ledger.questions.food.contents import Contents
from ledger.questions.garden.grown import UNITS, floats
from ledger.questions.planning.yields import by_size

if TYPE_CHECKING:
    from ledger.questions.garden.plots import Planting
    from ledger.questions.planning.plan import CropPlan, Plan

__all__ = ["Grounds", "placed", "wanted", "worth"]

_COLUMN_OF = {"plants": "plants.likely", "row_m": "row_m", "area_m2": "area_m2"}
"""The column that says how much of a crop is wanted, by what it is measured by."""


def wanted(plan: Plan) -> dict[str, Figure]:
    """Return the plants and the ground of what is needed, before any bed is looked at."""
    yields, known = plan.yields, plan.known
    ahead, spread = known["yield_g.likely"], known["spread"]
    low = method(
        yields.values(lambda one, row: one.missed_once_in_ten(float(spread.values[row]))),
        ahead.unit_of,
        "nine-in-ten",
        [plan.line("yield_g.likely"), known["scale"], plan.line("fails"), spread],
    )
    out = {"yield_g.low": yields.where_known(low.called("brings-nine-in-ten"))}
    in_plants = _which(size == "plants" for size in yields.sizes)
    sized = _which(size is not None for size in yields.sizes)
    for name, each in (("likely", ahead), ("nine_in_ten", out["yield_g.low"])):
        many = (known["needed_g.likely"] / each).called("needed-by-yield")
        whole = choose(in_plants, work("rounded up", many), many)
        out[name] = known_where(sized, whole, "not-known-how-much").called("wanted")
        out[f"plants.{name}"] = known_where(in_plants, out[name], "plants-not-known", "plants")
    for column, reason in (("row_m", "no-row-known"), ("area_m2", "no-ground-known")):
        own = _which(size == column for size in yields.sizes)
        each = yields.ratio(column)
        spaced = known_where(
            sized & ~np.isnan(each.values), out["likely"] * each, reason, UNITS[column]
        )
        out[column] = choose(own, out["likely"], spaced).called(f"{column}-wanted")
        out[f"{column}.each"] = each
    return out


def worth(plan: Plan, items: list[int], per: Figure) -> dict[str, Figure]:
    """Return what a gram of each crop counts where the beds are filled by that: its price, or energy."""
    state, crops = plan.state, np.array(items, np.int64)
    if plan.asked.aim == "energy":
        return {"energy": state.once(Contents).kcal.at(crops)}
    if plan.asked.aim != "value":
        return {}
    price = state.costs.prices.of(crops, np.full(crops.size, state.as_of_day, np.int64))
    shop = state.once(Sources).shop_price(crops, *price)
    return {"value": (shop / per).called("price-of-gram")}


class Grounds:
    """The ground of each bed, as asked or as it was planted, less what stands there.

    Attributes
    ----------
    beds : list of str
    of : Figure, shape (beds,)
    """

    def __init__(self, plan: Plan) -> None:
        area, shown, unknown = plan.garden.beds
        spelled = {name.casefold(): name for name in [*area, *unknown]}
        asked = {spelled.get(n.casefold(), n): ground for n, ground in plan.asked.beds.items()}
        self.beds = list(dict.fromkeys([*area, *asked]))
        stands = [
            (plan.bed_name(planting.pair[1]), planting)
            for crop in plan.crops
            for planting in (crop.growth.standing.plantings if crop.growth.standing else ())
        ]
        by_bed = {bed: row for row, bed in enumerate(self.beds)}
        as_planted = self._sum([(by_bed[bed], p) for bed in shown for p in shown[bed]])
        standing = self._sum([(by_bed[b], p) for b, p in stands if b in by_bed and p.area_m2])
        as_asked = assumed(floats([asked.get(bed) for bed in self.beds]), "m2", "as-asked")
        whole = choose(_which(bed in asked for bed in self.beds), as_asked, as_planted)
        left = (whole - standing.called("stands-there")).called("ground-left")
        left = at_least_none(left, "nothing-left")
        self.of = choose(standing.values > 0, left, whole).called(
            "ground-of-bed", bed=lambda row: self.beds[row]
        )

    def _sum(self, plantings: list[tuple[int, Planting]]) -> Figure:
        by = np.array([row for row, _ in plantings], np.int64)
        ev = np.array([one.ev for _, one in plantings], np.int64)
        area = floats([one.area_m2 for _, one in plantings])
        return Groups(by, len(self.beds)).sum(said(area, "m2", ev), "m2")


def placed(plan: Plan, crops: list[CropPlan]) -> dict[str, Figure]:
    """Return what the beds get of each crop, or what stands, and what that brings.

    Parameters
    ----------
    plan : Plan
        Fitted into its beds.
    crops : list of CropPlan
        A row each.
    """
    known, yields = plan.known, plan.yields
    needed = known["needed_g.likely"]
    planned = _planned(plan, crops)
    brings = planned * plan.line("yield_g.likely")
    gap = plan.line("needed_g.likely") - brings.called("likely-brought")
    none = none_below("g").called("nothing-short")
    short = choose(gap.values > 1e-9 * needed.values, gap.called("short_g"), none)
    can_say = ~np.isnan(gap.values)
    in_beds = _which(
        c.growth.size == "plants" and (c.fitted is not None or c.growth.standing is not None)
        for c in crops
    )
    chance = method(
        yields.values(
            lambda one, row: min(
                max(
                    one.chance_short(*(float(f.values[row]) for f in (needed, planned, known["spread"]))),
                    SURELY,
                ),
                1 - SURELY,
            )
        ),
        "0 to 1",
        "seasons-differ",
        [
            plan.line("needed_g.likely"), planned, plan.line("yield_g.likely"), known["scale"],
            plan.line("fails"), known["spread"],
        ],
    )  # fmt: skip
    some = (needed.values > 0) & (planned.values > 0)
    return {
        "planned": planned,
        "brings": brings.called("likely-brought"),
        "plants.planned": known_where(in_beds, planned, "not-fitted", "plants"),
        "short_g": known_where(can_say, short, "not-known", "g"),
        "chance_short": known_where(some, chance, "not-known-how-seasons-differ").called("chance"),
    }


def _planned(plan: Plan, crops: list[CropPlan]) -> Figure:
    """Return how much the beds get by the plan, or what stands there already, else what is wanted."""
    yields, likely = plan.yields, plan.known["likely"]
    garden, sizes = plan.garden, yields.sizes
    at = np.array(
        [-1 if g.standing is None else garden.row(g.standing) for g in yields.growths], np.int64
    )
    stands = by_size(
        [size or "plants" for size in sizes],
        {n: one.at(at) for n, one in garden.grown.sizes.items()},
    )
    standing = known_where(stands.values > 0, stands, "not-known").called(
        "standing", name=plan.needs.name
    )
    fitted = method(
        lambda: floats([None if c.fitted is None else sum(c.fitted.values()) for c in crops]),
        likely.unit_of,
        "beds-filled",
        lambda _row: _given(plan, crops),
    ).called("in-beds", name=plan.needs.name)
    season = assumed(1.0, "", "whole-season").called("one-season")
    has_ahead = ~np.isnan(plan.known["yield_g.likely"].values)
    none = _which(size is None for size in sizes)
    return choose(
        (at >= 0) & ~none,
        standing,
        choose(_which(c.fitted is not None for c in crops), fitted, choose(none & has_ahead, season, likely)),
    )  # fmt: skip


def _given(plan: Plan, crops: list[CropPlan]) -> list[tuple[Figure, int]]:
    """Return what the filling of the beds was given: beds, and of each crop what is wanted and takes."""
    known = plan.known
    each = [known["area_m2.each"]]
    if plan.asked.aim in known:
        each += [plan.line("yield_g.likely"), known[plan.asked.aim]]
    wanted = (
        known["likely"]
        .called("wanted-of", crop=plan.needs.name)
        .folds(
            lambda row: (
                plan.address(plan.needs.name(row)),
                _COLUMN_OF[plan.yields.sizes[row] or ""],
            )
        )
    )
    rows = [row for row, crop in enumerate(crops) if crop.fitted is not None]
    given = [(plan.grounds.of, bed) for bed in range(len(plan.grounds.beds))]
    given += [(one, row) for row in rows for one in (wanted, *each)]
    if plan.asked.rotate:
        before = [p for plots in plan.garden.plots.values() for plot in plots if plot.season == plan.garden.next - 1 for p in plot.plantings]  # fmt: skip
        stood = said(np.ones(len(before)), "", np.array([p.ev for p in before], np.int64))
        given += [(stood, at) for at in range(len(before))]
    return given


def _which(several: object) -> Array:
    return np.fromiter(several, bool)  # type: ignore[call-overload,no-any-return]
