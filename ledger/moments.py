"""Days and moments that a question names, as replay takes them."""

from __future__ import annotations

import datetime as dt

from ledger import clock
from ledger.days import iso_day
from ledger.errors import InputError

__all__ = ["day_text", "moment_text"]


def day_text(day: str | dt.date) -> str:
    """Return a day as ISO 8601.

    Raises
    ------
    InputError
    """
    try:
        return (iso_day(day) if isinstance(day, str) else day).isoformat()[:10]
    except ValueError:
        raise InputError("as_of", f"{day!r} is not a day", "Write it like 2026-09-02") from None


def moment_text(text: str | None) -> str | None:
    """Return a moment as the log writes it; a day alone means its end, in UTC.

    Raises
    ------
    InputError
    """
    if text is None:
        return None
    try:
        moment = dt.datetime.fromisoformat(text)
    except ValueError:
        raise InputError(
            "known_at",
            f"{text!r} is not a moment",
            "Write it like 2026-09-02 or 2026-09-02T18:00:00Z",
        ) from None
    if len(text) == 10:
        moment = moment.replace(hour=23, minute=59, second=59, microsecond=999_999)
    return clock.stamp(moment if moment.tzinfo else moment.replace(tzinfo=dt.UTC))
