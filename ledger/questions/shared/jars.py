"""Jars out and empty (the reckoning, rule 7): lent to batches, not used up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.amounts import format_whole
from ledger.kinds import KINDS
from ledger.messages import joined
from ledger.messages.units import amount_later
from ledger.questions.goes import went
from ledger.questions.shared.common import jars_gone
from ledger.questions.shared.held import held_in
from ledger.replay.columns import Array
from ledger.replay.facts import SORTS
from ledger.replay.journal import Journal
from ledger.replay.tables import CAUSES

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["jar_totals", "left_in_words", "so_many"]

_CAME = {"bought": 1, "received": 1}
_WENT = {"given_away": -1, "discarded": -1}


def jar_totals(state: State) -> dict[str, dict[str, int]]:
    """Return, by kind of jar: had, full (now), given_away, broken, empty, never_written_down.

    A count of empty jars sets `empty` as it was then; what it found more or less changes `had`.
    """
    out = _until(state, None)
    for row in out.values():
        row["empty"] = _empty(row)
    for name, (rank, counted) in _counted(state).items():
        row = out.setdefault(name, _row(0))
        then = _empty(_until(state, rank).get(name, _row(0)))
        row["had"] += counted - then
        row["empty"] = _empty(row)
    for row in out.values():
        row["empty"], row["never_written_down"] = max(row["empty"], 0), max(-row["empty"], 0)
    return out


def left_in_words(state: State, lots: list[int]) -> str:
    """Return what is left of one strand's lots: jars by size, the largest first, then the rest.

    ``30 quart jars, 1 pint jar, 1 lb 4 oz``; an open jar counts as its part.
    """
    measures = state.settings.newest("measures", "us") or "us"
    measure = state.facts.measure[int(state.lots["item"][lots[0]])] if lots else "mass"
    jars: dict[str, tuple[float, int]] = {}
    held, rest = state.once(held_in), 0
    for lot in lots:
        left, jar = int(state.left[lot]), held.name(lot)
        if jar is None:
            sizes = held.several.get(lot, [])
            if left != sum(whole for _, _, whole in sizes):  # of which size some went nobody said
                rest, sizes = rest + left, []
            for size, times, whole in sizes:
                many, before = jars.get(size, (0.0, 0))
                jars[size] = many + times / 1000, before + whole
            continue
        many, whole = jars.get(jar, (0.0, 0))
        share = float(held.jars[lot]) / int(state.lots["whole"][lot])
        jars[jar] = many + left * share, whole + left
    # of one batch in several sizes a quart holds more than a pint
    order = sorted(jars.items(), key=lambda one: -one[1][1] / max(one[1][0], 1e-9))
    parts: list[str] = [amount_later(so_many(many, jar)) for jar, (many, _) in order]
    if rest or not parts:
        parts.append(amount_later(format_whole(rest, measure, measures=measures)))
    return parts[0] if len(parts) == 1 else joined(", ", parts)


def so_many(many: float, jar: str) -> str:
    """Return jars of a size as an amount is typed, a part of one to the hundredth: ``2.5 quart jars``."""
    few = f"{many:.2f}".rstrip("0").rstrip(".")
    return f"{few} {jar}{'' if few == '1' else 's'}"


def _until(state: State, rank: int | None) -> dict[str, dict[str, int]]:
    """Return the rows as they stand after an event, by its place in rule 2's order; None: now."""
    out: dict[str, dict[str, int]] = {}
    for name, pieces in _pieces(state, rank).items():
        out[name] = _row(pieces)
    for (name, jars), (back, away, broken) in _entries(state, rank):
        row = out.setdefault(name, _row(0))
        row["full"] += jars - back - away - broken
        row["given_away"] += away
        row["broken"] += broken
    return out


def _empty(row: dict[str, int]) -> int:
    return row["had"] - row["full"] - row["given_away"] - row["broken"]


def _counted(state: State) -> dict[str, tuple[int, int]]:
    """Return the newest count of each kind of jar: its place in the order, and how many it found."""
    table = state.journal.tables["counts"]
    rows = state.moment.of(table["ev"])
    item = state.facts.canon[table["item"][rows]]
    whole = state.facts.strands.pieces(table, rows)
    rank = state.moment.rank[table["ev"][rows]]
    is_jar = state.facts.sort[item] == SORTS.index("jar") if rows.size else np.zeros(0, bool)
    found: dict[str, tuple[int, int]] = {}
    for i in np.flatnonzero(is_jar & (whole >= 0)).tolist():
        name, place, many = state.facts.names[int(item[i])], int(rank[i]), int(whole[i]) // 1000
        before = found.get(name, (-1, 0))
        if place >= before[0]:
            found[name] = place, many + (before[1] if place == before[0] else 0)
    return found


def _row(had: int) -> dict[str, int]:
    return {
        "had": had,
        "full": 0,
        "given_away": 0,
        "broken": 0,
        "empty": 0,
        "never_written_down": 0,
    }


def _pieces(state: State, until: int | None) -> dict[str, int]:
    """Return the empty jars that came in, less those that went out as such, by kind."""
    totals: dict[int, int] = {}
    tables, kinds = state.journal.tables, list(KINDS)
    is_jar = state.facts.sort[state.facts.canon] == SORTS.index("jar")
    for table, signs in (("supplies", _CAME), ("draws", _WENT)):
        rows = state.moment.of(tables[table]["ev"])
        if not rows.size:
            continue
        rows = rows[is_jar[tables[table]["item"][rows]]]
        if until is not None:
            rows = rows[state.moment.rank[tables[table]["ev"][rows]] <= until]
        item = state.facts.canon[tables[table]["item"][rows]]
        whole = state.facts.strands.pieces(tables[table], rows)
        kind = tables["events"]["kind"][tables[table]["ev"][rows]]
        for i in np.flatnonzero(whole >= 0).tolist():
            sign = signs.get(kinds[int(kind[i])], 0)
            totals[int(item[i])] = totals.get(int(item[i]), 0) + sign * int(whole[i])
    return {state.facts.names[item]: whole // 1000 for item, whole in totals.items()}


def _entries(state: State, until: int | None) -> list[tuple[tuple[str, int], tuple[int, int, int]]]:
    """Return each made entry's jars: (kind, jars), (came back, given away, broken)."""
    journal: Journal = state.journal
    supplies = journal.tables["supplies"]
    lots = state.lots
    draw, _, amount = state.allocations
    cause = journal.tables["events"]["cause"][state.draws["ev"]]
    broken = went(state, "discarded") & (cause == CAUSES.index("broken"))
    away = went(state, "given")
    back = went(state, "eaten", "used", "seed", "discarded") & ~broken
    has_jars = lots["jars"] > 0
    if until is not None:
        by_then = state.moment.rank[state.draws["ev"]] <= until
        back, away, broken = back & by_then, away & by_then, broken & by_then
        has_jars = has_jars & (state.moment.rank[lots["ev"]] <= until)
    rows = np.flatnonzero(has_jars)
    _, first, entry = np.unique(
        lots["ev"][rows] << 24 | lots["n"][rows], return_index=True, return_inverse=True
    )
    entry_of = np.full(has_jars.size, -1, np.int64)
    entry_of[rows] = entry
    whole, jars = (_added(entry, lots[name][rows], first.size) for name in ("whole", "jars"))
    into = entry_of[state.allocations[1]]
    of_jars = np.flatnonzero(into >= 0)
    by = draw[of_jars]
    gone = []
    for mask in (back, away, broken):
        some = of_jars[mask[by]]
        gone.append(_added(into[some], amount[some], first.size))
    codes = supplies["jar"][lots["row"][rows[first]]]
    names = {code: state.facts.names[int(state.facts.canon[code])] for code in set(codes.tolist())}
    columns = (codes, jars, whole, *gone)
    order = np.argsort(first)  # as the entries first stand on the shelf
    out = []
    for code, many, size, *amounts in zip(*(one[order].tolist() for one in columns), strict=True):
        if code >= 0:
            parts = [jars_gone(many, size, one) if one else 0 for one in amounts]
            out.append(((names[code], many), (parts[0], parts[1], parts[2])))
    return out


def _added(to: Array, whole: Array, count: int) -> Array:
    """Return whole numbers added up where they go, shape (count,)."""
    out = np.zeros(count, np.int64)
    np.add.at(out, to, whole)
    return out
