"""One batch beside one complete printed process, field by field."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.amounts import jar_volume_ul, parse_amount
from ledger.errors import LedgerError
from ledger.published.batch import AcidDone, BatchDone, Finding
from ledger.published.processes import Process
from ledger.published.words import acid_text, band, inches, listed, number, plain

__all__ = ["compare", "kind_of"]

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
        return replace(one, kind="not recorded", text=f"{one.text} {_UNSURE}", askable=False)
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
    return Finding("minutes", process.minutes, plain(batch.minutes), kind, text)


def _psi(process: Process, batch: BatchDone) -> Finding:
    assert process.psi is not None
    published = Fraction(process.psi)
    kind = kind_of(published, batch.psi)
    text = f"Published: {process.psi} psi ({_where(process)})."
    if batch.psi is None:
        text += " What did the gauge show at the lowest?"
    else:
        text += f" Done: {number(batch.psi)}."
        if kind == "short of it":
            text += f" That is {number(published - batch.psi)} psi short; more minutes do not make up for it."
    return Finding("psi", process.psi, plain(batch.psi), kind, text)


def _headspace(process: Process, batch: BatchDone) -> Finding:
    published = process.headspace_in
    kind = kind_of(published, batch.headspace_in)
    text = f"Published headspace: {inches(published)}."
    if batch.headspace_in is None:
        text += " How much was left?"
    else:
        text += f" Done: {inches(batch.headspace_in)}."
        if kind == "short of it":
            text += " Food may boil out and keep the lid from sealing."
        elif kind == "beyond it":
            text += " More air than tested stays in the jar."
    return Finding("headspace", plain(published), plain(batch.headspace_in), kind, text)


def _acid(process: Process, batch: BatchDone, jar: str) -> Finding:
    published = acid_text(process.schedule) or ""
    intro = f"Published: in each jar {published}, any one of them."
    if not batch.acid:
        ask = (
            " No acid was written down: was any added?"
            if batch.acid is None
            else " None was added, by what was written down."
        )
        kind = "not recorded" if batch.acid is None else "short of it"
        return Finding("acid", published, None if batch.acid is None else "none", kind, intro + ask)
    done = listed(f"{a.amount} {a.acid} per {a.per}" for a in batch.acid)
    kinds = [_acid_kind(process, one, batch, jar) for one in batch.acid]
    kind = next(
        (k for k in ("as published", "beyond it", "not recorded") if k in kinds), "short of it"
    )
    text = f"{intro} Done: {done}."
    if kind == "short of it":
        text += " None of the acids reaches its own published amount; parts of two do not add up to one."
    elif kind == "not recorded":
        text += " Give the amount in spoons for each jar: that is how it is printed."
    return Finding("acid", published, done, kind, text)


def _acid_kind(process: Process, one: AcidDone, batch: BatchDone, jar: str) -> str:
    printed = next((row for row in process.schedule.acids if row[0] == one.acid), None)
    volume = _volume(one.amount)
    if printed is None or volume is None:
        return "not recorded"
    if one.per == "batch":
        whole = sum((Fraction(jar_volume_ul(j.jar) or 0) * j.jars for j in batch.jars), Fraction(0))
        if not whole:
            return "not recorded"
        volume = volume * Fraction(jar_volume_ul(jar) or 0) / whole
    wanted = _volume(f"{number(printed[1])} {printed[2]}")
    assert wanted is not None
    return kind_of(wanted, volume)


def _volume(text: str) -> Fraction | None:
    try:
        amount = parse_amount(text)
    except LedgerError:
        return None
    return amount.exact if amount.measure == "volume" else None
