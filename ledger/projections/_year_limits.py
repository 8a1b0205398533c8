"""Each limit of the year's plan and each need: how much is used or met, and what holds it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.methods.year_plan import YearPlan
from ledger.projections._arithmetic import product, quotient, total
from ledger.projections._common import answer
from ledger.projections._eaters import eaters_of
from ledger.projections.base import Answer, Column, Node
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS, LABELS

if TYPE_CHECKING:
    from ledger.projections._year_house import Household
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "why"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("limit", "Limit or need", "", "A bed's ground, jars, freezer room, hours of a week, or a nutrient of the year.", main=True),
    Column("used", "Used or met", "its unit", "What the plan uses of it; of a need what the plan brings.", main=True),
    Column("most", "There or needed", "its unit", "What there is; of a need what the year needs; of sodium its level.", main=True),
    Column("unit", "Unit", "", "Its unit.", main=True),
    Column("share", "Part", "0 to 1", "Used / most; null of nothing.", main=True),
    Column("binds", "Holds", "yes or no", "Whether nothing of it is left; of a need whether it is not met.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_YEAR = 365.0
_SODIUM = len(NUTRIENTS) - 1


def build(state: State, house: Household, plan: YearPlan, asked: str) -> Answer:
    """Return one record a need and limit, what holds the plan first."""
    records: list[dict[str, Any]] = []
    for n, name in enumerate(NUTRIENTS):
        brought = float(_brought(house, plan, n).value or 0.0)
        need = house.needs[n]
        lacks = n in plan.short
        records.append(
            _record(
                f"whole-year/{asked}/need/{name}", LABELS[name], brought, need, AMOUNTS[name], lacks
            )
        )
    for limit in plan.limits:
        if limit.used > 1e-6 or limit.binds:
            records.append(
                _record(
                    f"whole-year/{asked}/limit/{limit.name}",
                    limit.name,
                    limit.used,
                    limit.most,
                    limit.unit,
                    limit.binds,
                )
            )
    records.sort(key=lambda r: not r["binds"])
    notes = [
        Assumption("holds", "What holds the plan is what more of would make it better or cheaper.")
    ]
    return answer(
        state, "whole-year", COLUMNS, records, totals={"cost": plan.cost}, assumptions=notes
    )


def _record(
    why: str, name: str, used: float, most: float, unit: str, binds: bool
) -> dict[str, Any]:
    share = used / most if most else None
    return {
        "why": why,
        "limit": name,
        "used": used,
        "most": most,
        "unit": unit,
        "share": share,
        "binds": binds,
        "assumptions": ["holds"],
    }


def why(state: State, house: Household, plan: YearPlan, key: str, field: str | None) -> Node:
    """Return a limit or a need as a tree.

    Raises
    ------
    NotFound
        When there is no such limit or figure.
    """
    kind, _, name = key.partition("/")
    figure = field or "used"
    if kind == "need" and name in NUTRIENTS:
        n = NUTRIENTS.index(name)
        brought, need = _brought(house, plan, n), _need(state, house, n)
    else:
        limit = next((one for one in plan.limits if one.name == name), None)
        if limit is None:
            raise NotFound(
                "address",
                f"there is no limit {name!r} of whole-year",
                "Take an address from `croftbook show whole-year --limits --json`",
            )
        brought, need = (
            _used(house, plan, name, limit.used, limit.unit),
            Node("there", limit.most, limit.unit),
        )
    trees = {"used": brought, "most": need, "share": quotient("part", "0 to 1", brought, need)}
    if figure not in trees:
        raise NotFound(
            "figure", f"{figure!r} is not a figure of whole-year", f"It has: {', '.join(trees)}"
        )
    return trees[figure]


def _need(state: State, house: Household, n: int) -> Node:
    days = Node("days of the year", _YEAR, "days")
    if n == _SODIUM:
        return product(
            "level of the year",
            AMOUNTS[NUTRIENTS[n]],
            Node("level a day", house.needs[n] / _YEAR, "mg of sodium a day"),
            days,
        )
    return product(
        "need of the year", AMOUNTS[NUTRIENTS[n]], eaters_of(state).node(NUTRIENTS[n]), days
    )


def _brought(house: Household, plan: YearPlan, n: int) -> Node:
    """Return what the plan brings of a nutrient: fresh, put up, from the pantry, bought."""
    unit = AMOUNTS[NUTRIENTS[n]]
    parts: list[tuple[str, float, float, str]] = []
    for crop in house.crops:
        kg = sum(v for (name, _), v in plan.fresh.items() if name == crop.name)
        parts.append((f"{crop.name}, fresh", kg, crop.nutrients[n], "kg"))
    for recipe in house.recipes:
        many = sum(units for (name, _), (units, _) in plan.put_up.items() if name == recipe.name)
        parts.append(
            (
                f"{recipe.name}, put up",
                many,
                recipe.nutrients[n],
                "jars" if recipe.per_load else "kg",
            )
        )
    for food in house.foods:
        parts.append(
            (
                f"{food.name}, in the pantry",
                plan.pantry.get(food.name, 0.0),
                food.nutrients[n],
                "kg",
            )
        )
        parts.append(
            (f"{food.name}, bought", plan.bought.get(food.name, 0.0), food.nutrients[n], "kg")
        )
    nodes = [
        product(label, unit, Node("so much", many, of), Node("in one", each, unit))
        for label, many, each, of in parts
        if many and each
    ]
    nodes.sort(key=lambda node: -float(node.value or 0.0))
    return total("what the plan brings", unit, *nodes)


def _used(house: Household, plan: YearPlan, name: str, used: float, unit: str) -> Node:
    if name.startswith("ground of "):
        bed = name.removeprefix("ground of ")
        parts = [Node(crop, m2, "m2") for (crop, where), m2 in plan.planted.items() if where == bed]
        return total("planted", "m2", *parts)
    return Node("the plan uses", used, unit)
