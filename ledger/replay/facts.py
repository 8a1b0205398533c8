"""What is known of each item and setting: names merged, facts folded, weights as exact factors.

Item facts hold for all days, the newest by `seq` winning, field by field (the reckoning, rule 2).
"""

from __future__ import annotations

import copy
from bisect import bisect_right
from collections.abc import Callable
from fractions import Fraction
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.items import ItemFacts, item_key, merge
from ledger.replay._columns import Array

if TYPE_CHECKING:
    from ledger.replay.journal import Journal

__all__ = ["MATCHED", "SORTS", "Facts", "Settings"]

SORTS = ("food", "jar", "lid", "equipment", "garden input", "fuel", "supply")
MATCHED = np.array([True, False, True, False, False, True, True])
"""Whether an item of that sort is matched lot by lot; the others are lent or spread."""

_EPOCH = 719163  # date(1970, 1, 1).toordinal()
_NEVER = 10**6


class Facts:
    """Items as known at one moment.

    Attributes
    ----------
    names : list of str
        One name an item, as the book first spelled it.
    canon : ndarray of int, shape (raw names,)
        Item number of each raw name of the journal.
    facts : list of ItemFacts
        What the household said of each item.
    sort : ndarray of int8, shape (items,)
        Place in `SORTS`.
    measure : list of str
    lines_known : int
        How many raw names had a line by then: the first may have given an item its measure.
    said : dict
        ``said[item]["uses" | "years"]`` is ``(entry seq, value)`` of the newest description.
    """

    def __init__(self, journal: Journal, described: list[tuple[int, dict[str, Any]]]) -> None:
        self._journal = journal
        keys = [item_key(name) for name in journal.items.texts]
        folded: dict[str, ItemFacts] = {}
        spelled: dict[str, str] = {}
        self.alias: dict[str, str] = {}
        self._said: dict[str, dict[str, tuple[int, float]]] = {}
        for _, body in described:
            key = item_key(body["item"])
            for other in body.get("also") or ():
                self.alias[item_key(other)] = key
        for root, body in described:
            key = self.canonical(item_key(body["item"]))
            if key == item_key(body["item"]):
                spelled.setdefault(key, body["item"])
            folded[key] = merge(folded.get(key, ItemFacts()), body)
            for name in ("uses", "years"):
                if name in body:
                    self._said.setdefault(key, {})[name] = (root, float(body[name]))
        numbers: dict[str, int] = {}
        self.names: list[str] = []
        self.keys: list[str] = []
        canon = np.empty(len(keys), np.int32)
        for code, key in enumerate(keys):
            end = self.canonical(key)
            number = numbers.get(end)
            if number is None:
                number = numbers[end] = len(self.names)
                self.names.append(spelled.get(end, journal.items.texts[code]))
                self.keys.append(end)
            canon[code] = number
        self.canon = canon
        self.number = numbers
        self.facts = [folded.get(key, ItemFacts()) for key in self.keys]
        self.said = [self._said.get(key, {}) for key in self.keys]
        self.sort = np.array([SORTS.index(f.sort or "food") for f in self.facts], np.int8)
        self.lines_known = len(journal.first_amount)
        first = {int(canon[code]): text for code, text in reversed(journal.first_amount.items())}
        self.measure = [f.measure or _measure_of(first.get(i)) for i, f in enumerate(self.facts)]
        self._gpw: dict[int, float | None] = {}
        self._kpg: dict[int, float | None] = {}

    def __len__(self) -> int:
        return len(self.names)

    def of_journal(self, journal: Journal) -> Facts:
        """Return the same facts for a journal that has grown, or branched, from this one's."""
        if journal is self._journal:
            return self
        other = copy.copy(self)
        other._journal = journal
        return other

    def canonical(self, key: str) -> str:
        """Return the key under which `key` is kept, following `also`."""
        seen = {key}
        while key in self.alias and self.alias[key] not in seen:
            key = self.alias[key]
            seen.add(key)
        return key

    def find(self, name: str | None) -> int | None:
        """Return the number of the item called `name`, or None."""
        return None if name is None else self.number.get(self.canonical(item_key(name)))

    def wholes(self, item: Array, whole: Array, per: Array, times: Array) -> Array:
        """Return amounts at the weights known now: `times` x weight where one is known, else `whole`.

        Parameters
        ----------
        item, whole, per, times : ndarray of int, shape (lines,)
            Item number, whole units as stored, unit code (-1: exact), thousandths of that unit.

        Returns
        -------
        ndarray of int64, shape (lines,)
        """
        from ledger.amounts import weight_factor

        crossed = np.flatnonzero(per >= 0)
        if not crossed.size:
            return whole
        out = whole.copy()
        pairs, inverse = np.unique(
            item[crossed] * np.int64(1 << 20) + per[crossed], return_inverse=True
        )
        for i, pair in enumerate(pairs.tolist()):
            number, unit = divmod(pair, 1 << 20)
            facts = self.facts[number]
            if not facts.g_per and facts.g_per_ml is None:
                continue
            factor = weight_factor(
                self._journal.units.texts[unit],
                self.measure[number],
                facts.g_per or {},
                facts.g_per_ml,
            )
            if factor is not None:
                rows = crossed[inverse == i]
                out[rows] = _times(times[rows], factor)
        return out

    def grams_per_whole(self, number: int) -> float | None:
        """Return grams in one whole unit of an item, or None where no weight is known.

        The item's own `g_per_ml` or weight per piece or cup, else the food table's.
        """
        if number not in self._gpw:
            self._gpw[number] = self._weigh(number)
        return self._gpw[number]

    @cached_property
    def grams(self) -> Array:
        """Grams in one whole unit of each item, NaN where no weight is known; shape (items,)."""
        weights = [self.grams_per_whole(number) for number in range(len(self))]
        return np.array([np.nan if w is None else w for w in weights], np.float64)

    @cached_property
    def equivalent(self) -> tuple[Array, Array]:
        """Each item's shop equivalent (-1: none) and what one whole unit is worth in it."""
        other, factor = np.full(len(self), -1, np.int64), np.full(len(self), np.nan)
        for number, facts in enumerate(self.facts):
            equivalent = self.find(facts.shop_equivalent)
            if equivalent is None or equivalent == number:
                continue
            scale = self._scale(number, equivalent)
            if scale is not None:
                other[number], factor[number] = equivalent, scale
        return other, factor

    def _scale(self, number: int, equivalent: int) -> float | None:
        if self.measure[number] == self.measure[equivalent]:
            return 1.0
        own, its = self.grams_per_whole(number), self.grams_per_whole(equivalent)
        return None if own is None or its is None else own / its

    def _weigh(self, number: int) -> float | None:
        facts, measure = self.facts[number], self.measure[number]
        if measure == "mass":
            return 0.001
        if measure == "volume":
            if facts.g_per_ml is not None:
                return float(facts.g_per_ml) / 1000
            return self._by_volume_unit(facts)
        if measure == "count":
            grams = (facts.g_per or {}).get("piece")
            if grams is not None:
                return float(grams) / 1000
            return self._by_table(facts, "piece", 1000)
        return None

    def _by_volume_unit(self, facts: ItemFacts) -> float | None:
        from ledger.amounts import unit_factor

        for unit, grams in sorted((facts.g_per or {}).items()):
            known = unit_factor(unit)
            if known is not None and known[0] == "volume":
                return float(Fraction(grams) / known[1])
        cup = unit_factor("cup")
        return None if cup is None else self._by_table(facts, "cup", float(cup[1]))

    def _by_table(self, facts: ItemFacts, unit: str, wholes: float) -> float | None:
        if facts.food is None:
            return None
        from ledger.reference import foods

        measure = foods.household_measure(facts.food, unit)
        return None if measure is None else float(measure.grams) / wholes

    def kcal_per_gram(self, number: int) -> float | None:
        """Return kcal in a gram as bought: the item's own figure, else its food-table row's.

        The table's figures are per 100 g of edible portion, so the refuse is taken off.
        """
        if number not in self._kpg:
            self._kpg[number] = self._energy(number)
        return self._kpg[number]

    def _energy(self, number: int) -> float | None:
        facts = self.facts[number]
        edible = 1.0
        if facts.food is not None:
            from ledger.reference import foods

            edible = 1 - float(foods.refuse_pct(facts.food) or 0) / 100
        if facts.kcal_per_100g is not None:
            return float(facts.kcal_per_100g) / 100 * edible
        if facts.food is not None:
            kcal = foods.kcal_per_100g(facts.food)
            return None if kcal is None else float(kcal) / 100 * edible
        return None


def _measure_of(amount: str | None) -> str:
    if amount is None:
        return "mass"
    from ledger.amounts import parse_amount

    return parse_amount(amount, zero=True).measure


def _times(times: Array, factor: Fraction) -> Array:
    """Return round-half-even(times x factor), exactly."""
    num, den = factor.numerator, factor.denominator
    if times.size and int(times.max()) * num * 2 < 1 << 62 and den < 1 << 61:
        product = times * num
        quotient, rest = np.divmod(product, den)
        up = (2 * rest > den) | ((2 * rest == den) & (quotient % 2 == 1))
        return np.asarray(quotient + up)
    return np.array([round(Fraction(int(t)) * factor) for t in times], np.int64)


class Settings:
    """Settings as known at one moment: each holds from its day on, its first value before it too."""

    def __init__(self, changed: list[tuple[int, str, str]]) -> None:
        self._by_name: dict[str, tuple[list[int], list[str]]] = {}
        self._newest: dict[str, str] = {}
        for day, name, value in changed:
            days, values = self._by_name.setdefault(name, ([], []))
            days.append(day)
            values.append(value)

    def on(self, name: str, day: int, default: str | None = None) -> str | None:
        """Return the value of a setting on a day (days since 1970)."""
        known = self._by_name.get(name)
        if known is None:
            return default
        return known[1][max(bisect_right(known[0], day) - 1, 0)]

    def numbers(self, name: str, days: Array, read: Callable[[str | None], float | None]) -> Array:
        """Return a setting as a number on each of many days, NaN where `read` makes none of it."""
        known = self._by_name.get(name)
        if known is None:
            return np.full(np.size(days), np.nan)
        values = [read(text) for text in known[1]]
        at = np.maximum(np.searchsorted(known[0], days, side="right") - 1, 0)
        return np.array([np.nan if v is None else v for v in values], np.float64)[at]

    def days(self, name: str) -> list[int]:
        """Return the days from which each value of a setting holds (days since 1970), in order."""
        return list(self._by_name.get(name, ([], []))[0])

    def newest(self, name: str, default: str | None = None) -> str | None:
        """Return the newest value of a setting."""
        return self.on(name, _NEVER, default)
