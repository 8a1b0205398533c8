"""A figure of the year's plan as a tree: of a line, a week, a limit or a need."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.errors import InputError, NotFound
from ledger.messages import Day, sentence
from ledger.projections.base import Node
from ledger.questions.shared.arithmetic import product, quotient, total
from ledger.questions.shared.common import event_node
from ledger.questions.shared.opening import check_figure, no_record
from ledger.questions.whole_year import limits as year_limits
from ledger.questions.whole_year import weeks as year_weeks
from ledger.questions.whole_year.house import CHANCES, Asked, Household, solved
from ledger.questions.whole_year.lines import SPREAD, lines_of, spread_of

if TYPE_CHECKING:
    from ledger.methods.year_plan import YearPlan
    from ledger.replay import State

__all__ = ["why"]


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of the plan as a tree.

    Raises
    ------
    NotFound
        When there is no such line or figure.
    """
    said, _, rest = key.partition("/")
    asked = _asked(said, key)
    house, plan = solved(state, asked)
    if rest.startswith(("limit/", "need/")):
        return year_limits.why(state, house, plan, rest, field)
    if rest.startswith("week/"):
        weeks = [week for week in range(52) if house.week_on(week) == rest.removeprefix("week/")]
        if not weeks:
            raise _no(key)
        return _figure(year_weeks.trees_of(house, plan, weeks[0]), field or "energy")
    lines = lines_of(state, house, plan, asked)
    record = next((r for r in lines if r["why"] == f"whole-year/{key}"), None)
    if record is None:
        raise _no(key)
    return _figure(_trees(state, house, plan, record), field or "amount")


def _asked(said: str, key: str) -> Asked:
    from ledger.questions.enough.asked import number_of

    hours, _, rest = said.partition(",")
    chance, _, same = rest.partition(",")
    if chance not in CHANCES or same not in ("", "same beds"):
        raise _no(key)
    try:
        many = 0.0 if hours == "0" else number_of(hours, "hours", 0.0, most=500)
    except InputError:
        raise _no(key) from None
    return Asked(many, chance, bool(same))


def _no(key: str) -> NotFound:
    return no_record("whole-year", key)


def _figure(trees: dict[str, Node], figure: str) -> Node:
    check_figure("whole-year", figure, trees)
    return trees[figure]


def _trees(
    state: State, house: Household, plan: YearPlan, record: dict[str, Any]
) -> dict[str, Node]:
    if record["do"] == "plant":
        return _planted(house, record)
    if record["do"] in SPREAD:
        return _spread(state, house, plan, record)
    return _put_up(state, house, record)


def _planted(house: Household, record: dict[str, Any]) -> dict[str, Node]:
    crop = next(one for one in house.crops if one.name == record["what"])
    amount = Node(sentence("why-choice-of-plan"), record["amount"], "m2")
    each = Node(sentence("why-square-metre-chance-chosen"), crop.kg_per_m2, "kg a m2")
    return {"amount": amount, "kg": product(sentence("why-likely-picked-kg"), "kg", amount, each)}


def _spread(
    state: State, house: Household, plan: YearPlan, record: dict[str, Any]
) -> dict[str, Node]:
    name, unit = record["what"], record["unit"]
    first, last = record["week"], record["until"] or record["week"]
    parts = [
        Node(sentence("why-week-plan-choice", day=Day(house.week_on(week))), amount, unit)
        for (one, week), amount in sorted(
            spread_of(plan, record["do"]).items(), key=lambda p: p[0][1]
        )
        if one == name and first <= house.week_on(week) <= last
    ]
    amount = total(sentence("why-all-weeks"), unit, *parts)
    weeks = Node(sentence("why-weeks"), float(len(parts)), "weeks")
    out = {
        "amount": amount,
        "weeks": weeks,
        "a_week": quotient(sentence("why-price-a-week"), unit, amount, weeks),
    }
    if record["kg"] is not None:
        out["kg"] = amount
    if record["do"] == "buy":
        price = next(one.price for one in house.foods if one.name == name)
        each = event_node(
            state, house.price_ev[name], sentence("why-newest-price-kilogram"), price, "money"
        )
        out["money"] = product(sentence("why-pay"), "money", amount, each)
    return out


def _put_up(state: State, house: Household, record: dict[str, Any]) -> dict[str, Node]:
    recipe = next(one for one in house.recipes if one.name == record["what"])
    way = house.ways[recipe.name]
    amount = Node(sentence("why-choice-of-plan"), record["amount"], record["unit"])
    if way.ev is None:
        fresh = Node(sentence("why-one-published-canner-loads", name=recipe.crop), recipe.kg, "kg")
    else:
        text = f"{recipe.crop} for one, as in the newest batch that stands as published"
        grams = event_node(state, way.ev, text, recipe.kg * 1000, "g")
        fresh = quotient(
            sentence("why-fresh-one"), "kg", grams, Node(sentence("why-g-per-kg"), 1000.0, "g")
        )
    said = "for one, by own batches" if way.hours_known else "for one, a guess without a source"
    out = {
        "amount": amount,
        "weeks": Node(sentence("why-weeks"), 1.0, "weeks"),
        "a_week": amount,
        "kg": product(sentence("why-fresh"), "kg", amount, fresh),
        "hours": product(sentence("why-hours"), "hours", amount, Node(said, recipe.hours, "hours")),
    }
    if way.ev is not None:
        each = event_node(state, way.ev, sentence("why-one-labour-left-out"), recipe.cost, "money")
        out["money"] = product(sentence("why-cost"), "money", amount, each)
    if record["loads"]:
        out["loads"] = Node(sentence("why-canner-loads-plan"), float(record["loads"]), "loads")
    return out
