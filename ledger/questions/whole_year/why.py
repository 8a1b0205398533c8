"""Why a figure of the year's plan says so: the tree of its formula at a line, week, limit or need."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import InputError, NotFound
from ledger.figures import Figure, Node
from ledger.messages import Message, Typed
from ledger.questions.food.labels import LABELS as FOOD_LABELS
from ledger.questions.shared.made_as import LABELS as MADE_LABELS
from ledger.questions.shared.opening import no_record, opened
from ledger.questions.who_eats.needed import LABELS as NEED_LABELS
from ledger.questions.whole_year.figures import of_limit, of_lines, of_need, of_weeks
from ledger.questions.whole_year.gather import Year, year_of
from ledger.questions.whole_year.given import things
from ledger.questions.whole_year.house import CHANCES, Asked
from ledger.questions.whole_year.lines import key_of, lines_of
from ledger.questions.whole_year.tables import Weeks
from ledger.reference.needs import NUTRIENTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **FOOD_LABELS,
    **NEED_LABELS,
    **MADE_LABELS,
    "of-week": "year-week-plan-choice",
    "planted": "year-planted",
    "programme": "year-programme",
    "given": "year-given",
    "a-square-metre": "year-square-metre-chance-chosen",
    "picking-hours": "year-kilogram-own-seasons",
    "part-picked": "year-part-picked",
    "comes": "year-picked",
    "batch-cost": "year-one-labour-left-out",
    "one-costs": "year-one-labour-left-out",
    "price-of-one": "year-price-of-one",
    "price-of-gram": "year-price-of-gram",
    "price-of-kilogram": "year-newest-price-kilogram",
    "grams-a-kilogram": "year-grams-kilogram",
    "in-one-unit": "year-one",
    "in-kilogram": "year-in-kilogram",
    "one-unit": "year-one-unit",
    "held-of-it": "year-there",
    "all-weeks": "year-all-weeks",
    "weeks": "year-weeks",
    "no-weeks": "year-no-weeks",
    "a-week": "year-week-2",
    "likely-picked": "year-likely-picked",
    "fresh": "year-fresh",
    "eaten-put-up": "year-not-weighed",
    "hours": "year-hours",
    "no-hours": "glut-no-hours",
    "loads": "glut-loads-of-plan",
    "no-loads": "glut-no-loads",
    "to-pay": "year-pay",
    "cost": "year-cost",
    "nothing-paid": "year-nothing-paid",
    "thing": "why-text",
    "done": "year-done",
    "picked": "year-picked",
    "growing": "year-growing-picking",
    "from-pantry": "year-from-pantry",
    "bought": "year-bought",
    "spent": "year-spent",
    "energy-of-week": "year-energy-week",
    "days-of-week": "year-days-week",
    "weeks-of-plan": "year-weeks-plan",
    "need-of-week": "year-need-week",
    "need-of-year": "year-need-year",
    "part-of-need": "year-part-need",
    "much": "year-much",
    "brought": "year-what-plan-brings",
    "used": "year-used",
    "there": "year-there",
    "nothing-there": "year-nothing-there",
    "part": "year-part",
    "there-at-once": "year-there-once",
    "a-load": "year-a-load",
    "pounds-a-kilogram": "year-pounds-a-kilogram",
    "not-frozen": "year-not-frozen",
}
"""Ids of messages by the id of a label."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of the plan as a tree.

    Raises
    ------
    NotFound
        When there is no such line or figure.
    """
    said, _, rest = key.partition("/")
    figures, row, default = _found(year_of(state, _asked(said, key)), key, rest)
    figure = field or default
    return opened(state, "whole-year", (figures, figure), row, LABELS, deep)


def _found(year: Year, key: str, rest: str) -> tuple[dict[str, Figure], int, str]:
    """Return the figures that an address speaks of, their row, and the one that is meant."""
    of, _, name = rest.partition("/")
    if of == "need" and name in NUTRIENTS:
        return of_need(Weeks(year), NUTRIENTS.index(name)), 0, "used"
    if of == "plan":
        return {"cost": year.programme}, 0, "cost"
    if of in ("crop", "recipe", "food"):
        names, figures = things(year)[of]
        if name not in names:
            raise no_record("whole-year", key)
        return figures, names.index(name), next(iter(figures))
    if of in ("limit", "need"):
        limit = next((one for one in year.plan.limits if one.name == name), None)
        if limit is None:
            raise NotFound("address", Message.of("refusal-no-limit", text=Typed(name)))
        return of_limit(year, Weeks(year), limit), 0, "used"
    if of == "week":
        known = [year.house.week_on(week) for week in range(52)]
        if name not in known:
            raise no_record("whole-year", key)
        return of_weeks(Weeks(year)), known.index(name), "energy"
    lines = lines_of(year)
    keys = [key_of(year, line) for line in lines.lines]
    if rest not in keys:
        raise no_record("whole-year", key)
    return of_lines(lines), keys.index(rest), "amount"


def _asked(said: str, key: str) -> Asked:
    from ledger.questions.enough.asked import number_of

    hours, _, rest = said.partition(",")
    chance, _, same = rest.partition(",")
    if chance not in CHANCES or same not in ("", "same beds"):
        raise no_record("whole-year", key)
    try:
        many = 0.0 if hours == "0" else number_of(hours, "hours", 0.0, most=500)
    except InputError:
        raise no_record("whole-year", key) from None
    return Asked(many, chance, bool(same))
