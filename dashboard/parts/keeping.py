"""What is to be used up next, a bar for the days that it keeps."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from dash.development.base_component import Component

from dashboard.ask import Ask
from dashboard.elements import html
from ledger.questions.quantities import is_dust
from ledger.reference.everyday import spoken

__all__ = ["named", "put_up", "soonest", "spoken", "thing", "time_left", "track"]

_SOON, _NEAR, _WEEK, _LONG, _YEAR = 5, 14, 7, 70, 300
"""Days below which a bar is damson, and straw; a day is named; weeks are said, not a date; a month."""
_LEAST = 4
"""Per cent of a bar that is always seen."""


def soonest(rows: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the shelf's records with a day, one a thing: the one whose day comes first; no dust."""
    first: dict[tuple[str, str | None], dict[str, Any]] = {}
    for row in rows:
        if row["days_left"] is not None and not is_dust(row):
            kept = first.get(thing(row))
            if kept is None or row["days_left"] < kept["days_left"]:
                first[thing(row)] = row
    return sorted(first.values(), key=lambda row: row["days_left"])


def thing(row: Mapping[str, Any]) -> tuple[str, str | None]:
    """Return what a record of the shelf is of: its item, and how it was put up if that is fresh food's name."""
    return row["item"], row["put_up"]


def put_up(ask: Ask, *rows: Mapping[str, Any]) -> str:
    """Return how records that bear the name of a fresh food were put up, with a comma before; else nothing."""
    ways = dict.fromkeys(row["put_up"] for row in rows if row["put_up"])
    said = [ask.words("shelf.put_up", method=ask.words.word("answers", way)) for way in ways]
    return "".join(f", {one}" for one in said)


def named(item: str) -> str:
    """Return an item at the head of a line."""
    return item[:1].upper() + item[1:]


def time_left(ask: Ask, row: Mapping[str, Any]) -> str:
    """Return how long something keeps: the day itself when near, then days, weeks, a date."""
    words, days = ask.words, int(row["days_left"])
    if days < 0:
        return words("today.past_one" if days == -1 else "today.past", n=-days)
    if days < _WEEK:
        return words.weekday(row["use_by"])
    if days < 2 * _WEEK:
        return words("today.n_days", n=days)
    if days < _LONG:
        return words("today.n_weeks", n=round(days / 7))
    return words.day(row["use_by"], short=True) if days < _YEAR else words.month_of(row["use_by"])


def track(days: float, full: int) -> Component:
    """Return a bar as long as the days that are left of `full`."""
    share = max(_LEAST, min(100, round(100 * days / full)))
    kind = "soon" if days < _SOON else "near" if days < _NEAR else ""
    return html.Span(html.I(style={"width": f"{share}%"}), className=f"track {kind}".strip())
