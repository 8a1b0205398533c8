"""Before a batch: the printed process, what it takes, and short reminders in order."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from fractions import Fraction

from ledger.messages import Choice, Sentence, Typed, joined, measured, sentence
from ledger.published import cautions
from ledger.published.batch import BatchDone, Finding, JarsDone
from ledger.published.danger import CANNING
from ledger.published.equipment import equipment_finding
from ledger.published.finding import Match, find, lines_of, only_as, recipes_of
from ledger.published.jars import jar_size
from ledger.published.outline import LOADS, altitude_finding, jar_finding
from ledger.published.processes import Process, boiling_point_f, border_note, published_for
from ledger.published.reading import read
from ledger.published.words import (
    cite,
    figure,
    fixed,
    inches,
    label,
    labels,
    listed,
    pack_word,
    sizes_word,
)
from ledger.reference.schedules import products
from ledger.reference.schedules_sources import source
from ledger.reference.storage import figures
from ledger.reference.yields import quantities

__all__ = ["Before", "Need", "Step", "before_batch", "needs_of", "steps_of"]


def practice() -> Sentence:
    """Return what stands in place of a source where there is none."""
    return sentence("published-common-practice")


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
        Empty without a process for the food as named: nobody gets a canner ready for none.
    steps : tuple of Step
        Of the first process's method.
    notes : tuple of str
        For information: boiling point, border of a band, remarks of the tables.
    caution : str
    only_as : str or None
        Said first: that the food as named has no process, where what is printed is made of it
        by a recipe (a pickle, a jam).
    recipes : tuple of str
        Products, beside the food itself, whose figures hold by their recipe alone (chile con carne
        beside peppers); empty where all are.
    """

    match: Match
    processes: tuple[Process, ...]
    questions: tuple[str, ...]
    needs: tuple[Need, ...]
    steps: tuple[Step, ...]
    notes: tuple[str, ...]
    caution: str = field(default_factory=lambda: cautions.SHORT)
    only_as: str | None = None
    recipes: tuple[str, ...] = ()

    def said(self, one: Process) -> str:
        """Return a process in words; what holds by its recipe alone says so before its figures."""
        if self.only_as or one.schedule.product not in self.recipes:
            return one.text
        return sentence("published-by-that-recipe", text=one.text)


def before_batch(  # noqa: PLR0913 -- what a batch may say of itself
    product_words: str,
    *,
    jar: str | None = None,
    pack: str | None = None,
    method: str | None = None,
    gauge: str | None = None,
    altitude_ft: Fraction | None = None,
    jars: int | None = None,
    schedule: str | None = None,
    done_with: str = "",
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
    done_with : str, optional
        Equipment and notes: of an oven and the like is told first, and nothing goes with them.
    """
    tool = _tool(product_words, method, done_with)
    if method not in (None, *CANNING) and tool is not None:
        method = "boiling water"  # a steamer, an oven: looked up as what it stands in for
    match = find(product_words, method, jar, pack, schedule)
    questions = [] if tool is None else [tool.text]
    questions += [] if len(match.candidates) == 1 else [match.text]
    lines = [line for p in match.candidates for line in lines_of(p, method)]
    if match.candidates and not lines:
        methods = dict.fromkeys(s.method for p in match.candidates for s in lines_of(p))
        printed = listed(map(fixed, methods), "or")
        questions.append(
            sentence("finding-not-by-method", method=fixed(method or ""), methods=printed)
        )
    if lines and jar:
        lines, found = jar_finding(lines, JarsDone(jar, 0))
        questions += [found.text] if found.kind != "as published" else []
    if pack and lines:
        kept = [line for line in lines if line.pack == pack]
        questions += [] if kept else [sentence("finding-not-for-pack", pack=pack_word(pack))]
        lines = kept
    lines = [line for line in lines if gauge is None or line.gauge in (None, gauge)]
    processes: list[Process] = []
    notes = []
    if altitude_ft is None:
        questions.append(sentence("finding-at-what-altitude"))
    elif lines:
        processes = published_for(lines, altitude_ft, gauge)
        question = BatchDone(product_words, method or lines[0].method, altitude_ft=altitude_ft)
        place = altitude_finding(lines, question)
        questions += [place.text] if place.kind == "no published process" else []
        notes = _notes(processes, altitude_ft)
    if tool is not None and tool.kind == "no published process":
        lines, processes, notes = [], [], []
    may_be = processes or (lines and altitude_ft is None)
    only = _only_as(match, product_words if match.by == "words" else schedule, method)
    return Before(
        match,
        tuple(processes),
        tuple(dict.fromkeys(questions)),
        tuple(needs_of(match.candidates, jar, jars)) if may_be and not only else (),
        tuple(steps_of(processes[0])) if processes else (),
        tuple(notes),
        only_as=only,
        recipes=_recipes(match, find(product_words, recipe_schedule=schedule)),
    )


def _tool(product: str, method: str | None, done_with: str) -> Finding | None:
    """Return what is published of what it is done with; None where nothing odd is named."""
    if method not in (None, *CANNING):
        done_with, method = f"{done_with} {method}", None
    low = any(one.acidity != "acid" for one in read(product).foods)
    done = BatchDone(product, method or "boiling water", note=done_with)
    return equipment_finding(done, low_acid=low)


def _recipes(match: Match, by_any_method: Match) -> tuple[str, ...]:
    """Return the recipes among what was found, where the words name a food by itself, too."""
    every = by_any_method.candidates
    return () if recipes_of(every) == every else recipes_of(match.candidates)


def _only_as(match: Match, said: str | None, method: str | None) -> str | None:
    if not said or not only_as(said, match.candidates):
        return None
    typed = Typed(said)
    if method is None or only_as(said, find(said).candidates):
        none = sentence("finding-none-for", product=typed)
    else:
        none = sentence("finding-none-with", product=typed, method=fixed(method))
    only = sentence("finding-only-as", food=typed, products=labels(match.candidates))
    return joined(" ", (none, only))


def _notes(processes: list[Process], altitude_ft: Fraction) -> list[str]:
    boils = round(boiling_point_f(altitude_ft))
    out: list[str] = [sentence("published-water-boils", n=round(float(altitude_ft)), n2=boils)]
    kinds = dict.fromkeys((p.schedule.method, p.schedule.gauge) for p in processes)
    out += [note for m, g in kinds if (note := border_note(m, g, altitude_ft))]
    several = len({p.schedule.product for p in processes}) > 1
    for line in (p.schedule for p in processes if p.schedule.note):
        out.append(joined(": ", (label(line.product), line.note)) if several else line.note)
    if any(not p.confirmed for p in processes):
        out.append(sentence("published-figures-recalled"))
    return list(dict.fromkeys(out))


def needs_of(fit: tuple[str, ...], jar: str | None, jars: int | None) -> list[Need]:
    """Return fresh produce, jars and lids for a number of jars (default: one canner load)."""
    size = jar_size(jar)
    load = LOADS.get(size or "")
    count = jars or load
    if size is None or count is None:
        return []
    jars_of = sentence("published-need-jars", jar=fixed(f"{size} jars"))
    out = [
        Need(jars_of, str(count), practice()),
        Need(sentence("published-need-lids"), str(count), practice()),
    ]
    for product in fit:
        for row in quantities(product):
            pounds = row.lb_per_7_quarts if size == "quart" else row.lb_per_9_pints
            if row.basis == "canner_load" and pounds and load and size in LOADS:
                amount = sentence(
                    "published-need-pounds",
                    n=figure(pounds * count / load),
                    n2=figure(pounds),
                    jars=sizes_word(size, load),
                )
                fresh = sentence("published-need-fresh", product=label(product))
                out.append(Need(fresh, amount, cite(row.source)))
            elif row.basis == "recipe" and row.note:
                amount = sentence(
                    "published-need-note",
                    note=measured(row.note),
                    n=figure(row.recipe_low or 0),
                    jars=sizes_word(row.jar, float(row.recipe_high or 0)),
                )
                of = sentence("published-need-recipe", product=label(product))
                out.append(Need(of, amount, cite(row.source)))
    if load:
        loads = math.ceil(count / load)
        amount = sentence("published-need-loads-of", n=loads, jars=sizes_word(size, load))
        out.append(Need(sentence("published-need-loads"), amount, practice()))
    return out


def steps_of(process: Process) -> list[Step]:
    """Return short reminders, in order, for one printed process."""
    line = process.schedule
    here = cite(line.source, line.part)
    out = [
        Step(sentence("published-step-bulletin"), practice()),
        Step(sentence("published-step-jars"), practice()),
        *_first(process),
        Step(
            sentence("published-step-pack", pack=Choice(line.pack), x=inches(line.headspace_in)),
            here,
        ),
    ]
    if process.acid:
        out.append(Step(sentence("published-step-acid", acids=process.acid), here))
    out.append(Step(sentence("published-step-lids"), practice()))
    out += _pressure(process, here) if process.psi is not None else _boiling(process, here)
    check = cite(source("AIB410_DAYAFTER"))
    out.append(Step(sentence("published-step-seals"), check))
    out.append(Step(sentence("published-step-label"), _store()))
    return out


def _store() -> str:
    return cite(figures("shelf_life", "home_canned_food", "best_quality_period")[0].source)


def _first(process: Process) -> list[Step]:
    out = []
    if process.schedule.gauge == "dial":
        out.append(Step(sentence("published-step-gauge"), practice()))
    limit = figures("safety", "jars", "sterilize_if_process_below")[0]
    if process.psi is None and process.minutes < limit.high:
        boil = figures("safety", "jars", "sterilize_boil_time")[0]
        text = sentence("published-step-sterile", n=figure(limit.high), n2=figure(boil.high))
        out.append(Step(text, cite(limit.source)))
    if (
        products()[process.schedule.product].group in ("pickle", "spread", "tomato")
        and process.acid is None
    ):
        out.append(Step(sentence("published-step-recipe-acid"), cite(process.source)))
    return out


def _boiling(process: Process, here: str) -> list[Step]:
    return [
        Step(sentence("published-step-water"), practice()),
        Step(sentence("published-step-boil", n=process.minutes), here),
        Step(sentence("published-step-stand"), practice()),
    ]


def _pressure(process: Process, here: str) -> list[Step]:
    vent = figures("safety", "pressure_canner", "vent_before_closing")[0]
    cool = cite(source("AIB410_DAYAFTER"))
    return [
        Step(
            sentence("published-step-vent", n=figure(vent.high)),
            cite(vent.source),
        ),
        Step(
            sentence("published-step-count", n=process.minutes, n2=process.psi),
            here,
        ),
        Step(sentence("published-step-cool"), cool),
        Step(sentence("published-step-open"), cool),
    ]
