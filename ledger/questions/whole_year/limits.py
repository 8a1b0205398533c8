"""Each limit of the year's plan and each need: how much is used or met, and what holds it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.answers import Assumption
from ledger.figures import Figure
from ledger.messages import Day, sentence
from ledger.methods.year_plan import Limit
from ledger.projections.base import Answer, Column
from ledger.questions.shared.common import answer, number
from ledger.questions.whole_year.figures import of_limit, of_need
from ledger.questions.whole_year.tables import Weeks
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import AMOUNTS, LABELS

if TYPE_CHECKING:
    from ledger.questions.whole_year.gather import Year
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State

__all__ = ["COLUMNS", "build", "limit_said"]

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


def build(state: State, year: Year) -> Answer:
    """Return one record a need and limit, what holds the plan first."""
    plan, weeks = year.plan, Weeks(year)
    needs = [of_need(weeks, n) for n in range(len(NUTRIENTS))]
    records = [
        _record(
            f"whole-year/{year.asked.text}/need/{name}", LABELS[name], AMOUNTS[name], figures,
            plan.lacks(n) > 1e-4 * figures["most"].value(0),
        )
        for n, (name, figures) in enumerate(zip(NUTRIENTS, needs, strict=True))
    ]  # fmt: skip
    records += [
        _record(
            f"whole-year/{year.asked.text}/limit/{limit.name}", _told(year.house, limit), limit.unit,
            of_limit(year, weeks, limit), limit.binds,
        )
        for limit in plan.limits
        if limit.used > 1e-6 or limit.binds
    ]  # fmt: skip
    records.sort(key=lambda r: not r["binds"])
    notes = [Assumption("holds", sentence("year-what-holds-plan-what-more"))]
    return answer(
        state, "whole-year", COLUMNS, records, totals={"cost": plan.cost}, assumptions=notes
    )


def _record(
    why: str, name: str, unit: str, figures: dict[str, Figure], binds: bool
) -> dict[str, Any]:
    return {
        "why": why,
        "limit": name,
        **{column: number(figure.value(0)) for column, figure in figures.items()},
        "unit": unit,
        "binds": binds,
        "assumptions": ["holds"],
    }


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
