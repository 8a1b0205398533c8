"""What the season's figures rest on: marks of the costs, things without a price, running seasons."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.projections._worth_postings import LINES, Lots, Postings
from ledger.replay.costing import PROVISIONAL

if TYPE_CHECKING:
    from ledger.projections._worth_season import Span
    from ledger.replay import State

__all__ = ["LotNotes", "notes_of"]

_LATER = "The shop's price of {name} was first seen only after the day it is compared with."
_UNPRICED = "No shop price of {name} is known, so what there was of it counts 0 in worth."
_NO_VALUE = "{name} was received without a value; it counts at the shop's price of its day."


class LotNotes:
    """Collects what some lots rest on, as ids and as words."""

    def __init__(self, state: State, lots: Lots) -> None:
        self.state, self.lots = state, lots
        self.found: dict[str, Assumption] = {}

    def of(self, rows: Any) -> tuple[list[str], list[str], bool]:
        """Return (ids, things without a price, provisional) of some lots."""
        state, lots, costs = self.state, self.lots, self.state.costs
        mark = 0
        rows = np.unique(np.asarray(rows, np.int64))
        for lot in rows.tolist():
            mark |= costs.mark(lot)
        ids = set(costs.assumed(mark))
        for one in ids:
            self.found.setdefault(one, costs.assumption(one))
        unpriced = set(costs.names_of(mark))
        bare = rows[(lots.line[rows] >= 0) & np.isnan(lots.worth[rows])]
        for item in np.unique(state.lots["item"][bare]).tolist():
            name = state.facts.names[item]
            unpriced.add(name)
            ids.add(self._add(f"no-price:{name}", _UNPRICED.format(name=name)))
        late = rows[lots.later[rows] & (lots.line[rows] >= 0)]
        for item, at in zip(*np.unique(state.lots["item"][late], return_index=True), strict=True):
            name, ev = state.facts.names[int(item)], int(lots.price_ev[late[at]])
            ids.add(self._add(f"later:{name}", _LATER.format(name=name), state.event_id(ev)))
        given = rows[(lots.line[rows] == LINES.index("received")) & (lots.price_ev[rows] >= 0)]
        for item in np.unique(state.lots["item"][given]).tolist():
            name = state.facts.names[item]
            ids.add(self._add(f"no-value:{name}", _NO_VALUE.format(name=name)))
        return sorted(ids), sorted(unpriced), bool(mark & PROVISIONAL)

    def _add(self, one: str, text: str, *events: str) -> str:
        self.found.setdefault(one, Assumption(one, text, events))
        return one

    def words(self) -> list[Assumption]:
        """Return every assumption found, by id."""
        return [self.found[one] for one in sorted(self.found)]


def notes_of(
    state: State, span: Span, lots: Lots, posted: Postings, records: list[dict[str, Any]]
) -> list[Assumption]:
    """Put ids, unpriced things and marks into the records; return the assumptions in words."""
    notes = LotNotes(state, lots)
    ids: set[str] = set()
    unpriced: set[str] = set()
    running = False
    for record in records[:-1]:
        rows = posted.lot[(posted.line == LINES.index(record["line"])) & (posted.lot >= 0)]
        record["assumptions"], record["unpriced"], provisional = notes.of(rows)
        record["provisional"] = span.running or provisional
        record["at_least"] = bool(record["unpriced"])
        ids.update(record["assumptions"])
        unpriced.update(record["unpriced"])
        running |= record["provisional"]
    if records:
        records[-1] |= {
            "assumptions": sorted(ids),
            "unpriced": sorted(unpriced),
            "provisional": running,
            "at_least": bool(unpriced),
        }
    return notes.words()
