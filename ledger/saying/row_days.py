"""Days of a sheet's rows: a row without one has that of the row above, a year comes from the title."""

from __future__ import annotations

import datetime as dt
import re

from ledger.saying.columns import Layout
from ledger.saying.days import Days
from ledger.saying.known import Known
from ledger.saying.language import Language, language
from ledger.saying.tokens import tokens_of

__all__ = ["RowDays"]


class RowDays:
    """Reads the day cells of a sheet from top to bottom.

    Attributes
    ----------
    day : date or None
        Of the row read last.
    """

    def __init__(self, known: Known, words: Language, layout: Layout) -> None:
        self.known, self.words, self.layout = known, words, layout
        self.day: dt.date | None = None

    def of(self, cell: str | None) -> dt.date | None:
        """Return a row's day; without one it is that of the row above, None where it is no day."""
        if not cell:
            return self.day
        match = re.match(r"(\d{4}-\d\d-\d\d)(?:[ T]\d\d:.*)?$", cell.strip())
        tokens = tokens_of(match[1] if match else cell.strip())
        if not tokens:
            return self.day
        year = self.layout.year or (self.day.year if self.day else None)
        tried = [(one, year) for one in (self.words, language("en"), language("de"))]
        if year is not None:
            tried.append((self.words, None))
        for words, of_year in tried:
            days = Days(words, self.known.today, month_first=self.layout.month_first, year=of_year)
            found = days.at(tokens, 0, is_start=True)
            if found is not None and found.on is not None and found.problem != "ahead":
                self.day = found.on
                return found.on
        return None
