"""Each limit of the year's plan and each need: how much is used or met, and what holds it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.messages import sentence
from ledger.methods.year_plan import Limit, YearPlan
from ledger.projections.base import Answer, Column, Node
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import check_figure
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.whole_year import weeks as year_weeks
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS, LABELS

if TYPE_CHECKING:
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "why"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("limit", "Limit or need", "", "A bed's ground, jars or freezer room that are full at one time, hours of a week, or a nutrient of the year; of what counts each week the week that uses most.", main=True),
    Column("used", "Used or met", "its unit", "What the plan uses of it; of a need what the plan brings.", main=True),
    Column("most", "There or needed", "its unit", "What there is; of a need what the year needs; of sodium its level.", main=True),
    Column("unit", "Unit", "", "Its unit.", main=True),
    Column("share", "Part", "0 to 1", "Used / most; null of nothing.", main=True),
    Column("binds", "Holds", "yes or no", "Whether nothing of it is left; of a need whether a week does not meet it.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_WEEKS = 52.0
_SODIUM = len(NUTRIENTS) - 1


def build(state: State, house: Household, plan: YearPlan, asked: str) -> Answer:
    """Return one record a need and limit, what holds the plan first."""
    records: list[dict[str, Any]] = []
    for n, name in enumerate(NUTRIENTS):
        brought = float(_brought(house, plan, n).value or 0.0)
        need = house.needs[n] * _WEEKS
        lacks = plan.lacks(n) > 1e-4 * need
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
                    _told(house, limit),
                    limit.used,
                    limit.most,
                    limit.unit,
                    limit.binds,
                )
            )
    records.sort(key=lambda r: not r["binds"])
    notes = [
        Assumption("holds", "What holds the plan is what more of would make it better or cheaper. A need of the year is that of its 52 weeks; more than is needed in one week makes up for no other, so that a need may be brought in full over the year and yet not be met in each week.")
    ]  # fmt: skip
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
            _used(house, plan, limit),
            Node(sentence("why-there"), limit.most, limit.unit),
        )
    trees = {
        "used": brought,
        "most": need,
        "share": quotient(sentence("why-part"), "0 to 1", brought, need),
    }
    check_figure("whole-year", figure, trees)
    return trees[figure]


def _told(house: Household, limit: Limit) -> str:
    if limit.week is None:
        return limit.name
    name = "hours" if limit.name.startswith("hours") else limit.name
    return f"{name}, week of {house.week_on(limit.week)}"


def _need(state: State, house: Household, n: int) -> Node:
    weeks, days = (
        Node(sentence("why-weeks-plan"), _WEEKS, "weeks"),
        Node(sentence("why-days-week"), 7.0, "days"),
    )
    unit = AMOUNTS[NUTRIENTS[n]]
    if n == _SODIUM:
        day = Node(sentence("why-level-day"), house.needs[n] / 7, "mg of sodium a day")
        return product(sentence("why-level-year"), unit, day, days, weeks)
    return product(
        sentence("why-need-year"), unit, eaters_of(state).node(NUTRIENTS[n]), days, weeks
    )


def _brought(house: Household, plan: YearPlan, n: int) -> Node:
    """Return what the plan brings of a nutrient: fresh, put up, from the pantry, bought."""
    unit = AMOUNTS[NUTRIENTS[n]]
    jarred = {recipe.name for recipe in house.recipes if recipe.per_load}
    inside = {
        "fresh": (plan.fresh, {one.name: one.nutrients[n] for one in house.crops}),
        "put up": (plan.eaten, {one.name: one.nutrients[n] for one in house.recipes}),
        "in the pantry": (plan.pantry, {one.name: one.nutrients[n] for one in house.foods}),
        "bought": (plan.bought, {one.name: one.nutrients[n] for one in house.foods}),
    }
    parts: list[tuple[str, float, float, str]] = []
    for how, (by_week, each) in inside.items():
        sums: dict[str, float] = {}
        for (name, _), amount in by_week.items():
            sums[name] = sums.get(name, 0.0) + amount
        for name, amount in sums.items():
            of = "jars" if how == "put up" and name in jarred else "kg"
            parts.append((f"{name}, {how}", amount, each[name], of))
    nodes = [
        product(
            label,
            unit,
            Node(sentence("why-amount-so-much"), many, of),
            Node(sentence("why-energy-in-one"), each, unit),
        )
        for label, many, each, of in parts
        if many and each
    ]
    nodes.sort(key=lambda node: -float(node.value or 0.0))
    return total(sentence("why-what-plan-brings"), unit, *nodes)


def _used(house: Household, plan: YearPlan, limit: Limit) -> Node:
    name, week = limit.name, limit.week
    if week is None:
        bed = name.removeprefix("ground of ")
        parts = [Node(crop, m2, "m2") for (crop, where), m2 in plan.planted.items() if where == bed]
        return total(sentence("why-planted"), "m2", *parts)
    if name.startswith("hours"):
        return year_weeks.hours_of(house, plan, week)
    if name == "stove hours":
        loads = {one: many for (one, at), (_, many) in plan.put_up.items() if at == week and many}
        return total(
            name, "hours",
            *(product(r.name, "hours", Node(sentence("why-canner-loads"), float(loads[r.name]), "loads"), Node(sentence("why-load"), r.stove_hours, "hours a load"))
              for r in house.recipes if r.name in loads),
        )  # fmt: skip
    each = {
        one.name: one.freezer_lb if name == "freezer room" else float(one.jar == name)
        for one in house.recipes
    }
    unit = "lb" if name == "freezer room" else "jars"
    full = {one: many for (one, at), many in plan.full.items() if at == week and each[one]}
    nodes = [
        product(one, unit, Node(sentence("why-there-once"), many, "units"), Node(sentence("why-of-one-load"), each[one], f"{unit} a unit"))
        for one, many in full.items()
    ]  # fmt: skip
    return total(sentence("why-full-once", name=name), unit, *nodes)
