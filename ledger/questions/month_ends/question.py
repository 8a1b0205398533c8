"""What was there at the end of every month, and the least and most within it?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.errors import NotFound
from ledger.items import item_key
from ledger.messages import Message, Typed
from ledger.messages.units import amount_later
from ledger.projections.base import Answer, Column, Option, Projection
from ledger.questions.shared.common import LISTED_FROM, UNITS, answer
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.columns import Array

__all__ = ["COLUMNS", "PROJECTION", "build"]

COLUMNS = (
    Column("item", "Item", "", "Which item; one kept in several measures has a record of each.", main=True),
    Column("month", "Month", "", "The month, as 2026-09.", main=True),
    Column("on", "On", "day", "Its last day; of the month that runs, the answer's.", main=True),
    Column("in_words", "There", "", "What was there then, in words; none where nothing was.", main=True),
    Column("left", "Amount", "", "The same as a number."),
    Column("least", "Least", "", "Least that was there at the end of a day of the month."),
    Column("most", "Most", "", "Most that was there at the end of a day of the month."),
    Column("unit", "Unit", "", "What amount, least and most count: g, ml or pieces."),
)  # fmt: skip
_YEAR_DAYS = 366
"""Without an item named, the months of about one year."""


def build(state: State, *, item: str | None = None) -> Answer:
    """Return one record a month and item.

    Parameters
    ----------
    state : State
    item : str, optional
        Only this one, from its first day on; default: what is there now, over a year.

    Returns
    -------
    Answer
        Columns as in `COLUMNS`. An amount is what came in less what went out by that day, as the book
        matches them now: jars that a later count found missing are gone from the day of that count.

    Raises
    ------
    NotFound
        When the book knows no such item.
    """
    strands = _wanted(state, item)
    since = state.as_of_day - _YEAR_DAYS if item is None else None
    records = [one for strand in strands for one in _months(state, strand, since)]
    return answer(state, "month-ends", COLUMNS, records)


def _wanted(state: State, item: str | None) -> list[int]:
    """Return the strands of an item, or those of which something is there."""
    facts = state.facts
    if item is None:
        return [int(one) for one in np.unique(state.lots["item"][state.left > 0])]
    key = item_key(item)
    found = [
        one
        for one in range(facts.items)
        if item_key(facts.names[one]) == key
        or key in {item_key(also) for also in facts.facts[one].also or ()}
    ]
    if not found:
        raise NotFound("item", Message.of("refusal-book-knows-no", text=Typed(item)))
    return [int(one) for one in np.flatnonzero(np.isin(facts.item_of, found))]


def _changes(state: State, strand: int) -> tuple[Array, Array]:
    """Return days, each once and rising, and what came in less what went out on each, whole units."""
    mine = state.lots["item"] == strand
    draw, lot, amount = state.allocations
    gone = mine[lot]
    days = np.concatenate([state.lots["day"][mine], state.draws["day"][draw[gone]]]).astype(
        np.int64
    )
    whole = np.concatenate([state.lots["whole"][mine], -amount[gone]]).astype(np.int64)
    once, place = np.unique(days, return_inverse=True)
    out = np.zeros(once.size, np.int64)
    np.add.at(out, place, whole)
    return once, out


def _months(state: State, strand: int, since: int | None) -> list[dict[str, Any]]:
    days, change = _changes(state, strand)
    if not days.size:
        return []
    level = np.cumsum(change)
    first = np.datetime64(int(max(days[0], since or days[0])), "D").astype("datetime64[M]")
    last = np.datetime64(int(state.as_of_day), "D").astype("datetime64[M]")
    starts = np.arange(first, last + 2)
    bounds = starts.astype("datetime64[D]").astype(np.int64)
    bounds[-1] = min(bounds[-1], state.as_of_day + 1)
    at = np.searchsorted(days, bounds) - 1  # the newest change before each month begins
    measure, name = state.facts.measure[strand], state.facts.names[strand]
    measures = state.settings.newest("measures") or "us"
    out = []
    for i in range(starts.size - 1):
        within = level[max(at[i], 0) : at[i + 1] + 1]
        if at[i] < 0:  # nothing was there when it began
            within = np.concatenate([[0], level[: at[i + 1] + 1]])
        there = int(within[-1]) if within.size else 0
        out.append(
            {
                "item": name, "month": str(starts[i]), "on": day_text(int(bounds[i + 1]) - 1),
                "in_words": amount_later(format_whole(there, measure, measures=measures))
                if there >= LISTED_FROM[measure]
                else "none",
                "left": there / 1000, "least": int(within.min()) / 1000, "most": int(within.max()) / 1000,
                "unit": UNITS[measure],
            }
        )  # fmt: skip
    return out


PROJECTION = Projection(
    name="month-ends",
    title="Month ends",
    question=__doc__.strip(),
    columns=COLUMNS,
    build=build,
    options=(Option("item", "only this item, from its first day on", "plum"),),
    dated="on",
)
