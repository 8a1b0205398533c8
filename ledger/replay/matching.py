"""First in, first out, without a loop over events: which draw took how much of which lot.

For one item, what comes in and what goes out are laid along one axis of cumulative amount; a
draw takes from each lot the overlap of its interval with the lot's. Named lots, missing amounts
and counts (the reckoning, rules 4 to 6) are worked into that axis first. All whole numbers.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ledger.errors import TooLarge
from ledger.replay.columns import Array

__all__ = ["Flow", "Matched", "match", "refuse_overflow"]

_LIMIT = 1 << 62
SLICE = 60_000


@dataclass
class Flow:
    """What comes in, goes out and is counted of some items, each in the order of its position.

    Positions are whole numbers that put all flows of all items into one order: a smaller one
    comes first, and no two flows of one item share one.

    Parameters
    ----------
    lot_item, lot_pos, lot_whole : ndarray of int64, shape (lots,)
    draw_item, draw_pos, draw_whole : ndarray of int64, shape (draws,)
    draw_named : ndarray of int64, shape (draws,)
        Index of the lot that the draw names, or -1.
    count_item, count_pos, count_whole : ndarray of int64, shape (counts,)
    """

    lot_item: Array
    lot_pos: Array
    lot_whole: Array
    draw_item: Array
    draw_pos: Array
    draw_whole: Array
    draw_named: Array
    count_item: Array
    count_pos: Array
    count_whole: Array


@dataclass
class Matched:
    """Allocations, and the lots and draws that counts and missing amounts brought about.

    Draws are numbered: those of the flow first, then one for each count that found less
    (`loss_of` gives the count). Lots likewise: those of the flow, then the unrecorded
    (`missing_of` gives the draw), then the found (`found_of` gives the count).

    Attributes
    ----------
    draw, lot, amount : ndarray of int64, shape (allocations,)
    missing_of, missing_whole : ndarray, shape (unrecorded lots,)
    found_of, found_whole : ndarray, shape (found lots,)
    loss_of, loss_whole : ndarray, shape (losses,)
    contradicted : ndarray of int64
        Counts below what named lines prove to have been there.
    named : int
        How many allocations, the first, were set aside by name, in the order of their draws; the
        others stand item by item.
    """

    draw: Array
    lot: Array
    amount: Array
    missing_of: Array
    missing_whole: Array
    found_of: Array
    found_whole: Array
    loss_of: Array
    loss_whole: Array
    contradicted: Array
    named: int


def match(flow: Flow) -> Matched:
    """Match draws to lots, first in first out, after setting named amounts aside.

    Raises
    ------
    TooLarge
        When the amounts of one item add up beyond 2**62 whole units; `item` is its number.
    """
    refuse_overflow(flow)
    aside = _set_aside(flow)
    rest_draw = flow.draw_whole - aside
    rest_lot = flow.lot_whole.copy()
    named = np.flatnonzero(aside)
    np.subtract.at(rest_lot, flow.draw_named[named], aside[named])
    missing, found, loss, contradicted = _balance(flow, rest_lot, rest_draw, aside, named)
    return _overlap(
        flow, rest_lot, rest_draw, (named, aside[named]), (missing, found, loss), contradicted
    )


def refuse_overflow(flow: Flow) -> None:
    """Raise TooLarge where the amounts of a flow add up beyond what can be held."""
    # A float sum is near enough: the limit itself leaves a factor of two to spare.
    several = (
        (flow.lot_item, flow.lot_whole),
        (flow.draw_item, flow.draw_whole),
        (flow.count_item, flow.count_whole),
    )
    if sum(float(whole.sum(dtype=np.float64)) for _, whole in several) <= _LIMIT:
        return
    totals = np.zeros(1 + max((int(item.max()) for item, _ in several if item.size), default=0))
    for item, whole in several:
        totals += np.bincount(item, whole.astype(np.float64), totals.size)
    worst = int(totals.argmax())
    raise TooLarge(str(worst), int(totals[worst]))


def _order(item: Array, pos: Array) -> Array:
    """Return the order by item, then position: runs of rising positions merged, then 16 bits counted."""
    if item.size and int(item.max()) < 1 << 16:
        order = np.argsort(pos, kind="stable")
        return order[np.argsort(item[order].astype(np.uint16), kind="stable")]
    return np.lexsort((pos, item))


def _set_aside(flow: Flow) -> Array:
    """Return what each draw has set aside from the lot it names, earlier lines first."""
    aside = np.zeros(flow.draw_whole.size, np.int64)
    rows = np.flatnonzero(flow.draw_named >= 0)
    if not rows.size:
        return aside
    lot = flow.draw_named[rows]
    order = np.lexsort((flow.draw_pos[rows], lot))
    rows, lot = rows[order], lot[order]
    whole = flow.draw_whole[rows]
    before = np.cumsum(whole) - whole
    first = np.r_[True, lot[1:] != lot[:-1]]
    before -= np.repeat(before[first], np.diff(np.r_[np.flatnonzero(first), lot.size]))
    aside[rows] = np.clip(flow.lot_whole[lot] - before, 0, whole)
    return aside


def _balance(
    flow: Flow, rest_lot: Array, rest_draw: Array, aside: Array, named: Array
) -> tuple[Array, Array, Array, Array]:
    """Return what was missing before each draw, and found or lost at each count."""
    n_lots, n_draws = rest_lot.size, rest_draw.size
    item = np.concatenate([flow.lot_item, flow.draw_item, flow.count_item])
    pos = np.concatenate([flow.lot_pos, flow.draw_pos, flow.count_pos])
    delta = np.concatenate([rest_lot, -rest_draw, np.zeros(flow.count_item.size, np.int64)])
    proven = _proven(flow, aside, named)
    target = np.maximum(flow.count_whole - proven, 0)
    order = _order(item, pos)
    missing = np.zeros(n_draws, np.int64)
    found = np.zeros(flow.count_item.size, np.int64)
    loss = np.zeros(flow.count_item.size, np.int64)
    if order.size:
        _segments(
            order, item[order], delta[order], (n_lots, n_draws), target, (missing, found, loss)
        )
    return missing, found, loss, np.flatnonzero(flow.count_whole < proven)


def _proven(flow: Flow, aside: Array, named: Array) -> Array:
    """Return r of each count: what later named lines set aside from lots already there."""
    proven = np.zeros(flow.count_item.size, np.int64)
    if not named.size or not proven.size:
        return proven
    lot_pos, draw_pos = flow.lot_pos[flow.draw_named[named]], flow.draw_pos[named]
    is_there = lot_pos < draw_pos
    set_aside = aside[named][is_there]
    # What came in before a count and went out before it is not proven: one running sum an item.
    item = np.concatenate([*[flow.draw_item[named][is_there]] * 2, flow.count_item])
    pos = np.concatenate([lot_pos[is_there], draw_pos[is_there], flow.count_pos])
    delta = np.concatenate([set_aside, -set_aside, proven])
    order = _order(item, pos)
    place = np.empty(order.size, np.int64)
    place[order] = np.arange(order.size)
    return np.asarray(np.cumsum(delta[order])[place[2 * set_aside.size :]])


def _segments(
    order: Array,
    item: Array,
    delta: Array,
    sizes: tuple[int, int],
    target: Array,
    out: tuple[Array, Array, Array],
) -> None:
    """Walk the stretches between counts; only those that run below zero are looked into."""
    n_lots, n_draws = sizes
    missing, found, loss = out
    is_count = order >= n_lots + n_draws
    new_item = np.r_[True, item[1:] != item[:-1]]
    starts = np.flatnonzero(new_item | is_count)
    begins_with_count = is_count[starts]
    # A count starts its stretch with the balance it found; that stands in its own place.
    opening = np.zeros(starts.size, np.int64)
    opening[begins_with_count] = target[order[starts[begins_with_count]] - n_lots - n_draws]
    ends = np.r_[starts[1:], order.size]
    running = np.cumsum(delta)
    base = running[starts] - delta[starts] - opening
    low = np.minimum.reduceat(running, starts) - base
    closing = running[ends - 1] - base
    for i in np.flatnonzero(low < 0):
        rows = slice(starts[i], ends[i])
        balance = running[rows] - base[i]
        depth = np.maximum(-np.minimum.accumulate(balance), 0)
        short = depth.copy()
        short[1:] -= depth[:-1]
        where = np.flatnonzero(short)
        missing[order[rows][where] - n_lots] = short[where]
        closing[i] += depth[-1]
    # What a count met is where the stretch before it, of the same item, closed.
    at = np.flatnonzero(begins_with_count)
    met = np.where(new_item[starts[at]], 0, closing[at - 1])
    difference = opening[at] - met
    counts = order[starts[at]] - n_lots - n_draws
    found[counts] = np.maximum(difference, 0)
    loss[counts] = np.maximum(-difference, 0)


def _overlap(
    flow: Flow,
    rest_lot: Array,
    rest_draw: Array,
    asides: tuple[Array, Array],
    made: tuple[Array, Array, Array],
    contradicted: Array,
) -> Matched:
    """Lay lots and draws along one axis for each item and take what overlaps."""
    missing, found, loss = made
    missing_of, found_of, loss_of = (
        np.flatnonzero(missing),
        np.flatnonzero(found),
        np.flatnonzero(loss),
    )
    item_in = np.concatenate([flow.lot_item, flow.draw_item[missing_of], flow.count_item[found_of]])
    # Positions leave room between flows: an unrecorded lot comes just before its draw.
    pos_in = np.concatenate(
        [flow.lot_pos * 2, flow.draw_pos[missing_of] * 2 - 1, flow.count_pos[found_of] * 2]
    )
    size_in = np.concatenate([rest_lot, missing[missing_of], found[found_of]])
    item_out = np.concatenate([flow.draw_item, flow.count_item[loss_of]])
    pos_out = np.concatenate([flow.draw_pos, flow.count_pos[loss_of]])
    size_out = np.concatenate([rest_draw, loss[loss_of]])
    order_in = _order(item_in, pos_in)
    order_out = _order(item_out, pos_out)
    parts = [
        _one_axis(a, b, item_in, size_in, item_out, size_out)
        for a, b in _slices(order_in, item_in, order_out, item_out)
    ]
    named, amount = asides
    draw = np.concatenate([named, *(p[0] for p in parts)]).astype(np.int64)
    lot = np.concatenate([flow.draw_named[named], *(p[1] for p in parts)]).astype(np.int64)
    amount = np.concatenate([amount, *(p[2] for p in parts)]).astype(np.int64)
    return Matched(
        draw, lot, amount,
        missing_of, missing[missing_of],
        found_of, found[found_of],
        loss_of, loss[loss_of],
        contradicted, named.size,
    )  # fmt: skip


def _slices(
    order_in: Array, item_in: Array, order_out: Array, item_out: Array
) -> list[tuple[Array, Array]]:
    """Cut both orders into slices of whole items that stay in the processor's cache."""
    if not order_out.size:
        return []
    sorted_in, sorted_out = item_in[order_in], item_out[order_out]
    last = int(sorted_out[-1]) + 1
    bounds_out = np.searchsorted(sorted_out, np.arange(last + 1))
    bounds_in = np.searchsorted(sorted_in, np.arange(last + 1))
    out, start = [], 0
    sizes = bounds_out + bounds_in
    while start < last:
        stop = int(np.searchsorted(sizes, sizes[start] + SLICE, side="right")) - 1
        stop = min(max(stop, start + 1), last)
        out.append(
            (
                order_in[bounds_in[start] : bounds_in[stop]],
                order_out[bounds_out[start] : bounds_out[stop]],
            )
        )
        start = stop
    return [pair for pair in out if pair[1].size]


def _one_axis(
    order_in: Array,
    order_out: Array,
    item_in: Array,
    size_in: Array,
    item_out: Array,
    size_out: Array,
) -> tuple[Array, Array, Array]:
    """Return draws, lots and amounts of one slice of whole items."""
    order_out = order_out[size_out[order_out] > 0]
    order_in = order_in[size_in[order_in] > 0]
    if not order_out.size:
        empty = np.empty(0, np.int64)
        return empty, empty, empty
    end_in = np.cumsum(size_in[order_in])
    end_out = np.cumsum(size_out[order_out])
    # Each item's draws begin where its own lots begin, not where the last item's draws ended.
    draws = item_out[order_out]
    first = np.flatnonzero(np.r_[True, draws[1:] != draws[:-1]])
    lots = np.searchsorted(item_in[order_in], draws[first])
    shift = np.r_[0, end_in][lots] - np.r_[0, end_out][first]
    end_out += np.repeat(shift, np.diff(np.r_[first, draws.size]))
    start_out = end_out - size_out[order_out]
    high = np.searchsorted(end_in, end_out, side="left")
    # A draw begins in the lot in which the one before it ended, or in the next if that was used up.
    low = np.r_[0, high[:-1]]
    low[1:] += end_in[high[:-1]] == end_out[:-1]
    low[first] = lots
    several = high - low + 1
    draw = np.repeat(np.arange(order_out.size), several)
    offset = np.arange(draw.size) - np.repeat(np.cumsum(several) - several, several)
    lot = low[draw] + offset
    start_in = end_in - size_in[order_in]
    amount = np.minimum(end_in[lot], end_out[draw]) - np.maximum(start_in[lot], start_out[draw])
    return order_out[draw], order_in[lot], amount
