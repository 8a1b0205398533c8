"""Why a batch stands as it does: each finding, the printed line and the event."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.errors import NotFound
from ledger.messages import joined, sentence
from ledger.projections.base import Node
from ledger.published import Finding
from ledger.questions.as_published.records import batches, judgement_of, schedules_of
from ledger.questions.as_published.words import field_word
from ledger.questions.shared.common import event_node

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["why"]

_FIELDS = ("minutes", "psi", "headspace_in", "acid")
_UNITS = {"minutes": "minutes", "psi": "psi", "headspace_in": "in"}


def why(state: State, key: str, field: str | None = None) -> Node:
    """Return a figure of a batch as a tree: what was written down, and what is printed.

    Parameters
    ----------
    key : str
        The batch's entry id.
    field : str, optional
        ``standing`` (default), ``published.minutes``, ``done.psi`` and the like.

    Raises
    ------
    NotFound
        When there is no such batch, or no such figure of it.
    """
    at = next((one for one in batches(state) if state.entry_id(one[0]) == key), None)
    if at is None:
        raise NotFound(
            "address",
            f"there is no batch {key!r} that tables may hold figures for",
            "Take an address from `croftbook show as-published --json`",
        )
    ev, body = at
    found = judgement_of(state, ev, body, schedules_of(state))
    name = field or "standing"
    if name == "standing":
        parts = [Node(_in_field(one), one.kind) for one in found.findings]
        sources = [
            Node(sentence("published-document", text=text), sentence("published-as-printed"))
            for text in found.sources
        ]
        event = event_node(state, ev, "", found.standing, "")
        return Node(found.summary, found.standing, "", "as written", [event, *parts, *sources])
    side, _, figure = name.partition(".")
    if side not in ("published", "done") or figure not in _FIELDS:
        known = ", ".join(
            ["standing", *(f"{s}.{f}" for s in ("published", "done") for f in _FIELDS)]
        )
        raise NotFound("figure", f"{name!r} is not a figure of as-published", f"It has: {known}")
    unit = _UNITS.get(figure, "")
    if side == "done":
        return event_node(state, ev, "", found.done[figure], unit)
    text = joined("; ", found.sources) or sentence("published-nothing-for-it")
    line = found.schedule or sentence("published-no-single-line")
    label = sentence("published-as-printed-line", line=line, source=text)
    return Node(label, found.published[figure], unit)


def _in_field(one: Finding) -> str:
    return sentence("finding-in-field", field=field_word(one.field), text=one.text)
