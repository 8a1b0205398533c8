"""Why a home price says so: the tree of its formula at one item and season."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Code, Message, Typed
from ledger.questions.costs import LABELS
from ledger.questions.garden.labels import LABELS as GARDEN_LABELS
from ledger.questions.shared.opening import opened
from ledger.questions.worth_it.gather import LINE_OF
from ledger.questions.worth_it.prices_figures import figures
from ledger.questions.worth_it.prices_gather import Grouped

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_LABELS = {
    **LABELS,
    **GARDEN_LABELS,
    "at-shop": "why-at-shop",
    "made": "why-made",
    "jars": "why-jars",
    "not-in-jars": "why-not-in-jars",
    "cost": "why-cost",
    "same-from-shop": "why-same-from-shop",
    "in-one": "why-in-one-unit",
    "in-unit": "why-in-unit",
    "per-unit": "why-per-unit",
    "not-known": "why-nothing-known",
    "per-ml": "why-per-ml",
    "per-g": "why-thousand-to-one",
    "per-piece": "why-thousand-to-one",
    "how-much": "why-how-much",
    "saved": "why-saved",
    "dearer": "why-dearer",
    "season-before": "why-in-season-before",
    "change": "why-against-season-before",
    "no-season-before": "why-no-season-before",
    "kit": "why-equipment-batches-named",
    "shop-of-jar": "why-shop-price-jar",
    "rest-of-jar": "why-rest-of-jar",
    "gain-of-jar": "why-gain-jar",
    "break-even": "why-jars-break-even",
    "no-gain": "why-no-gain",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, season: int, line: str, item: str, field: str | None, deep: int = 0) -> Node:
    """Return a figure of ``--prices`` as a tree.

    Raises
    ------
    NotFound
        When nothing of that item was made then, or there is no such figure.
    """
    grouped, number = state.once(Grouped), state.facts.find_strand(item)
    asked_for = np.array([LINE_OF.get(line, -1), -1 if number is None else number, season])
    here = (asked_for == np.stack([grouped.line, grouped.item, grouped.season]).T).all(axis=1)
    if not here.any():
        raise NotFound(
            "address",
            Message.of(
                "refusal-not-made-in-season", text=Typed(item), line=Code(line), season=season
            ),
        )
    asked = state.once(figures), field or "saved"
    return opened(state, "worth-it", asked, int(here.argmax()), _LABELS, deep)
