"""Days: the one reader of ISO 8601, and days as numbers."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache

__all__ = ["day_number", "day_text", "iso_day", "minute_of"]

_EPOCH = dt.date(1970, 1, 1)
_NOON = 720
"""The minute at which an entry without a time of day is taken to have happened."""


def iso_day(text: object) -> dt.date:
    """Return the day that a text says by ISO 8601: ``2026-09-02``, ``20260902`` or ``2026-W36-3``.

    Raises
    ------
    ValueError
        When it says none; who asks knows the field, and what would be right there.
    """
    if not isinstance(text, str):
        raise ValueError(f"{text!r} is not a day")
    return dt.date.fromisoformat(text)


def day_number(day: dt.date | str) -> int:
    """Return days since 1970."""
    return ((iso_day(day) if isinstance(day, str) else day) - _EPOCH).days


@lru_cache(20_000)
def day_text(day: int) -> str:
    """Return the ISO date of a day (days since 1970)."""
    return (_EPOCH + dt.timedelta(days=int(day))).isoformat()


def minute_of(at: str | None) -> int:
    """Return the minute of the day that ``HH:MM`` is; noon where nothing is said."""
    return _NOON if at is None else int(at[:2]) * 60 + int(at[3:5])
