"""What a harvest cost: garden inputs spread over the crop's season (the reckoning, rule 8)."""

from __future__ import annotations

import datetime as dt
import re
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ledger.replay._columns import Array

__all__ = ["Garden", "Input", "Part", "Season"]

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


@dataclass(frozen=True)
class Input:
    """Something that a crop (or the garden as a whole: -1) took, with the event it comes from."""

    ev: int
    crop: int
    day: int
    money: float
    years: float | None
    label: str
    mark: int = 0


@dataclass(frozen=True)
class Part:
    """The part of an input that counts in one season for one crop; season None: carried forward."""

    source: Input
    season: int | None
    crop: int
    money: float


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


class Garden:
    """Inputs spread over harvests.

    Parameters
    ----------
    season : Season
    inputs : list of Input
    item, day, whole : ndarray, shape (harvest lots,)
    worth : callable
        Given places of harvest lots, their shop value on their day and their grams, as arrays of
        float; NaN where not known. Asked only where crops share an input.
    """

    def __init__(
        self,
        season: Season,
        inputs: list[Input],
        harvest: tuple[Array, Array, Array],
        worth: Callable[[Array], tuple[Array, Array]],
    ) -> None:
        self.item, self.day, self.whole = harvest
        self._worth = worth
        self.season = season
        self.season_of = season.of(self.day) if self.day.size else np.zeros(0, np.int64)
        self._key, self._which = np.unique(
            self.season_of << 24 | np.asarray(self.item, np.int64), return_inverse=True
        )
        self.parts: list[Part] = []
        for one in inputs:
            self._spread(one)
        self.shares: dict[int, dict[int, float]] = {}
        self.by_crop: dict[tuple[int, int], float] = {}
        self.marks: dict[tuple[int, int], int] = {}
        self._pool()

    @cached_property
    def _last(self) -> dict[int, dict[int, int]]:
        """Return the last day on which each crop (any: -1) was harvested, by season."""
        last = np.full(self._key.size, np.iinfo(np.int64).min)
        np.maximum.at(last, self._which, self.day)
        out: dict[int, dict[int, int]] = {}
        for key, day in zip(self._key.tolist(), last.tolist(), strict=True):
            for crop in (key & 0xFFFFFF, -1):
                seasons = out.setdefault(crop, {})
                seasons[key >> 24] = max(seasons.get(key >> 24, day), day)
        return out

    @cached_property
    def _seasons(self) -> dict[int, list[int]]:
        return {crop: sorted(seasons) for crop, seasons in self._last.items()}

    def _spread(self, one: Input) -> None:
        bought_in = int(self.season.of(np.array([one.day]))[0])
        season = self._belongs(one.crop, bought_in, one.day)
        if one.mark and not one.money:
            self.parts.append(Part(one, season, one.crop, 0.0))
        rest = one.money
        yearly = one.money / max(one.years, 1e-9) if one.years else one.money
        step = 0
        while rest > 1e-12 * max(one.money, 1.0):
            money = min(yearly, rest)
            rest -= money
            where = None if season is None else self._next(one.crop, season + step)
            self.parts.append(Part(one, where, one.crop, money))
            if where is None and yearly < one.money:
                if rest > 0:
                    self.parts.append(Part(one, None, one.crop, rest))
                return
            step += 1

    def _belongs(self, crop: int, season: int, day: int) -> int | None:
        """Return the season an input belongs to; None until its crop is harvested."""
        last = self._last.get(crop, {}).get(season)
        if last is not None and last >= day:
            return season
        return self._next(crop, season + 1)

    def _next(self, crop: int, season: int) -> int | None:
        seasons = self._seasons.get(crop, [])
        at = bisect_right(seasons, season - 1)
        return seasons[at] if at < len(seasons) else None

    def _pool(self) -> None:
        common: dict[int, float] = {}
        for part in self.parts:
            if part.season is None:
                continue
            if part.crop >= 0:
                key = (part.season, part.crop)
                self.by_crop[key] = self.by_crop.get(key, 0.0) + part.money
                self.marks[key] = self.marks.get(key, 0) | part.source.mark
            else:
                common[part.season] = common.get(part.season, 0.0) + part.money
        for year, money in common.items():
            self.shares[year] = self._crop_shares(year)
            for crop, share in self.shares[year].items():
                self.by_crop[year, crop] = self.by_crop.get((year, crop), 0.0) + money * share

    def _crop_shares(self, year: int) -> dict[int, float]:
        """Share a season's common inputs over its crops by shop value of what was harvested."""
        rows = np.flatnonzero(self.season_of == year)
        crops = np.unique(self.item[rows])
        at = np.searchsorted(crops, self.item[rows])
        values, grams = self._worth(rows)
        value = np.bincount(at, values, crops.size)
        kilos = np.bincount(at, np.nan_to_num(grams) / 1000, crops.size)
        priced = ~np.isnan(value)
        if priced.any():
            weighed = priced & (kilos > 0)
            known = kilos[weighed].sum()
            average = value[weighed].sum() / known if known > 0 else 0.0
            weight = np.where(priced, value, kilos * average)
        else:
            weight = kilos
        if weight.sum() <= 0:
            weight = kilos if kilos.sum() > 0 else np.ones(crops.size)
        return dict(zip(crops.tolist(), (weight / weight.sum()).tolist(), strict=True))

    def per_lot(self) -> Array:
        """Return the garden cost of each harvest lot, shape (harvest lots,)."""
        if not self.by_crop:
            return np.zeros(self.item.size)
        key, lot_key = self._key, self._which
        total = np.zeros(key.size, np.int64)
        np.add.at(total, lot_key, self.whole)
        cost = np.array([self.by_crop.get((k >> 24, k & 0xFFFFFF), 0.0) for k in key.tolist()])
        return np.asarray(cost[lot_key] * self.whole / total[lot_key])

    def provisional(self, as_of: int) -> Array:
        """Return which harvest lots stand in a season that is not over by `as_of`."""
        running = {
            year for year in set(self.season_of.tolist()) if as_of <= self.season.last_day(year)
        }
        return np.isin(self.season_of, list(running))
