"""Seasons of a garden: twelve months from a day of the year that the household sets."""

from __future__ import annotations

import datetime as dt
import re

import numpy as np

from ledger.replay.columns import Array

__all__ = ["Season"]

_MONTHS = {
    name: i + 1
    for i, name in enumerate(
        [
            "january",
            "february",
            "march",
            "april",
            "may",
            "june",
            "july",
            "august",
            "september",
            "october",
            "november",
            "december",
        ]
    )
}


class Season:
    """Seasons: twelve months from a day of the year, numbered by the year in which they start."""

    def __init__(self, starts: str | None) -> None:
        self.month, self.day_of_month = _month_day(starts)

    def of(self, days: Array) -> Array:
        """Return the season of each day (days since 1970)."""
        dates = np.asarray(days).astype("datetime64[D]")
        years = dates.astype("datetime64[Y]").astype(np.int64) + 1970
        months = dates.astype("datetime64[M]").astype(np.int64) % 12 + 1
        in_month = (dates - dates.astype("datetime64[M]")).astype(np.int64) + 1
        early = (months < self.month) | ((months == self.month) & (in_month < self.day_of_month))
        return np.asarray(years - early)

    def first_day(self, season: int) -> int:
        """Return the first day of a season (days since 1970)."""
        try:
            first = dt.date(season, self.month, self.day_of_month)
        except ValueError:  # 29 February in a common year
            first = dt.date(season, self.month + 1, 1)
        return (first - dt.date(1970, 1, 1)).days

    def last_day(self, season: int) -> int:
        """Return the last day of a season (days since 1970)."""
        return self.first_day(season + 1) - 1


def _month_day(text: str | None) -> tuple[int, int]:
    match = re.fullmatch(
        r"\s*(\d{1,2})\s+([a-z]+)\s*|\s*([a-z]+)\s+(\d{1,2})\s*", (text or "").lower()
    )
    if not match:
        return 1, 1
    name, number = match[2] or match[3], int(match[1] or match[4])
    month = next((m for full, m in _MONTHS.items() if full.startswith(name[:3])), 1)
    return month, number
