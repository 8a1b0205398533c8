"""The rows of what was touched, as columns: what is there, who had of it, and what lies between."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import format_whole
from ledger.messages import sentence
from ledger.messages.units import amount_later
from ledger.questions.goes import goes
from ledger.questions.shared.common import UNITS, listed_lots
from ledger.questions.shared.standing import standings
from ledger.questions.touched.touching import touching
from ledger.replay import KEPT, ORIGINS, tables
from ledger.replay.columns import Array

if TYPE_CHECKING:
    import pandas as pd

    from ledger.projections.base import Column
    from ledger.replay import State

__all__ = ["MOST_JUDGED", "WHAT", "backward_frame", "forward_frame"]

WHAT = (
    "there",
    "given",
    "eaten",
    "discarded",
    "lost",
    "batch",
    "bought",
    "harvested",
    "received",
    "found",
    "unrecorded",
)
"""What a row tells of, in the order of the answer."""

_IN_WORDS = 3000
"""Rows whose amount is said in words, too."""
MOST_JUDGED = 200
"""Batches behind what is there beyond which nothing is said of standings: each is set beside the tables."""
_CAME = {
    "grown": "harvested",
    "foraged": "received",
    "given": "received",
    "bought": "bought",
    "found": "found",
    "unrecorded": "unrecorded",
}
_MISSING = len(tables.ROLES)
Rows = dict[str, Array]


def _rows(what: str, lot: Array, ev: Array, whole: Array) -> Rows:
    return {
        "what": np.full(lot.size, WHAT.index(what), np.int64),
        "lot": lot,
        "ev": ev,
        "whole": whole,
    }


def forward_frame(
    state: State, columns: tuple[Column, ...], lots: Array, events: Array
) -> pd.DataFrame:
    """Return what became of lots (a mask), and the batches that they went into or came from.

    Parameters
    ----------
    lots : ndarray of bool, shape (lots,)
    events : ndarray of int64
        Batches to tell of besides those that used something of the lots.
    """
    draw, lot, amount = state.allocations
    there = listed_lots(state)
    there = there[lots[there]]
    parts = [_rows("there", there, state.lots["ev"][there], state.left[there])]
    mine = np.flatnonzero(lots[lot])
    words = state.once(goes)[draw[mine]]
    ev = state.draws["ev"][draw[mine]]
    for what, word in (
        ("given", "given"),
        ("eaten", "eaten"),
        ("discarded", "discarded"),
        ("lost", "lost"),
    ):
        rows = np.flatnonzero(words == word)
        parts.append(_summed(state, what, lot[mine][rows], ev[rows], amount[mine][rows]))
    into = np.flatnonzero((words == "used") | (words == "lids"))
    batches = np.union1d(ev[into], events).astype(np.int64)
    parts.append(_of_batches(state, batches))
    return _frame(state, columns, parts)


def backward_frame(
    state: State, columns: tuple[Column, ...], lots: Array, events: Array
) -> pd.DataFrame:
    """Return the batches and meals that lots (a mask) came through, and what was brought in for them."""
    origin = state.lots["origin"]
    parts = [_of_batches(state, events)]
    raw = np.flatnonzero(lots & (origin != ORIGINS.index("batch")))
    for name, what in _CAME.items():
        mine = raw[origin[raw] == ORIGINS.index(name)]
        parts.append(_rows(what, mine, state.lots["ev"][mine], state.lots["whole"][mine]))
    return _frame(state, columns, parts)


def _summed(state: State, what: str, lot: Array, ev: Array, amount: Array) -> Rows:
    """Return one row for each event and lot."""
    key = ev.astype(np.int64) * max(state.lots["ev"].size, 1) + lot
    found, of = np.unique(key, return_inverse=True)
    whole = np.zeros(found.size, np.int64)
    np.add.at(whole, of, amount)
    size = max(state.lots["ev"].size, 1)
    return _rows(what, found % size, found // size, whole)


def _of_batches(state: State, evs: Array) -> Rows:
    """Return a row for each batch: what it made, in all, of its first lot's item."""
    order, lots = np.argsort(state.lots["ev"], kind="stable"), state.lots
    first = np.searchsorted(lots["ev"][order], evs)
    lot = np.full(evs.size, -1, np.int64)
    if order.size:
        at = np.minimum(first, order.size - 1)
        has = lots["ev"][order][at] == evs
        lot[has] = order[at[has]]
    whole = np.zeros(state.moment.rank.size, np.int64)
    made = np.flatnonzero((lots["origin"] == ORIGINS.index("batch")) & (lots["suffix"] <= 1))
    np.add.at(whole, lots["ev"][made], lots["whole"][made])
    return _rows("batch", lot, evs, whole[evs])


def _frame(state: State, columns: tuple[Column, ...], parts: list[Rows]) -> pd.DataFrame:
    import pandas as pd

    rows = {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
    order = np.lexsort((rows["lot"], state.moment.rank[rows["ev"]], rows["what"]))
    rows = {name: column[order] for name, column in rows.items()}
    cells = _cells(state, rows)
    return pd.DataFrame({c.name: cells[c.name] for c in columns}, dtype=object)


def _cells(state: State, rows: Rows) -> dict[str, Any]:
    events, lots = state.journal.tables["events"], state.lots
    what, lot, ev, whole = rows["what"], rows["lot"], rows["ev"], rows["whole"]
    has = lot >= 0
    safe = np.where(has, lot, 0) if lots["ev"].size else np.zeros(lot.size, np.int64)
    item = lots["item"][safe] if lots["ev"].size else safe
    is_batch = what == WHAT.index("batch")
    item = np.where(is_batch | ~has, _makes(state, ev, item), item)
    names = np.array([*state.facts.names, None], object)
    measure = np.array([*state.facts.measure, "mass"], object)[item]
    jars = _jars(state, safe, whole, has & ~is_batch, lots)
    jars = np.where(is_batch, _jars_made(state, ev), jars)
    people, guests = events["people"][ev], events["guests"][ev]
    is_eaten = what == WHAT.index("eaten")
    who = _who(state, what, ev)
    ids = [state.entry_id(one) for one in ev.tolist()]
    lot_ids = [
        state.lot_id(one) if one >= 0 else None for one in np.where(is_batch, -1, lot).tolist()
    ]
    by = _texts(state.journal.people.texts, events["by"][ev])
    return {
        "why": [f"touched/{one or event}" for one, event in zip(lot_ids, ids, strict=True)],
        "what": np.array(WHAT, object)[what],
        "on": np.datetime_as_string(state.moment.on[ev].astype("datetime64[D]")).astype(object),
        "item": names[np.where(item >= 0, item, len(names) - 1)],
        "amount": whole / 1000,
        "unit": np.array([UNITS[one] for one in measure], object),
        "text": _in_words(state, whole, measure),
        "jars": _nullable(jars),
        "kept": np.array(
            [KEPT[code] for code in lots["kept"][safe].tolist()] if lots["ev"].size else [], object
        ),
        "who": who,
        "people": _nullable(np.where(is_eaten, people, np.nan)),
        "guests": _nullable(np.where(is_eaten & ~np.isnan(people), guests, np.nan)),
        "how": _hows(state, what, ev),
        "by": by,
        "lot": lot_ids,
        "batch": [_entry(state, one) for one in _batch_of(state, lot, ev, is_batch).tolist()],
        "event": ids,
        **_standing(state, what, lot, ev),
        "assumptions": [[] for _ in ids],
    }


def _entry(state: State, ev: int) -> str | None:
    return state.entry_id(ev) if ev >= 0 else None


def _batch_of(state: State, lot: Array, ev: Array, is_batch: Array) -> Array:
    """Return the event of the batch that a row's lot came out of; -1: of none."""
    if not state.lots["ev"].size:
        return np.where(is_batch, ev, -1)
    safe = np.maximum(lot, 0)
    made = (lot >= 0) & (state.lots["origin"][safe] == ORIGINS.index("batch"))
    made &= np.isnan(state.lots["share"][safe])
    return np.where(is_batch, ev, np.where(made, state.lots["ev"][safe], -1))


def _makes(state: State, ev: Array, otherwise: Array) -> Array:
    batches = state.journal.tables["batches"]
    out = np.full(state.moment.rank.size, -1, np.int64)
    rows = state.moment.of(batches["ev"])
    out[batches["ev"][rows]] = state.facts.canon[batches["makes"][rows]]
    return np.where(out[ev] >= 0, out[ev], otherwise)


def _jars(state: State, lot: Array, whole: Array, has: Array, lots: Rows) -> Array:
    if not lots["ev"].size:
        return np.full(lot.size, np.nan)
    jars, all_of = lots["jars"][lot], lots["whole"][lot]
    part = jars * whole / np.maximum(all_of, 1)
    return np.where(has & (jars > 0), part, np.nan)


def _jars_made(state: State, ev: Array) -> Array:
    jars = np.zeros(state.moment.rank.size)
    np.add.at(jars, state.lots["ev"], state.lots["jars"])
    return np.where(jars[ev] > 0, jars[ev], np.nan)


def _nullable(values: Array) -> Array:
    out = values.astype(object)
    out[np.isnan(values.astype(np.float64))] = None
    return out


def _texts(texts: list[Any], codes: Array) -> Array:
    known = np.array([*texts, None], object)
    return np.asarray(known[np.where(codes >= 0, codes, len(known) - 1)])


def _who(state: State, what: Array, ev: Array) -> Array:
    """Return who got it, or whom it came from; of a meal how many ate."""
    events = state.journal.tables["events"]
    out = _texts(state.journal.whom.texts, events["whom"][ev])
    out[~np.isin(what, [WHAT.index(one) for one in ("given", "bought", "received")])] = None
    for row in np.flatnonzero(what == WHAT.index("eaten")).tolist():
        people, guests = events["people"][ev[row]], int(events["guests"][ev[row]])
        if not np.isnan(people):
            out[row] = sentence("recall-people", n=int(people), guests=guests or None)
    return out


def _hows(state: State, what: Array, ev: Array) -> Array:
    words = np.array(tables.CAUSES, object)[state.journal.tables["events"]["cause"][ev]]
    said = np.isin(what, [WHAT.index(one) for one in ("given", "discarded", "received")])
    words[~said | (words == "")] = None
    return np.asarray(words)


def _in_words(state: State, whole: Array, measure: Array) -> list[str | None]:
    measures = state.settings.newest("measures", "us") or "us"
    many = min(whole.size, _IN_WORDS)
    said: list[str | None] = [
        amount_later(format_whole(amount, one, measures=measures))
        for amount, one in zip(whole[:many].tolist(), measure[:many].tolist(), strict=True)
    ]
    return [*said, *[None] * (whole.size - many)]


def _standing(state: State, what: Array, lot: Array, ev: Array) -> dict[str, list[Any]]:
    """Return how what is there stands, as far as there are not too many lots to look at."""
    there = lot[what == WHAT.index("there")]
    graph = state.once(touching)
    many = int(graph.reached(there, back=True)[graph.lots :].sum()) if there.size else 0
    known = state.once(standings).of(there.tolist()) if many <= MOST_JUDGED else {}
    found = [
        known.get(one) if w == WHAT.index("there") else None
        for one, w in zip(lot.tolist(), what.tolist(), strict=True)
    ]
    return {
        "standing": [None if one is None else one.standing for one in found],
        "standing_text": [one.text if one is not None and one.is_marked else None for one in found],
    }
