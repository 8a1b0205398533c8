"""`show shelf --over-time ITEM`: what was there after each day of change, and a range ahead."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.errors import NotFound
from ledger.figures import Figure
from ledger.items import near_misses
from ledger.messages import Message, Typed, sentence
from ledger.projections.base import Answer, Assumption, Column
from ledger.questions.shared.common import UNITS, answer
from ledger.questions.shelf.days import Days, Weeks
from ledger.questions.shelf.figures import day_figures, week_figures
from ledger.replay.facts import MATCHED
from ledger.replay.state import day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["TIME_COLUMNS", "build_over_time", "item_number"]

_AMOUNT = "g, ml, pieces or kJ"

TIME_COLUMNS = (
    Column("why", "Why", "", "Address to give to `croftbook why`."),
    Column("day", "Day", "day", "Past: a day on which something came or went. Ahead: a week from the one before.", main=True),
    Column("when", "", "", "past or ahead.", main=True),
    Column("item", "Item", "", "What it is."),
    Column("unit", "Unit", "", "The unit of the amounts: g, ml, pieces or kJ.", main=True),
    Column("came", "Came", _AMOUNT, "What came in that day, in the unit of `unit`; null ahead."),
    Column("went", "Went", _AMOUNT, "What went out that day; null ahead."),
    Column("left", "Left", _AMOUNT, "What was there at the end of the day, and until the next record; null ahead.", main=True),
    Column("low", "Low", _AMOUNT, "What is left that day when nothing more comes: less only one time in ten; null in the past.", main=True),
    Column("likely", "Likely", _AMOUNT, "The same, as often less as more.", main=True),
    Column("high", "High", _AMOUNT, "The same, more only one time in ten.", main=True),
    Column("assumptions", "Assumptions", "", "Ids of what the figures rest on."),
)  # fmt: skip

_OWN_WEEKS = "own-weeks"


def item_number(state: State, name: str, field: str) -> int:
    """Return the number of an item by its name, or of one of its strands (``plum@bucket``).

    Raises
    ------
    NotFound
        When the book has no such item, or it is not kept on the shelf.
    """
    found = state.facts.find_strand(name)
    if found is None:
        near = near_misses(name, state.facts.names)
        wanted = (
            Message.of("refusal-did-you-mean", name=Typed(near[0]))
            if near
            else Message.of("refusal-name-from-shelf")
        )
        raise NotFound(field, Message.of("refusal-no-item-here", text=Typed(name)), wanted)
    if not MATCHED[state.facts.sort[found]]:
        raise NotFound(
            field,
            Message.of("refusal-not-by-lot", text=Typed(state.facts.names[found])),
        )
    return found


def build_over_time(state: State, item: int) -> Answer:
    """Return the stock of an item after each day of change, and each week ahead as a range.

    The weeks ahead go on until nine times in ten nothing is left, at most for a year; the
    first of them is the answer's day. Nothing is looked ahead of where less than four weeks
    of use are known, or nothing is left.
    """
    name, unit = state.facts.names[item], UNITS[state.facts.measure[item]]
    days, weeks = Days(state, item), Weeks(state, item)
    past = {"when": "past", "assumptions": []}
    ahead = {"when": "ahead", "assumptions": [_OWN_WEEKS]}
    on = [state.as_of_day + 7 * week for week in range(weeks.count)]
    rows = [
        *_rows(day_figures(days), days.day.tolist(), past),
        *(_rows(week_figures(weeks), on, ahead) if on else ()),
    ]
    address = f"shelf/over-time/{name.replace(' ', '-')}"
    records = [
        {**row, "item": name, "unit": unit, "why": f"{address}/{row['day']}"} for row in rows
    ]
    return answer(
        state,
        "shelf",
        TIME_COLUMNS,
        records,
        totals={"item": name, "unit": unit, "in_words": [], "missing": weeks.missing},
        assumptions=[_own_weeks()] if on else [],
    )


def _rows(
    figures: dict[str, Figure], days: list[int], shared: dict[str, Any]
) -> list[dict[str, Any]]:
    columns = {name: one.values.tolist() for name, one in figures.items()}
    return [
        {**shared, "day": day_text(day), **{name: one[row] for name, one in columns.items()}}
        for row, day in enumerate(days)
    ]


def _own_weeks() -> Assumption:
    return Assumption(_OWN_WEEKS, sentence("shelf-ahead-own-weeks"))
