"""Why a figure of work-worth says so: the tree of its formula at one line of a season."""

from __future__ import annotations

from typing import TYPE_CHECKING

from ledger.questions.shared.opening import no_record, opened
from ledger.questions.work_worth.figures import figures
from ledger.questions.work_worth.gather import LINES, Work
from ledger.questions.worth_it.span import span_of
from ledger.questions.worth_it.why import LABELS as WORTH_LABELS

if TYPE_CHECKING:
    from ledger.figures import Node
    from ledger.replay import State

__all__ = ["why"]

LABELS = {**WORTH_LABELS, "by-wage": "hours-hours-x-wage", "no-wage": "hours-no-wage"}
"""Ids of messages by the id of a label; the rest is said by what an event tells."""


def why(state: State, key: str, field: str | None = None, *, deep: int = 0) -> Node:
    """Return a figure as a tree.

    Parameters
    ----------
    key : str
        ``2026/preserving`` or ``2026/total``.
    field : str, optional
        A column of the answer; default: what the work brought.
    deep : int
        Levels of folded lines to open.

    Raises
    ------
    NotFound
        When there is no such record or figure.
    """
    season, _, line = key.partition("/")
    if not season.isdecimal() or line not in LINES:
        raise no_record("work-worth", key)
    known, row = figures(Work(state, span_of(state, season))), LINES.index(line)
    if not known["hours"].value(row) > 0:
        raise no_record("work-worth", key)
    return opened(state, "work-worth", (known, field or "brought"), row, LABELS, deep)
