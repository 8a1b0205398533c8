"""Two other shapes of the answer: the year sheet, and the learning curve of one skill."""

from __future__ import annotations

import re
from typing import Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed, fixed, measured, sentence
from ledger.methods.learning import LEAST_REPETITIONS, fit_curve
from ledger.projections.base import Answer, Assumption, Column
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.know_how.units import Units, units_of
from ledger.questions.know_how.words import address
from ledger.questions.shared.common import answer
from ledger.replay.state import day_text

__all__ = ["CURVE_COLUMNS", "MONTHS", "YEAR_COLUMNS", "curve", "lacking", "months_of", "year_sheet"]

MONTHS = tuple(f"m{n:02d}" for n in range(1, 13))
_NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

YEAR_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("skill", "Skill", "", "What was practised.", main=True),
    *(
        Column(month, name, "times", f"Times in {name}; null for a month still to come.", main=True)
        for month, name in zip(MONTHS, _NAMES, strict=True)
    ),
    Column("times", "Year", "times", "Times in the year.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on: nothing."),
)  # fmt: skip

CURVE_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("repetition", "Time", "times", "Which repetition it was, from 1.", main=True),
    Column("on", "Day", "day", "When.", main=True),
    Column("item", "What", "", "What the entry made; null for a note.", main=True),
    Column("minutes", "Work", "minutes", "All work of the entry; null where nobody wrote it down."),
    Column("made", "Made", "units", "How many of the unit it made; null where that is not known."),
    Column("unit", "Unit", "", "jar, lb (kg), quart (litre) or piece."),
    Column("minutes_per_unit", "For one", "minutes per unit", "Work by what it made.", main=True),
    Column("fitted_low", "Low", "minutes per unit", "Lower end of the curve's 95 per cent range; null from fewer than five batches.", main=True),
    Column("fitted_likely", "Fitted", "minutes per unit", "The fitted curve.", main=True),
    Column("fitted_high", "High", "minutes per unit", "Upper end of its range.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip


def year_of(text: str | int) -> int:
    """Return a year.

    Raises
    ------
    InputError
        When it is not written in four digits.
    """
    if not re.fullmatch(r"[12]\d{3}", str(text).strip()):
        raise InputError(
            "year sheet",
            Message.of("refusal-not-a-year", text=Code(repr(text))),
            Message.of("refusal-year-in-full"),
        )
    return int(text)


def months_of(skills: Skills, year: int) -> np.ndarray:
    """Return the month (0 to 11) of each practice in a year; -1 for one in another year."""
    month = skills.day.astype("datetime64[D]").astype("datetime64[M]").astype(int)
    of_year: np.ndarray = month - (year - 1970) * 12
    return np.where((of_year >= 0) & (of_year < len(MONTHS)), of_year, -1)


def year_sheet(skills: Skills, text: str | int, who: int | None, only: int | None) -> Answer:
    """Return one record a skill practised in a year, with how often in each month."""
    year = year_of(text)
    person = HOUSEHOLD if who is None else who
    month = months_of(skills, year)
    rows = np.flatnonzero((month >= 0) & (skills.person == person))
    counts = np.zeros((len(skills.names), len(MONTHS)), np.int64)
    np.add.at(counts, (skills.skill[rows], month[rows]), 1)
    now = np.datetime64(skills.state.as_of_day, "D").astype("datetime64[M]").astype(int)
    there = now - (year - 1970) * 12 + 1
    shown = [i for i in range(len(skills.names)) if counts[i].any() and only in (None, i)]
    records = []
    for skill in sorted(shown, key=lambda i: skills.names[i].casefold()):
        by_month = counts[skill].tolist()
        record: dict[str, Any] = {
            "why": address(skills, skill, person, f"@{year}"),
            "skill": skills.names[skill],
            "times": sum(by_month),
            "assumptions": [],
        }
        record |= {
            m: n if i < there else None
            for i, (m, n) in enumerate(zip(MONTHS, by_month, strict=True))
        }
        records.append(record)
    idle = [skills.names[i] for i in range(len(skills.names)) if not counts[i].any()]
    names = sorted(idle, key=str.casefold)
    named = Names(tuple(names))
    words = sentence("skills-not-practised", n=year, list=named)
    totals = {
        "year": year,
        "times": int(counts.sum()) if only is None else int(counts[only].sum()),
        "in_words": [words] if idle and only is None else [],
    }
    return answer(skills.state, "know-how", YEAR_COLUMNS, records, totals=totals)


def lacking(skills: Skills, units: Units, skill: int) -> str:
    """Say why there is no learning curve of a skill, and what would give one."""
    name = skills.names[skill]
    span = skills.groups.get((skill, HOUSEHOLD), (0, 0))
    each = units.minutes(skill, span)
    things = {units.makes[ev] for ev in skills.ev[slice(*span)].tolist() if ev in units.makes}
    if len(things) > 1:
        return sentence("skills-several", name=name, item=Typed(min(things)))
    if skills.sorts[skill] not in ("method", "making"):
        return sentence("skills-no-curve", name=name)
    have = int(np.count_nonzero(np.isfinite(each)))
    return sentence("skills-too-few-batches", n=have, n2=LEAST_REPETITIONS, name=name)


def curve(skills: Skills, skill: int, who: int | None) -> Answer:
    """Return one record a repetition of a skill, with the curve fitted to all of them."""
    person = HOUSEHOLD if who is None else who
    units = skills.state.once(units_of)
    span = skills.groups.get((skill, person), (0, 0))
    each, unit = units.minutes(skill, span), units.of(skill)
    fitted = fit_curve(each)
    makes = units.makes
    records = []
    for n, (row, one) in enumerate(zip(range(*span), each, strict=True), start=1):
        ev = int(skills.ev[row])
        likely = fitted.minutes(n) if fitted else None
        factor = fitted.range_factor(n) if fitted else 1.0
        records.append(
            {
                "why": address(skills, skill, person, "@curve", str(n)),
                "repetition": n,
                "on": day_text(int(skills.day[row])),
                "item": makes.get(ev),
                "minutes": float(skills.minutes_of[ev]),
                "made": float(unit[1][ev]) if unit else None,
                "unit": unit[0] if unit else None,
                "minutes_per_unit": one,
                "fitted_low": likely / factor if likely is not None else None,
                "fitted_likely": likely,
                "fitted_high": likely * factor if likely is not None else None,
                "assumptions": ["curve"] if fitted else [],
            }
        )
    totals: dict[str, Any] = {"skill": skills.names[skill], "unit": unit[0] if unit else None}
    if fitted is None or unit is None:
        totals |= {"in_words": [], "missing": [lacking(skills, units, skill)]}
        return answer(skills.state, "know-how", CURVE_COLUMNS, records, totals=totals)
    later = len(records) + 1
    likely, factor = fitted.minutes(later), fitted.range_factor(later, one_batch=True)
    totals |= {
        "learning_rate": fitted.rate,
        "learning_rate_low": fitted.rate_low,
        "learning_rate_high": fitted.rate_high,
        "next_low": likely / factor,
        "next_likely": likely,
        "next_high": likely * factor,
    }
    totals["in_words"] = [
        sentence(
            "skills-twice-the-batches",
            n=round(fitted.rate * 100),
            unit=fixed(unit[0]),
            n2=round(fitted.rate_low * 100),
            n3=round(fitted.rate_high * 100),
            n4=fitted.repetitions,
        ),
        sentence(
            "skills-next-one",
            n=measured(f"{likely:.1f}"),
            unit=fixed(unit[0]),
            n2=measured(f"{likely / factor:.1f}"),
            n3=measured(f"{likely * factor:.1f}"),
        ),
    ]
    rests = [Assumption("curve", sentence("skills-curve"))]
    return answer(
        skills.state, "know-how", CURVE_COLUMNS, records, totals=totals, assumptions=rests
    )
