"""Before a batch: the printed process, what it takes, and short reminders in order."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from ledger.published.batch import BatchDone, JarsDone
from ledger.published.cautions import SHORT
from ledger.published.finding import Match, find, lines_of
from ledger.published.jars import jar_size
from ledger.published.outline import LOADS, altitude_finding, jar_finding
from ledger.published.processes import Process, boiling_point_f, border_note, published_for
from ledger.published.words import cite, inches, label, number
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import source
from ledger.reference.storage import figures
from ledger.reference.yields import quantities

__all__ = ["Before", "Need", "Step", "before_batch", "needs_of", "steps_of"]

PRACTICE = "common practice, no source"


@dataclass(frozen=True)
class Step:
    """A reminder, and where it comes from."""

    text: str
    source: str


@dataclass(frozen=True)
class Need:
    """Something to have ready, and where the figure comes from."""

    what: str
    amount: str
    source: str


@dataclass(frozen=True)
class Before:
    """The answer to "how is it published?".

    Attributes
    ----------
    match : Match
    processes : tuple of Process
        Every whole process printed for what was said; one is chosen, never two mixed.
    questions : tuple of str
        What has to be known to narrow it down, and what is not printed.
    needs : tuple of Need
    steps : tuple of Step
        Of the first process's method.
    notes : tuple of str
        For information: boiling point, border of a band, remarks of the tables.
    caution : str
    """

    match: Match
    processes: tuple[Process, ...]
    questions: tuple[str, ...]
    needs: tuple[Need, ...]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]
    caution: str = SHORT


def before_batch(
    product_words: str,
    *,
    jar: str | None = None,
    pack: str | None = None,
    method: str | None = None,
    gauge: str | None = None,
    altitude_ft: Fraction | None = None,
    jars: int | None = None,
    schedule: str | None = None,
) -> Before:
    """Return every printed process for a product, jar, pack, method, gauge and altitude.

    Parameters
    ----------
    product_words : str
        As the household calls it.
    jar, pack, method, gauge, altitude_ft
        None: all that is printed, and a question.
    jars : int, optional
        How many jars are planned; default: one canner load.
    schedule : str, optional
        What the recipe says it follows.
    """
    match = find(product_words, method, jar, pack, schedule)
    questions = [] if len(match.candidates) == 1 else [match.text]
    lines = [line for p in match.candidates for line in lines_of(p, method)]
    if match.candidates and not lines:
        printed = " or ".join(
            dict.fromkeys(s.method for p in match.candidates for s in lines_of(p))
        )
        questions.append(f"No {method} process is printed for it: published for {printed} only.")
    if lines and jar:
        lines, found = jar_finding(lines, JarsDone(jar, 0))
        questions += [found.text] if found.kind != "as published" else []
    if pack and lines:
        kept = [line for line in lines if line.pack == pack]
        questions += [] if kept else [f"It is not published for {pack} pack."]
        lines = kept
    lines = [line for line in lines if gauge is None or line.gauge in (None, gauge)]
    processes: list[Process] = []
    notes = []
    if altitude_ft is None:
        questions.append("At what altitude is the kitchen? The process depends on it.")
    elif lines:
        processes = published_for(lines, altitude_ft, gauge)
        question = BatchDone(product_words, method or lines[0].method, altitude_ft=altitude_ft)
        place = altitude_finding(lines, question)
        questions += [place.text] if place.kind == "no published process" else []
        notes = _notes(processes, altitude_ft)
    return Before(
        match,
        tuple(processes),
        tuple(dict.fromkeys(questions)),
        tuple(needs_of(match.candidates, jar, jars)),
        tuple(steps_of(processes[0])) if processes else (),
        tuple(notes),
    )


def _notes(processes: list[Process], altitude_ft: Fraction) -> list[str]:
    out = [
        f"For information: at {float(altitude_ft):,.0f} ft water boils at about "
        f"{boiling_point_f(altitude_ft):.0f} degrees F. No process is worked out from it."
    ]
    kinds = dict.fromkeys((p.schedule.method, p.schedule.gauge) for p in processes)
    out += [note for m, g in kinds if (note := border_note(m, g, altitude_ft))]
    out += [p.schedule.note for p in processes if p.schedule.note]
    if any(not p.confirmed for p in processes):
        out.append("Figures marked as not confirmed were recalled, not read: look them up first.")
    return list(dict.fromkeys(out))


def needs_of(fit: tuple[str, ...], jar: str | None, jars: int | None) -> list[Need]:
    """Return fresh produce, jars and lids for a number of jars (default: one canner load)."""
    size = jar_size(jar)
    load = LOADS.get(size or "")
    count = jars or load
    if size is None or count is None:
        return []
    out = [Need(f"{size} jars", str(count), PRACTICE), Need("new lids", str(count), PRACTICE)]
    for product in fit:
        for row in quantities(product):
            pounds = row.lb_per_7_quarts if size == "quart" else row.lb_per_9_pints
            if row.basis == "canner_load" and pounds and load and size in LOADS:
                amount = f"about {number(pounds * count / load)} lb ({number(pounds)} lb for {load} {size}s)"
                out.append(Need(f"fresh: {label(product)}", amount, cite(row.source)))
            elif row.basis == "recipe" and row.note:
                made = f"{number(row.recipe_low or 0)} to {number(row.recipe_high or 0)} {row.jar}s"
                out.append(
                    Need(f"recipe: {label(product)}", f"{row.note}, for {made}", cite(row.source))
                )
    if load:
        loads = math.ceil(count / load)
        out.append(Need("canner loads", f"{loads}, at {load} {size}s", PRACTICE))
    return out


def steps_of(process: Process) -> list[Step]:
    """Return short reminders, in order, for one printed process."""
    line = process.schedule
    here = cite(line.source, line.part)
    out = [
        Step("Read the current bulletin and the maker's manual first.", PRACTICE),
        Step(
            "Look at jars and rims for nicks and cracks; wash the jars and keep them hot.", PRACTICE
        ),
        *_first(process),
        Step(f"Pack {line.pack}, leaving {inches(line.headspace_in)} of room at the top.", here),
    ]
    if process.acid:
        out.append(
            Step(f"Acid into each jar: {process.acid}. Any one of them, the whole amount.", here)
        )
    out.append(Step("Let bubbles out, wipe the rims, set the lids on.", PRACTICE))
    out += _pressure(process, here) if process.psi is not None else _boiling(process, here)
    check = cite(source("AIB410_DAYAFTER"))
    out.append(Step("Leave the jars 12 to 24 hours, out of draughts, then test every seal.", check))
    out.append(
        Step("Label with what it is, the day and the lot; store cool, dark and dry.", _store())
    )
    return out


def _store() -> str:
    return cite(figures("shelf_life", "home_canned_food", "best_quality_period")[0].source)


def _first(process: Process) -> list[Step]:
    out = []
    test = (
        "Have a dial gauge tested every year, before the season."
        if process.schedule.gauge == "dial"
        else ""
    )
    if test:
        out.append(Step(test, PRACTICE))
    limit = figures("safety", "jars", "sterilize_if_process_below")[0]
    if process.psi is None and process.minutes < limit.high:
        boil = figures("safety", "jars", "sterilize_boil_time")[0]
        text = (
            f"A process of under {number(limit.high)} minutes takes sterile jars: boil them "
            f"{number(boil.high)} minutes, and 1 more for each further 1,000 ft."
        )
        out.append(Step(text, cite(limit.source)))
    if (
        products()[process.schedule.product].group in ("pickle", "spread", "tomato")
        and process.acid is None
    ):
        out.append(
            Step(
                "Keep to the recipe's vinegar or lemon juice, of the printed strength.",
                cite(process.source),
            )
        )
    return out


def _boiling(process: Process, here: str) -> list[Step]:
    return [
        Step("Water over the lids by an inch or more; count from the full boil.", PRACTICE),
        Step(
            f"Boil {process.minutes} minutes without a break. If it stops boiling, begin again.",
            here,
        ),
        Step("Heat off; let the jars stand a few minutes, then lift them out upright.", PRACTICE),
    ]


def _pressure(process: Process, here: str) -> list[Step]:
    vent = figures("safety", "pressure_canner", "vent_before_closing")[0]
    cool = cite(source("AIB410_DAYAFTER"))
    return [
        Step(
            f"Let steam flow for {number(vent.high)} minutes before closing the vent.",
            cite(vent.source),
        ),
        Step(
            f"Count {process.minutes} minutes from when the gauge shows {process.psi} psi; if it falls "
            "below, bring it back and count again from the beginning.",
            here,
        ),
        Step("Heat off; let it cool by itself to zero. Never cool it with water.", cool),
        Step("Open the vent, wait, lift the lid away from your face, lift the jars out.", cool),
    ]
