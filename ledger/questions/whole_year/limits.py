"""Each limit of the year's plan and each need: how much is used or met, and what holds it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.errors import NotFound
from ledger.figures import tree
from ledger.messages import Day, Message, Typed, fixed, joined, sentence
from ledger.methods.year_plan import Limit, YearPlan
from ledger.projections.base import Answer, Column, Node
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import answer
from ledger.questions.shared.opening import check_figure
from ledger.questions.telling import StateTeller
from ledger.questions.who_eats.eaters import eaters_of
from ledger.questions.who_eats.needed import LABELS as NEED_LABELS
from ledger.questions.whole_year import weeks as year_weeks
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS, LABELS

if TYPE_CHECKING:
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "limit_said", "why"]

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
        Assumption("holds", sentence("year-what-holds-plan-what-more"))
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
                Message.of("refusal-no-limit", text=Typed(name)),
            )
        brought, need = (
            _used(house, plan, limit),
            Node(sentence("year-there"), limit.most, limit.unit),
        )
    trees = {
        "used": brought,
        "most": need,
        "share": quotient(sentence("year-part"), "0 to 1", brought, need),
    }
    check_figure("whole-year", figure, trees)
    return trees[figure]


def limit_said(name: str) -> str:
    """Return what a limit of the plan is called; a kind of jar by its own name."""
    of, _, bed = name.partition("ground of ")
    if bed and not of:
        return sentence("year-ground-of", bed=bed)
    if name.startswith("hours"):
        return sentence("year-hours")
    known = {
        "stove hours": "year-stove-hours",
        "freezer room": "year-freezer-room",
        "lids": "year-lids",
    }
    return sentence(known[name]) if name in known else name


def _told(house: Household, limit: Limit) -> str:
    name = limit_said(limit.name)
    if limit.week is None:
        return name
    return sentence("year-week", name=name, day=Day(house.week_on(limit.week)))


def _need(state: State, house: Household, n: int) -> Node:
    weeks, days = (
        Node(sentence("year-weeks-plan"), _WEEKS, "weeks"),
        Node(sentence("year-days-week"), 7.0, "days"),
    )
    unit = AMOUNTS[NUTRIENTS[n]]
    if n == _SODIUM:
        day = Node(sentence("year-level-a-day"), house.needs[n] / 7, "mg of sodium a day")
        return product(sentence("year-level-year"), unit, day, days, weeks)
    return product(sentence("year-need-year"), unit, _a_day(state, n), days, weeks)


def _a_day(state: State, n: int) -> Node:
    return tree(eaters_of(state).figures.of(NUTRIENTS[n]), 0, StateTeller(state, NEED_LABELS))


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
            parts.append((joined(", ", [name, fixed(how)]), amount, each[name], of))
    nodes = [
        product(
            label,
            unit,
            Node(sentence("year-much"), many, of),
            Node(sentence("year-one"), each, unit),
        )
        for label, many, each, of in parts
        if many and each
    ]
    nodes.sort(key=lambda node: -float(node.value or 0.0))
    return total(sentence("year-what-plan-brings"), unit, *nodes)


def _used(house: Household, plan: YearPlan, limit: Limit) -> Node:
    name, week = limit.name, limit.week
    if week is None:
        bed = name.removeprefix("ground of ")
        parts = [Node(crop, m2, "m2") for (crop, where), m2 in plan.planted.items() if where == bed]
        return total(sentence("year-planted"), "m2", *parts)
    if name.startswith("hours"):
        return year_weeks.hours_of(house, plan, week)
    if name == "stove hours":
        loads = {one: many for (one, at), (_, many) in plan.put_up.items() if at == week and many}
        return total(
            name, "hours",
            *(product(r.name, "hours", Node(sentence("year-canner-loads"), float(loads[r.name]), "loads"), Node("a load", r.stove_hours, "hours a load"))
              for r in house.recipes if r.name in loads),
        )  # fmt: skip
    each = {
        one.name: one.freezer_lb if name == "freezer room" else float(one.jar == name)
        for one in house.recipes
    }
    unit = "lb" if name == "freezer room" else "jars"
    full = {one: many for (one, at), many in plan.full.items() if at == week and each[one]}
    nodes = [
        product(one, unit, Node(sentence("year-there-once"), many, "units"), Node(sentence("year-one-2"), each[one], f"{unit} a unit"))
        for one, many in full.items()
    ]  # fmt: skip
    return total(sentence("year-full-once", name=name), unit, *nodes)
