"""Days in words: ``today``, ``yesterday``, ``friday``, ``3 days ago``, or ISO 8601."""

from __future__ import annotations

import datetime as dt
import re

from ledger.days import iso_day
from ledger.errors import InputError
from ledger.messages import Message, Typed

__all__ = ["day_of", "moment_of"]

_WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september",
    "october", "november", "december",
)  # fmt: skip
_NEAR = {"today": 0, "yesterday": -1, "tomorrow": 1}


def day_of(
    text: str | None, today: dt.date, field: str = "on", *, ahead: bool = False
) -> str | None:
    """Return a day as ISO 8601; a weekday, or a day without its year, is the last one before today.

    Parameters
    ----------
    text : str or None
        ``2026-09-02``, ``yesterday``, ``friday``, ``3 days ago``, ``2 Sep`` or ``2 Sep 2026``.
    today : date
    field : str
        What a refusal calls it.
    ahead : bool
        A weekday, or a day without its year, is the next one; ``in 3 weeks`` is a day too.

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
    match = re.fullmatch(
        r"in (\d{1,4}|an?) (day|week)s?" if ahead else r"(\d{1,4}|an?) (day|week)s? ago", word
    )
    if match:
        many = 1 if match[1].startswith("a") else int(match[1])
        days = many * (7 if match[2] == "week" else 1)
        return (today + dt.timedelta(days=days if ahead else -days)).isoformat()
    match = re.fullmatch(r"(?:next )?([a-z]{3,9})" if ahead else r"(?:last )?([a-z]{3,9})", word)
    named = [i for i, name in enumerate(_WEEKDAYS) if match and name.startswith(match[1])]
    if len(named) == 1:
        on = (named[0] - today.weekday() - 1) % 7 + 1  # one to seven days from now
        back = (today.weekday() - named[0] - 1) % 7 + 1
        return (today + dt.timedelta(days=on if ahead else -back)).isoformat()
    try:
        return (_named(word, today, ahead=ahead) or iso_day(word)).isoformat()
    except ValueError:
        raise InputError(
            field,
            Message.of("refusal-not-a-day", text=Typed(text)),
            Message.of("refusal-like-day-ahead") if ahead else Message.of("refusal-like-day-back"),
        ) from None


def moment_of(text: str | None, today: dt.date) -> str | None:
    """Return a moment as typed, where it is a day in words as that day.

    Raises
    ------
    InputError
        When the words are neither.
    """
    if text is None or re.match(r"\d{4}-\d\d-\d\dT", text.strip(), re.IGNORECASE):
        return text
    return day_of(text, today, "known_at")


def _named(word: str, today: dt.date, *, ahead: bool) -> dt.date | None:
    """Return the day that ``2 Sep 2026``, ``Sep 2`` or ``2 September`` names, or None."""
    match = re.fullmatch(
        r"(?:(?P<d>\d{1,2}) )?(?P<m>[a-z]{3,9})\.?(?: (?P<d2>\d{1,2}))?,?(?: (?P<y>\d{4}))?", word
    )
    months = [i for i, name in enumerate(_MONTHS, 1) if match and name.startswith(match["m"])]
    if not match or not months or (match["d"] is None) == (match["d2"] is None):
        return None
    month, day = months[0], int(match["d"] or match["d2"])
    if match["y"]:
        return dt.date(int(match["y"]), month, day)
    step = 1 if ahead else -1
    for year in range(today.year, today.year + 8 * step, step):  # eight years hold a 29 February
        try:
            found = dt.date(year, month, day)
        except ValueError:
            continue
        if found >= today if ahead else found <= today:
            return found
    return None
