"""Money that changed hands: what was paid for kit and garden, for meters, and what came in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import Array
from ledger.kinds import KINDS, METHODS
from ledger.replay import COMPONENTS, tables
from ledger.replay.facts import SORTS

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Purchases", "got", "lines_of_purchases", "metered", "purchases"]

_KIT = [SORTS.index(sort) for sort in ("jar", "lid", "equipment", "fuel")]
_GARDEN, _EQUIPMENT = SORTS.index("garden input"), SORTS.index("equipment")
_GIVEN = list(KINDS).index("given_away")
_PAYING = [tables.CAUSES.index(how) for how in ("sold", "barter", "gift")]
_FUEL = COMPONENTS.index("fuel")


@dataclass
class Purchases:
    """Bought lines of jars, lids, equipment, fuel and garden inputs; arrays of shape (lines,)."""

    ev: Array
    item: Array
    day: Array
    money: Array
    crop: Array
    """The item that a garden input is for; -1: the garden as a whole."""
    is_said: Array
    """Whether somebody said what was paid."""


def purchases(state: State) -> Purchases:
    """Return what was bought for garden, animals and kit, in the order written down."""
    table, facts = state.journal.tables["supplies"], state.facts
    rows = state.moment.rows(state.journal, "supplies")
    rows = rows[
        state.journal.tables["events"]["kind"][table["ev"][rows]] == list(KINDS).index("bought")
    ]
    item = facts.canon[table["item"][rows]].astype(np.int64)
    keep = np.isin(facts.sort[item], [*_KIT, _GARDEN]) if rows.size else np.zeros(0, bool)
    rows, item = rows[keep], item[keep]
    feeds = np.array([-1 if (n := facts.find(f.feeds)) is None else n for f in facts.facts], int)
    code = table["for_crop"][rows]
    said = np.where(code >= 0, facts.canon[np.maximum(code, 0)], -1) if rows.size else code
    crop = np.where(said >= 0, said, feeds[item]) if rows.size else said
    ev = table["ev"][rows].astype(np.int64)
    money = table["money"][rows]
    return Purchases(
        ev, item, state.moment.on[ev], np.nan_to_num(money), crop, np.asarray(~np.isnan(money))
    )


def lines_of_purchases(
    state: State, bought: Purchases, animals: Array, codes: Mapping[str, int]
) -> Array:
    """Return the line that each purchase belongs to.

    Garden inputs belong to what they are for; jars, lids and fuel to preserving; equipment to cooking
    where every batch that named it was cooked, to what it feeds where it says so, else to preserving.
    """
    line = np.full(bought.ev.size, codes["preserving"])
    if not line.size:
        return line
    fed = (bought.crop >= 0) & animals[np.maximum(bought.crop, 0)]
    garden = state.facts.sort[bought.item] == _GARDEN
    line[garden] = codes["garden"]
    equipment = state.facts.sort[bought.item] == _EQUIPMENT
    line[equipment & np.isin(bought.item, _cooking_only(state))] = codes["cooking"]
    line[fed & (garden | equipment)] = codes["animals"]
    return line


def _cooking_only(state: State) -> Array:
    """Return the equipment that nothing but cooking was done with."""
    table, batches = state.journal.tables["equipment"], state.journal.tables["batches"]
    rows = state.moment.rows(state.journal, "equipment")
    cooked = np.zeros(len(state.journal), bool)
    cooked[batches["ev"]] = batches["method"] == METHODS.index("cook")
    item, plain = state.facts.canon[table["item"][rows]], cooked[table["ev"][rows]]
    return np.setdiff1d(item[plain], item[~plain])


def metered(state: State) -> tuple[Array, Array]:
    """Return (event, money) of metered fuel at the price set for its day."""
    part = next(part for part in state.costs.own.parts if part.component == _FUEL)
    return part.ev, part.money


def got(state: State) -> tuple[Array, Array]:
    """Return (event, money) of what came in for things sold or given."""
    events = state.journal.tables["events"]
    rank = state.moment.rank
    counted = np.flatnonzero(rank >= 0)
    counted = counted[events["kind"][counted] == _GIVEN]
    money = events["got"][counted]
    some = ~np.isnan(money)
    return counted[some], money[some]
