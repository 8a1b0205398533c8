"""A moment grown from one that is known: only the items that changed are matched anew.

What changed between two moments is a few events that came to count and a few that no longer do
(replaced, struck, or after the day that is asked for). The items in their lines are matched
again, whole; lots, draws and allocations of all others are taken over. Weights, merged names,
sorts and settings can change any line of the book, so a change of those, of more than a
twentieth of the events, or an item's first use is left to `build_state`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from typing import TYPE_CHECKING

import numpy as np

from ledger.kinds import KINDS
from ledger.replay.columns import Array
from ledger.replay.facts import MATCHED
from ledger.replay.flows import LINE_BITS, Flows, Moment, flows_of
from ledger.replay.matching import Flow, Matched, match
from ledger.replay.naming import find_named

if TYPE_CHECKING:
    from ledger.replay.facts import Facts
    from ledger.replay.journal import Journal

__all__ = ["Change", "grow_flows", "grow_matched", "is_stating"]

_STATING = [list(KINDS).index(kind) for kind in ("item_described", "setting_changed")]
_PRICED = [list(KINDS).index(kind) for kind in ("bought", "price_seen")]
_PUT_UP = list(KINDS).index("put_up")
_FEW = 64
_PART = 20
Columns = dict[str, Array]


def is_stating(kinds: Array) -> bool:
    """Return whether events of some kinds can change any line of the book."""
    return bool(np.isin(kinds, _STATING).any())


class Change:
    """What came to count and what no longer does between two moments.

    Attributes
    ----------
    came, gone : ndarray of bool, shape (events,)
    is_none : bool
        Whether the same events count.
    is_small : bool
        Whether growing is possible and worth it.
    is_priced, is_batch : bool
        Whether a price or purchase, and whether a batch is among it.
    """

    def __init__(self, journal: Journal, old: Moment, new: Moment) -> None:
        size = max(old.rank.size, new.rank.size)
        before, after = (np.zeros(size, bool) for _ in range(2))
        before[: old.rank.size] = old.rank >= 0
        after[: new.rank.size] = new.rank >= 0
        self.came, self.gone = after & ~before, before & ~after
        changed = np.flatnonzero(self.came | self.gone)
        kinds = journal.tables["events"]["kind"][changed]
        self.is_priced = bool(np.isin(kinds, _PRICED).any())
        self.is_batch = bool((kinds == _PUT_UP).any())
        self.is_none = not changed.size
        self._changed = changed
        self.is_small = bool(changed.size <= max(_FEW, size // _PART) and not is_stating(kinds))

    def repriced(self, journal: Journal, facts: Facts, worn: Array) -> Array | None:
        """Return which items a price or purchase that came or went may give another price.

        None where something is among them that is worn or that the garden takes: what it cost is
        spread over all that it served.

        Parameters
        ----------
        worn : ndarray of int64
            Items that batches wear, whatever their sort.
        """
        out = np.zeros(len(facts), bool)
        if not self.is_priced:
            return out
        for name in ("supplies", "prices"):
            table = journal.tables[name]
            rows = np.flatnonzero(np.isin(table["ev"], self._changed))
            items = facts.canon[table["item"][rows]]
            is_spread = np.isin(items, worn) | ~MATCHED[facts.sort[items]]
            if name == "supplies" and is_spread.any():
                return None
            out[facts.lines(table, rows)[0]] = True
        for other, _ in facts.equivalents:
            out |= (other >= 0) & out[other]
        return out


class _Merge:
    """Rows kept of a table and rows that came, in the order of their new positions.

    Attributes
    ----------
    columns : dict of ndarray
    place : ndarray of int64, shape (old rows,)
        Where each old row stands now; -1 where it is gone.
    """

    def __init__(self, old: Columns, new: Columns, gone: Array, moment: Moment) -> None:
        kept = np.flatnonzero(~gone[old["ev"]])
        whole = kept.size == old["ev"].size
        ev = old["ev"] if whole else old["ev"][kept]
        base = moment.rank[ev] << LINE_BITS
        pos = base + ((old["pos"] if whole else old["pos"][kept]) & ((1 << LINE_BITS) - 1))
        later = not new["pos"].size or not pos.size or new["pos"][0] > pos[-1]
        place = order = np.arange(pos.size + new["pos"].size)
        if not later:
            order = np.argsort(np.concatenate([pos, new["pos"]]), kind="stable")
            place = np.empty(order.size, np.int64)
            place[order] = np.arange(order.size)

        def column(name: str) -> Array:
            mine = pos if name == "pos" else old[name] if whole else old[name][kept]
            if not new["ev"].size:
                return mine
            joined = np.concatenate([mine, new[name]])
            return joined if later else joined[order]

        self.columns = {name: column(name) for name in new}
        self.place = place[: kept.size]
        if not whole:
            self.place = np.full(old["ev"].size, -1, np.int64)
            self.place[kept] = place[: kept.size]


def grow_flows(
    journal: Journal,
    facts: Facts,
    moment: Moment,
    old: Flows,
    change: Change,
    label_prefix: str | None,
) -> tuple[Flows, tuple[Array, Array, Array], Array]:
    """Return the flows at a moment, from those of another.

    Returns
    -------
    flows : Flows
    places : three ndarrays
        Where each old lot, draw and count stands now; -1 where it is gone.
    touched : ndarray of bool, shape (items,)
        Items with a line that came or went.
    """
    new = flows_of(journal, facts, moment, change.came)
    lots, draws, counts = (
        _Merge(before, after, change.gone, moment)
        for before, after in (
            (old.lots, new.lots),
            (old.draws, {**new.draws, "named": np.full(new.draws["ev"].size, -1, np.int64)}),
            (old.counts, new.counts),
        )
    )
    touched = np.zeros(len(facts), bool)
    for before, after in ((old.lots, new.lots), (old.draws, new.draws), (old.counts, new.counts)):
        touched[before["item"][change.gone[before["ev"]]]] = True
        touched[after["item"]] = True
    _name_again(journal, moment, lots, draws, touched, label_prefix)
    flows = Flows(lots.columns, draws.columns, counts.columns)
    return flows, (lots.place, draws.place, counts.place), touched


def _name_again(
    journal: Journal,
    moment: Moment,
    lots: _Merge,
    draws: _Merge,
    touched: Array,
    label_prefix: str | None,
) -> None:
    """Carry over which lots draws name, and look for them anew where their item's lots changed."""
    columns = draws.columns
    named, known = columns["named"], np.flatnonzero(columns["named"] >= 0)
    named = named.copy()
    named[known] = lots.place[named[known]]
    naming = np.flatnonzero((columns["lot_text"] >= 0) & touched[columns["item"]])
    named[naming] = find_named(journal, moment, lots.columns, columns, naming, label_prefix)
    columns["named"] = named


def grow_matched(
    flows: Flows, old: Matched, before: Flows, places: tuple[Array, Array, Array], touched: Array
) -> tuple[Matched, Array]:
    """Match the touched items anew and take over the allocations of the others.

    Parameters
    ----------
    old, before : Matched, Flows
        Of the moment that is grown from.
    places, touched
        From `grow_flows`.

    Returns
    -------
    matched : Matched
    lots : ndarray of int64
        Where each lot stands now, missing and found ones behind the others; -1 where it is gone,
        or was missing or found of a touched item.
    """
    lots, draws, counts = (
        np.flatnonzero(touched[table["item"]]) for table in (flows.lots, flows.draws, flows.counts)
    )
    some = match(_flow_of(flows, lots, draws, counts))
    lot_place, draw_place, count_place = places
    stays = [~touched[table["item"]] for table in (before.draws, before.counts)]
    missing = _Numbers(old.missing_of, stays[0], draw_place, some.missing_of, draws)
    found = _Numbers(old.found_of, stays[1], count_place, some.found_of, counts)
    loss = _Numbers(old.loss_of, stays[1], count_place, some.loss_of, counts)
    ends_lots = (flows.lots["ev"].size, missing.of.size)
    all_lots = _joined(lot_place, ends_lots, (missing.kept_at, found.kept_at))
    new_lots = _joined(lots, ends_lots, (missing.new_at, found.new_at))
    ends_draws = (flows.draws["ev"].size,)
    all_draws = _joined(draw_place, ends_draws, (loss.kept_at,))
    new_draws = _joined(draws, ends_draws, (loss.new_at,))
    old_item = np.concatenate([before.draws["item"], before.counts["item"][old.loss_of]])
    draw_item = np.concatenate([flows.draws["item"], flows.counts["item"][loss.of]])
    again = all_draws, all_lots, new_draws, new_lots
    aside = _aside(old, some, again, ~touched[old_item[old.draw[: old.named]]])
    rest = _rest(old, some, again, np.flatnonzero(touched), (old_item, draw_item))
    below = np.concatenate(
        [count_place[old.contradicted[stays[1][old.contradicted]]], counts[some.contradicted]]
    )
    draw, lot, amount = (np.concatenate(pair) for pair in zip(aside, rest, strict=True))
    matched = Matched(
        draw, lot, amount,
        missing.of, missing.merged(old.missing_whole, some.missing_whole),
        found.of, found.merged(old.found_whole, some.found_whole),
        loss.of, loss.merged(old.loss_whole, some.loss_whole),
        np.sort(below), aside[0].size,
    )  # fmt: skip
    is_kept = np.concatenate([lot_place, missing.kept_at, found.kept_at]) >= 0
    return matched, np.where(is_kept, all_lots, -1)


_Again = tuple[Array, Array, Array, Array]
"""Where each draw and lot stands now: those of the moment before, and those that were matched anew."""


def _aside(old: Matched, some: Matched, again: _Again, keep: Array) -> tuple[Array, Array, Array]:
    """Return the allocations of draws that name their lot, kept and new, in the order of their draws."""
    draws, lots, new_draws, new_lots = again
    kept, new = slice(old.named), slice(some.named)
    mine = draws[old.draw[kept][keep]], lots[old.lot[kept][keep]], old.amount[kept][keep]
    other = new_draws[some.draw[new]], new_lots[some.lot[new]], some.amount[new]
    at = np.searchsorted(mine[0], other[0])
    draw, lot, amount = (np.insert(a, at, b) for a, b in zip(mine, other, strict=True))
    return draw, lot, amount


def _rest(
    old: Matched, some: Matched, again: _Again, touched: Array, item: tuple[Array, Array]
) -> tuple[Array, Array, Array]:
    """Return all other allocations: item by item, those of touched ones in the place of the old.

    Parameters
    ----------
    touched : ndarray of int64
        Items, rising.
    item : two ndarrays of int64
        The item of each draw of the moment before, and of each draw now.
    """
    draws, lots, new_draws, new_lots = again
    new = (
        new_draws[some.draw[some.named :]],
        new_lots[some.lot[some.named :]],
        some.amount[some.named :],
    )
    of_new = item[1][new[0]]
    ends = (
        np.searchsorted(of_new, touched).tolist(),
        np.searchsorted(of_new, touched, "right").tolist(),
    )
    rows = range(old.named, old.draw.size)

    def of_old(row: int) -> int:
        return int(item[0][old.draw[row]])

    parts: list[tuple[Array, Array, Array]] = []
    begin = old.named
    for one, low, high in zip(touched.tolist(), *ends, strict=True):
        # a search by hand: the items of all rows would be a pass over the book
        first = old.named + bisect_left(rows, one, key=of_old)
        kept = slice(begin, first)
        parts.append((draws[old.draw[kept]], lots[old.lot[kept]], old.amount[kept]))
        parts.append((new[0][low:high], new[1][low:high], new[2][low:high]))
        begin = old.named + bisect_right(rows, one, key=of_old)
    kept = slice(begin, None)
    parts.append((draws[old.draw[kept]], lots[old.lot[kept]], old.amount[kept]))
    draw, lot, amount = (np.concatenate([part[i] for part in parts]) for i in range(3))
    return draw, lot, amount


def _flow_of(flows: Flows, lots: Array, draws: Array, counts: Array) -> Flow:
    """Return the flow of some rows; whom a draw names is counted among those lots."""
    number = np.full(flows.lots["ev"].size, -1, np.int64)
    number[lots] = np.arange(lots.size)
    named = flows.draws["named"][draws]
    return Flow(
        flows.lots["item"][lots], flows.lots["pos"][lots], flows.lots["whole"][lots],
        flows.draws["item"][draws], flows.draws["pos"][draws], flows.draws["whole"][draws],
        np.where(named >= 0, number[named], -1) if number.size else named,
        flows.counts["item"][counts], flows.counts["pos"][counts], flows.counts["whole"][counts],
    )  # fmt: skip


class _Numbers:
    """Which draws or counts brought about a lot or a draw of their own, kept and new together."""

    def __init__(self, old: Array, stays: Array, place: Array, new: Array, rows: Array) -> None:
        self._kept = np.flatnonzero(stays[old])
        both = np.concatenate([place[old[self._kept]], rows[new]])
        self._order = np.argsort(both, kind="stable")
        self.of = both[self._order]
        at = np.empty(both.size, np.int64)
        at[self._order] = np.arange(both.size)
        self.kept_at = np.full(old.size, -1, np.int64)
        self.kept_at[self._kept] = at[: self._kept.size]
        self.new_at = at[self._kept.size :]

    def merged(self, old: Array, new: Array) -> Array:
        """Return a column of what was kept and what is new, in their order."""
        return np.concatenate([old[self._kept], new])[self._order]


def _joined(first: Array, ends: tuple[int, ...], others: tuple[Array, ...]) -> Array:
    """Return one numbering of several tables that stand one behind the other."""
    starts = np.cumsum(ends)
    return np.concatenate([first, *(start + at for start, at in zip(starts, others, strict=True))])
