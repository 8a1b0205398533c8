"""The lines of a year's plan: what to plant, eat, put up, give and buy, each with its weeks."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from ledger.messages import sentence
from ledger.projections.base import Column
from ledger.questions.shared.common import number
from ledger.questions.whole_year.acts import PUT_UP, SPREAD
from ledger.questions.whole_year.figures import of_lines
from ledger.questions.whole_year.garden import sown_by_name
from ledger.questions.whole_year.tables import Line, Lines

if TYPE_CHECKING:
    from ledger.questions.shared.sown import Sown
    from ledger.questions.whole_year.gather import Year
    from ledger.replay import State

__all__ = ["COLUMNS", "key_of", "lines_of", "records_of"]

COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("week", "Week of", "day", "Its Monday, the first where there are several; of a crop the week to sow or set it out, null where no frosts are known.", main=True),
    Column("until", "Until", "day", "Monday of the last week of it; null for one week.", main=True),
    Column("do", "Do", "", "plant, eat fresh, can, freeze, dry, ferment, put up, eat put up, give away, from the pantry, buy.", main=True),
    Column("what", "What", "", "The crop or food, or what is made.", main=True),
    Column("bed", "Bed", "", "The bed; null elsewhere.", main=True, rare=True),
    Column("amount", "Amount", "m2, kg or jars", "Square metres planted, kilograms, or jars, of all its weeks.", main=True),
    Column("unit", "Unit", "", "m2, kg or jars.", main=True),
    Column("weeks", "Weeks", "weeks", "In how many weeks; null of planting."),
    Column("a_week", "A week", "m2, kg or jars", "Amount / weeks.", main=True),
    Column("kg", "Weight", "kg", "What the ground likely brings at the chance chosen, or the weight of what is eaten fresh, put up or bought; null of what is eaten put up."),
    Column("loads", "Loads", "loads", "Canner loads; null without a canner."),
    Column("hours", "Hours", "hours", "Hands' hours of putting up; null elsewhere.", main=True),
    Column("money", "Money", "money", "What it costs; null where nothing is paid.", main=True),
    Column("process", "Published", "", "The printed process with its source, looked up for this jar, gauge and altitude; null without a canner."),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_GAP = 3
_LEAST = 0.05
"""Weeks left out that begin another line; kilograms or jars under which a line is not told."""
_ACTIONS = {"freeze": "freeze", "dry": "dry", "ferment": "ferment"}


def lines_of(year: Year) -> Lines:
    """Return the lines of a plan, a row each."""
    at = {(one.do, one.name, one.week): act for act, one in enumerate(year.acts)}
    out = [Line("plant", name, planting=row) for row, (name, _) in enumerate(year.planted)]
    for act, one in enumerate(year.acts):
        if one.do == PUT_UP:
            out.append(Line(_said(year, one.name), one.name, (act,)))
    for do in SPREAD:
        mine = {(one.name, one.week): one.amount for one in year.acts if one.do == do}
        for name, weeks in runs_of(mine):
            if sum(weeks.values()) >= _LEAST:
                out.append(Line(do, name, tuple(at[do, name, week] for week in weeks)))
    return Lines(year, out)


def _said(year: Year, recipe: str) -> str:
    if recipe in year.jarred:
        return "can"
    return _ACTIONS.get(year.house.ways[recipe].method, sentence("year-put-up"))


def key_of(year: Year, line: Line) -> str:
    """Return a line as its address has it."""
    rest = year.planted[line.planting][1] if line.planting >= 0 else _monday(year, line, 0)
    return f"{line.do}/{line.what}/{rest}"


def _monday(year: Year, line: Line, at: int) -> str:
    return year.house.week_on(year.acts[line.acts[at]].week)


def records_of(state: State, year: Year) -> list[dict[str, Any]]:
    """Return one record a line, by week."""
    lines = lines_of(year)
    figures, sown = of_lines(lines), sown_by_name(state, int(year.house.week_on(0)[:4]))
    out = []
    for row, line in enumerate(lines.lines):
        value = {name: number(figure.value(row)) for name, figure in figures.items()}
        is_put_up = bool(lines.is_put_up[row])
        notes = ["year", "most", *(["process"] if is_put_up or line.do == "eat put up" else [])]
        week = _monday(year, line, 0) if line.acts else _sowing(sown.get(line.what))
        process = is_put_up and line.what in year.jarred
        out.append(
            {
                "why": f"whole-year/{year.asked.text}/{key_of(year, line)}",
                "week": week,
                "until": _monday(year, line, -1) if len(line.acts) > 1 else None,
                "do": line.do,
                "what": line.what,
                "bed": year.planted[line.planting][1] if line.planting >= 0 else None,
                **value,
                **{n: int(many) for n in ("weeks", "loads") if (many := value[n]) is not None},
                "unit": lines.unit(row),
                "process": year.house.ways[line.what].process if process else None,
                "assumptions": notes,
            }
        )
    out.sort(key=lambda r: (r["week"] is None, r["week"] or "", r["do"], r["what"]))
    return out


def _sowing(sown: Sown | None) -> str | None:
    """Return the Monday of the week to sow or set out; None where no frosts are known."""
    day = None if sown is None else sown.dates.iso(sown.dates.out_from)
    if day is None:
        return None
    on = dt.date.fromisoformat(day)
    return (on - dt.timedelta(days=on.weekday())).isoformat()


def runs_of(by_week: Mapping[tuple[str, int], float]) -> Iterator[tuple[str, dict[int, float]]]:
    """Return each name with the amounts of weeks that follow each other."""
    names: dict[str, dict[int, float]] = {}
    for (name, week), amount in by_week.items():
        names.setdefault(name, {})[week] = amount
    for name, weeks in names.items():
        run: dict[int, float] = {}
        for week in sorted(weeks):
            if run and week - max(run) > _GAP:
                yield name, run
                run = {}
            run[week] = weeks[week]
        yield name, run
