"""Flows: each counted event's lines as lots that come in and draws that go out, in order."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.kinds import KINDS, ORIGINS
from ledger.replay import tables
from ledger.replay.columns import Array
from ledger.replay.facts import MATCHED, Facts
from ledger.replay.naming import find_named

if TYPE_CHECKING:
    from ledger.replay.journal import Journal

__all__ = ["LINE_BITS", "ORIGINS", "Flows", "Moment", "build_flows", "flows_of"]


def _origin_codes() -> Array:
    """Return where what a kind supplies came from, by kind and by how it came; shape (kinds, causes)."""
    codes = np.zeros((len(KINDS), len(tables.CAUSES)), np.int8)
    for code, kind in enumerate(KINDS.values()):
        for origin in kind.supplies.values():
            codes[code] = ORIGINS.index(origin.name)
            for how, name in origin.by_how.items():
                codes[code, tables.CAUSES.index(how)] = ORIGINS.index(name)
    return codes


_ORIGIN = _origin_codes()
LINE_BITS = 20
"""Positions are an event's rank, then so many bits for the line within it."""
_OWN = 1 << (LINE_BITS - 1)
"""Within an entry, draws come before supplies: a batch cannot use what it makes."""


@dataclass
class Moment:
    """Which events count at a moment, and in which order.

    Attributes
    ----------
    rank : ndarray of int64, shape (events,)
        Place of each counted event in the order of rule 2; -1 for those that do not count.
    root : ndarray of int64, shape (events,)
        Place of the first event of its entry.
    on : ndarray of int32, shape (events,)
        Days since 1970.
    """

    rank: Array
    root: Array
    on: Array
    _rows: dict[str, Array] = field(default_factory=dict)

    def rows(self, journal: Journal, table: str) -> Array:
        """Return which rows of a table belong to events that count; kept for the next to ask."""
        rows = self._rows.get(table)
        if rows is None:
            rows = self._rows[table] = self.of(journal.tables[table]["ev"])
        return rows

    def of(self, ev: Array) -> Array:
        """Return which rows belong to events that count."""
        # Rows that came in after this moment was settled are not of it.
        known = np.flatnonzero(ev < self.rank.size)
        return known[self.rank[ev[known]] >= 0]


@dataclass
class Flows:
    """Lots, draws and counts of matched items, rows in the order of their position.

    `item` is the strand that a line comes to (rule 13).

    `lots` has: ev, n, item, whole, pos, origin, kept, money, jars, share, row (in the journal's
    supplies), suffix ('' or 'f'). `draws` has: ev, n, line, item, whole, pos, role, lot_text, named
    (the lot it names, or -1). `counts` has: ev, n, item, whole, pos, row.
    """

    lots: dict[str, Array]
    draws: dict[str, Array]
    counts: dict[str, Array]


def build_flows(
    journal: Journal, facts: Facts, moment: Moment, label_prefix: str | None = None
) -> Flows:
    """Return the flows of all matched items at a moment."""
    flows = flows_of(journal, facts, moment)
    draws = flows.draws
    naming = np.flatnonzero(draws["lot_text"] >= 0)
    draws["named"] = np.full(draws["ev"].size, -1, np.int64)
    draws["named"][naming] = find_named(journal, moment, flows.lots, draws, naming, label_prefix)
    return flows


def flows_of(journal: Journal, facts: Facts, moment: Moment, only: Array | None = None) -> Flows:
    """Return the flows of events, of all that count or of some; whom draws name is left open.

    Parameters
    ----------
    only : ndarray of bool, shape (events,), optional
    """
    matched = MATCHED[facts.sort[: facts.items]] if len(facts) else np.zeros(0, bool)

    def rows(table: str) -> Array:
        found = moment.rows(journal, table)
        return found if only is None else found[only[journal.tables[table]["ev"][found]]]

    supplies = rows("supplies")
    return Flows(
        _lots(journal, facts, moment, supplies, matched),
        _draws(journal, facts, moment, (rows("draws"), supplies), matched),
        _counts(journal, facts, moment, rows("counts"), matched),
    )


def _rows(table: Any, rows: Array, facts: Facts, moment: Moment) -> dict[str, Array]:
    """Return the columns that every line has, at the weights known now."""
    item, whole = facts.lines(table, rows)
    ev = table["ev"][rows]
    return {
        "ev": ev.astype(np.int64),
        "n": table["n"][rows].astype(np.int32),
        "item": item,
        "whole": whole,
        "base": moment.rank[ev] << LINE_BITS,
        "row": rows,
    }


def _lots(
    journal: Journal, facts: Facts, moment: Moment, rows: Array, matched: Array
) -> dict[str, Array]:
    table = journal.tables["supplies"]
    rows = rows[matched[facts.canon[table["item"][rows]]]]
    out = _rows(table, rows, facts, moment)
    out["whole"] = out["whole"] - facts.trimmed(rows, out["whole"])
    out["jars"] = table["jars"][rows].astype(np.int64)
    out["kept"] = table["kept"][rows]
    out["suffix"] = np.zeros(rows.size, np.int8)
    out = _split_unsealed(out, table["unsealed"][rows])
    rows = out["row"]
    out["money"] = table["money"][rows]
    out["share"] = table["share"][rows]
    events = journal.tables["events"]
    out["origin"] = _ORIGIN[events["kind"][out["ev"]], events["cause"][out["ev"]]]
    out["pos"] = out["base"] + _OWN + out["n"] * 2 + out["suffix"]
    del out["base"]
    keep = np.flatnonzero(out["whole"] > 0)
    keep = keep[np.argsort(out["pos"][keep], kind="stable")]
    return {name: column[keep] for name, column in out.items()}


def _split_unsealed(out: dict[str, Array], unsealed: Array) -> dict[str, Array]:
    """Make unsealed jars a lot of their own in the fridge (rule 3)."""
    some = np.flatnonzero((unsealed > 0) & (out["jars"] > 0))
    if not some.size:
        return out
    whole, jars, loose = out["whole"][some], out["jars"][some], unsealed[some]
    part = np.array(
        [_share(int(w), int(u), int(j)) for w, u, j in zip(whole, loose, jars, strict=True)],
        np.int64,
    )
    more = {name: column[some].copy() for name, column in out.items()}
    more["whole"], more["jars"] = part, np.minimum(loose, jars).astype(np.int64)
    more["kept"][:] = 1
    more["suffix"][:] = 1
    out["whole"][some] -= part
    out["jars"][some] -= more["jars"]
    return {name: np.concatenate([column, more[name]]) for name, column in out.items()}


def _share(whole: int, part: int, of: int) -> int:
    """Return round-half-even(whole x part / of), exactly."""
    quotient, rest = divmod(whole * min(part, of), of)
    return quotient + int(2 * rest > of or (2 * rest == of and quotient % 2))


def _draws(
    journal: Journal, facts: Facts, moment: Moment, both: tuple[Array, Array], matched: Array
) -> dict[str, Array]:
    table = journal.tables["draws"]
    rows, supplies = both
    rows = rows[matched[facts.canon[table["item"][rows]]]]
    out = _rows(table, rows, facts, moment)
    del out["row"]
    out["role"], out["lot_text"] = table["role"][rows], table["lot"][rows]
    lids = _lids(journal, facts, moment, supplies, matched)
    out = {name: np.concatenate([out.pop(name), lids[name]]) for name in list(out)}
    order = _by_role(out["base"], out["role"], out["n"])
    out = {name: out.pop(name)[order] for name in list(out)}  # few of them are there at once
    base = out.pop("base")
    first = (
        np.flatnonzero(np.r_[True, base[1:] != base[:-1]]) if base.size else np.zeros(0, np.int64)
    )
    number = np.arange(base.size) - np.repeat(first, np.diff(np.r_[first, base.size])) + 1
    out["line"], out["n"] = out["n"], number.astype(np.int32)
    out["pos"] = base + number
    return out


def _by_role(base: Array, role: Array, n: Array) -> Array:
    """Return the order by event, role and line: one sort of one key wherever all fit into it."""
    if not n.size or 0 <= int(n.min()) <= int(n.max()) < 1 << (LINE_BITS - 4):
        return np.argsort(base | role.astype(np.int64) << (LINE_BITS - 4) | n, kind="stable")
    return np.lexsort((n, role, base))


def _lids(
    journal: Journal, facts: Facts, moment: Moment, rows: Array, matched: Array
) -> dict[str, Array]:
    """Return one draw of lids, one a jar, for each made entry with jars."""
    table = journal.tables["supplies"]
    rows = rows[(table["jars"][rows] > 0) & (table["lids"][rows] >= 0)]
    rows = rows[matched[facts.canon[table["lids"][rows]]]]
    item, whole = facts.counted(table["lids"][rows], table["jars"][rows].astype(np.int64) * 1000)
    ev = table["ev"][rows].astype(np.int64)
    return {
        "ev": ev,
        "n": table["n"][rows].astype(np.int32),
        "item": item,
        "whole": whole,
        "base": moment.rank[ev] << LINE_BITS,
        "role": np.full(rows.size, tables.ROLES.index("lids"), np.int8),
        "lot_text": np.full(rows.size, -1, np.int32),
    }


def _counts(
    journal: Journal, facts: Facts, moment: Moment, rows: Array, matched: Array
) -> dict[str, Array]:
    table = journal.tables["counts"]
    rows = rows[matched[facts.canon[table["item"][rows]]]]
    lines = _rows(table, rows, facts, moment)
    out = _with_noughts(_added_up(lines), lines, table["whole"][rows] == 0, facts)
    out["pos"] = out["base"] + out["n"]
    del out["base"]
    order = np.argsort(out["pos"], kind="stable")
    return {name: column[order] for name, column in out.items()}


def _added_up(out: dict[str, Array]) -> dict[str, Array]:
    """Add up the lines of one count that come to one strand; the first stands for all (rule 13)."""
    order = np.lexsort((out["n"], out["ev"] << 32 | out["item"]))
    key = (out["ev"] << 32 | out["item"])[order]
    first = np.flatnonzero(np.r_[True, key[1:] != key[:-1]]) if key.size else np.zeros(0, np.int64)
    if first.size == key.size:
        return out
    added = {name: column[order[first]] for name, column in out.items()}
    added["whole"] = np.add.reduceat(out["whole"][order], first)
    return added


def _with_noughts(
    out: dict[str, Array], lines: dict[str, Array], is_nought: Array, facts: Facts
) -> dict[str, Array]:
    """Count the other strands of an item as nothing where a line said so of the item (rule 13)."""
    item = facts.item_of[lines["item"]]
    several = np.bincount(facts.item_of, minlength=facts.items) > 1
    noughts = np.flatnonzero(is_nought & several[item]) if item.size else np.zeros(0, np.int64)
    if not noughts.size:
        return out
    counted = set(zip(out["ev"].tolist(), out["item"].tolist(), strict=True))
    rows, strands = [], []
    for row in noughts[np.argsort(lines["n"][noughts], kind="stable")].tolist():
        ev = int(lines["ev"][row])
        for strand in facts.strands.several(int(item[row])):
            if (ev, strand) not in counted:
                counted.add((ev, strand))
                rows.append(row)
                strands.append(strand)
    more = {name: column[rows] for name, column in lines.items()}
    more["item"], more["whole"] = np.array(strands, np.int64), np.zeros(len(rows), np.int64)
    return {name: np.concatenate([column, more[name]]) for name, column in out.items()}
