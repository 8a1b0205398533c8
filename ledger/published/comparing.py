"""One batch beside one complete printed process, field by field."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from ledger.amounts import parse_amount, pressure_psi
from ledger.errors import LedgerError
from ledger.published.batch import AcidDone, BatchDone, Finding, Used
from ledger.published.jars import jar_ul
from ledger.published.parts import parts_of
from ledger.published.processes import Process
from ledger.published.strength import is_bottled, strength_of
from ledger.published.words import acid_text, band, cite, inches, listed, number, plain
from ledger.reference.schedules_sources import source

__all__ = ["compare", "kind_of"]

_SLIP, _SLIP_MINUTES = 3, 30
_OVER_PSI, _DIAL_TO = 4, 20
_ON_WEIGHTS = frozenset({Fraction(5), Fraction(10), Fraction(15)})
_WEIGHTS = ((34, 5), (69, 10), (103, 15))
"""kPa that makers print on a weight, and its psi (CANNER_METRIC)."""
_BAR, _BAR_PSI = 2, Fraction("14.50377")
_NEEDLE = Fraction(1, 10)
_RULER_IN = Fraction(1, 25)
"""A millimetre: what a ruler shows in a kitchen."""
_OVER_IN = Fraction(1, 4)
_UNSURE = "The published figure here is not confirmed: look it up in its own document and compare."


def kind_of(published: Fraction, done: Fraction | None) -> str:
    """Return how what was done stands to a published figure."""
    if done is None:
        return "not recorded"
    if done == published:
        return "as published"
    return "short of it" if done < published else "beyond it"


def compare(process: Process, batch: BatchDone, jar: str) -> list[Finding]:
    """Return minutes, pressure, headspace and acid of a batch beside one whole process.

    Parameters
    ----------
    process : Process
        One option at one altitude; its figures are taken together.
    batch : BatchDone
    jar : str
        The jar compared, as the household names it.
    """
    out = [_minutes(process, batch)]
    if process.psi is not None:
        out.append(_psi(process, batch))
    out.append(_headspace(process, batch))
    if process.schedule.acids:
        out.append(_acid(process, batch, jar))
    return out if process.confirmed else [_unsure(one) for one in out]


def _unsure(one: Finding) -> Finding:
    """Return a finding that rests on a recalled figure: never "as published"."""
    if one.kind in ("as published", "beyond it"):
        return replace(one, kind="to check yourself", text=f"{one.text} {_UNSURE}")
    return replace(one, text=f"{one.text} {_UNSURE}")


def _where(process: Process) -> str:
    s = process.schedule
    gauge = f", {s.gauge} gauge" if s.gauge else ""
    option = (
        f", option {s.option}" if s.method == "pressure" and s.product.startswith("tomato") else ""
    )
    return f"{s.jar}s, {s.pack} pack{gauge}{option}, {band(process.low_ft, process.high_ft)}"


def _minutes(process: Process, batch: BatchDone) -> Finding:
    published = Fraction(process.minutes)
    kind = kind_of(published, batch.minutes)
    text = f"Published: {process.minutes} minutes ({_where(process)})."
    if batch.minutes is None:
        text += " How many minutes did it run, counted from the full boil or the full pressure?"
    else:
        text += f" Done: {number(batch.minutes)}."
        if kind == "short of it":
            text += f" That is {number(published - batch.minutes)} minutes short."
        elif kind == "beyond it":
            text += " Longer than printed: it costs quality, and makes up for nothing else."
            if batch.minutes > published * _SLIP and batch.minutes > published + _SLIP_MINUTES:
                kind, text = "to check yourself", f"{text} Is the figure right?"
    return Finding("minutes", process.minutes, plain(batch.minutes), kind, text)


def _psi(process: Process, batch: BatchDone) -> Finding:
    assert process.psi is not None
    published, done = Fraction(process.psi), weight_psi(batch)
    kind = kind_of(published, done)
    if done is not None and published < done < published + _NEEDLE:
        kind = "as published"  # 76 kPa is 11.02 psi: no needle shows the difference
    text = f"Published: {process.psi} psi ({_where(process)})."
    if done is None:
        text += " What did the gauge show at the lowest?"
        return Finding("psi", process.psi, None, kind, text)
    text += f" Done: {_said(batch, done)}."
    if kind == "short of it" and done < _BAR and batch.pressure_said and _bare(batch):
        text += " Were they bar? Write the unit: 0.8 bar."
        kind = "to check yourself" if done * _BAR_PSI >= published else kind
    elif kind == "short of it":
        text += (
            f" That is {number(published - done)} psi short; more minutes do not make up for it."
        )
    elif doubt := _strange(process, batch, done):
        kind, text = "to check yourself", f"{text} {doubt}"
    return Finding("psi", process.psi, plain(done), kind, text)


def weight_psi(batch: BatchDone) -> Fraction | None:
    """Return the pressure in psi; what makers print on a metric weight is the figure it stands for."""
    if batch.psi is None or batch.gauge != "weighted":
        return batch.psi
    for kilopascal, psi in _WEIGHTS:
        if batch.psi == pressure_psi(f"{kilopascal} kPa"):
            return Fraction(psi)
    return batch.psi


def _bare(batch: BatchDone) -> bool:
    return bool(re.fullmatch(r"[\d.,\s]+", batch.pressure_said or ""))


def _said(batch: BatchDone, done: Fraction) -> str:
    if batch.pressure_said is None or _bare(batch):
        return number(done)
    return f"{batch.pressure_said} ({number(done)} psi)"


def _strange(process: Process, batch: BatchDone, done: Fraction) -> str | None:
    """Return why a pressure that reaches the printed one may be a slip or another unit."""
    if done > _DIAL_TO:
        where = cite(source("UW_MULTICOOKER"))
        ask = "Was it a gauge in kPa? Write the unit: 76 kPa."
        return f"Gauges of canners run from 0 to {_DIAL_TO} psi ({where}). {ask}"
    if process.schedule.gauge == "weighted" and done not in _ON_WEIGHTS:
        return "A weighted gauge shows 5, 10 or 15 psi: which was it?"
    if process.schedule.gauge == "dial" and done > process.psi + _OVER_PSI:  # type: ignore[operator]
        return f"That is more than {_OVER_PSI} psi above the printed figure: is it right?"
    return None


def _headspace(process: Process, batch: BatchDone) -> Finding:
    published = process.headspace_in
    kind = kind_of(published, batch.headspace_in)
    if batch.headspace_in is not None and abs(batch.headspace_in - published) <= _RULER_IN:
        kind = "as published"  # within what a ruler shows
    text = f"Published headspace: {inches(published)}."
    if batch.headspace_in is None:
        text += " How much was left?"
    else:
        text += f" Done: {inches(batch.headspace_in)}."
        if kind == "short of it":
            text += " Food may boil out and keep the lid from sealing."
        elif kind == "beyond it":
            text += " More air than tested stays in the jar."
            if batch.headspace_in - published > _OVER_IN + _RULER_IN:
                kind, text = "to check yourself", f"{text} Is the figure right?"
    return Finding("headspace", plain(published), plain(batch.headspace_in), kind, text)


def _acid(process: Process, batch: BatchDone, jar: str) -> Finding:
    published = acid_text(process.schedule) or ""
    intro = f"Published: in each jar {published}, any one of them."
    acids = [*(batch.acid or ()), *_among_used(batch)]
    if not acids:
        ask = (
            " No acid was written down: was any added?"
            if batch.acid is None
            else " None was added, by what was written down."
        )
        kind = "not recorded" if batch.acid is None else "short of it"
        return Finding("acid", published, None if batch.acid is None else "none", kind, intro + ask)
    done = listed(f"{a.amount} {a.acid} per {a.per}" for a in acids)
    kinds = [_acid_kind(process, one, batch, jar) for one in acids]
    order = ("as published", "beyond it", "to check yourself", "not recorded")
    kind = next((k for k in order if k in kinds), "short of it")
    text = f"{intro} Done: {done}."
    if kind == "short of it":
        text += " None of the acids reaches its own published amount; parts of two do not add up to one."
    elif kind == "not recorded":
        text += " Give the amount in spoons for each jar: that is how it is printed."
    elif kind == "to check yourself":
        text += (
            " Was the juice bottled, the vinegar of 5 %, and is it printed for a jar of that size?"
        )
    return Finding("acid", published, done, kind, text)


def _among_used(batch: BatchDone) -> list[AcidDone]:
    """Return acid that was written down among what was used: it went into the whole batch."""
    return [
        AcidDone(part.text, part.used.amount, "batch")
        for part in parts_of(batch.used)
        if part.role in ("lemon", "citric", "vinegar") and not part.strained
    ]


_FIELD_ACIDS = {
    "lemon juice": "lemon juice",
    "citric acid": "citric acid",
    "vinegar 5%": "vinegar 5%",
}


def _acid_named(text: str) -> tuple[str | None, bool]:
    """Return which printed acid a name is, and whether it is certain: bottled, of 5 %."""
    if text in _FIELD_ACIDS:
        return text, True
    role = parts_of([Used(text, "")])[0].role
    if role == "vinegar":
        return "vinegar 5%", strength_of(text).kind == "as published"
    if role == "lemon":
        return "lemon juice", bool(is_bottled(text))
    return ("citric acid", True) if role == "citric" else (None, False)


def _acid_kind(process: Process, one: AcidDone, batch: BatchDone, jar: str) -> str:
    name, sure = _acid_named(one.acid)
    printed = next((row for row in process.schedule.acids if row[0] == name), None)
    volume = _volume(one.amount)
    if name == "vinegar 5%" and strength_of(one.acid).kind == "short of it":
        return "short of it"
    if printed is None:
        return "short of it" if name else "not recorded"
    if volume is None:
        return "not recorded"
    own = Fraction(jar_ul(jar) or 0)
    if one.per == "batch":
        whole = sum((Fraction(jar_ul(j.jar) or 0) * j.jars for j in batch.jars), Fraction(0))
        if not whole or not own:
            return "not recorded"
        volume = volume * own / whole
    wanted = _volume(f"{number(printed[1])} {printed[2]}")
    assert wanted is not None
    volume = wanted if abs(volume - wanted) < _DROP * wanted else volume
    kind = kind_of(wanted, volume)
    table = Fraction(jar_ul(process.schedule.jar) or 0)
    if kind == "short of it" and own and own < table and volume >= wanted * own / table:
        return "to check yourself"  # by volume it is enough; the table prints no such jar
    return kind if sure or kind == "short of it" else "to check yourself"


_DROP = Fraction(1, 100)
"""A hundredth: what dividing a batch's spoons by its jars may round off."""


def _volume(text: str) -> Fraction | None:
    try:
        amount = parse_amount(text)
    except LedgerError:
        return None
    return amount.exact if amount.measure == "volume" else None
