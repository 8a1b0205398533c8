"""Jars in which lots stand: those of a batch, and those in which something was counted, bought or given."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from ledger.amounts import canonical_jar

if TYPE_CHECKING:
    from ledger.replay import State
    from ledger.replay.columns import Array, Table

__all__ = ["Held", "held_in"]


@dataclass(frozen=True)
class Held:
    """The jars of a moment's lots.

    Attributes
    ----------
    jars : ndarray of float, shape (lots,)
        How many it came in; 0 where it is in none, or in jars of several sizes.
    names : list of str
        Sizes of jars.
    code : ndarray of int, shape (lots,)
        Place of a lot's size in `names`; -1 where it is in none, or in several.
    several : dict of int to list of (str, int, int)
        Of lots in jars of several sizes: size, thousandths of a jar, and their volume in whole units.
    """

    jars: Array
    names: list[str]
    code: Array
    several: dict[int, list[tuple[str, int, int]]] = field(default_factory=dict)

    def name(self, lot: int) -> str | None:
        """Return the size of jar that a lot is in, or None."""
        code = int(self.code[lot])
        return None if code < 0 else self.names[code]


def held_in(state: State) -> Held:
    """Return in which jars every lot stands; ask for it with ``state.once``.

    An amount in jars is a count and a volume at once (docs/formats.md, section 1). Matching goes by the volume;
    how many jars a lot is follows from the volume of one as it was said.
    """
    lots, facts, journal = state.lots, state.facts, state.journal
    jars = lots["jars"].astype(np.float64)
    code = np.full(jars.size, -1, np.int64)
    names: dict[str, int] = {}
    several: dict[int, list[tuple[str, int, int]]] = {}
    made = np.flatnonzero((lots["jars"] > 0) & (lots["row"] >= 0))
    raw = journal.tables["supplies"]["jar"][lots["row"][made]]
    for one in np.unique(raw[raw >= 0]).tolist():
        name = facts.names[int(facts.canon[one])]
        code[made[raw == one]] = names.setdefault(name, len(names))
    sizes = {
        unit: jar
        for unit, text in enumerate(journal.units.texts)
        if (jar := canonical_jar(text)) is not None
    }
    if sizes:
        came = np.flatnonzero((lots["jars"] == 0) & (lots["row"] >= 0))
        found = np.arange(jars.size - state.matched.found_of.size, jars.size)
        counted = state.flows.counts["row"][state.matched.found_of]
        for table, mine, rows in (
            ("supplies", came, lots["row"][came]),
            ("counts", found, counted),
        ):
            _said_in_jars(state, sizes, (table, mine, rows), (jars, code, names, several))
    return Held(jars, list(names), code, {lot: said for lot, said in several.items() if said})


def _said_in_jars(
    state: State,
    sizes: dict[int, str],
    lines: tuple[str, Array, Array],
    out: tuple[Array, Array, dict[str, int], dict[int, list[tuple[str, int, int]]]],
) -> None:
    """Put down the jars of lots whose lines said an amount in them."""
    (name, mine, rows), (jars, code, names, several) = lines, out
    table, ways = state.journal.tables[name], state.journal.ways
    unit = np.array(ways.unit, np.int64)[table["way"][rows]] if rows.size else rows
    keep = np.flatnonzero(np.isin(unit, list(sizes)) & (table["times"][rows] > 0))
    mine, rows, unit = mine[keep], rows[keep], unit[keep]
    if name == "counts":
        others = _with_others(table, rows)
        for lot, row in zip(mine[others].tolist(), rows[others].tolist(), strict=True):
            several[lot] = _sizes(state, sizes, row)
        mine, rows, unit = mine[~others], rows[~others], unit[~others]
    _, whole = state.facts.lines(table, rows)
    some = whole > 0
    mine, unit = mine[some], unit[some]
    one = whole[some] * 1000.0 / table["times"][rows[some]]
    jars[mine] = state.lots["whole"][mine] / one
    code[mine] = [names.setdefault(sizes[u], len(names)) for u in unit.tolist()]


def _sizes(state: State, sizes: dict[int, str], row: int) -> list[tuple[str, int, int]]:
    """Return the sizes in which one count found an item; empty where some of it was in none."""
    table, ways = state.journal.tables["counts"], state.journal.ways
    same = (table["ev"] == table["ev"][row]) & (table["item"] == table["item"][row])
    rows = np.flatnonzero(same)
    _, whole = state.facts.lines(table, rows)
    units = [ways.unit[way] for way in table["way"][rows].tolist()]
    if any(unit not in sizes for unit in units):
        return []
    times = table["times"][rows].tolist()
    return [(sizes[u], t, w) for u, t, w in zip(units, times, whole.tolist(), strict=True)]


def _with_others(table: Table, rows: Array) -> Array:
    """Return whether lines of a count were added to others of their item, said in another way (rule 13)."""
    key = table["ev"].astype(np.int64) << 32 | table["item"]
    pairs = np.unique(np.stack([key, table["way"]]), axis=1)[0]
    several, many = np.unique(pairs, return_counts=True)
    return np.asarray(many[np.searchsorted(several, key[rows])] > 1)
