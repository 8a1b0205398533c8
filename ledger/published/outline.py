"""Jar, pack, gauge, altitude and load of a batch: which printed lines can apply at all."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from ledger.messages import Choice, joined, sentence
from ledger.published.batch import BatchDone, Finding, JarsDone
from ledger.published.jars import SIZES, jar_size, jar_ul, next_size
from ledger.published.processes import band_of, border_note, not_recommended
from ledger.published.words import (
    band,
    cite,
    cited,
    fixed,
    jar_word,
    labels,
    listed,
    pack_word,
    plain,
    published_for_said,
    size_word,
    sizes_listed,
    sizes_word,
)
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
    shown = sizes_listed(printed)
    intro = published_for_said(shown)
    if not jar.jar:
        text = joined(" ", (intro, sentence("finding-which-jars")))
        return list(lines), Finding("jar", shown, None, "not recorded", text)
    size, own = jar_size(jar.jar), jar_word(jar.jar)
    done = own if own == jar.jar else jar.jar
    fit = [line for line in lines if line.jar == size]
    if fit:
        return fit, Finding("jar", size_word(size or ""), done, "as published", intro)
    if jar_ul(jar.jar) is None:
        text = joined(" ", (intro, sentence("finding-jar-holds-ask", jar=own)))
        return list(lines), Finding("jar", shown, done, "to check yourself", text)
    taken = next_size(jar.jar, printed)
    if taken is not None:
        where = cited(cite(source("NCHFP_JARSIZE")))
        larger = sentence("finding-next-larger", jar=own, size=size_word(taken), source=where)
        text = joined(" ", (intro, larger))
        return [line for line in lines if line.jar == taken], Finding(
            "jar", size_word(taken), done, "as published", text
        )
    text = sentence("finding-jar-too-large", sizes=shown, jar=own)
    if "ml" in jar.jar or " l " in f" {jar.jar} ":
        where = cited(cite(source("CANNER_METRIC")))
        text = joined(" ", (text, sentence("finding-metric-jar", source=where)))
    return [], Finding("jar", shown, done, _NONE, text)


def pack_finding(lines: Sequence[Schedule], pack: str | None) -> tuple[list[Schedule], Finding]:
    """Return the lines printed for a style of pack, and the finding."""
    packs = sorted({line.pack for line in lines} - {"unstated"})
    if not packs:
        text: str = sentence("finding-no-style-of-pack")
        return list(lines), Finding(
            "pack", None, fixed(pack) if pack else None, "as published", text
        )
    printed = sentence("published-packs", packs=Choice(packs[0] if len(packs) == 1 else "both"))
    intro = sentence("finding-published-pack", pack=printed)
    if pack is None:
        text = joined(" ", (intro, sentence("finding-pack-ask")))
        return list(lines), Finding("pack", printed, None, "not recorded", text)
    fit = [line for line in lines if line.pack in (pack, "unstated")]
    if fit:
        return fit, Finding("pack", printed, fixed(pack), "as published", intro)
    text = sentence("finding-other-pack", pack=printed, pack2=pack_word(pack))
    return [], Finding("pack", printed, fixed(pack), _NONE, text)


def gauge_finding(gauge: str | None) -> Finding:
    """Return the finding of the gauge: the tables print one table for each kind."""
    if gauge is None:
        text = sentence("finding-gauge-ask")
        return Finding("gauge", sentence("finding-dial-or-weighted"), None, "not recorded", text)
    text = sentence("finding-gauge-table", gauge=Choice(gauge))
    return Finding("gauge", fixed(gauge), fixed(gauge), "as published", text)


def altitude_finding(lines: Sequence[Schedule], batch: BatchDone) -> Finding:
    """Return the finding of the altitude: which printed band it falls in, if any."""
    altitude = batch.altitude_ft
    if altitude is None:
        text: str = sentence("finding-altitude-ask")
        return Finding("altitude", None, None, "not recorded", text)
    done, n = plain(altitude), round(float(altitude))
    bands = [cell for line in lines if (cell := band_of(line.cells, altitude)) is not None]
    if not bands:
        last = max((line.cells[-1].high_ft or 0 for line in lines), default=0)
        text = (
            sentence("finding-above-last-band", n=n, n2=last)
            if altitude > 0
            else sentence("finding-below-sea", n=n)
        )
        text = joined(" ", (text, sentence("finding-ask-adviser")))
        return Finding("altitude", None, done, _NONE, text)
    closed = not_recommended(lines, altitude)
    if len(closed) == len(lines):
        text = sentence("finding-not-recommended", n=n)
        return Finding("altitude", None, done, _NONE, text)
    printed = listed(dict.fromkeys(band(c.low_ft, c.high_ft) for c in bands), "or")
    note = border_note(batch.method, batch.gauge, altitude)
    texts: list[str] = [sentence("finding-in-band", n=n, band=printed)]
    if note:
        texts.append(note)
    if closed:
        texts.append(sentence("finding-option-left-out"))
    return Finding("altitude", printed, done, "as published", joined(" ", texts))


def load_finding(fit: Sequence[str], batch: BatchDone, jar: JarsDone) -> Finding | None:
    """Return the finding of the canner load; None where the tables say nothing of it."""
    size = jar_size(jar.jar)
    rows = [q for product in fit for q in quantities(product) if q.basis == "canner_load"]
    most = LOADS.get(size or "")
    if most is None or not rows or not jar.jars:
        return None
    published = sentence("finding-jars-a-load", jars=sizes_word(size or "", most))
    where = cited(f"{labels(fit[:1])}: {cite(rows[0].source)}")
    intro = sentence("finding-loads-of", n=most, source=where)
    if batch.loads is None:
        if jar.jars <= most:
            return None
        text = joined(" ", (intro, sentence("finding-loads-ask", n=jar.jars)))
        return Finding("load", published, None, "not recorded", text)
    each = math.ceil(Fraction(jar.jars, max(batch.loads, 1)))
    kind = "as published" if each <= most else "beyond it"
    done = sentence("finding-loads-done", n=jar.jars, n2=batch.loads, n3=each)
    texts = [intro, done]
    if kind == "beyond it":
        texts.append(sentence("finding-loads-manual"))
    each_load = sentence("finding-a-load", n=each)
    return Finding("load", published, each_load, kind, joined(" ", texts))
