"""What a harvest cost: garden inputs spread over the crop's season (the reckoning, rule 8)."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

import numpy as np

from ledger.replay.columns import Array
from ledger.replay.seasons import Season

__all__ = ["Garden", "Input", "Part"]


class Input(NamedTuple):
    """Something that a crop (or the garden as a whole: -1) took, with the event it comes from.

    What was bought has the `row` of its supply, what was sown from stock the `draw`; else -1.
    """

    ev: int
    crop: int
    day: int
    money: float
    years: float | None
    label: str
    mark: int = 0
    row: int = -1
    draw: int = -1


class Part(NamedTuple):
    """The part of an input that counts in one season for one crop; season None: carried forward."""

    source: Input
    season: int | None
    crop: int
    money: float


class _Year(NamedTuple):
    """The strands harvested in a season, rising, and the places among them of each crop's."""

    strands: list[int]
    places: dict[int, list[int]]


_Pooled = dict[int, dict[int, tuple[float, int]]]


class _Borne(NamedTuple):
    """What a season's crops took, and how it was laid on strands: as in `Garden`, of one season."""

    crops: dict[int, tuple[float, int]]
    shares: dict[tuple[int, int], dict[int, float]]
    bases: dict[tuple[int, int], dict[int, str]]
    unshared: set[tuple[int, int]]
    by_crop: dict[tuple[int, int], float]
    marks: dict[tuple[int, int], int]


def _bounds(seasons: Array) -> dict[int, tuple[int, int]] | None:
    """Return where each season's rows begin and end; None where they do not stand in order."""
    if not seasons.size:
        return {}
    steps = np.diff(seasons)
    if (steps < 0).any():
        return None
    ends = [0, *(np.flatnonzero(steps) + 1).tolist(), seasons.size]
    return {int(seasons[low]): (low, high) for low, high in pairwise(ends)}


def _weights(
    value: list[float], kilos: list[float], average: float
) -> tuple[list[float], list[str]]:
    """Return what each strand's share goes by, and whether that is value, average or weight.

    Empty text: it bears nothing, as neither its price nor, where one is known, its weight is.
    """
    if all(map(math.isnan, value)):
        return kilos, ["weight" if one > 0 else "" for one in kilos]
    weight, basis = [], []
    for worth, kilo in zip(value, kilos, strict=True):
        if not math.isnan(worth):
            weight.append(worth)
            basis.append("value")
        elif kilo > 0 and not math.isnan(average):
            weight.append(kilo * average)
            basis.append("average")
        else:
            weight.append(0.0)
            basis.append("")
    return weight, basis


class Garden:
    """Inputs spread over harvests.

    Parameters
    ----------
    season : Season
    inputs : list of Input
    harvest : item, day, whole
        Of the harvest lots, ndarrays of shape (harvest lots,); `item` is the strand's number.
    crop_of : ndarray of int64, shape (strands,)
        The item of each strand.
    worth : callable
        Given places of harvest lots, their shop value on their day and their grams, as arrays of
        float; NaN where not known. Asked only where crops share an input.
    before : Garden, optional
        Of a moment with the same strands, prices and weights: seasons in which the same was picked and
        taken are taken over from it.

    Attributes
    ----------
    bases : dict of (int, int) to dict of int to str
        What the shares of an input go by, by season and crop, where crops share it.
    """

    def __init__(
        self,
        season: Season,
        inputs: list[Input],
        harvest: tuple[Array, Array, Array],
        crop_of: Array,
        worth: Callable[[Array], tuple[Array, Array]],
        before: Garden | None = None,
    ) -> None:
        self.item, self.day, self.whole = harvest
        self.bases: dict[tuple[int, int], dict[int, str]] = {}
        self._worth, self._crop_of, self._inputs = worth, crop_of, inputs
        self.season = season
        self.season_of = season.of(self.day) if self.day.size else np.zeros(0, np.int64)
        self._shares: dict[tuple[int, int], dict[int, float]] = {}
        self._years: dict[int, _Year] = {}
        self._values: dict[int, tuple[list[float], list[float], float]] = {}
        self.unshared: set[tuple[int, int]] = set()
        self.by_crop: dict[tuple[int, int], float] = {}
        self.marks: dict[tuple[int, int], int] = {}
        self.parts: list[Part] = []
        if before is not None and self._is_spread_like(before):
            self.parts, pooled = before.parts, before._pooled
        else:
            bought_in = season.of(np.array([one.day for one in inputs], np.int64)).tolist()
            for one, of_season in zip(inputs, bought_in, strict=True):
                self._spread(one, of_season)
            pooled = self._pool()
        self._pooled: _Pooled = pooled
        self._borne: dict[int, _Borne] = {}
        none: frozenset[int] = frozenset()
        same = self._same_years(before) if before is not None and pooled else none
        for year, crops in self._pooled.items():
            self._bear(year, crops, before if year in same else None)

    @cached_property
    def _keyed(self) -> tuple[Array, Array]:
        return np.unique(
            self.season_of << 24 | np.asarray(self.item, np.int64), return_inverse=True
        )

    @property
    def key(self) -> Array:
        """Season << 24 | strand of what was harvested."""
        return self._keyed[0]

    @property
    def which(self) -> Array:
        """The place in `key` of each harvest lot."""
        return self._keyed[1]

    def _is_spread_like(self, before: Garden) -> bool:
        """Return whether a moment before spread the same over the same: nothing else is asked of it."""
        if self._inputs != before._inputs:
            return False
        return not self._inputs or (
            np.array_equal(self.key, before.key)
            and np.array_equal(self._last_days, before._last_days)
        )

    @cached_property
    def _last_days(self) -> Array:
        """The last day on which each strand was harvested in a season, shape (keys,)."""
        last = np.full(self.key.size, np.iinfo(np.int64).min)
        np.maximum.at(last, self.which, self.day)
        return last

    @cached_property
    def _last(self) -> dict[int, dict[int, int]]:
        """Return the last day on which each crop (any: -1) was harvested, by season."""
        out: dict[int, dict[int, int]] = {}
        for key, day in zip(self.key.tolist(), self._last_days.tolist(), strict=True):
            for crop in (int(self._crop_of[key & 0xFFFFFF]), -1):
                seasons = out.setdefault(crop, {})
                seasons[key >> 24] = max(seasons.get(key >> 24, day), day)
        return out

    @cached_property
    def _seasons(self) -> dict[int, list[int]]:
        return {crop: sorted(seasons) for crop, seasons in self._last.items()}

    def _spread(self, one: Input, bought_in: int) -> None:
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

    def _pool(self) -> _Pooled:
        """Return what each crop (the garden: -1) took in a season, with its marks, by season and crop.

        Those for a crop come first, so that sums are made in the same order in any book.
        """
        found: _Pooled = {}
        for part in self.parts:
            if part.season is not None:
                of = found.setdefault(part.season, {})
                money, mark = of.get(part.crop, (0.0, 0))
                of[part.crop] = money + part.money, mark | part.source.mark
        return {
            year: {crop: of[crop] for crop in sorted(of, key=lambda crop: crop < 0)}
            for year, of in found.items()
        }

    def _bear(self, year: int, crops: dict[int, tuple[float, int]], before: Garden | None) -> None:
        """Lay what was taken in a season on its strands, as a moment before did where it did so."""
        borne = before._borne.get(year) if before is not None else None
        if borne is None or before is None or borne.crops != crops:
            borne = self._born(year, crops)
        else:
            self._values |= {year: before._values[year]} if year in before._values else {}
        self._borne[year] = borne
        self._shares.update(borne.shares)
        self.bases.update(borne.bases)
        self.unshared |= borne.unshared
        self.by_crop.update(borne.by_crop)
        self.marks.update(borne.marks)

    def _born(self, year: int, crops: dict[int, tuple[float, int]]) -> _Borne:
        by_crop: dict[tuple[int, int], float] = {}
        marks: dict[tuple[int, int], int] = {}
        unshared, self.unshared = self.unshared, set()
        for crop, (money, mark) in crops.items():
            for strand, share in self.shares(year, crop).items():
                own = (year, strand)
                by_crop[own] = by_crop.get(own, 0.0) + money * share
                if share:
                    marks[own] = marks.get(own, 0) | mark
        keys = [(year, crop) for crop in crops]
        shares = {key: self._shares[key] for key in keys}
        bases = {key: self.bases[key] for key in keys if key in self.bases}
        mine, self.unshared = self.unshared, unshared
        return _Borne(crops, shares, bases, mine, by_crop, marks)

    def _same_years(self, before: Garden) -> frozenset[int]:
        """Return the seasons in which just the same was picked, row by row."""
        found = []
        bounds = [_bounds(garden.season_of) for garden in (self, before)]
        if bounds[0] is None or bounds[1] is None:
            return frozenset()
        for year, (low, high) in bounds[0].items():
            was = bounds[1].get(year)
            if was is None or was[1] - was[0] != high - low:
                continue
            if all(
                np.array_equal(mine[low:high], other[was[0] : was[1]])
                for mine, other in zip(
                    (self.item, self.day, self.whole),
                    (before.item, before.day, before.whole),
                    strict=True,
                )
            ):
                found.append(year)
        return frozenset(found)

    def shares(self, year: int, crop: int) -> dict[int, float]:
        """Return each strand's share of what a crop took in a season; of the garden's: -1."""
        if (year, crop) not in self._shares:
            self._shares[year, crop] = self._share(year, crop)
        return self._shares[year, crop]

    def _share(self, year: int, crop: int) -> dict[int, float]:
        """Share by shop value of what was harvested, else by weight, else evenly (rules 8 and 13).

        A strand without a price takes the season's average price by weight. One that has neither a
        price nor, where an average is known, a weight bears nothing (`unshared`), unless all are so.
        """
        of = self._year_of(year)
        mine = of.places.get(crop, []) if crop >= 0 else range(len(of.strands))
        strands = [of.strands[i] for i in mine]
        if len(strands) < 2:
            return dict.fromkeys(strands, 1.0)
        values, kilos, average = self._values_of(year)
        value, kilo = ([column[i] for i in mine] for column in (values, kilos))
        weight, basis = _weights(value, kilo, average)
        if not any(basis):
            weight, basis = [1.0] * len(strands), ["even"] * len(strands)
        self.unshared.update((year, one) for one, by in zip(strands, basis, strict=True) if not by)
        if sum(weight) <= 0:
            weight = [one if by else 0.0 for one, by in zip(kilo, basis, strict=True)]
            basis = [by and "weight" for by in basis]
        if sum(weight) <= 0:
            weight, basis = [float(by != "") for by in basis], [by and "even" for by in basis]
        self.bases[year, crop] = {one: by or "none" for one, by in zip(strands, basis, strict=True)}
        whole = sum(weight)
        return {one: part / whole for one, part in zip(strands, weight, strict=True)}

    def _year_of(self, year: int) -> _Year:
        found = self._years.get(year)
        if found is None:
            low, high = np.searchsorted(self.key, [year << 24, (year + 1) << 24])
            strands = (self.key[low:high] & 0xFFFFFF).tolist()
            places: dict[int, list[int]] = {}
            for place, crop in enumerate(self._crop_of[strands].tolist() if strands else ()):
                places.setdefault(crop, []).append(place)
            found = self._years[year] = _Year(strands, places)
        return found

    def _values_of(self, year: int) -> tuple[list[float], list[float], float]:
        """Return a season's strands' shop value (NaN: no price) and kilograms (0: no weight).

        And the average price of a kilogram of what has both, NaN where nothing has.
        """
        if year in self._values:
            return self._values[year]
        rows = np.flatnonzero(self.season_of == year)
        strands = np.array(self._year_of(year).strands, np.int64)
        at = np.searchsorted(strands, self.item[rows])
        values, grams = self._worth(rows)
        value = np.bincount(at, values, strands.size)
        kilos = np.bincount(at, np.nan_to_num(grams) / 1000, strands.size)
        both = ~np.isnan(value) & (kilos > 0)
        average = value[both].sum() / kilos[both].sum() if both.any() else np.nan
        self._values[year] = value.tolist(), kilos.tolist(), float(average)
        return self._values[year]

    def per_lot(self) -> Array:
        """Return the garden cost of each harvest lot, shape (harvest lots,)."""
        if not self.by_crop:
            return np.zeros(self.item.size)
        key, lot_key = self.key, self.which
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
