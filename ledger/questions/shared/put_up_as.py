"""What was put up under the name of the fresh food: a lot of its method, never dated as the fresh food is.

The book joins what bears one name. Seven quarts of green beans from fourteen pounds of green beans are
jars all the same: what the household says of the shelf and the fridge is said of what is fresh.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import Amount, Said, canonical_jar, parse_amount
from ledger.errors import InputError, NeedsAnswer
from ledger.kinds import KINDS
from ledger.reference import foods
from ledger.replay import KEPT, ORIGINS
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = [
    "amount_typed",
    "is_fresh_food",
    "is_weighed",
    "jars_drawn",
    "own_word_holds",
    "put_up_as",
]

_PUT_UP = list(KINDS).index("put_up")
_PICKED = [ORIGINS.index("grown"), ORIGINS.index("foraged")]
_AS_IT_IS = "cellar"
"""A method that leaves fresh food as it is: roots in sand."""


def is_fresh_food(state: State) -> Array:
    """Return which items are the name of a fresh food, shape (items,); ask with ``state.once``.

    That is what was ever picked, and what the food table has raw.
    """
    lots, facts = state.lots, state.facts
    out = np.zeros(len(facts), bool)
    out[lots["item"][np.isin(lots["origin"], _PICKED)]] = True
    for item, one in enumerate(facts.facts):
        row = None if out[item] or one.food is None else foods.by_id(one.food)
        out[item] |= row is not None and "raw" in row.description.casefold().split(", ")
    return out


def put_up_as(state: State, lot: int) -> str | None:
    """Return the method by which a lot was put up under the name of the fresh food; None of any other."""
    ev = int(state.lots["ev"][lot])
    if state.journal.tables["events"]["kind"][ev] != _PUT_UP:
        return None
    if not state.once(is_fresh_food)[state.lots["item"][lot]]:
        return None
    method = str(state.body(ev)["method"])
    return None if method == _AS_IT_IS else method


def own_word_holds(state: State, lot: int, place: str | None) -> bool:
    """Return whether what the household says of an item at a place is said of this lot.

    Nothing fresh stands in the freezer: what is said of it there is said of what was put up.
    """
    return place == KEPT[2] or put_up_as(state, lot) is None


def is_weighed(line: Mapping[str, Any]) -> bool:
    """Return whether a line says a weight: beans by weight are picked rather than opened."""
    try:
        return parse_amount(line["amount"]).measure == "mass"
    except (InputError, NeedsAnswer):
        return False


def amount_typed(line: Mapping[str, Any]) -> Amount | None:
    """Return a typed line's amount as it was read where it was typed, else as it reads; None where it cannot be."""
    text = line.get("amount")
    if isinstance(text, Said) and text.amount is not None:
        return text.amount
    try:
        return parse_amount(str(text), zero=True)
    except (InputError, NeedsAnswer):
        return None


def jars_drawn(state: State, ev: int, lines: list[dict[str, Any]]) -> dict[int, list[int]]:
    """Return what an event takes out of jars of the fresh food's name, and says neither by jar nor by lot.

    Parameters
    ----------
    state : State
        The book with the event.
    ev : int
        The event's place.
    lines : list of dict
        What it says, as stored.

    Returns
    -------
    dict of int to list of int
        Rows of the allocations by item.
    """
    draw, lot, _ = state.allocations
    taken = np.flatnonzero((state.draws["ev"] == ev)[draw] & (state.lots["jars"][lot] > 0))
    out: dict[int, list[int]] = {}
    for row in taken.tolist():
        if put_up_as(state, int(lot[row])) is not None:
            out.setdefault(int(state.lots["item"][lot[row]]), []).append(row)

    def is_jar(line: dict[str, Any]) -> bool:
        said = amount_typed(line)  # the door takes a plain quart as a jar; nobody said one
        plain = said is not None and said.maybe_jar is not None
        return "jars" in line or (not plain and canonical_jar(str(line.get("per"))) is not None)

    named = {state.facts.find(one["item"]) for one in lines if one.get("lot") or is_jar(one)}
    return {
        item: rows
        for item, rows in out.items()
        if state.facts.find(state.facts.names[item]) not in named
    }
