"""What the book said at earlier moments, each asked at its own `known_at`; every four weeks back.

A moment lies in the past and the log only grows, so what was said then never changes: it is
worked out once and kept by the head of the log at that moment (`ledger.questions.ahead.kept`).
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.questions.ahead.kept import Kept, Ranges, Said
from ledger.questions.ahead.plain import plain_of
from ledger.questions.shared.use_past import is_use
from ledger.replay.building import build_state, grow_state
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["EVERY", "YEAR", "Ranges", "Said", "asked", "earlier", "state_at"]

EVERY = 28
"""Days between two moments: four weeks. They lie on the same days whenever one asks."""
MOST = 65
"""Older moments are not asked again: five years, as weeks of use are looked at. Our choice."""
_FIRST = 3
"""Days since 1970 of the first moment, a Sunday."""
YEAR = 364
"""Days before a moment over which the plain mean of use is taken, 52 weeks."""
_LEFT_ALONE = 84


def earlier(state: State) -> list[tuple[int, int]]:
    """Return the (day, known) of every earlier moment, the oldest first.

    From a week back, and no later than twelve weeks after the last entry: a book that was left
    alone says nothing new.
    """
    if not state.known:
        return []
    written = day_number(state.journal.recorded_at(state.known - 1)[:10])
    last = min(state.as_of_day - 7, written + _LEFT_ALONE)
    newest = last - (last - _FIRST) % EVERY
    out = []
    for day in range(newest, newest - MOST * EVERY, -EVERY):
        known = min(state.known, state.journal.known(f"{day_text(day)}T23:59:59.999999Z"))
        if not known:
            break
        out.append((day, known))
    return out[::-1]


def asked(
    state: State,
    moments: list[tuple[int, int]],
    factor_of: Callable[[State, list[Said]], float] | None = None,
) -> list[Said]:
    """Return what was said at some moments, asking again only where it is not kept.

    Parameters
    ----------
    state : State
    moments : list of (int, int)
        From `earlier`, the oldest first.
    factor_of : callable, optional
        ``factor_of(then, said)`` gives the widening that held at a moment by all that was said
        before it (`ledger.questions.ahead.widening`); without it none is worked out.
    """
    kept = Kept.of(state)
    out: list[Said] = []
    old: State | None = None
    for day, known in moments:
        said = kept.get(day, known)
        if said is None or (factor_of is not None and said.factor is None):
            old = state_at(state, day, known, old)
            said = said or _said(old, day, known)
            if factor_of is not None:
                said.factor = factor_of(old, out)
            kept.put(said)
        out.append(said)
    kept.save()
    return out


def state_at(state: State, day: int, known: int, old: State | None) -> State:
    """Return the book at an earlier moment, grown from the one before where that is a gain."""
    made = None
    if old is not None:
        made = grow_state(old, state.journal, as_of=day, known=known)
    made = made or build_state(state.journal, as_of=day, known=known)
    made.known_at = f"{day_text(day)}T23:59:59.999999Z"
    return made


def _said(then: State, day: int, known: int) -> Said:
    ahead = plain_of(then)
    facts = then.facts
    plain = _plain(then, ahead.items, then.once(is_use))
    use, left = ahead.plain_per_week, ahead.plain_weeks_left
    ranges = [
        Ranges(
            facts.names[item],
            facts.measure[item],
            float(ahead.stock[row]),
            [_known(x) for x in use[:, row]],
            [_known(x) for x in left[:3, row]],
            _known(left[3, row]),
            float(plain[row]),
        )
        for row, item in enumerate(ahead.items.tolist())
        if ahead.stock[row] > 0 or not np.isnan(use[1, row])
    ]
    keeps = {facts.names[i]: dict(one.keeps) for i, one in enumerate(facts.facts) if one.keeps}
    return Said(day, known, ranges, keeps)


def _plain(then: State, items: Any, is_use: Any) -> Any:
    """Return the plain mean use a week over the year before, or since an item came in."""
    row = np.full(len(then.facts), -1, np.int64)
    row[items] = np.arange(items.size)
    draws, lots = then.draws, then.lots
    at = np.flatnonzero(is_use & (row[draws["item"]] >= 0) & (draws["day"] > then.as_of_day - YEAR))
    used = np.bincount(row[draws["item"][at]], draws["whole"][at] / 1000, items.size)
    first = np.full(len(then.facts), then.as_of_day)
    np.minimum.at(first, lots["item"], lots["day"].astype(np.int64))
    days = np.clip(then.as_of_day + 1 - first[items], 7, YEAR)
    return used / days * 7


def _known(value: float) -> float | None:
    return None if np.isnan(value) else float(value)
