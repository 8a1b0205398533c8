"""Jar, pack, gauge, altitude and load of a batch: which printed lines can apply at all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from ledger.published.batch import BatchDone, Finding, JarsDone
from ledger.published.jars import SIZES, jar_size, jar_ul, next_size
from ledger.published.processes import band_of, border_note, not_recommended
from ledger.published.words import band, cite, labels, listed, plain
from ledger.reference.schedules import Schedule
from ledger.reference.schedules_sources import source
from ledger.reference.yields import quantities

__all__ = ["altitude_finding", "gauge_finding", "jar_finding", "load_finding", "pack_finding"]

_NONE = "no published process"
LOADS = {"quart": 7, "pint": 9}
"""Jars of a canner load as the quantities of the tables print it."""


def jar_finding(lines: Sequence[Schedule], jar: JarsDone) -> tuple[list[Schedule], Finding]:
    """Return the lines printed for a jar, and the finding."""
    printed = tuple(sorted({line.jar for line in lines}, key=SIZES.index))
    shown = listed((f"{size}s" for size in printed), "and")
    if not jar.jar:
        text = f"Published for {shown}. Which jars were they?"
        return list(lines), Finding("jar", shown, None, "not recorded", text)
    size = jar_size(jar.jar)
    fit = [line for line in lines if line.jar == size]
    if fit:
        return fit, Finding("jar", size, jar.jar, "as published", f"Published for {shown}.")
    if jar_ul(jar.jar) is None:
        text = f"Published for {shown}. How much does a {jar.jar} hold?"
        return list(lines), Finding("jar", shown, jar.jar, "to check yourself", text)
    taken = next_size(jar.jar, printed)
    if taken is not None:
        where = cite(source("NCHFP_JARSIZE"))
        text = f"Published for {shown}. A {jar.jar} takes the next larger printed size, {taken} ({where})."
        return [line for line in lines if line.jar == taken], Finding(
            "jar", taken, jar.jar, "as published", text
        )
    text = f"Published for {shown}, not for a {jar.jar}: nothing is printed for a jar larger than the largest."
    if "ml" in jar.jar or " l " in f" {jar.jar} ":
        where = cite(source("CANNER_METRIC"))
        text += f" A maker prints 500 ml as a pint and 1 l as a quart ({where}): to check yourself."
    return [], Finding("jar", shown, jar.jar, _NONE, text)


def pack_finding(lines: Sequence[Schedule], pack: str | None) -> tuple[list[Schedule], Finding]:
    """Return the lines printed for a style of pack, and the finding."""
    printed = listed(sorted({line.pack for line in lines} - {"unstated"}), "and")
    if not printed:
        text = "The table prints no style of pack."
        return list(lines), Finding("pack", None, pack, "as published", text)
    if pack is None:
        text = f"Published for {printed} pack. Was it packed hot or raw?"
        return list(lines), Finding("pack", printed, None, "not recorded", text)
    fit = [line for line in lines if line.pack in (pack, "unstated")]
    if fit:
        return fit, Finding("pack", printed, pack, "as published", f"Published for {printed} pack.")
    text = f"Published for {printed} pack only, not for {pack} pack."
    return [], Finding("pack", printed, pack, _NONE, text)


def gauge_finding(gauge: str | None) -> Finding:
    """Return the finding of the gauge: the tables print one table for each kind."""
    if gauge is None:
        text = "Dial and weighted gauges have tables of their own. Which has the canner?"
        return Finding("gauge", "dial or weighted", None, "not recorded", text)
    return Finding(
        "gauge", gauge, gauge, "as published", f"The table for the {gauge} gauge is used."
    )


def altitude_finding(lines: Sequence[Schedule], batch: BatchDone) -> Finding:
    """Return the finding of the altitude: which printed band it falls in, if any."""
    altitude = batch.altitude_ft
    if altitude is None:
        text = "The altitude of the kitchen is not set, and the process depends on it."
        return Finding("altitude", None, None, "not recorded", text)
    done, shown = plain(altitude), f"{float(altitude):,.0f} ft"
    bands = [cell for line in lines if (cell := band_of(line.cells, altitude)) is not None]
    if not bands:
        last = max((line.cells[-1].high_ft or 0 for line in lines), default=0)
        text = f"No process is printed for {shown}"
        text += (
            f": the last printed band ends at {last:,} ft."
            if altitude > 0
            else ", below sea level."
        )
        return Finding("altitude", None, done, _NONE, f"{text} Ask an extension adviser.")
    closed = not_recommended(lines, altitude)
    if len(closed) == len(lines):
        text = f"Printed as not recommended at {shown}."
        return Finding("altitude", None, done, _NONE, text)
    printed = listed(dict.fromkeys(band(c.low_ft, c.high_ft) for c in bands), "or")
    note = border_note(batch.method, batch.gauge, altitude)
    text = f"{shown} falls in the printed band {printed}." + (f" {note}" if note else "")
    if closed:
        text += " One printed option is not recommended here and is left out."
    return Finding("altitude", printed, done, "as published", text)


def load_finding(fit: Sequence[str], batch: BatchDone, jar: JarsDone) -> Finding | None:
    """Return the finding of the canner load; None where the tables say nothing of it."""
    size = jar_size(jar.jar)
    rows = [q for product in fit for q in quantities(product) if q.basis == "canner_load"]
    most = LOADS.get(size or "")
    if most is None or not rows or not jar.jars:
        return None
    published = f"{most} {size}s a load"
    intro = f"The quantities are printed for loads of {most} ({labels(fit[:1])}: {cite(rows[0].source)})."
    if batch.loads is None:
        if jar.jars <= most:
            return None
        text = f"{intro} {jar.jars} jars: in how many loads?"
        return Finding("load", published, None, "not recorded", text)
    each = math.ceil(Fraction(jar.jars, max(batch.loads, 1)))
    kind = "as published" if each <= most else "beyond it"
    text = f"{intro} Done: {jar.jars} jars, {batch.loads} loads: {each} at least in one of them."
    if kind == "beyond it":
        text += " Compare with the canner's manual how many it takes."
    return Finding("load", published, f"{each} a load", kind, text)
