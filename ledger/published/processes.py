"""What a published table prints for a jar at an altitude: whole processes, never a mixture."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from ledger.messages import Choice, joined, sentence
from ledger.published.words import (
    acid_text,
    band,
    cite,
    cited,
    inches,
    pack_word,
    sizes_word,
)
from ledger.reference.planting import Source
from ledger.reference.schedules import BANDS, Cell, Schedule

__all__ = [
    "Process",
    "band_of",
    "boiling_point_f",
    "border_note",
    "not_recommended",
    "published_for",
]


@dataclass(frozen=True)
class Process:
    """One complete printed process for one band of altitude.

    Attributes
    ----------
    schedule : Schedule
    minutes : int
    psi : int or None
        None for boiling water.
    headspace_in : Fraction
    acid : str or None
        What acid a jar takes, in words; any one of those listed.
    option : int
    source : Source
    confirmed : bool
    low_ft, high_ft : int, int or None
        The printed band.
    """

    schedule: Schedule
    minutes: int
    psi: int | None
    headspace_in: Fraction
    acid: str | None
    option: int
    source: Source
    confirmed: bool
    low_ft: int
    high_ft: int | None

    @property
    def text(self) -> str:
        """The process in one line, with its source."""
        s = self.schedule
        how = sentence("published-minutes-boiling", n=self.minutes)
        if self.psi is not None:
            how = sentence(
                "published-minutes-pressure",
                n=self.minutes,
                n2=self.psi,
                gauge=Choice(s.gauge or "dial"),
            )
        pack = sentence("published-packed", pack=pack_word(s.pack), sizes=sizes_word(s.jar))
        parts = [pack, how, sentence("published-headspace", x=inches(self.headspace_in))]
        if self.acid:
            parts.append(sentence("published-acid-each-jar", acids=self.acid))
        id_ = "published-process" if self.confirmed else "published-process-not-confirmed"
        at = band(self.low_ft, self.high_ft)
        where = sentence("published-band-in", band=at, source=cited(self.where, "; ", ""))
        return sentence(id_, parts=joined(", ", parts), where=where)

    @property
    def where(self) -> str:
        """Its document, and the place in it."""
        return cite(self.source, self.schedule.part)


def band_of(cells: Iterable[Cell], altitude_ft: Fraction) -> Cell | None:
    """Return the printed band of an altitude, or None where the table prints none.

    A border belongs to the band that names it: 1,000 ft to "0 to 1,000". What lies between two
    printed figures (1,000.5 ft) goes to the next band up.
    """
    if altitude_ft < 0:
        return None
    for cell in cells:
        if cell.high_ft is None or altitude_ft <= cell.high_ft:
            return cell
    return None


def published_for(
    schedules: Iterable[Schedule], altitude_ft: Fraction | int, gauge: str | None = None
) -> list[Process]:
    """Return every complete process that some lines print at an altitude, as printed.

    Parameters
    ----------
    schedules : iterable of Schedule
    altitude_ft : Fraction or int
    gauge : {'dial', 'weighted'}, optional
        Only pressure processes for that gauge; None gives those for both.

    Returns
    -------
    list of Process
        Empty beyond the last printed band, and where the table prints "not recommended".
    """
    out = []
    for line in schedules:
        if gauge is not None and line.gauge not in (None, gauge):
            continue
        cell = band_of(line.cells, Fraction(altitude_ft))
        if cell is not None and cell.minutes is not None:
            out.append(_process(line, cell))
    return out


def _process(line: Schedule, cell: Cell) -> Process:
    assert cell.minutes is not None
    return Process(
        line,
        cell.minutes,
        cell.psi,
        line.headspace_in,
        acid_text(line),
        line.option,
        line.source,
        line.confirmed,
        cell.low_ft,
        cell.high_ft,
    )


def not_recommended(schedules: Iterable[Schedule], altitude_ft: Fraction | int) -> list[Schedule]:
    """Return the lines that print "not recommended" at an altitude."""
    return [
        line
        for line in schedules
        if (cell := band_of(line.cells, Fraction(altitude_ft))) is not None and cell.minutes is None
    ]


def border_note(method: str, gauge: str | None, altitude_ft: Fraction) -> str | None:
    """Return what to know of an altitude on, or between, two printed bands; else None."""
    bands = BANDS["boiling water" if method == "boiling water" else gauge or "dial"]
    for (_, high), (low, _) in pairwise(bands):
        assert high is not None
        if altitude_ft == high:
            return sentence("finding-last-foot", n=high, n2=low)
        if high < altitude_ft < low:
            return sentence(
                "finding-between-bands", n=round(float(altitude_ft), 1), n2=high, n3=low
            )
    return None


def boiling_point_f(altitude_ft: Fraction | float) -> float:
    """Return the temperature at which water boils, in degrees F: information, never a process.

    Parameters
    ----------
    altitude_ft : Fraction or float

    References
    ----------
    Pressure of the International Standard Atmosphere (ISO 2533:1975), troposphere; Antoine
    equation of water, 1 to 100 degrees C, constants 8.07131, 1730.63, 233.426 (mmHg). Both from
    memory.
    """
    metres = float(altitude_ft) * 0.3048
    mmhg = 760.0 * (1 - 0.0065 * metres / 288.15) ** 5.25588
    celsius = 1730.63 / (8.07131 - math.log10(mmhg)) - 233.426
    return celsius * 9 / 5 + 32
