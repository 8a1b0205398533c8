"""What bears a mark among batches and their cost: nothing is said to be saved by it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from dashboard.ask import Ask
from dashboard.elements import dcc, html
from dashboard.parts.danger import said_of, sign_of

__all__ = ["mark_link", "mark_sign", "marked_days"]


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


def marked_days(ask: Ask) -> dict[str, Callable[[Mapping[str, Any]], Any]]:
    """Return how a table of batches draws their day: the sign of the mark behind it."""

    def drawn(row: Mapping[str, Any]) -> Any:
        day, sign = html.Time(ask.words.day(row["on"])), mark_sign(ask, row)
        return day if sign is None else html.Span([day, " ", sign])

    return {"on": drawn}


def _findings(row: Mapping[str, Any]) -> str:
    return f"/as-published?batch={row['batch']}#batch"
