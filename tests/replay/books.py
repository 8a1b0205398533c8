"""Stored events as dicts, replayed without a store, and both engines' answers side by side."""

from __future__ import annotations

import math
from collections import deque

import msgspec

from ledger.log import BARE, COLUMNS
from ledger.projections import PROJECTIONS
from ledger.replay import Replay

FAR = "2100-01-01"


class ListLog:
    """A log that reads from a list of event dicts, in chunks."""

    def __init__(self, events, chunk=50):
        self.rows = [row_of(event) for event in events]
        self.chunk = chunk

    def read(self, after=0, upto=None, kinds=None, bare=False):
        rows = [row for row in self.rows[after:upto] if kinds is None or row[2] in kinds]
        if bare:
            rows = [tuple(row[COLUMNS.index(name)] for name in BARE) for row in rows]
        for start in range(0, len(rows), self.chunk):
            yield rows[start : start + self.chunk]

    def written_between(self, after, upto):
        return [(row[1], row[6]) for row in self.rows[after:upto]]

    def numbers_of(self, ids):
        return {row[1]: row[0] for row in self.rows if row[1] in set(ids)}

    def numbered(self, numbers):
        return [self.rows[number - 1] for number in sorted(numbers) if 0 < number <= len(self.rows)]


def row_of(event):
    """Return a stored row: the tuple that a log gives."""
    body = msgspec.json.encode(event["body"], order="sorted").decode()
    return (
        event["seq"],
        event["id"],
        event["kind"],
        event.get("v", 1),
        event["on"],
        event.get("at"),
        event["recorded_at"],
        None,
        event.get("by"),
        event.get("replaces"),
        body,
        "",
    )


def state_of(events, as_of=FAR, known_at=None, chunk=50):
    replay = Replay(ListLog(events, chunk))
    replay.refresh()
    return replay.state(as_of=as_of, known_at=known_at)


def replay_of(events, as_of=FAR):
    """Return the replay of a book that was asked for its state after each event."""
    log = ListLog([])
    replay = Replay(log)
    for event in events:
        log.rows.append(row_of(event))
        replay.refresh()
        replay.state(as_of=as_of)
    return replay


def answer_of(state, name):
    return PROJECTIONS[name].build(state).to_dict()


def lots_of(state):
    """Return lot id -> (item, whole, origin, left)."""
    from ledger.replay import ORIGINS

    return {
        state.lot_id(i): (
            state.facts.names[int(state.lots["item"][i])],
            int(state.lots["whole"][i]),
            ORIGINS[int(state.lots["origin"][i])],
            int(state.left[i]),
        )
        for i in range(state.lots["ev"].size)
    }


def allocations_of(state):
    """Return the sorted list of (draw's entry, cause, lot id, amount)."""
    draw, lot, amount = state.allocations
    return sorted(
        (state.entry_id(state.draws["ev"][d]), int(state.draws["n"][d]), state.lot_id(t), int(a))
        for d, t, a in zip(draw.tolist(), lot.tolist(), amount.tolist(), strict=True)
    )


def differences(mine, other, path=""):
    """Yield where two answers differ; numbers agree to 1e-9 of their size."""
    if isinstance(other, dict):
        for key, value in other.items():
            if key not in mine:
                yield f"{path}.{key}: missing"
                continue
            yield from differences(mine[key], value, f"{path}.{key}")
        return
    if isinstance(other, (list, tuple, deque)) or isinstance(mine, list):
        if list(mine or []) != list(other or []):
            yield f"{path}: {mine!r} is not {list(other or [])!r}"
        return
    if mine is None or other is None or isinstance(other, (str, bool)):
        if mine != (other if not hasattr(other, "isoformat") else other.isoformat()):
            yield f"{path}: {mine!r} is not {other!r}"
        return
    if hasattr(other, "isoformat"):
        if mine != other.isoformat():
            yield f"{path}: {mine!r} is not {other.isoformat()!r}"
        return
    if not math.isclose(float(mine), float(other), rel_tol=1e-9, abs_tol=1e-9):
        yield f"{path}: {mine!r} is not {float(other)!r}"
