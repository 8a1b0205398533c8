"""Canning batches with what they took: heat and water, by the meter, as written down, or estimated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.door import jars_per_load
from ledger.kinds.meter_read import reading
from ledger.reference import winter

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["WATER", "Load", "loads_of"]

_ESTIMATE = {
    "pressure": "pressure, 7 quarts, hot pack",
    "boiling water": "boiling water, 7 quarts, hot pack, hot tap water 55 C",
    "raw": "boiling water, 7 quarts, raw pack, cold water",
}
WATER = {"pressure": "pressure canner", "boiling water": "boiling water canner, 7 quarts"}


@dataclass(frozen=True)
class Load:
    """One canning batch with what it took.

    Attributes
    ----------
    ev : int
    jars, good, loads : float
    capacity : float or None
        Jars that its loads hold when full.
    kwh : tuple of (float, int)
        Parts with their events (-1: estimate).
    source : str
    water : tuple of (float, int)
        Litres by the meter, with their events.
    """

    ev: int
    body: dict[str, Any]
    jars: float
    good: float
    loads: float
    capacity: float | None
    kwh: tuple[tuple[float, int], ...]
    source: str
    water: tuple[tuple[float, int], ...]

    @property
    def all_kwh(self) -> float:
        """All of its heat."""
        return sum(value for value, _ in self.kwh)


def loads_of(state: State) -> list[Load]:
    """Return every canning batch of a state, in the order of the book."""
    return state.once(_loads)


def _loads(state: State) -> list[Load]:
    meters = _meters(state)
    table = state.journal.tables["metered"]
    rows = state.moment.rows(state.journal, "metered")
    metered: dict[int, float] = {}
    for row in rows.tolist():
        ev = int(table["ev"][row])
        metered[ev] = metered.get(ev, 0.0) + float(table["joules"][row]) / 3.6e6
    sizes = jars_per_load(state.settings.newest("jars_per_load"))
    out = []
    for ev in state.events("put_up").tolist():
        body = state.body(ev)
        if body["method"] in WATER and (jars := _jars(state, ev)) is not None:
            out.append(
                _load(
                    state,
                    ev,
                    body,
                    jars,
                    meters.get(state.entry_id(ev), []),
                    metered.get(ev),
                    sizes,
                )
            )
    return out


def _jars(state: State, ev: int) -> tuple[float, float] | None:
    """Return all jars of a batch and the good ones."""
    lots = np.flatnonzero((state.lots["ev"] == ev) & (state.lots["jars"] > 0))
    if not lots.size:
        return None
    jars = state.lots["jars"][lots].astype(float)
    unsealed = state.lots["suffix"][lots] == 1
    lost = state.failed[lots] / np.maximum(state.lots["whole"][lots], 1) * jars
    return float(jars.sum()), float((jars - np.where(unsealed, jars, lost)).sum())


def _load(
    state: State, ev: int, body: dict[str, Any], jars: tuple[float, float],
    meters: list[tuple[str, float, int]], metered: float | None, sizes: dict[str, int],
) -> Load:  # fmt: skip
    loads = float(body.get("loads") or 1)
    method = body["method"]
    kwh = tuple((value, one) for what, value, one in meters if what == "energy")
    source = "meter"
    if not kwh and metered is not None:
        kwh, source = ((metered, ev),), "metered"
    if not kwh:
        name = _ESTIMATE[
            "raw" if method == "boiling water" and body.get("pack") == "raw" else method
        ]
        each = winter.figure("energy", "canner_load_estimate", name).middle
        kwh, source = ((each * loads, -1),), "estimate"
    named = [made.get("jar") for made in body.get("made", ()) if made.get("jars")]
    each_load = [sizes[jar] for jar in named if jar in sizes]
    capacity = loads * min(each_load) if each_load and len(each_load) == len(named) else None
    water = tuple((value, one) for what, value, one in meters if what == "water")
    return Load(ev, body, jars[0], jars[1], loads, capacity, kwh, source, water)


def _meters(state: State) -> dict[str, list[tuple[str, float, int]]]:
    """Return what meters say batches took: (what, kWh or litres, event), by the batch's entry."""
    out: dict[str, list[tuple[str, float, int]]] = {}
    for ev, body in state.bodies("meter_read"):
        if "batch" in body:
            what, after = reading(body["reads"])
            _, before = reading(body["before"], "before")
            out.setdefault(body["batch"], []).append((what, after - before, ev))
    return out
