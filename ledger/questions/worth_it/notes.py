"""What the season's figures rest on: marks of the costs, things without a price, running seasons."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.answers import Assumption
from ledger.messages import sentence
from ledger.questions.garden.uneaten import FEED_KCAL_PER_G
from ledger.questions.worth_it.gather import LINES, Lots
from ledger.questions.worth_it.postings import NOTES, Postings
from ledger.replay.costing import PROVISIONAL

if TYPE_CHECKING:
    from ledger.questions.worth_it.span import Span
    from ledger.replay import State

__all__ = ["LotNotes", "notes_of"]


def _once() -> Assumption:
    return Assumption("counts-once", sentence("worth-counts-once"))


def _too_long() -> Assumption:
    return Assumption("kept-too-long", sentence("worth-kept-too-long"))


def _spared() -> Assumption:
    kcal = round(FEED_KCAL_PER_G * 1000)
    return Assumption("fed-for-feed", sentence("worth-fed-for-feed", n=kcal))


class LotNotes:
    """Collects what some lots rest on, as ids and as words."""

    def __init__(self, state: State, lots: Lots) -> None:
        self.state, self.lots = state, lots
        self.found: dict[str, Assumption] = {}
        own = lots.line >= 0
        self._bare = own & np.isnan(lots.worth)
        self._late = own & lots.later
        self._no_value = (lots.line == LINES.index("received")) & (lots.price_ev >= 0)
        self._of_mark: dict[int, tuple[list[str], list[str]]] = {}

    def of(self, rows: Any) -> tuple[list[str], list[str], bool]:
        """Return (ids, things without a price, provisional) of some lots."""
        costs, mark = self.state.costs, 0
        for lot in rows.tolist():
            mark |= costs.mark(lot)
        known = self._of_mark.get(mark)
        if known is None:
            known = self._of_mark[mark] = (costs.assumed(mark), costs.names_of(mark))
            for one in known[0]:
                if one not in self.found:
                    self.found[one] = costs.assumption(one)
        ids, unpriced = set(known[0]), set(known[1])
        for name, _ in self._named(rows[self._bare[rows]]):
            unpriced.add(name)
            ids.add(self._add(f"no-price:{name}", sentence("worth-unpriced", name=name)))
        for name, lot in self._named(rows[self._late[rows]]):
            seen = self.state.event_id(int(self.lots.price_ev[lot]))
            ids.add(self._add(f"later:{name}", sentence("cost-price-later", name=name), seen))
        for name, _ in self._named(rows[self._no_value[rows]]):
            ids.add(self._add(f"no-value:{name}", sentence("worth-no-value", name=name)))
        return sorted(ids), sorted(unpriced), bool(mark & PROVISIONAL)

    def _named(self, rows: Any) -> list[tuple[str, int]]:
        """Return each item among some lots by its name, with the first of its lots."""
        if not rows.size:
            return []
        items, first = np.unique(self.state.lots["item"][rows], return_index=True)
        names = self.state.facts.names
        return [(names[int(i)], int(rows[at])) for i, at in zip(items, first, strict=True)]

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
        rows = np.unique(rows)
        record["assumptions"], record["unpriced"], provisional = notes.of(rows)
        record["provisional"] = span.running or provisional
        record["at_least"] = bool(record["unpriced"])
        ids.update(record["assumptions"])
        unpriced.update(record["unpriced"])
        running |= record["provisional"]
    for note, said in (("kept too long", _too_long()), ("fed in place of feed", _spared())):
        for name in {LINES[i] for i in posted.line[posted.note == NOTES.index(note)].tolist()}:
            record = next(r for r in records if r["line"] == name)
            record["assumptions"] = sorted([*record["assumptions"], said.id])
            notes.found[said.id] = said
            ids.add(said.id)
    if records:
        once = _once()
        notes.found[once.id] = once
        records[-1] |= {
            "assumptions": sorted([*ids, once.id]),
            "unpriced": sorted(unpriced),
            "provisional": running,
            "at_least": bool(unpriced),
        }
    return notes.words()
