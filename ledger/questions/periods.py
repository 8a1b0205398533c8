"""Periods that are asked for: from when to when, whole or by month or year."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ledger.errors import InputError
from ledger.figures import Array
from ledger.messages import Message, Typed
from ledger.replay import day_number, day_text

__all__ = ["Period", "day_of", "periods_of", "places_of"]

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
        raise InputError(
            field,
            Message.of("refusal-not-a-day", text=Typed(str(text))),
            Message.of("refusal-like-day"),
        ) from None


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
        raise InputError("by", Message.of("refusal-no-kind-of-period", text=Typed(by)))
    unit = by[0].upper()
    first, last = (np.datetime64(day, "D").astype(f"datetime64[{unit}]") for day in (start, end))
    marks = np.arange(first, last + 2)
    days = marks.astype("datetime64[D]").astype(np.int64)
    return [
        Period(str(mark), max(int(a), start), min(int(b) - 1, end))
        for mark, a, b in zip(marks[:-1], days[:-1], days[1:], strict=True)
    ]


def places_of(periods: Sequence[Period], day: Array) -> Array:
    """Return the number of the period that each day falls into; -1: none.

    Parameters
    ----------
    periods : sequence of Period
        In order, none of them overlapping.
    day : ndarray of int, shape (days,)
    """
    if not periods:
        return np.full(day.size, -1, np.int64)
    first, days = periods[0].start, periods[-1].end - periods[0].start + 1
    of_day = np.full(days + 2, -1, np.int64)  # with a day before the first and one after the last
    for number, one in enumerate(periods):
        of_day[one.start - first + 1 : one.end - first + 2] = number
    return np.asarray(of_day[np.clip(day - first + 1, 0, days + 1)])
