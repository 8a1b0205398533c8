"""Two other shapes of the answer: the year sheet, and the learning curve of one skill."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.errors import InputError
from ledger.messages import Code, Message, Names, Typed, fixed, measured, sentence
from ledger.methods.learning import LEAST_REPETITIONS
from ledger.projections.base import Answer, Assumption, Column
from ledger.questions.answering import answer, answer_of_cells
from ledger.questions.know_how.curves import Curve
from ledger.questions.know_how.figures import MONTHS, curve_figures, month_figures
from ledger.questions.know_how.gather import Records
from ledger.questions.know_how.skills import HOUSEHOLD, Skills
from ledger.questions.know_how.units import Units
from ledger.questions.know_how.words import address, year_in

if TYPE_CHECKING:
    from ledger.figures import Figure
    from ledger.replay import State

__all__ = ["CURVE_COLUMNS", "YEAR_COLUMNS", "curve", "lacking", "plain", "year_sheet"]

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


def plain(figure: Figure, *, whole: bool = False) -> list[Any]:
    """Return a figure's column as an answer has it: what cannot be said is None."""
    values = figure.values
    unknown = np.flatnonzero(np.isnan(values)).tolist()
    cells: list[Any] = (np.nan_to_num(values).astype(np.int64) if whole else values).tolist()
    for row in unknown:
        cells[row] = None
    return cells


def year_sheet(state: State, text: str | int, who: int | None, only: int | None) -> Answer:
    """Return one record a skill practised in a year, with how often in each month.

    Raises
    ------
    InputError
        When the year is not written in four digits.
    """
    year = year_in(str(text).strip())
    if year is None:
        raise InputError(
            "year sheet",
            Message.of("refusal-not-a-year", text=Code(repr(text))),
            Message.of("refusal-year-in-full"),
        )
    records, skills = state.once(Records), state.once(Skills)
    person = HOUSEHOLD if who is None else who
    figures = month_figures(records, year)
    cells = {name: plain(figure, whole=True) for name, figure in figures.items()}
    rows = {
        name: row
        for skill, name in enumerate(skills.names)
        if (row := records.place.get((skill, person))) is not None and cells["times"][row]
    }
    shown = [name for name in rows if only is None or skills.names[only] == name]
    records_of = [
        {
            "why": address(skills, records.keys[rows[name]][0], person, f"@{year}"),
            "skill": name,
            "assumptions": [],
            **{figure: several[rows[name]] for figure, several in cells.items()},
        }
        for name in sorted(shown, key=str.casefold)
    ]
    idle = sorted((name for name in skills.names if name not in rows), key=str.casefold)
    words = sentence("skills-not-practised", n=year, list=Names(tuple(idle)))
    totals = {
        "year": year,
        "times": sum(record["times"] for record in records_of),
        "in_words": [words] if idle and only is None else [],
    }
    return answer(state, "know-how", YEAR_COLUMNS, records_of, totals=totals)


def lacking(state: State, skill: int) -> str:
    """Say why there is no learning curve of a skill, and what would give one."""
    skills, units, records = state.once(Skills), state.once(Units), state.once(Records)
    name, record = skills.names[skill], records.place[skill, HOUSEHOLD]
    span = records.spans[record]
    things = {units.makes[ev] for ev in skills.ev[slice(*span)].tolist() if ev in units.makes}
    if len(things) > 1:
        return sentence("skills-several", name=name, item=Typed(min(things)))
    if skills.sorts[skill] not in ("method", "making"):
        return sentence("skills-no-curve", name=name)
    each = Curve(state, record).each.values
    have = int(np.count_nonzero(np.isfinite(each)))
    return sentence("skills-too-few-batches", n=have, n2=LEAST_REPETITIONS, name=name)


def curve(state: State, skill: int, who: int | None) -> Answer:
    """Return one record a repetition of a skill, with the curve fitted to all of them."""
    skills, records, units = state.once(Skills), state.once(Records), state.once(Units)
    record = records.place.get((skill, HOUSEHOLD if who is None else who))
    line = None if record is None else Curve(state, record)
    cells, fit = _repetitions(line), None if line is None else line.fit_of
    unit = units.name(skill)
    totals: dict[str, Any] = {"skill": skills.names[skill], "unit": unit}
    if fit is None or unit is None:
        totals |= {"in_words": [], "missing": [lacking(state, skill)]}
        return answer_of_cells(state, "know-how", CURVE_COLUMNS, cells, totals=totals)
    later = len(cells["why"]) + 1
    likely, factor = fit.minutes(later), fit.range_factor(later, one_batch=True)
    totals |= {
        "learning_rate": fit.rate,
        "learning_rate_low": fit.rate_low,
        "learning_rate_high": fit.rate_high,
        "next_low": likely / factor,
        "next_likely": likely,
        "next_high": likely * factor,
        "in_words": [
            sentence(
                "skills-twice-the-batches",
                n=round(fit.rate * 100),
                unit=fixed(unit),
                n2=round(fit.rate_low * 100),
                n3=round(fit.rate_high * 100),
                n4=fit.repetitions,
            ),
            sentence(
                "skills-next-one",
                n=measured(f"{likely:.1f}"),
                unit=fixed(unit),
                n2=measured(f"{likely / factor:.1f}"),
                n3=measured(f"{likely * factor:.1f}"),
            ),
        ],
    }
    rests = [Assumption("curve", sentence("skills-curve"))]
    return answer_of_cells(
        state, "know-how", CURVE_COLUMNS, cells, totals=totals, assumptions=rests
    )


def _repetitions(curve: Curve | None) -> dict[str, Sequence[Any]]:
    """Return the columns of a record's practices, a row each."""
    if curve is None:
        return {column.name: [] for column in CURVE_COLUMNS}
    records, rows = curve.records, curve.rows.tolist()
    skills, key = records.skills, records.keys[curve.record]
    cells: dict[str, list[Any]] = {
        "why": [address(skills, *key, "@curve", str(at)) for at in range(1, len(rows) + 1)],
        "on": [records.on(row) for row in rows],
        "item": [curve.units.makes.get(ev) for ev in skills.ev[curve.rows].tolist()],
        "unit": [curve.units.name(key[0])] * len(rows),
        "assumptions": [[] if curve.fit_of is None else ["curve"] for _ in rows],
        **{
            name: plain(figure, whole=name == "repetition")
            for name, figure in curve_figures(curve).items()
        },
    }
    return {column.name: cells[column.name] for column in CURVE_COLUMNS}
