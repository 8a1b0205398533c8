"""Why a batch stands as it does: the tree of its formula at one batch."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.figures import Node
from ledger.messages import Message, Typed
from ledger.questions.as_published.figures import figures
from ledger.questions.as_published.gather import Judged, One
from ledger.questions.as_published.records import batches, judgement_of, schedules_of
from ledger.questions.costs import LABELS as COST_LABELS
from ledger.questions.shared.opening import opened
from ledger.questions.shared.standing import standings

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["LABELS", "why"]

LABELS = {
    **COST_LABELS,
    "standing": "why-text",
    "finding": "finding-in-field",
    "printed": "published-as-printed",
    "done": "published-written-down",
    "as-printed": "published-as-printed-line",
    "line": "why-text",
    "document": "published-document",
    "altitude": "finding-field-altitude",
    "gauge": "finding-field-gauge",
    "too-high": "gauge-read-too-high",
    "true-psi": "gauge-true-pressure",
    "no-pressure": "gauge-no-pressure",
}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure of a batch as a tree: what was written down, and what is printed.

    Parameters
    ----------
    key : str
        The batch's entry id.
    field : str, optional
        ``standing`` (default), ``published.minutes``, ``done.psi`` and the like.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such batch, or no such figure of it.
    """
    at = next((one for one in batches(state) if state.entry_id(one[0]) == key), None)
    if at is None:
        raise NotFound("address", Message.of("refusal-no-batch-of-tables", text=Typed(key)))
    found = judgement_of(state, *at, schedules_of(state))
    judged = Judged(state, [One(*at, found, state.once(standings).made_of(at[0]))])
    return opened(state, "as-published", (figures(judged), field or "standing"), 0, LABELS, deep)
