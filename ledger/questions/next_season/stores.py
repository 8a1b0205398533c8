"""Jars and lids in the house as figures: every event that brought, filled, emptied or counted them."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING
from urllib.parse import quote

import numpy as np

from ledger.figures import Array, Figure, method, said
from ledger.questions.costs.sources import Sources

if TYPE_CHECKING:
    from ledger.questions.planning.batches import Batches

__all__ = ["Stores"]


class Stores:
    """What is in the house of the jars and lids that a plan takes, a row a kind.

    Attributes
    ----------
    names : list of str
        The jars, then the lids.
    """

    def __init__(self, batches: Batches) -> None:
        self._batches, self._state = batches, batches.state
        self._sources = self._state.once(Sources)
        self.names = [*batches.jars, *batches.lids]
        self._jars = len(batches.jars)

    @cached_property
    def there(self) -> Figure:
        """How many there are, full jars as well."""
        stores = [*self._batches.jars.values(), *self._batches.lids.values()]
        count = np.array([one.there + (one.full or 0) for one in stores], np.float64)
        figure = method(
            lambda: count,
            lambda row: "jars" if row < self._jars else "lids",
            lambda row: "jars-lent" if row < self._jars else "lids-left",
            lambda row: self._of_jar(row) if row < self._jars else self._of_lid(row),
        )
        return figure.called("in-the-house", name=lambda row: self.names[row]).folds(
            lambda row: (self._batches.plan.address_of(f"store={self._kind(row)}"), "there")
        )

    def _kind(self, row: int) -> str:
        """Return what the address of a kind says: ``jar quart jar`` or ``lid lid``."""
        return f"{'jar' if row < self._jars else 'lid'} {quote(self.names[row], safe=' ')}"

    def find(self, kind: str) -> int | None:
        """Return the row of what an address says; None where there is no such kind."""
        known = [self._kind(row) for row in range(len(self.names))]
        return known.index(kind) if kind in known else None

    def row(self, name: str, *, is_lid: bool = False) -> int:
        """Return the row of a kind of jar, or of lid."""
        some = self.names[self._jars :] if is_lid else self.names[: self._jars]
        return some.index(name) + (self._jars if is_lid else 0)

    def _of_lid(self, row: int) -> list[tuple[Figure, int]]:
        """Return every lot and draw of it: what is taken of one lot leaves less of the next, too."""
        state, item = self._state, self._state.facts.find(self.names[row])
        lots = np.flatnonzero(state.lots["item"] == item)
        draws = np.flatnonzero(np.isin(state.allocations[1], lots))
        return [
            *((self._sources.amount, lot) for lot in lots.tolist()),
            *((self._sources.taken, at) for at in draws.tolist()),
        ]

    def _of_jar(self, row: int) -> list[tuple[Figure, int]]:
        """Return what was written down of the jars themselves, and of what was in them."""
        state, item = self._state, self._state.facts.find(self.names[row])
        tables, canon = state.journal.tables, state.facts.canon
        out = []
        for name in ("supplies", "draws", "counts"):
            table = tables[name]
            rows = state.moment.of(table["ev"])
            rows = rows[canon[table["item"][rows]] == item]
            pieces = said(state.facts.strands.pieces(table, rows) / 1000, "jars", table["ev"][rows])
            out += [(pieces, at) for at in range(rows.size)]
        lots = self._lots_in(item)
        # what is taken of such food empties these jars or others, by what there is of it
        alike = np.flatnonzero(np.isin(state.lots["item"], state.lots["item"][lots]))
        draws = np.flatnonzero(np.isin(state.allocations[1], alike))
        out += [(self._sources.jars, lot) for lot in lots.tolist()]
        out += [(self._sources.amount, lot) for lot in np.setdiff1d(alike, lots).tolist()]
        return out + [(self._sources.taken, at) for at in draws.tolist()]

    def _lots_in(self, jar: int | None) -> Array:
        state = self._state
        rows = np.flatnonzero((state.lots["jars"] > 0) & (state.lots["row"] >= 0))
        code = state.journal.tables["supplies"]["jar"][state.lots["row"][rows]]
        return np.asarray(rows[(code >= 0) & (state.facts.canon[code] == jar)])
