"""Canning batches with what they took: heat and water, by the meter, as written down, or estimated."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.door import jars_per_load
from ledger.figures import Array, Figure, Groups, assumed, choose, said
from ledger.kinds.meter_read import reading
from ledger.questions.costs import CostFigures
from ledger.reference import winter

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Loads"]

_ESTIMATE = {
    "pressure": "pressure, 7 quarts, hot pack",
    "boiling water": "boiling water, 7 quarts, hot pack, hot tap water 55 C",
    "raw": "boiling water, 7 quarts, raw pack, cold water",
}
_WATER = {"pressure": "pressure canner", "boiling water": "boiling water canner, 7 quarts"}

_Taken = tuple[int, float, int]
"""Number of the batch, kWh or litres, and the event that says so."""


class Loads:
    """Canning batches in jars, in the order of the book.

    Attributes
    ----------
    evs, bodies : list, shape (batches,)
    sources : list of str
        Of each batch: ``meter``, ``metered`` with the batch, or ``estimate``.
    loads : Figure
        Canner loads of each batch.
    """

    def __init__(self, state: State) -> None:
        self.state = state
        lots = state.lots
        in_jars = set(lots["ev"][lots["jars"] > 0].tolist())
        batches = [(ev, state.body(ev)) for ev in state.events("put_up").tolist() if ev in in_jars]
        found = [(ev, body) for ev, body in batches if body["method"] in _WATER]
        self.evs, self.bodies = [ev for ev, _ in found], [body for _, body in found]
        self.count, self._ev = len(found), np.array(self.evs, np.int64)
        loads = np.array([float(body.get("loads") or 1) for body in self.bodies])
        self.loads = said(loads, "loads", self._ev)
        self._read, self._metered = self._meters(), self._written()
        self.sources = [
            "meter" if self._read["energy", at] else "metered" if ev in self._metered else "estimate"
            for at, ev in enumerate(self.evs)
        ]  # fmt: skip

    def _meters(self) -> dict[tuple[str, int], list[_Taken]]:
        """Return what meters say batches took, by energy or water and the batch."""
        place = {self.state.entry_id(ev): at for at, ev in enumerate(self.evs)}
        out: dict[tuple[str, int], list[_Taken]] = {
            (what, at): [] for what in ("energy", "water") for at in range(self.count)
        }
        for ev, body in self.state.bodies("meter_read"):
            at = place.get(body.get("batch", ""))
            if at is not None:
                what, after = reading(body["reads"])
                out[what, at].append((at, after - reading(body["before"], "before")[1], ev))
        return out

    def _written(self) -> dict[int, float]:
        """Return the kWh that were written down with batches, by event."""
        table, out = self.state.journal.tables["metered"], dict[int, float]()
        for row in self.state.moment.rows(self.state.journal, "metered").tolist():
            ev = int(table["ev"][row])
            out[ev] = out.get(ev, 0.0) + float(table["joules"][row]) / 3.6e6
        return out

    # -- what they took -----------------------------------------------------------------

    @property
    def heat(self) -> Figure:
        """All heat of each batch: by the meter, else as written down, else estimated by its loads."""
        parts = [one for at in range(self.count) for one in self._read["energy", at]]
        parts += [(at, self._metered[ev], ev) for at, ev in enumerate(self.evs) if self.sources[at] == "metered"]  # fmt: skip
        raw = [
            "raw" if b["method"] == "boiling water" and b.get("pack") == "raw" else b["method"]
            for b in self.bodies
        ]
        each = [winter.figure("energy", "canner_load_estimate", _ESTIMATE[of]).middle for of in raw]
        load = assumed(np.array(each), "kWh of heat per load", "estimate").called("load-estimate")
        estimate = (self.loads.called("loads") * load).called("estimate")
        is_guess = np.array([source == "estimate" for source in self.sources], bool)
        return choose(is_guess, estimate, self._sum(parts, "kWh of heat"))

    @property
    def water(self) -> Figure:
        """Litres by the meter."""
        parts = [one for at in range(self.count) for one in self._read["water", at]]
        return self._sum(parts, "L of water")

    @property
    def has_water(self) -> Array:
        """Of which batches water was metered."""
        return np.array([bool(self._read["water", at]) for at in range(self.count)], bool)

    def usual_water(self, end: str) -> Figure:
        """Return the ``low`` or ``high`` end of the canner's own water, as recalled."""
        rows = [winter.figure("energy", "water", _WATER[body["method"]]) for body in self.bodies]
        each = np.array([getattr(row, end) or 0.0 for row in rows])
        load = assumed(each, "L of water per load", "water").called("water-of-load")
        return self.loads.called("loads") * load

    def _sum(self, parts: list[_Taken], unit: str) -> Figure:
        at, values, ev = (
            (np.array(column) for column in zip(*parts, strict=True))
            if parts
            else (np.zeros(0),) * 3
        )
        return Groups(at, self.count).sum(said(values, unit, ev), unit)

    # -- jars ---------------------------------------------------------------------------

    def jars(self) -> tuple[Figure, Figure]:
        """Return all jars of each batch, and those that did not seal, spoiled or broke."""
        costs, lots = self.state.once(CostFigures), self.state.lots
        place = {ev: at for at, ev in enumerate(self.evs)}
        some = np.flatnonzero(lots["jars"] > 0)
        by = np.array([place.get(ev, -1) for ev in lots["ev"][some].tolist()], np.int64)
        of, jars = Groups(by, self.count), said(lots["jars"][some], "jars", lots["ev"][some])
        bad = costs.bad.at(some).called("bad") / costs.sources.amount.at(some).called("the-lot")
        lost = (jars * bad.called("bad-part")).called("bad-jars")
        unsealed = jars.called("unsealed")
        return of.sum(jars, "jars"), of.sum(
            choose(lots["suffix"][some] == 1, unsealed, lost), "jars"
        )

    def capacity(self) -> Figure:
        """Return the jars that the loads of each batch hold when full; NaN where that is not known."""
        sizes = jars_per_load(self.state.settings.newest("jars_per_load"))
        evs = [
            ev
            for ev, body in self.state.bodies("setting_changed")
            if body["name"] == "jars_per_load"
        ]
        each = np.array([_smallest(body, sizes) for body in self.bodies], np.float64)
        unit = "jars per load"
        told = (
            said(each, unit, np.full(self.count, evs[-1]))
            if evs
            else assumed(each, unit, "jars-per-load")
        )
        return self.loads.called("loads") * told.called("jars-per-load")


def _smallest(body: dict[str, Any], sizes: dict[str, int]) -> int | None:
    """Return how many of a batch's largest jars go into a load."""
    named = [made.get("jar") for made in body.get("made", ()) if made.get("jars")]
    return (
        min(sizes[jar] for jar in named) if named and all(jar in sizes for jar in named) else None
    )
