"""Days in words: ``today``, ``yesterday``, ``friday``, ``3 days ago``, or ISO 8601; in German, too."""

from __future__ import annotations

import datetime as dt
import re

from ledger.days import iso_day
from ledger.errors import InputError
from ledger.messages import Message, Typed

__all__ = ["day_of", "moment_of"]

_WEEKDAYS = (
    ("monday", "montag"), ("tuesday", "dienstag"), ("wednesday", "mittwoch"), ("thursday", "donnerstag"),
    ("friday", "freitag"), ("saturday", "samstag", "sonnabend"), ("sunday", "sonntag"),
)  # fmt: skip
_MONTHS = (
    ("january", "januar"), ("february", "februar"), ("march", "märz"), ("april",), ("may", "mai"),
    ("june", "juni"), ("july", "juli"), ("august",), ("september",), ("october", "oktober"),
    ("november",), ("december", "dezember"),
)  # fmt: skip
_NEAR = {
    "today": 0, "yesterday": -1, "tomorrow": 1,
    "heute": 0, "gestern": -1, "vorgestern": -2, "morgen": 1, "übermorgen": 2,
}  # fmt: skip
_PAST = (r"(\d{1,4}|an?) (day|week)s? ago", r"vor (\d{1,4}|eine[mr]) (tag|woche)(?:en|n)?")
_TO_COME = (r"in (\d{1,4}|an?) (day|week)s?", r"in (\d{1,4}|eine[mr]) (tag|woche)(?:en|n)?")
_LAST = r"(?:last |letzten |am )?([a-z]{3,10})"
_NEXT = r"(?:next |nächsten |am )?([a-z]{3,10})"


def day_of(
    text: str | None, today: dt.date, field: str = "on", *, ahead: bool = False
) -> str | None:
    """Return a day as ISO 8601; a weekday, or a day without its year, is the last one before today.

    Parameters
    ----------
    text : str or None
        ``2026-09-02``, ``yesterday``, ``friday``, ``3 days ago``, ``2 Sep`` or ``2 Sep 2026``; ``gestern``,
        ``freitag``, ``vor 3 Tagen``, ``2. Sept. 2026`` or ``2.9.``.
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
    spans = (re.fullmatch(one, word) for one in (_TO_COME if ahead else _PAST))
    if match := next(filter(None, spans), None):
        many = int(match[1]) if match[1].isdigit() else 1
        days = many * (7 if match[2] in ("week", "woche") else 1)
        return (today + dt.timedelta(days=days if ahead else -days)).isoformat()
    match = re.fullmatch(_NEXT if ahead else _LAST, word)
    named = [i for i, names in enumerate(_WEEKDAYS) if match and _begins(names, match[1])]
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


def _begins(names: tuple[str, ...], word: str) -> bool:
    return any(name.startswith(word) for name in names)


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
    """Return the day that ``2 Sep 2026``, ``Sep 2``, ``2. September`` or ``2.9.`` names, or None."""
    match = re.fullmatch(
        r"(?:(?P<d>\d{1,2})\.? )?(?P<m>[a-zä]{3,9})\.?(?: (?P<d2>\d{1,2}))?,?(?: (?P<y>\d{4}))?",
        word,
    )
    if dotted := re.fullmatch(r"(?P<d>\d{1,2})\. ?(?P<m>\d{1,2})\.(?: ?(?P<y>\d{4}))?", word):
        month, day, written = int(dotted["m"]), int(dotted["d"]), dotted["y"]
    else:
        months = [i for i, names in enumerate(_MONTHS, 1) if match and _begins(names, match["m"])]
        if not match or not months or (match["d"] is None) == (match["d2"] is None):
            return None
        month, day, written = months[0], int(match["d"] or match["d2"]), match["y"]
    if written:
        return dt.date(int(written), month, day)
    step = 1 if ahead else -1
    for year in range(today.year, today.year + 8 * step, step):  # eight years hold a 29 February
        try:
            found = dt.date(year, month, day)
        except ValueError:
            continue
        if found >= today if ahead else found <= today:
            return found
    return None
