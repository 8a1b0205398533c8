"""Where a search of what touches what begins: a purchase, an item, a lot, a gauge, a schedule, a batch."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError, NotFound
from ledger.items import item_key, near_misses
from ledger.messages import Code, Message, Names, Typed, fixed, sentence
from ledger.questions.as_published.records import batches, judgement_of, schedules_of
from ledger.questions.shared.gauges import loads_of
from ledger.replay.columns import Array
from ledger.replay.facts import MATCHED, SORTS
from ledger.replay.naming import lots_named

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["STARTS", "Start", "start_of"]


@dataclass(frozen=True)
class Start:
    """Lots and events from which a search goes on.

    Attributes
    ----------
    lots : ndarray of int64
    events : ndarray of int64
        Batches and meals, whether they left something or not.
    said : str
        What was asked for, in words.
    """

    lots: Array
    events: Array
    said: str


def _some(values: object) -> Array:
    return np.asarray(values, np.int64).reshape(-1)


def _of_events(state: State, evs: Array, said: str) -> Start:
    """Return what events brought in: their lots, and the events themselves."""
    lots = np.flatnonzero(np.isin(state.lots["ev"], evs) & (state.lots["suffix"] <= 1))
    return Start(lots, evs, said)


def _event(state: State, text: str, field: str) -> int:
    """Return the counted event of the entry whose id begins so."""
    begun = text.strip().lower()
    counted = np.flatnonzero(state.moment.rank >= 0)
    place = state.journal.place_of(begun)
    roots = state.moment.root[counted]
    if place is not None:
        wanted = int(state.moment.root[place]) if place < state.moment.root.size else -1
        found = counted[roots == wanted]
    elif len(begun) >= 4:
        found = np.array([ev for ev in counted.tolist() if state.entry_id(ev).startswith(begun)])
    else:
        found = counted[:0]
    if found.size != 1:
        problem = (
            Message.of("recall-ids-begin", n=int(found.size), text=Typed(begun[:60]))
            if found.size
            else Message.of("refusal-no-id-begins", text=Typed(begun[:60]))
        )
        raise NotFound(field, problem, Message.of("refusal-id-from-history"))
    return int(found[0])


def _kind(state: State, ev: int) -> str:
    from ledger.kinds import KINDS

    return list(KINDS)[int(state.journal.tables["events"]["kind"][ev])]


def _purchase(state: State, text: str) -> Start:
    ev = _event(state, text, "purchase")
    kind = _kind(state, ev)
    if kind not in ("bought", "received", "harvested"):
        raise InputError(
            "purchase",
            sentence("recall-nothing-came-in", id=Code(text[:8]), kind=fixed(kind)),
        )
    start = _of_events(
        state,
        _some(ev),
        sentence("recall-start-entry", kind=fixed(kind), id=Code(state.entry_id(ev)[:8])),
    )
    lent = _lent_by(state, _items_of(state, ev))
    return Start(start.lots, np.union1d(start.events, lent), start.said)


def _items_of(state: State, ev: int) -> Array:
    supplies = state.journal.tables["supplies"]
    return np.unique(state.facts.canon[supplies["item"][supplies["ev"] == ev]])


def _lent_by(state: State, items: Array) -> Array:
    """Return the batches that used jars or equipment of these items, which no lot tells of."""
    sort = state.facts.sort[items]
    lent = items[np.isin(sort, [SORTS.index("jar"), SORTS.index("equipment")])]
    if not lent.size:
        return _some([])
    equipment, supplies = state.journal.tables["equipment"], state.journal.tables["supplies"]
    rows = state.moment.of(equipment["ev"])
    by_tool = equipment["ev"][rows][np.isin(state.facts.canon[equipment["item"][rows]], lent)]
    made = state.moment.rows(state.journal, "supplies")
    jar = supplies["jar"][made]
    is_in = (jar >= 0) & np.isin(state.facts.canon[np.maximum(jar, 0)], lent)
    return np.union1d(by_tool, supplies["ev"][made][is_in]).astype(np.int64)


def _item(state: State, text: str) -> Start:
    found = state.facts.find(text)
    if found is None:
        near = near_misses(text, state.facts.names)
        hint = (
            Message.of("refusal-did-you-mean", name=Typed(near[0]))
            if near
            else Message.of("refusal-name-from-shelf")
        )
        raise NotFound("item", Message.of("refusal-no-item-here", text=Typed(text)), hint)
    if not MATCHED[state.facts.sort[found]]:
        return _of_events(state, _lent_by(state, _some(found)), state.facts.names[found])
    lots = np.flatnonzero(np.isin(state.lots["item"], state.facts.several(found)))
    return Start(lots, _some([]), state.facts.names[found])


def _lot(state: State, text: str) -> Start:
    named = text.strip().lower()
    lot = state.lot_ids.get(named)
    prefix = state.settings.newest("jar_label_prefix")
    found = (
        [lot]
        if lot is not None
        else lots_named(state.journal, state.moment, state.lots, prefix, text)
    )
    if lot is None and not found and ":" in named:
        begun, _, tail = named.rpartition(":")
        ids = [one for one in state.lot_ids if one.startswith(begun) and one.endswith(f":{tail}")]
        found = [state.lot_ids[one] for one in ids] if len(begun) >= 4 else []
    if len(found) != 1:
        names = Names(tuple(Code(state.lot_id(one)) for one in found[:4]))
        hint = (
            Message.of("recall-name-lot", names=names)
            if found
            else Message.of("recall-lot-from-shelf")
        )
        raise NotFound(
            "lot",
            Message.of("recall-lots-called", n=len(found) or None, text=Typed(text)),
            hint,
        )
    return Start(
        _some(found), _some([]), sentence("recall-start-lot", id=Code(state.lot_id(found[0])))
    )


def _batch(state: State, text: str) -> Start:
    ev = _event(state, text, "batch")
    if _kind(state, ev) != "put_up":
        raise InputError(
            "batch",
            sentence("refusal-not-a-batch", id=Code(text[:8]), kind=fixed(_kind(state, ev))),
            Message.of("recall-from-published"),
        )
    return _of_events(
        state, _some(ev), sentence("recall-start-batch", id=Code(state.entry_id(ev)[:8]))
    )


def _meal(state: State, text: str) -> Start:
    ev = _event(state, text, "meal")
    if _kind(state, ev) not in ("eaten", "given_away"):
        raise InputError(
            "meal",
            sentence("recall-no-meal-no-gift", id=Code(text[:8]), kind=fixed(_kind(state, ev))),
        )
    draws = np.flatnonzero(state.draws["ev"] == ev)
    draw, lot, _ = state.allocations
    return Start(
        np.unique(lot[np.isin(draw, draws)]),
        _some(ev),
        sentence("recall-start-meal", id=Code(state.entry_id(ev)[:8])),
    )


def _gauge(state: State, text: str) -> Start:
    name = " ".join(text.split())
    known = state.facts.find(name)
    if item_key(name) != "dial" and (
        known is None or state.facts.sort[known] != SORTS.index("equipment")
    ):
        raise NotFound(
            "gauge",
            Message.of("recall-no-gauge", text=Typed(text)),
        )
    return _of_events(
        state,
        _some(loads_of(state, name)),
        sentence("recall-start-gauge", name=name if name != "dial" else None),
    )


def _schedule(state: State, text: str) -> Start:
    from ledger.published import find
    from ledger.reference.schedules import load_schedules

    wanted = item_key(text)
    lines = {
        one.id
        for one in load_schedules()
        if item_key(one.id) == wanted or item_key(one.product) == wanted
    }
    keys = {one.product for one in load_schedules() if one.id in lines}
    by_product = wanted in {item_key(one) for one in keys}
    written = schedules_of(state)
    mine = []
    for ev, body in batches(state):
        said = str(
            body.get("schedule")
            or written.get(item_key(str(body.get("recipe") or body["makes"])))
            or ""
        )
        found = judgement_of(state, ev, body, written)
        is_open = found.published["minutes"] is not None or by_product
        is_line = (
            found.schedule in lines
            if found.schedule
            else is_open and bool(keys & set(found.products))
        )
        if (lines and is_line) or (said and item_key(said) == wanted):
            mine.append(ev)
    if not lines and not mine:
        near = tuple(map(Code, find(text).candidates[:3]))
        hint = (
            Message.of("recall-may-be", names=Names(near))
            if near
            else Message.of("recall-schedule-from")
        )
        raise NotFound("schedule", Message.of("recall-no-schedule", text=Typed(text)), hint)
    return _of_events(state, _some(mine), sentence("recall-start-schedule", name=text))


STARTS: dict[str, Callable[[State, str], Start]] = {
    "item": _item,
    "lot": _lot,
    "batch": _batch,
    "purchase": _purchase,
    "gauge": _gauge,
    "schedule": _schedule,
    "meal": _meal,
}
"""How each option is read."""


def start_of(state: State, said: dict[str, str]) -> Start:
    """Return where a search begins.

    Raises
    ------
    InputError, NotFound
        When nothing, or more than one thing, is named; and when there is no such thing.
    """
    if len(said) != 1:
        problem = (
            Message.of("recall-stands-beside", names=Names(tuple(map(Code, list(said)[1:]))))
            if said
            else Message.of("recall-names-nothing")
        )
        raise InputError(
            next(iter(said), "item"),
            problem,
            Message.of("recall-name-one"),
        )
    ((name, text),) = said.items()
    return STARTS[name](state, text)
