"""Why a pay-back says so: the tree of its formula at one thing that lasts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.costs import LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.shared.opening import opened
from ledger.questions.worth_it.durables_figures import figures
from ledger.questions.worth_it.durables_gather import Durables

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_LABELS = {
    **LABELS,
    **GARDEN_LABELS,
    "at-shop": "why-at-shop",
    "never-eaten": "why-never-eaten",
    "answers-day": "why-answers-day",
    "all-paid": "why-note-paid",
    "pieces": "why-pieces",
    "not-by-count": "why-not-by-count",
    "used": "why-uses",
    "times": "why-uses",
    "part-of-season": "why-part-of-season",
    "gone-part": "why-gone-or-lost",
    "went-on": "why-went-on",
    "its-part": "why-its-part",
    "worth-stays": "why-worth-stays",
    "cost-stays": "why-cost-stays",
    "wear-stays": "why-wear-stays",
    "gain-of-lot": "why-of-day",
    "gain": "why-gain-before-wear",
    "wear": "why-its-wear",
    "all-wear": "why-all-wear",
    "by-wear": "why-part-wear",
    "use": "why-used-on",
    "cost-of-batch": "why-cost-of-batch",
    "passed-on": "why-passed-on",
    "all-charged": "why-charged",
    "earned": "why-earned",
    "not-served": "why-served-unknown",
    "nth-year": "why-nth-year",
    "these-years": "why-these-years",
    "whole-years": "why-whole-years-bought",
    "a-year": "why-earned-year",
    "first-bought": "why-first-bought",
    "interest": "why-interest",
    "recovery": "why-capital-recovery-factor",
    "yearly-cost": "why-cost-year",
    "gain-a-year": "why-gain-year",
    "share-back": "why-earned-paid",
    "not-paid": "why-not-paid",
    "still-to-earn": "why-still-earn",
    "to-come": "why-years-come",
    "gone-years": "why-years-since-bought",
    "never-at-this-rate": "why-never-rate",
    "payback": "why-pay-back",
    "earned-on": "why-earned-its-price-on",
    "worn-part": "why-part-of-life-gone",
    "worn": "why-worn-age",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, item: str, field: str | None, deep: int = 0) -> Node:
    """Return a figure of ``--durables`` as a tree.

    Raises
    ------
    NotFound
        When no such thing that lasts was bought, or there is no such figure.
    """
    rows = state.once(Durables).item.tolist()
    number = state.facts.find(item)
    if number not in rows:
        raise NotFound("address", Message.of("refusal-nothing-lasting", text=Typed(item)))
    asked = state.once(figures), field or "earned"
    return opened(state, "worth-it", asked, rows.index(number), _LABELS, deep)
