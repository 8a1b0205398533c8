"""Rules 4 to 6: first in first out per item, with deques and whole numbers.

`match` needs no facts and no money, only lots, draws and counts in the order of their steps.
"""

from __future__ import annotations

from collections import defaultdict, deque

from oracle.model import Allocation, Count, Draw, Lot


def match(steps):
    """Match draws to lots.

    Parameters
    ----------
    steps : list of Lot, Draw or Count
        In order; their `step` is their index.

    Returns
    -------
    lots : dict of str to Lot
        Those given, and the unrecorded and found ones, in order.
    draws : list of Draw
        Those given, and what counts showed missing, with allocations.
    """
    set_aside, later = _set_asides(steps)
    lots, draws = {}, []
    rest = defaultdict(deque)  # item -> [lot, amount that nobody named], oldest first
    for step in steps:
        queue = rest[step.strand]
        if isinstance(step, Lot):
            lots[step.id] = step
            queue.append([step, step.whole - set_aside.get(step.id, 0)])
        elif isinstance(step, Draw):
            draws.append(step)
            want = step.whole - sum(a.amount for a in step.allocations)
            want -= _take(queue, step, want)
            if want:
                lot = _extra(step, "u", "unrecorded", want)
                lots[lot.id] = lot
                step.allocations.append(Allocation(lot.id, want, named=False))
        else:
            _count(step, queue, later(step), lots, draws)
    for lot in lots.values():
        lot.left = lot.whole
    for draw in draws:
        for taken in draw.allocations:
            lots[taken.lot].left -= taken.amount
    return lots, draws


def _set_asides(steps):
    """Give named lines their lots; return what was set aside of each, and r of a count."""
    supplied, taken, named = {}, defaultdict(int), []
    for step in steps:
        if isinstance(step, Lot):
            supplied[step.id] = step
        elif isinstance(step, Draw) and step.lot in supplied:
            lot = supplied[step.lot]
            amount = min(step.whole, lot.whole - taken[lot.id])
            if lot.strand == step.strand and amount > 0:
                taken[lot.id] += amount
                step.allocations.append(Allocation(lot.id, amount, named=True))
                named.append((lot, step, amount))

    def later(count):
        return sum(
            amount
            for lot, draw, amount in named
            if lot.strand == count.strand and lot.step < count.step < draw.step
        )

    return taken, later


def _take(queue, draw, want):
    """Take up to `want` from the front of the queue; return what was there."""
    got = 0
    while queue and got < want:
        lot, there = queue[0]
        amount = min(there, want - got)
        if amount:
            draw.allocations.append(Allocation(lot.id, amount, named=False))
        got += amount
        queue[0][1] -= amount
        if queue[0][1] == 0:
            queue.popleft()
    return got


def _extra(step, mark, origin, whole):
    return Lot(
        id=f"{step.entry}:{step.n}{mark}",
        item=step.item,
        strand=step.strand,
        whole=whole,
        on=step.on,
        kept=None,
        origin=origin,
        entry=step.entry,
        step=step.step,
    )


def _count(count: Count, queue, reserved, lots, draws):
    """Set the rest of the item to max(count - r, 0)."""
    count.contradicted = count.whole < reserved
    target = max(count.whole - reserved, 0)
    there = sum(amount for _, amount in queue)
    if target > there:
        lot = _extra(count, "c", "found", target - there)
        lots[lot.id] = lot
        queue.append([lot, lot.whole])
    elif target < there:
        draw = Draw(
            entry=count.entry,
            n=count.n,
            item=count.item,
            strand=count.strand,
            whole=there - target,
            cause="missing",
            on=count.on,
            step=count.step,
            as_eaten=count.as_eaten,
        )
        _take(queue, draw, draw.whole)
        draws.append(draw)
