"""The formulas of whole-year: of its lines, its weeks, its needs and its limits."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Figure, choose, known_where, total, unknown
from ledger.questions.food.nutrients import UNITS
from ledger.questions.whole_year.tables import Lines, Used, Weeks

if TYPE_CHECKING:
    from ledger.methods.year_plan import Limit
    from ledger.questions.whole_year.gather import Year

__all__ = ["of_limit", "of_lines", "of_need", "of_weeks"]


def of_lines(lines: Lines) -> dict[str, Figure]:
    """Return every figure of the plan's lines by the name of its column; a row is a line."""
    year = lines.year
    amount = choose(lines.is_planted, lines.ground, lines.together(year.amount).called("all-weeks"))
    weeks = known_where(~lines.is_planted, lines.weeks, "no-weeks", "weeks")
    likely = (lines.ground * lines.a_metre).called("likely-picked", unit="kg")
    fresh = (amount * lines.fresh).called("fresh", unit="kg")
    hours = (amount * lines.hours).called("hours", unit="hours")
    pays = (amount * lines.price).called("to-pay", unit="money")
    costs = (amount * lines.cost).called("cost", unit="money")
    return {
        "amount": amount,
        "weeks": weeks,
        "a_week": (amount / weeks).called("a-week", unit=lines.unit),
        "kg": known_where(
            ~lines.is_stored,
            choose(lines.is_planted, likely, choose(lines.is_put_up, fresh, amount)),
            "eaten-put-up",
            "kg",
        ),
        "loads": known_where(lines.is_canned, lines.loads, "no-loads", "loads"),
        "hours": known_where(lines.is_put_up, hours, "no-hours", "hours"),
        "money": known_where(
            lines.is_bought | lines.is_own,
            choose(lines.is_bought, pays, costs),
            "nothing-paid",
            "money",
        ),
    }


def of_weeks(weeks: Weeks) -> dict[str, Figure]:
    """Return every figure of the plan's weeks by the name of its column; a row is a week."""
    year = weeks.year
    bought = (year.amount * year.price.at(year.food())).called(
        "thing", unit="money", **weeks.of_act
    )
    made = (year.amount * year.cost.at(year.recipe())).called("thing", unit="money", **weeks.of_act)
    eaten = (year.amount * year.inside(0)).called("done", unit=UNITS[0], **weeks.done)
    energy = weeks.eaten(eaten, UNITS[0]).called("energy-of-week")
    need = (weeks.need * weeks.days).called("need-of-week", unit=UNITS[0])
    amount = year.amount.called("thing", **weeks.of_act)
    return {
        "picked_kg": weeks.picks(weeks.picked, "kg").called("picked"),
        "hours": hours_of(weeks),
        "pantry_kg": weeks.acts("from the pantry", amount, "kg").called("from-pantry"),
        "bought_kg": weeks.acts("buy", amount, "kg").called("bought"),
        "money": total(weeks.acts("buy", bought, "money"), weeks.put_up(made, "money")).called(
            "spent"
        ),
        "energy": (energy / need).called("part-of-need"),
    }


def hours_of(weeks: Weeks) -> Figure:
    """Return the hands' hours of each week: picking and putting up."""
    year = weeks.year
    picking = weeks.picked * year.picking.at(year.crop_of_pick)
    making = year.amount * year.made_as.hours.at(year.recipe())
    return total(
        weeks.picks(picking.called("growing", unit="hours", **weeks.of_crop), "hours"),
        weeks.put_up(making.called("thing", unit="hours", **weeks.of_act), "hours"),
    ).called("hours")


def of_need(weeks: Weeks, n: int) -> dict[str, Figure]:
    """Return the figures of one need of the year, each of one row."""
    year, unit = weeks.year, UNITS[n]
    brought = weeks.brought(weeks.much * year.inside(n).at(weeks.first), unit).called("brought")
    need = (year.need(n) * weeks.days).called("need-of-week", unit=unit) * weeks.number
    need = need.called("need-of-year", unit=unit)
    return {"used": brought, "most": need, "share": (brought / need).called("part")}


def of_limit(year: Year, weeks: Weeks, limit: Limit) -> dict[str, Figure]:
    """Return the figures of one limit, each of one row."""
    given = Used(year, limit)
    if limit.week is None:
        used = given.planted
    elif limit.name.startswith("hours"):
        used = hours_of(weeks).at(given.its_week)
    elif limit.name == "stove hours":
        used = given.recipes(
            (given.loads * given.stove).called("thing", unit="hours", **given.of_recipe)
        )
    elif limit.name == "freezer room":
        used = given.recipes(
            (given.full * given.frozen).called("thing", unit="lb", **given.of_recipe)
        )
    else:
        used = given.jars(given.full.called("thing", **given.of_recipe))
    used = used.called("used", unit=limit.unit)
    there = given.most if limit.most else unknown(limit.unit, "nothing-there", 1)
    return {"used": used, "most": given.most, "share": (used / there).called("part")}
