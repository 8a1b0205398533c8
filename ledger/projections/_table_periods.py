"""Periods of our-table: from when to when, whole or month by month, and what the household needs."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from ledger.errors import InputError
from ledger.replay.state import day_number, day_text

if TYPE_CHECKING:
    from ledger.replay import State

__all__ = ["Period", "Segment", "day_of", "need_of", "periods_of", "segments_of"]

BY = ("month", "year")


@dataclass(frozen=True)
class Period:
    """Days from `start` to `end`, both included (days since 1970)."""

    label: str
    start: int
    end: int

    @property
    def days(self) -> int:
        """How many days it has."""
        return self.end - self.start + 1

    @cached_property
    def address(self) -> str:
        """Its days as they stand in an address."""
        return f"{day_text(self.start)}/{day_text(self.end)}"


@dataclass(frozen=True)
class Segment:
    """Days through which one number of people and one need hold."""

    start: int
    end: int
    people: float
    kcal: float

    @property
    def need(self) -> float:
        """What the people at the table need in those days, in kcal."""
        return self.people * self.kcal * (self.end - self.start + 1)


def day_of(text: str | dt.date | None, field: str) -> int | None:
    """Return a day as days since 1970.

    Raises
    ------
    InputError
        When it is no day, or one that no calendar of this program reaches.
    """
    if text is None:
        return None
    try:
        return day_number(dt.date.fromisoformat(text) if isinstance(text, str) else text)
    except (ValueError, TypeError):
        raise InputError(field, f"{text!r} is not a day", "Write it like 2026-09-02") from None


def periods_of(start: int, end: int, by: str | None) -> list[Period]:
    """Return the periods that the days from `start` to `end` fall into.

    Raises
    ------
    InputError
        When `by` is neither month nor year.
    """
    if by is None:
        return [Period(f"{day_text(start)}/{day_text(end)}", start, end)]
    if by not in BY:
        raise InputError("by", f"{by!r} is no kind of period", "Write month or year")
    unit = by[0].upper()
    first, last = (np.datetime64(day, "D").astype(f"datetime64[{unit}]") for day in (start, end))
    marks = np.arange(first, last + 2)
    days = marks.astype("datetime64[D]").astype(np.int64)
    return [
        Period(str(mark), max(int(a), start), min(int(b) - 1, end))
        for mark, a, b in zip(marks[:-1], days[:-1], days[1:], strict=True)
    ]


def segments_of(state: State, start: int, end: int) -> list[Segment] | None:
    """Return who was at the table and what each needs, day by day put together.

    Returns
    -------
    list of Segment, or None
        None where `people` or `kcal_per_person_day` is not set, or is no number.
    """
    settings = state.settings
    names = ("people", "kcal_per_person_day")
    days = {start}
    for name in names:
        days.update(day for day in settings.days(name) if start < day <= end)
    marks = [*sorted(days), end + 1]
    out = []
    for first, after in pairwise(marks):
        people, kcal = (_number(settings.on(name, first)) for name in names)
        if people is None or kcal is None:
            return None
        out.append(Segment(first, after - 1, people, kcal))
    return out


def need_of(state: State, period: Period) -> float | None:
    """Return what the household needs in a period, in kcal; None where that is not known."""
    segments = segments_of(state, period.start, period.end)
    return None if segments is None else sum(one.need for one in segments)


def _number(text: str | None) -> float | None:
    try:
        value = float(text or "")
    except ValueError:
        return None
    return value if np.isfinite(value) else None
