"""What bears a mark among batches and their cost: nothing is said to be saved by it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.danger import said_of, sign_of
from ledger.projections import Answer

__all__ = ["mark_link", "mark_sign", "marked_cells", "saved_unmarked"]


def mark_link(ask: Ask, row: Mapping[str, Any]) -> Any:
    """Return a batch's mark in words, with the way to what is published; None without."""
    if not row["standing_text"]:
        return None
    link = dcc.Link(said_of(ask, row["standing_text"]), href=_findings(row))
    return html.Span(link, className=f"mark {sign_of(row)[1]}")


def mark_sign(ask: Ask, row: Mapping[str, Any]) -> Any:
    """Return the same with its sign alone seen; None without."""
    if not row["standing_text"]:
        return None
    said, (sign, kind) = said_of(ask, row["standing_text"]), sign_of(row)
    seen = html.Span(sign, className="sign", **{"aria-hidden": "true"})
    link = dcc.Link([seen, html.Span(said, className="heard")], href=_findings(row), title=said)
    return html.Span(link, className=f"sign-alone {kind}")


def marked_cells(ask: Ask) -> dict[str, Callable[[Mapping[str, Any]], Any]]:
    """Return how a table draws a batch that bears a mark: its sign behind the day, and nothing saved."""

    def day(row: Mapping[str, Any]) -> Any:
        sign = mark_sign(ask, row)
        return sign and html.Span([html.Time(ask.words.day(row["on"])), " ", sign])

    def saved(row: Mapping[str, Any]) -> Any:
        return "–" if row["standing_text"] else None

    return {"on": day, "saved_per_jar": saved, "saved": saved}


def saved_unmarked(every: Answer) -> float:
    """Return the money saved by batches that bear no mark."""
    both = zip(every.column("standing_text"), every.column("saved"), strict=True)
    return sum((money for mark, money in both if money is not None and not mark), 0.0)


def _findings(row: Mapping[str, Any]) -> str:
    return f"/as-published?batch={row['batch']}#batch"
