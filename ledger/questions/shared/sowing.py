"""The formulas of sowing: each gives the column for all crops, and the tree for one."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import numpy as np

from ledger.figures import (
    Figure,
    assumed,
    at_least_none,
    choose,
    if_known,
    known_where,
    method,
    published,
    said,
    total,
    work,
)
from ledger.methods.frost import seeds_wanted
from ledger.questions.costs.sources import unit_factor
from ledger.questions.shared.frosts import frosts_of
from ledger.reference import winter

if TYPE_CHECKING:
    from ledger.questions.shared.seeds import Seed
    from ledger.questions.shared.sown import Bare
    from ledger.reference.sowing import Crop
    from ledger.replay import State

__all__ = ["sowing"]

_MEMORY = "from-memory"
_Value = tuple[float, int] | None
"""A number and the event that says it."""


class _Rows:
    """What the table and the household say of each crop, as columns."""

    def __init__(self, crops: Sequence[Bare]) -> None:
        self.crops = crops

    def table(self, group: str, unit: str, read: Callable[[Crop], float | None]) -> Figure:
        """Return a column of the table, from a group of cells that has one source."""
        rows = [one.row for one in self.crops]
        values = [None if row is None else read(row) for row in rows]
        recalled = [row is not None and group in row.memory.split(", ") for row in rows]
        columns = np.array(values, np.float64)
        printed = published(columns, unit, lambda at: _source(rows[at], group))
        return choose(np.array(recalled, bool), assumed(columns, unit, _MEMORY), printed)

    def told(self, unit: str, read: Callable[[Seed], _Value]) -> Figure:
        """Return a column of what was written down of the seed."""
        each = [(one.seed and read(one.seed)) or (None, -1) for one in self.crops]
        values, ev = zip(*each, strict=True) if each else ((), ())
        return said(np.array(values, np.float64), unit, np.array(ev, np.int64))


def _source(row: Crop | None, group: str) -> str:
    by = dict(part.split("=") for part in row.sources.split("; ")) if row is not None else {}
    return winter.document(by.get(group, ""))


def sowing(state: State, crops: Sequence[Bare], risk: float) -> dict[str, Figure]:
    """Return every figure of the crops by the name of its column; a row is a crop.

    References
    ----------
    Virginia Cooperative Extension fall formula, as explained by A. McDaniel, Virginia Tech, 2011: days to
    the harvest, a fall factor, the picking, days for what frost kills, and from seed to setting out.
    """
    rows, frosts = _Rows(crops), frosts_of(state)
    out = {
        **_days(rows),
        "soil_min_f": rows.table("soil", "deg F", lambda row: row.soil_min_f),
        "soil_best_f": rows.table("soil", "deg F", lambda row: row.soil_best_f),
        "again_days": rows.table("again", "days", lambda row: row.again_days),
        "standard": rows.table(
            "germination", "0 to 1", lambda row: row.min_germination and row.min_germination / 100
        ),
    }
    for name in ("soil_min_f", "soil_best_f", "again_days", "standard"):
        out[name] = if_known(out[name].called("of-table"), "not-in-table")
    once = np.zeros(len(crops), np.int64)
    for name, spring in (("spring_frost_day", True), ("fall_frost_day", False)):
        out[name] = frosts.figure(risk, spring=spring).at(once)
    return out | _seed(rows)


def _days(rows: _Rows) -> dict[str, Figure]:
    packet = rows.told("days", lambda seed: seed.days).called("days-of-packet")
    low = rows.table("days", "days", lambda row: row.days and row.days[0]).called("table-low")
    high = rows.table("days", "days", lambda row: row.days and row.days[1]).called("table-high")
    middle = if_known(work("middle", low, high).called("days-of-table"), "days-unknown")
    days = choose(~np.isnan(packet.values), packet, middle)
    ends = [
        _set_out(rows, end).called(name) for end, name in enumerate(("table-low", "table-high"))
    ]
    weeks = work("middle", *ends).called("weeks-to-set-out")
    raised = weeks * unit_factor(7.0, "days per week", "days-a-week")
    raised = raised.called("to-setting-out", unit="days")
    picking = assumed(np.array([one.picking for one in rows.crops], np.float64), "days", "picking")
    before = total(
        days,
        rows.table("fall", "days", lambda row: row.fall_days).called("shorter-days"),
        picking.called("picking"),
        rows.table("fall", "days", lambda row: row.tender_days).called("frost-kills"),
        raised,
    )
    known = if_known(before.called("last_sowing_days"), "days-unknown", "days")
    return {"last_sowing_days": known, "days_to_harvest": days, "raised_days": raised}


def _set_out(rows: _Rows, end: int) -> Figure:
    """Return the weeks from seed to setting out where the days are counted from there, else 0."""

    def read(row: Crop) -> float:
        weeks = row.weeks_to_set_out
        return weeks[end] if weeks and row.counted_from == "set out" else 0.0

    return rows.table("set-out weeks", "weeks", read)


def _seed(rows: _Rows) -> dict[str, Figure]:
    grew = rows.told("seeds", lambda seed: seed.test and (seed.test[1], seed.test[3]))
    sown = rows.told("seeds", lambda seed: seed.test and (seed.test[2], seed.test[3]))
    tested = [grew.called("sprouted"), sown.called("laid-out")]
    rate = if_known((tested[0] / tested[1]).called("germination"), "no-test")
    plants = np.array([one.plants for one in rows.crops], np.float64)
    planned = if_known(assumed(plants, "plants", "plan").called("plants"), "not-planned")
    bare = (planned / rate).called("plants-by-germination", unit="seeds")
    whole = [None if np.isnan(one) else seeds_wanted(one, 1.0) for one in bare.values]
    wanted = method(lambda: np.array(whole, np.float64), "seeds", "whole-seeds", [bare])
    left = if_known(
        rows.told("seeds", lambda seed: seed.seeds).called("seeds_left"), "seeds-left-unknown"
    )
    wanted = if_known(wanted.called("seeds_wanted"), "not-known")
    short = at_least_none((wanted - left).called("missing"), "nothing-to-order")
    return {
        "germination": rate,
        "germination_low": _range_end(rows, "low", tested),
        "germination_high": _range_end(rows, "high", tested),
        "plants": planned,
        "seeds_wanted": wanted,
        "seeds_left": left,
        "to_order": known_where(
            ~np.isnan(wanted.values),
            if_known(short.called("to_order"), "seeds-left-unknown"),
            "not-known",
        ),
    }


def _range_end(rows: _Rows, end: str, tested: Sequence[Figure]) -> Figure:
    """Return an end of the 95 per cent range of a test."""
    tests = [one.seed.test[0] if one.seed and one.seed.test else None for one in rows.crops]
    ends = np.array([getattr(test, end, None) for test in tests], np.float64)
    return if_known(method(lambda: ends, "0 to 1", "wilson", tested).called("range-end"), "no-test")
