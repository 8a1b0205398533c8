"""The day by which to use a lot, as the household says it keeps; an open jar lives its fridge life."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from ledger.replay import KEPT

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["days_of", "opened_on", "use_by_of"]

_SPAN = re.compile(r"\s*(\d+(?:\.\d+)?)\s*(day|week|month|year)s?\s*", re.IGNORECASE)


@lru_cache(8192)
def days_of(day: int, text: str) -> int | None:
    """Return the day that lies a span like ``12 months`` or ``4 days`` after a day.

    Months and years go by the calendar; the 31st becomes the last day of a shorter month.
    """
    match = _SPAN.fullmatch(text)
    if not match:
        return None
    number, unit = float(match[1]), match[2].lower()
    if unit in ("day", "week"):
        return day + round(number * (7 if unit == "week" else 1))
    months = round(number * (12 if unit == "year" else 1))
    start = np.datetime64(day, "D")
    month = start.astype("datetime64[M]")
    in_month = (start - month.astype("datetime64[D]")).astype(int)
    last = (
        (month + months + 1).astype("datetime64[D]") - (month + months).astype("datetime64[D]")
    ).astype(int)
    return int(((month + months).astype("datetime64[D]") + min(in_month, last - 1)).astype(int))


def use_by_of(state: State, lot: int) -> tuple[int | None, str | None]:
    """Return the day by which to use a lot, and the household's word that it comes from.

    A part jar is open: it lives its fridge life from the last time something was taken.
    """
    keeps = state.facts.facts[int(state.lots["item"][lot])].keeps or {}
    start, place = int(state.lots["day"][lot]), KEPT[int(state.lots["kept"][lot])]
    opened = opened_on(state, lot)
    if opened is not None:
        start, place = opened, "fridge"
    span = keeps.get(place or "shelf")
    return (None, None) if span is None else (days_of(start, span), span)


def opened_on(state: State, lot: int) -> int | None:
    """Return the day on which something was last taken from a jar that is open, else None."""
    jars, whole, left = (
        int(state.lots["jars"][lot]),
        int(state.lots["whole"][lot]),
        int(state.left[lot]),
    )
    part = jars * left / whole if jars else 0.0
    rows = state.allocations_of_lot(lot)
    if abs(part - round(part)) <= 0.001 or not rows.size:
        return None
    return int(state.draws["day"][state.allocations[0][rows]].max())
