"""The year's plan week by week: what is planted, picked, put up, eaten and bought, and what the week lacks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.messages import Choice, fixed, joined, sentence
from ledger.messages import measured as digits
from ledger.methods.year_plan import WEEKS
from ledger.projections.base import Column
from ledger.questions.quantities import measured
from ledger.questions.shared.common import number
from ledger.questions.whole_year.figures import of_weeks
from ledger.questions.whole_year.tables import Weeks
from ledger.reference.needs import NUTRIENTS
from ledger.reference.nutrients import LABELS

if TYPE_CHECKING:
    from ledger.methods.year_plan import YearPlan
    from ledger.questions.whole_year.gather import Year
    from ledger.questions.whole_year.house import Household
    from ledger.replay import State

__all__ = ["COLUMNS", "weeks_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday; weeks before the first picking only where something is planted.", main=True),
    Column("plant", "Sow or\nset out", "", "Crops whose week it is, with their ground; null where none.", main=True),
    Column("picked_kg", "Picked", "kg", "What the beds, trees and hens bring, at the chance chosen."),
    Column("fresh", "Fresh", "", "What is eaten as it is, with its kilograms; null where nothing.", main=True),
    Column("put_up", "Put up", "", "Jars or kilograms of each; null where nothing.", main=True),
    Column("loads", "Loads", "loads", "Canner loads."),
    Column("hours", "Hours", "hours", "Hands' hours of picking and putting up.", main=True),
    Column("eat_put_up", "Of the store", "", "What is eaten of what was put up; null where nothing.", main=True),
    Column("pantry_kg", "Pantry", "kg", "Eaten of what is on the shelf today."),
    Column("bought_kg", "Bought", "kg", "Of the shop."),
    Column("money", "Money", "money", "For that and for what is put up.", main=True),
    Column("energy", "Energy", "0 to 1", "Part of the week's need of energy; null before the first picking."),
    Column("lacks", "Lacks", "", "Needs that the week does not meet by one part in a hundred or more; null where none.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip
_LEAST = 0.01


def weeks_of(state: State, year: Year, lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return one record a week; `lines` are the records of the plan's lines."""
    planted: dict[str, list[str]] = {}
    for line in lines:
        if line["do"] == "plant" and line["week"] is not None:
            planted.setdefault(line["week"], []).append(
                sentence(
                    "year-ground-with",
                    ground=measured(state, line["amount"], "m2"),
                    crop=line["what"],
                )
            )
    figures, first = of_weeks(Weeks(year)), year.house.week_on(0)
    early = [_week(year, planted, day) for day in sorted(planted) if day < first]
    out = []
    for week in range(WEEKS):
        values = {name: number(figure.value(week)) for name, figure in figures.items()}
        out.append(_week(year, planted, year.house.week_on(week)) | values | _told(year, week))
    return early + out


def _week(year: Year, planted: dict[str, list[str]], day: str) -> dict[str, Any]:
    """Return what is planted in a week; before the first picking nothing else is planned."""
    return {
        "why": f"whole-year/{year.asked.text}/week/{day}",
        "week": day,
        "plant": joined(", ", sorted(planted.get(day, ()))) or None,
        "assumptions": ["year", "chance", "most"],
    }


def _told(year: Year, week: int) -> dict[str, Any]:
    plan, jarred = year.plan, year.jarred
    made = {name: units for (name, at), (units, _) in plan.put_up.items() if at == week}
    return {
        "fresh": _said(_in(plan.fresh, week), set()),
        "put_up": _said(made, jarred),
        "eat_put_up": _said(_in(plan.eaten, week), jarred),
        "loads": sum(loads for (_, at), (_, loads) in plan.put_up.items() if at == week),
        "lacks": _lacks(year.house, plan, week),
    }


def _in(by_week: Any, week: int) -> dict[str, float]:
    return {name: amount for (name, at), amount in by_week.items() if at == week}


def _said(amounts: dict[str, float], jarred: set[str]) -> str | None:
    parts = [
        sentence(
            "year-so-much-of",
            n=digits(f"{amount:.3g}"),
            unit=Choice("jars" if name in jarred else "kg"),
            name=name,
        )
        for name, amount in sorted(amounts.items(), key=lambda pair: -pair[1])
        if amount >= 0.005
    ]
    return joined(", ", parts) if parts else None


def _lacks(house: Household, plan: YearPlan, week: int) -> str | None:
    parts = []
    for n, name in enumerate(NUTRIENTS):
        value = plan.short.get((n, week), 0.0)
        part = value / house.needs[n] if house.needs[n] else 0.0
        if part >= _LEAST:
            over = Choice("over" if n == len(NUTRIENTS) - 1 else "short")
            parts.append(
                sentence("year-lacks", nutrient=fixed(LABELS[name]), n=round(part * 100), by=over)
            )
    return joined(", ", parts) if parts else None
