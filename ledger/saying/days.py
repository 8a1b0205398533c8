"""Days as they are said: ``yesterday``, ``last Sunday``, ``Aug 12``, ``12.8.``, ``Sept 1-3``.

A weekday is the last one before today, a day without its year the last one gone by; of several
days the last holds. What is no day, or lies ahead, is asked.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from dataclasses import dataclass

from ledger.saying.language import Language
from ledger.saying.numbers import number_at
from ledger.saying.quantities import unit_at
from ledger.saying.tokens import Token

__all__ = ["DayRead", "Days"]


@dataclass(frozen=True, slots=True)
class DayRead:
    """A day that was read.

    Attributes
    ----------
    on : date or None
        None where the words are no day that there was: `problem` then says why.
    length : int
    problem : str
        ``no such day``, ``ahead``, ``vague`` or "".
    """

    on: dt.date | None
    length: int
    problem: str = ""


class Days:
    """Reads days in one language.

    Parameters
    ----------
    words : Language
    today : date
    month_first : bool
        ``8/12`` is in August.
    year : int, optional
        The year of a day without one; default: the last such day gone by.
    """

    def __init__(
        self, words: Language, today: dt.date, *, month_first: bool, year: int | None = None
    ) -> None:
        self.words, self.today, self.month_first, self.year = words, today, month_first, year

    def at(self, tokens: Sequence[Token], i: int, *, is_start: bool) -> DayRead | None:
        """Return the day that begins at a token, or None.

        Parameters
        ----------
        is_start : bool
            The token begins its sentence: ``8/12`` is a day there, and no fraction.
        """
        lead = 0
        if tokens[i].low in ("on", "am", "vom", "den", "dated", "the", "den", "of"):
            lead = 1
            if (
                i + 1 < len(tokens)
                and tokens[i + 1].low in ("the", "den")
                and tokens[i].low == "on"
            ):
                lead = 2
        if i + lead >= len(tokens):
            return None
        if lead:
            found = self._bare(
                tokens, i + lead, led=tokens[i].low != "the" and tokens[i].low != "of"
            )
            if found is None and tokens[i + lead - 1].low in ("the", "den", "am"):
                found = self._ordinal(tokens, i + lead)
            if found is not None and tokens[i].low not in ("of",):
                return DayRead(found.on, found.length + lead, found.problem)
        return self._bare(tokens, i, led=is_start)

    def _bare(self, tokens: Sequence[Token], i: int, *, led: bool) -> DayRead | None:
        return (
            self._near(tokens, i)
            or self._ago(tokens, i)
            or self._named(tokens, i)
            or self._weekday(tokens, i, led=led)
            or self._written(tokens, i, led=led)
        )

    def _near(self, tokens: Sequence[Token], i: int) -> DayRead | None:
        vague = self.words.find("days.vague", tokens, i)
        if vague is not None:
            return DayRead(None, vague[1], "vague")
        best: tuple[int, int] | None = None
        for back in (0, -1, -2):
            found = self.words.find(f"days.{back}", tokens, i)
            if found is not None and (best is None or found[1] > best[1]):
                best = (back, found[1])
        if best is None:
            return None
        return DayRead(self.today + dt.timedelta(days=best[0]), best[1])

    def _ago(self, tokens: Sequence[Token], i: int) -> DayRead | None:
        words = self.words
        ago_first = words.code == "de"
        at = i
        if ago_first:
            lead = words.find("days.ago", tokens, i)
            if lead is None:
                return None
            at += lead[1]
        number = number_at(words, tokens, at)
        if number is None or number.value.denominator != 1:
            return None
        at += number.length
        for name, days in (("day", 1), ("week", 7), ("month", 30)):
            unit = words.find(f"days.{name}", tokens, at)
            if unit is None:
                continue
            at += unit[1]
            if not ago_first:
                lead = words.find("days.ago", tokens, at)
                if lead is None:
                    return None
                at += lead[1]
            if name == "month":
                return DayRead(None, at - i, "vague")
            many = int(number.value) * days
            if many > 36_500:
                return DayRead(None, at - i, "no such day")
            return DayRead(self.today - dt.timedelta(days=many), at - i)
        return None

    def _weekday(self, tokens: Sequence[Token], i: int, *, led: bool) -> DayRead | None:
        last = self.words.find("weekdays.last", tokens, i)
        at = i + (last[1] if last else 0)
        found = self.words.find("weekday", tokens, at)
        if found is None:
            return None
        said = tokens[at]
        dot = int(
            at + 1 < len(tokens)
            and tokens[at + 1].low == "."
            and tokens[at + 1].tight
            and len(said.low) <= 4
            and at + 2 < len(tokens)
        )
        if len(said.low) <= 4 and not (
            last
            or (led and said.text[:1].isupper())
            or (said.text[:1].isupper() and self.words.code == "en")
        ):
            return None
        back = (self.today.weekday() - found[0] - 1) % 7 + 1
        length = at - i + found[1] + dot
        day = self._followed(tokens, i + length)
        if day is not None:
            return DayRead(day.on, length + day.length, day.problem)
        return DayRead(self.today - dt.timedelta(days=back), length)

    def _followed(self, tokens: Sequence[Token], i: int) -> DayRead | None:
        """Read the day that a weekday is said with: ``Sunday, Aug 12``."""
        skip = int(i < len(tokens) and tokens[i].low in (",", "the", "den"))
        skip += int(i + skip < len(tokens) and tokens[i + skip].low in ("the", "den"))
        if i + skip >= len(tokens):
            return None
        found = self._named(tokens, i + skip) or self._written(tokens, i + skip, led=True)
        return None if found is None else DayRead(found.on, found.length + skip, found.problem)

    # -- days with a month ---------------------------------------------------------------

    def _named(self, tokens: Sequence[Token], i: int) -> DayRead | None:
        """Read ``Aug 12``, ``12th of August 2025``, ``Sept 1-3``, ``1.-3. September``."""
        month = self._month(tokens, i)
        if month is not None:
            at = i + month[1]
            day = self._day_number(tokens, at)
            if day is None:
                return None
            at += day[1]
            return self._with_year(tokens, (i, at), month[0], day[0])
        day = self._day_number(tokens, i)
        if day is None:
            return None
        at = i + day[1]
        if at < len(tokens) and tokens[at].low == "of":
            at += 1
        month = self._month(tokens, at)
        if month is None:
            return None
        return self._with_year(tokens, (i, at + month[1]), month[0], day[0])

    def _month(self, tokens: Sequence[Token], i: int) -> tuple[int, int] | None:
        found = self.words.find("month", tokens, i)
        if found is None:
            return None
        length = found[1]
        if i + 1 < len(tokens) and tokens[i + 1].low == "." and tokens[i + 1].tight:
            length += int(len(tokens[i].low) <= 4)
        return found[0] + 1, length

    def _day_number(self, tokens: Sequence[Token], i: int) -> tuple[int, int] | None:
        """Return a day of a month, of several the last, and its length in tokens."""
        if i >= len(tokens) or not re.fullmatch(r"\d{1,2}", tokens[i].text):
            return None
        day, at = int(tokens[i].text), i + 1
        at += self._ordinal_mark(tokens, at)
        if at + 1 < len(tokens) and tokens[at].low in ("-", "–", "bis", "to", "and", "und", "&"):
            after = tokens[at + 1]
            if re.fullmatch(r"\d{1,2}", after.text) and int(after.text) > day:
                end = at + 2 + self._ordinal_mark(tokens, at + 2)
                is_joined = tokens[at].low in ("-", "–")
                if is_joined or self._month(tokens, end) or self._month(tokens, i - 1 if i else 0):
                    return int(after.text), end - i
        return day, at - i

    def _ordinal_mark(self, tokens: Sequence[Token], i: int) -> int:
        if i >= len(tokens) or not tokens[i].tight:
            return 0
        return int(
            tokens[i].low in ("st", "nd", "rd", "th")
            or (tokens[i].low == "." and self.words.code == "de")
        )

    def _ordinal(self, tokens: Sequence[Token], i: int) -> DayRead | None:
        """Read ``the 12th``: the last one gone by."""
        if not re.fullmatch(r"\d{1,2}", tokens[i].text) or not self._ordinal_mark(tokens, i + 1):
            return None
        day, year, month = int(tokens[i].text), self.today.year, self.today.month
        for _ in range(14):
            try:
                found = dt.date(year, month, day)
            except ValueError:
                found = None
            if found is not None and found <= self.today:
                return DayRead(found, 2)
            year, month = (year - 1, 12) if month == 1 else (year, month - 1)
        return DayRead(None, 2, "no such day")

    def _with_year(
        self, tokens: Sequence[Token], place: tuple[int, int], month: int, day: int
    ) -> DayRead:
        i, at = place
        k = at + int(at + 1 < len(tokens) and tokens[at].low == ",")
        if k < len(tokens) and re.fullmatch(r"(?:19|20)\d\d", tokens[k].text):
            return self._made(int(tokens[k].text), month, day, k + 1 - i)
        return self._made(None, month, day, at - i)

    # -- days in figures -----------------------------------------------------------------

    def _written(self, tokens: Sequence[Token], i: int, *, led: bool) -> DayRead | None:
        token = tokens[i]
        if token.sort == "date":
            return self._figures(token.text, led=led)
        match = re.fullmatch(r"(\d{1,2})/(\d{1,2})", token.text)
        if match is not None and unit_at(self.words, tokens, i + 1) is not None:
            return None
        if match is None or not self._is_day(tokens, i, (int(match[1]), int(match[2])), led=led):
            return None
        return self._pair(int(match[1]), int(match[2]), None)

    def _is_day(
        self, tokens: Sequence[Token], i: int, parts: tuple[int, int], *, led: bool
    ) -> bool:
        """Return whether ``8/12`` is a day: what follows is nothing to measure or to count."""
        after = tokens[i + 1] if i + 1 < len(tokens) else None
        if led or parts[0] >= parts[1]:
            return True
        if parts[1] in (2, 3, 4, 8, 16) and parts[0] < parts[1] and after is not None:
            return False
        return after is None or after.sort != "word"

    def _figures(self, text: str, *, led: bool) -> DayRead | None:
        parts = [int(one) for one in re.findall(r"\d+", text)]
        if re.match(r"\d{4}-", text):
            return self._made(parts[0], parts[1], parts[2], 1)
        year = parts[2] if len(parts) > 2 else None
        year = year + 2000 if year is not None and year < 100 else year
        if "/" in text:
            return self._pair(parts[0], parts[1], year)
        if not (self.words.day_first or led or year):
            return None
        return self._made(year, parts[1], parts[0], 1)

    def _pair(self, one: int, other: int, year: int | None) -> DayRead:
        month, day = (one, other) if self.month_first else (other, one)
        if month > 12 >= day:  # only one way round is a day
            month, day = day, month
        return self._made(year, month, day, 1)

    def _made(self, year: int | None, month: int, day: int, length: int) -> DayRead:
        year = year if year is not None else self.year
        if year is not None:
            found = _date(year, month, day)
            if found is None or found.year < 1900:
                return DayRead(None, length, "no such day")
            return DayRead(found, length, "ahead" if found > self.today else "")
        for back in range(9):  # eight years hold a 29 February
            found = _date(self.today.year - back, month, day)
            if found is not None and found <= self.today:
                return DayRead(found, length)
        return DayRead(None, length, "no such day")


def _date(year: int, month: int, day: int) -> dt.date | None:
    try:
        return dt.date(year, month, day)
    except ValueError:
        return None
