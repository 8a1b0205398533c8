"""What bears a mark among batches and their cost: nothing is said to be saved by it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.danger import bears_mark, said_of
from ledger.projections import Answer

__all__ = ["mark_link", "marks_by_batch", "saved_unmarked"]


def marks_by_batch(ask: Ask) -> dict[str, str]:
    """Return the mark of what is on the shelf, by its batch."""
    rows = [row for row in ask.show("shelf").records() if bears_mark(row)]
    return {row["lot"].partition(":")[0]: row["standing_text"] for row in rows}


def mark_link(ask: Ask, batch: str, marks: Mapping[str, str], *, short: bool = False) -> Any:
    """Return a batch's mark, with the way to what is published: its sign alone seen if short; None without."""
    if batch not in marks:
        return None
    said, href = said_of(ask, marks[batch]), f"/as-published?batch={batch}#batch"
    if short:
        seen = html.B("!", **{"aria-hidden": "true"})
        link = dcc.Link([seen, html.Span(said, className="heard")], href=href, title=said)
        return html.Span(link, className="mark-grave")
    return html.Span(dcc.Link(said, href=href), className="mark mark-grave")


def saved_unmarked(every: Answer, marks: Mapping[str, str]) -> float:
    """Return the money saved by batches that bear no mark."""
    both = zip(every.column("batch"), every.column("saved"), strict=True)
    return sum((money for batch, money in both if money is not None and batch not in marks), 0.0)
