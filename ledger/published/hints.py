"""Where a time that is too short comes from: another printed line taken by mistake."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.messages import joined, sentence
from ledger.published.batch import BatchDone, Finding
from ledger.published.finding import lines_of
from ledger.published.jars import SIZES
from ledger.published.processes import Process, not_recommended
from ledger.published.words import band, figure, fixed, pack_word, sizes_word
from ledger.reference.schedules import Schedule

__all__ = ["hint_for"]


def hint_for(found: Finding, process: Process, batch: BatchDone) -> Finding:
    """Return a finding of short minutes or pressure with the printed line that was taken instead."""
    if found.kind != "short of it" or found.field not in ("minutes", "psi"):
        return found
    hint = _minutes(process, batch) if found.field == "minutes" else _psi(process, batch)
    return replace(found, text=joined(" ", (found.text, hint))) if hint else found


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
    if done is None:
        return None
    n, out = figure(done), []
    for line in _kin(process):
        here = any(c.low_ft == process.low_ft and c.minutes == done for c in line.cells)
        if here and line.pack == s.pack and SIZES.index(line.jar) < SIZES.index(s.jar):
            out.append(sentence("finding-minutes-of-jar", n=n, sizes=sizes_word(line.jar)))
        elif here and line.pack != s.pack and line.jar == s.jar:
            out.append(sentence("finding-minutes-of-pack", n=n, pack=pack_word(line.pack)))
    for cell in s.cells:
        if cell.high_ft is not None and cell.high_ft < process.low_ft and cell.minutes == done:
            where = band(cell.low_ft, cell.high_ft)
            out.append(sentence("finding-minutes-of-altitude", n=n, band=where))
    return joined(" ", out) or _closed_option(process, batch)


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
            first = line.cells[0]
            assert first.minutes is not None
            return sentence("finding-not-above-1000-ft", n=first.minutes, n2=first.psi)
    return None


def _psi(process: Process, batch: BatchDone) -> str | None:
    s, done = process.schedule, batch.psi
    if done is None:
        return None
    n = figure(done)
    for cell in s.cells:
        if cell.high_ft is not None and cell.high_ft < process.low_ft and cell.psi == done:
            where = band(cell.low_ft, cell.high_ft)
            return sentence("finding-psi-of-altitude", n=n, band=where)
    for line in lines_of(s.product, s.method):
        same = (line.jar, line.pack) == (s.jar, s.pack)
        if line.gauge != s.gauge and same and any(cell.psi == done for cell in line.cells):
            return sentence("finding-psi-of-gauge", n=n, gauge=fixed(line.gauge or ""))
    return None
