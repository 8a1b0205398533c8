"""Why a figure of the first year says so: the tree of its formula at one food of the plan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.figures import Node
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.first_year.figures import figures
from ledger.questions.first_year.gather import Plans
from ledger.questions.shared.opening import no_record, opened
from ledger.questions.who_eats.needed import LABELS as NEED_LABELS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_LABELS = {
    **COST_LABELS,
    **NEED_LABELS,
    "people": "first-people",
    "a-person": "first-person",
    "plan_quarts": "first-plan",
    "no-servings": "first-no-servings-said",
    "days-since": "first-days-since",
    "first-day": "first-first-day",
    "a-year": "first-year-2",
    "days": "first-days",
    "to-a-year": "first-year",
    "per-quart": "why-per-quart",
    "used": "first-used",
    "used-quarts": "first-eaten-given-away",
    "own_quarts": "first-own-record",
    "no-own-record": "first-no-own-record",
    "months-of-a-year": "first-months-of-a-year",
    "a-month": "first-a-month",
    "months": "first-months-own-record",
    "plan-weighs": "first-months-plan-weighs-our-own",
    "together": "first-together",
    "weight": "first-weight",
    "part-of-plan": "first-part-plan",
    "part-of-own": "first-part-own-record",
    "quarts": "first-put-up",
    "a-load": "first-canner-load",
    "load-of": "first-quarts-of-load",
    "fresh-in-quart": "first-quart-published-canner-load",
    "lb": "first-fresh-produce",
    "no-load": "first-no-load",
    "row-gives": "first-row-gives",
    "row-of": "first-row-of",
    "a-foot": "first-foot-row-published",
    "row_ft": "first-row",
    "no-row": "first-no-row",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree down to what was eaten.

    Parameters
    ----------
    key : str
        A food of the plan.
    field : str, optional
        A column of the answer; default: what to put up.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such food or figure.
    """
    foods = [one.food for one in state.once(Plans).plans]
    if key not in foods:
        raise no_record("first-year", key)
    asked = state.once(figures), field or "quarts"
    return opened(state, "first-year", asked, foods.index(key), _LABELS, deep)
