"""Where a time that is too short comes from: another printed line taken by mistake."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.published.batch import BatchDone, Finding
from ledger.published.finding import lines_of
from ledger.published.jars import SIZES
from ledger.published.processes import Process, not_recommended
from ledger.published.words import band
from ledger.reference.schedules import Schedule

__all__ = ["hint_for"]


def hint_for(found: Finding, process: Process, batch: BatchDone) -> Finding:
    """Return a finding of short minutes or pressure with the printed line that was taken instead."""
    if found.kind != "short of it" or found.field not in ("minutes", "psi"):
        return found
    hint = _minutes(process, batch) if found.field == "minutes" else _psi(process, batch)
    return replace(found, text=f"{found.text} {hint}") if hint else found


def _kin(process: Process) -> list[Schedule]:
    s = process.schedule
    return [
        line
        for line in lines_of(s.product, s.method)
        if line.gauge == s.gauge and line.option == s.option
    ]


def _minutes(process: Process, batch: BatchDone) -> str | None:
    """Return every other printed line that the time would be: jar, altitude, pack."""
    s, done = process.schedule, batch.minutes
    out = []
    for line in _kin(process):
        here = any(c.low_ft == process.low_ft and c.minutes == done for c in line.cells)
        if here and line.pack == s.pack and SIZES.index(line.jar) < SIZES.index(s.jar):
            out.append(f"{done} minutes is the published time for the smaller jar ({line.jar}s).")
        elif here and line.pack != s.pack and line.jar == s.jar:
            out.append(f"{done} minutes is the published time for {line.pack} pack.")
    for cell in s.cells:
        if cell.high_ft is not None and cell.high_ft < process.low_ft and cell.minutes == done:
            where = band(cell.low_ft, cell.high_ft)
            out.append(f"{done} minutes is printed for a lower altitude ({where}).")
    return " ".join(out) or _closed_option(process, batch)


def _closed_option(process: Process, batch: BatchDone) -> str | None:
    s = process.schedule
    lines = [
        line
        for line in lines_of(s.product, s.method)
        if (line.jar, line.pack, line.gauge) == (s.jar, s.pack, s.gauge)
    ]
    altitude = Fraction(process.low_ft) if batch.altitude_ft is None else batch.altitude_ft
    for line in not_recommended(lines, altitude):
        if line.cells[0].minutes == batch.minutes:
            return (
                f"{line.cells[0].minutes} minutes at {line.cells[0].psi} psi is printed for 0 to "
                "1,000 ft only: not recommended above 1,000 ft."
            )
    return None


def _psi(process: Process, batch: BatchDone) -> str | None:
    s, done = process.schedule, batch.psi
    for cell in s.cells:
        if cell.high_ft is not None and cell.high_ft < process.low_ft and cell.psi == done:
            return (
                f"{done} psi is printed for a lower altitude ({band(cell.low_ft, cell.high_ft)})."
            )
    for line in lines_of(s.product, s.method):
        same = (line.jar, line.pack) == (s.jar, s.pack)
        if line.gauge != s.gauge and same and any(cell.psi == done for cell in line.cells):
            return f"{done} psi is printed for the {line.gauge} gauge."
    return None
