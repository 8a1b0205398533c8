"""`show shelf --over-time ITEM`: what was there after each day of change, and a range ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import NotFound
from ledger.items import near_misses
from ledger.messages import sentence
from ledger.methods.scoring import widened
from ledger.projections.base import Answer, Assumption, Column
from ledger.questions.ahead.widening import lately
from ledger.questions.shared.common import LISTED_FROM, UNITS, answer
from ledger.questions.shared.use_past import use_past
from ledger.replay.columns import Array
from ledger.replay.facts import MATCHED
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["TIME_COLUMNS", "build_over_time", "changes", "item_number"]

_AMOUNT = "g, ml, pieces or kJ"
_WEEKS = 52

TIME_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("day", "Day", "day", "Past: a day on which something came or went. Ahead: a week from the one before.", main=True),
    Column("when", "", "", "past or ahead.", main=True),
    Column("item", "Item", "", "What it is."),
    Column("unit", "Unit", "", "The unit of the amounts: g, ml, pieces or kJ.", main=True),
    Column("came", "Came", _AMOUNT, "What came in that day, in the unit of `unit`; null ahead."),
    Column("went", "Went", _AMOUNT, "What went out that day; null ahead."),
    Column("left", "Left", _AMOUNT, "What was there at the end of the day, and until the next record; null ahead.", main=True),
    Column("low", "Low", _AMOUNT, "What is left that day when nothing more comes: less only one time in ten; null in the past.", main=True),
    Column("likely", "Likely", _AMOUNT, "The same, as often less as more.", main=True),
    Column("high", "High", _AMOUNT, "The same, more only one time in ten.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_OWN_WEEKS = "own-weeks"


def item_number(state: State, name: str, field: str) -> int:
    """Return the number of an item by its name, or of one of its strands (``plum@bucket``).

    Raises
    ------
    NotFound
        When the book has no such item, or it is not kept on the shelf.
    """
    found = state.facts.find_strand(name)
    if found is None:
        near = near_misses(name, state.facts.names)
        wanted = f"Did you mean {near[0]!r}?" if near else "Take a name from `croftbook show shelf`"
        raise NotFound(field, f"there is no item {name!r} in this book", wanted)
    if not MATCHED[state.facts.sort[found]]:
        raise NotFound(
            field,
            f"{state.facts.names[found]!r} is not kept lot by lot",
            "Name a food, a lid, a fuel or a supply",
        )
    return found


def changes(state: State, item: int) -> tuple[Array, Array, Array, Array]:
    """Return the days on which something came or went, what came, what went, and what was left.

    Returns
    -------
    day, came, went, left : ndarray of int64, shape (days,)
        Days since 1970, rising; whole units.
    """
    lots = np.flatnonzero(state.lots["item"] == item)
    draws = np.flatnonzero(state.draws["item"] == item)
    into, out = state.lots["day"][lots], state.draws["day"][draws]
    days, at = np.unique(np.concatenate([into, out]), return_inverse=True)
    came, went = np.zeros(days.size, np.int64), np.zeros(days.size, np.int64)
    np.add.at(came, at[: lots.size], state.lots["whole"][lots])
    np.add.at(went, at[lots.size :], state.draws["whole"][draws])
    return days.astype(np.int64), came, went, np.cumsum(came - went)


def build_over_time(state: State, item: int) -> Answer:
    """Return the stock of an item after each day of change, and each week ahead as a range.

    The weeks ahead go on until nine times in ten nothing is left, at most for a year; the
    first of them is the answer's day. Nothing is looked ahead of where less than four weeks
    of use are known, or nothing is left.
    """
    name, unit = state.facts.names[item], UNITS[state.facts.measure[item]]
    shared = {"item": name, "unit": unit, "assumptions": []}
    records: list[dict[str, Any]] = [
        {
            **shared,
            "why": f"shelf/over-time/{name.replace(' ', '-')}/{day_text(day)}",
            "day": day_text(day),
            "when": "past",
            "came": came / 1000,
            "went": went / 1000,
            "left": left / 1000,
        }
        for day, came, went, left in zip(
            *(column.tolist() for column in changes(state, item)), strict=True
        )
    ]
    later, missing = _ahead(state, item, shared)
    return answer(
        state,
        "shelf",
        TIME_COLUMNS,
        records + later,
        totals={"item": name, "unit": unit, "in_words": [], "missing": missing},
        assumptions=[_own_weeks()] if later else [],
    )


def _widened(
    stock: float, low: Array, likely: Array, high: Array, factor: float
) -> tuple[Array, Array, Array]:
    """Return what is left with what is used by then as wide as the shelf's other ranges."""
    if factor == 1.0:
        return low, likely, high
    used = widened(np.array([stock - high, stock - likely, stock - low]), factor)
    most, middle, least = np.maximum(stock - used, 0.0)
    return least, middle, most


def _ahead(
    state: State, item: int, shared: dict[str, Any]
) -> tuple[list[dict[str, Any]], list[str]]:
    stock = float(state.left[state.lots["item"] == item].sum()) / 1000
    least = LISTED_FROM[state.facts.measure[item]] / 1000
    if stock < least:
        return [], []
    use = use_past(state, np.array([item], np.int64))
    if use.too_few(0):
        return [], [sentence("shelf-goes-on", item=shared["item"])]
    ahead = use.ahead[0]
    if ahead is None:
        return [], [sentence("shelf-no-use", item=shared["item"])]
    low, likely, high = _widened(stock, *ahead.left_after(stock, _WEEKS), lately(state).factor)
    gone = np.flatnonzero(high < least)
    last = int(gone[0]) if gone.size else _WEEKS
    out = []
    for week in range(last + 1):
        day = day_text(state.as_of_day + 7 * week)
        out.append(
            {
                **shared,
                "why": f"shelf/over-time/{shared['item'].replace(' ', '-')}/{day}",
                "day": day,
                "when": "ahead",
                "low": float(low[week]),
                "likely": float(likely[week]),
                "high": float(high[week]),
                "assumptions": [_OWN_WEEKS],
            }
        )
    return out, []


def _own_weeks() -> Assumption:
    return Assumption(_OWN_WEEKS, sentence("shelf-ahead-own-weeks"))
