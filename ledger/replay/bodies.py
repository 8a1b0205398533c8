"""Bodies that a journal keeps, and those that are read from the log when somebody asks."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import numpy as np

from ledger.amounts import is_counted, parse_amount
from ledger.kinds import decode_stored
from ledger.labels import split_label
from ledger.replay.columns import Array, Names, Table
from ledger.replay.tables import FIELDS, ROLES
from ledger.replay.ways import FIRST_VERSION, OF_PIECES, Ways
from ledger.replay.written import Written

__all__ = ["Bodies"]

_READ_TOGETHER = 1000
_READ_MOST = 4000
"""Bodies kept that were read from the log: those of the batches of many years."""

_Out = TypeVar("_Out")


class Bodies(Written):
    """What a journal can tell of its events beyond their columns.

    Attributes
    ----------
    bodies : dict of int to dict
        Bodies of the kinds that state facts, by place.
    labels : list of (int, int, first, last)
        Labels of made entries: place, line, first and last as written.
    looked_up : dict of int to int
        Up to which event the units of a raw name's lines were told apart.
    """

    tables: dict[str, Table]
    units: Names
    ways: Ways

    def __init__(self) -> None:
        super().__init__()
        self.bodies: dict[int, dict[str, Any]] = {}
        self.labels: list[tuple[int, int, Any, Any]] = []
        self.looked_up: dict[int, int] = {}
        self._read: dict[int, dict[str, Any]] = {}
        self._of_bodies: dict[Any, dict[int, Any]] = {}
        self._ranges: tuple[int, dict[str, Any]] = (0, {})
        self._label_at: dict[tuple[int, int], tuple[Any, Any]] = {}
        self._labelled = 0

    def labels_of(self, ev: int, n: int) -> tuple[Any, Any] | None:
        """Return the first and last label of a made entry, or None."""
        for place, number, first, last in self.labels[self._labelled :]:
            self._label_at.setdefault((place, number), (first, last))
        self._labelled = len(self.labels)
        return self._label_at.get((ev, n))

    def label_ranges(self) -> dict[str, tuple[Array, Array, Array, Array]]:
        """Return, by what stands before the number: first, last, event and line of all labels."""
        count, ranges = self._ranges
        if count != len(self.labels):
            by_head: dict[str, list[tuple[int, int, int, int]]] = {}
            for ev, n, first, last in self.labels:
                (head, low), (_, high) = split_label(first), split_label(last)
                if low is not None and high is not None:
                    by_head.setdefault(head, []).append((low, high, ev, n))
            ranges = {head: tuple(np.array(some).T) for head, some in by_head.items()}
            self._ranges = len(self.labels), ranges
        return ranges

    def body(self, ev: int) -> dict[str, Any]:
        """Return the body of an event, not to be changed.

        Where only columns were kept it is read from the log, and kept for the next question.
        """
        if ev in self.bodies:
            return self.bodies[ev]
        body = self._read.get(ev)
        if body is None:
            row = self.row(ev)
            body = decode_stored(row[2], row[3], row[10], seq=row[0])
            if len(self._read) >= _READ_MOST:
                self._read.clear()
            self._read[ev] = body
        return body

    def of_bodies(self, evs: Sequence[int], make: Callable[[dict[str, Any]], _Out]) -> list[_Out]:
        """Return ``make(body)`` of events, worked out once for each: a body never changes.

        Those that were not asked for yet are read together.
        """
        kept: dict[int, _Out] = self._of_bodies.setdefault(make, {})
        missing = [ev for ev in evs if ev not in kept]
        for start in range(0, len(missing), _READ_TOGETHER):
            some = missing[start : start + _READ_TOGETHER]
            self._read_together([ev for ev in some if ev not in self._read])
            kept |= {ev: make(self.body(ev)) for ev in some}
        return [kept[ev] for ev in evs]

    def _read_together(self, evs: list[int]) -> None:
        if len(evs) < 2:
            return
        if len(self._read) + len(evs) > _READ_MOST:
            self._read.clear()
        for row in self.source.numbered([ev + 1 for ev in evs]):
            self._read[row[0] - 1] = decode_stored(row[2], row[3], row[10], seq=row[0])

    def look_up_units(self, item: int) -> None:
        """Tell lines of the first version that were typed in a counted unit from those in pieces.

        Their columns hold pieces either way; that is asked only once a unit is so many pieces.

        Parameters
        ----------
        item : int
            Code of a raw name.
        """
        way = self.ways.find(item, FIRST_VERSION)
        if way is None or self.looked_up.get(item) == len(self):
            return
        before, self.looked_up[item] = self.looked_up.get(item, 0), len(self)
        for name in ("supplies", "draws", "counts", "prices"):
            table = self.tables[name]
            for row in np.flatnonzero((table["way"] == way) & (table["ev"] >= before)).tolist():
                unit = self._unit_typed(name, row)
                if unit is not None:
                    table["way"][row] = self.ways.code(item, OF_PIECES, self.units.code(unit))

    def _unit_typed(self, name: str, row: int) -> str | None:
        """Return the counted unit of a line as it was typed, or None."""
        table = self.tables[name]
        body = self.body(int(table["ev"][row]))
        field = FIELDS[int(table["field"][row])] if name == "supplies" else "lines"
        if name == "draws":
            field = ROLES[int(table["role"][row])]
        several = [body] if name == "prices" else body.get(field) or ()
        for line in [several] if isinstance(several, dict) else several:
            if (line.get("n") or 1) == int(table["n"][row]) and line.get("amount"):
                unit = parse_amount(line["amount"], zero=True).unit
                return unit if is_counted(unit) else None
        return None
