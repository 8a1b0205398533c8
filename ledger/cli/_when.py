"""Days in words: ``today``, ``yesterday``, ``friday``, ``3 days ago``, or ISO 8601."""

from __future__ import annotations

import datetime as dt
import re

from ledger.errors import InputError

__all__ = ["day_of"]

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_NEAR = {"today": 0, "yesterday": -1, "tomorrow": 1}


def day_of(text: str | None, today: dt.date) -> str | None:
    """Return a day as ISO 8601; a weekday is the last one before today.

    Raises
    ------
    InputError
        When the words are no day.

    Examples
    --------
    >>> day_of("friday", dt.date(2026, 9, 2))
    '2026-08-28'
    """
    if text is None:
        return None
    word = text.strip().lower()
    if word in _NEAR:
        return (today + dt.timedelta(days=_NEAR[word])).isoformat()
    match = re.fullmatch(r"(\d{1,4}) days? ago", word)
    if match:
        return (today - dt.timedelta(days=int(match[1]))).isoformat()
    match = re.fullmatch(r"(?:last )?([a-z]{3,9})", word)
    if match:
        days = [i for i, name in enumerate(_WEEKDAYS) if name.startswith(match[1])]
        if len(days) == 1:
            return (today - dt.timedelta(days=(today.weekday() - days[0] - 1) % 7 + 1)).isoformat()
    try:
        return dt.date.fromisoformat(word).isoformat()
    except ValueError:
        raise InputError(
            "on",
            f"{text!r} is not a day",
            "Write it like 2026-09-02, yesterday, friday or 3 days ago",
        ) from None
