"""What is known of each item and setting: names merged, facts folded, weights as exact factors.

Item facts hold for all days, the newest by `seq` winning, field by field (the reckoning, rule 2).
"""

from __future__ import annotations

import copy
from collections.abc import Callable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger import known
from ledger.amounts import is_counted, parse_amount
from ledger.items import ItemFacts, item_key
from ledger.kinds import KINDS
from ledger.known import Items
from ledger.reference.crossing import MEASURES, Weights
from ledger.replay.columns import Array
from ledger.replay.strands import Strands
from ledger.replay.ways import COUNTED

if TYPE_CHECKING:
    from ledger.replay.columns import Table
    from ledger.replay.journal import Journal

__all__ = ["MATCHED", "SORTS", "Facts", "Settings"]

SORTS = ("food", "jar", "lid", "equipment", "garden input", "fuel", "supply")
MATCHED = np.array([True, False, True, False, False, True, True])
"""Whether an item of that sort is matched lot by lot; the others are lent or spread."""


class Facts:
    """Items as known at one moment, and their strands: the lines of one that come to one measure.

    Numbers up to `items` are items, each also the strand in the item's own measure; the numbers
    behind them are the other strands (rule 13). What is known by number is known of both.

    Attributes
    ----------
    names : list of str
        By number the item's name, as the book first spelled it.
    canon : ndarray of int, shape (raw names,)
        Item number of each raw name of the journal.
    items : int
        How many items there are.
    item_of : ndarray of int64, shape (numbers,)
        The item of each strand.
    facts : list of ItemFacts
        What the household said of each item.
    sort : ndarray of int8, shape (numbers,)
        Place in `SORTS`.
    measure : list of str
        ``mass``, ``volume``, ``count``, ``energy`` or, of some strands, a counted unit.
    strands : Strands
        What each way of saying an amount comes to.
    ways_known : int
        How many of those there were.
    said : list of dict
        ``said[item]["uses" | "years"]`` is ``(entry seq, value)`` of the newest description.
    """

    def __init__(self, journal: Journal, described: list[tuple[int, dict[str, Any]]]) -> None:
        self._journal = journal
        keys = [item_key(name) for name in journal.items.texts]
        items: Items[int] = Items()
        for root, body in described:
            items.take(root, body)
        self._known = items
        numbers: dict[str, int] = {}
        self.names: list[str] = []
        self.keys: list[str] = []
        canon = np.empty(len(keys), np.int32)
        for code, key in enumerate(keys):
            end = self.canonical(key)
            number = numbers.get(end)
            if number is None:
                number = numbers[end] = len(self.names)
                self.names.append(items.spelled(end) or journal.items.texts[code])
                self.keys.append(end)
            canon[code] = number
        self.canon = canon
        self.number = numbers
        self.facts = [items.facts(key) or ItemFacts() for key in self.keys]
        self.said = [items.life(key) for key in self.keys]
        self.items = len(self.names)
        self._weights: dict[int, Weights] = {}
        self._then: dict[int, str] = {}
        self.measure = [f.measure or self._first_measure(i) for i, f in enumerate(self.facts)]
        self.look_up_units()
        self.ways_known = len(journal.ways)
        self.strands = Strands(journal, self)
        more = self.strands.item_of
        self.names += [self.names[item] for item in more]
        self.facts += [self.facts[item] for item in more]
        self.said += [self.said[item] for item in more]
        self.measure += self.strands.measure
        self.item_of = np.r_[np.arange(self.items), np.array(more, np.int64)].astype(np.int64)
        self.sort = np.array([SORTS.index(f.sort or "food") for f in self.facts], np.int8)
        self._gpw: dict[int, float | None] = {}
        self._kpg: dict[int, float | None] = {}

    # -- measures -----------------------------------------------------------------------

    @cached_property
    def said_first(self) -> dict[int, tuple[int, int, str]]:
        """How each item was first said: when, in which way, and as typed."""
        first: dict[int, tuple[int, int, str]] = {}
        for code, said in self._journal.first_said.items():
            item = int(self.canon[code])
            if item not in first or said < first[item]:
                first[item] = said
        return first

    def _first_measure(self, item: int) -> str:
        """Return the measure of an item that none was described for: that of its first amount."""
        said = self.said_first.get(item)
        if said is None:
            return "mass"
        measure = self._journal.ways.measure[said[1]]
        if measure < 0:
            return self.measure_then(item)
        return MEASURES[measure] if measure < COUNTED else "mass"

    def measure_then(self, item: int) -> str:
        """Return the measure in which lines of the first version are stored.

        The newest described before the item's first line, else that line's own; a counted unit
        was a piece then.
        """
        known = self._then.get(item)
        if known is None:
            key, _, text = self.said_first[item]
            known = self._described_before(item, key >> 3)
            if known is None:
                known = parse_amount(text, zero=True).measure
            self._then[item] = known
        return known

    def _described_before(self, item: int, ev: int) -> str | None:
        best: tuple[int, str] | None = None
        for root, words in self._words.get(item, {}).items():
            held = [measure for at, measure in words if at < ev]
            if held and held[-1] is not None and (best is None or root > best[0]):
                best = root, held[-1]
        return None if best is None else best[1]

    @cached_property
    def _words(self) -> dict[int, dict[int, list[tuple[int, str | None]]]]:
        """By item and entry, at which place in the log which measure was described; None: none."""
        journal = self._journal
        out: dict[int, dict[int, list[tuple[int, str | None]]]] = {}
        events = journal.tables["events"]
        kinds, roots = events["kind"], events["root"]
        described, struck = (list(KINDS).index(kind) for kind in ("item_described", "struck"))
        items: dict[int, int] = {}
        for ev in np.flatnonzero((kinds == described) | (kinds == struck)).tolist():
            root = int(roots[ev])
            if kinds[ev] == struck:
                if root in items:
                    out[items[root]][root].append((ev, None))
                continue
            body = journal.bodies[ev]
            item = items[root] = int(self.number[self.canonical(item_key(body["item"]))])
            words: dict[int, list[tuple[int, str | None]]] = out.setdefault(item, {})
            words.setdefault(root, []).append((ev, body.get("measure")))
        return out

    def look_up_units(self) -> None:
        """Tell pieces from counted units in old lines of items that say how many pieces those are."""
        if not any(facts.pieces_per for facts in self.facts):
            return
        for code, item in enumerate(self.canon.tolist()):
            if self.facts[item].pieces_per:
                self._journal.look_up_units(code)

    def weights(self, number: int) -> Weights:
        """Return the weights of an item."""
        item = int(self.item_of[number]) if number >= self.items else number
        if item not in self._weights:
            self._weights[item] = Weights(self.names[item], self.facts[item])
        return self._weights[item]

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
        return self._known.canonical(key)

    def find(self, name: str | None) -> int | None:
        """Return the number of the item called `name`, or None."""
        return None if name is None else self.number.get(self.canonical(item_key(name)))

    def find_strand(self, name: str) -> int | None:
        """Return the number of an item, or of a strand called ``ITEM@MEASURE``, or None."""
        found = self.find(name)
        if found is None and "@" in name:
            item, _, measure = name.rpartition("@")
            own = self.find(item)
            found = None if own is None else self.strands.of(own, measure)
        return found

    def strand_name(self, number: int) -> str:
        """Return an item's name; of a strand beside its own measure ``ITEM@MEASURE``."""
        name = self.names[number]
        return name if number < self.items else f"{name}@{self.measure[number]}"

    def several(self, number: int) -> list[int]:
        """Return all strands of an item; of a strand behind the items itself alone."""
        return self.strands.several(number) if number < self.items else [number]

    def lines(self, table: Table, rows: Array) -> tuple[Array, Array]:
        """Return the strand that each of some lines comes to and its amount there, exactly.

        Parameters
        ----------
        table : Table
            One that has lines.
        rows : ndarray of int, shape (lines,)

        Returns
        -------
        number, whole : ndarray of int64, shape (lines,)
        """
        ways = table["way"][rows]
        number = self.strands.number[ways] if ways.size else np.zeros(0, np.int64)
        return number, self.strands.wholes(ways, table["whole"][rows], table["times"][rows])

    def comes(self, item: int, line: Mapping[str, Any]) -> tuple[int | None, int, str]:
        """Return what a stored line of a body comes to.

        Parameters
        ----------
        item : int
            Its item's number.
        line : mapping
            With `whole` and `measure`, else of the first version.

        Returns
        -------
        number : int or None
            Of the strand; None where no line of the book comes to it.
        whole : int
        measure : str
        """
        measure, unit, many = line.get("measure"), line.get("per"), int(line["whole"])
        if measure is None:
            measure, many = self.strands.stored(item, line)
            unit = None
        elif measure == "count" and unit is not None and is_counted(unit):
            measure = unit
        come = self.weights(item).come(
            measure, unit if measure == "volume" else None, self.measure[item]
        )
        if come.factor is not None:
            many = round((int(line["times"]) if come.of_times else many) * come.factor)
        return self.strands.of(item, come.measure), many, come.measure

    def counted(self, item: Array, whole: Array) -> tuple[Array, Array]:
        """Return the strand to which pieces of items come, and how much they are there.

        Parameters
        ----------
        item : ndarray of int, shape (lines,)
            Codes of raw names.
        whole : ndarray of int64, shape (lines,)
            Thousandths of a piece.
        """
        if not item.size:
            return np.zeros(0, np.int64), whole
        codes, which = np.unique(item, return_inverse=True)
        count = MEASURES.index("count")
        found = [self._journal.ways.find(code, count) for code in codes.tolist()]
        assert None not in found
        ways = np.array(found, np.int64)[which]
        return self.strands.number[ways], self.strands.wholes(ways, whole, whole)

    def trimmed(self, rows: Array, whole: Array) -> Array:
        """Return what was trimmed off supplies, in the strand of their lines; `whole` at the most.

        Parameters
        ----------
        rows : ndarray of int, shape (lines,)
            Rows of the journal's supplies.
        whole : ndarray of int64, shape (lines,)
            The lines' amounts before.
        """
        table = self._journal.tables["supplies"]
        off = table["trimmed"][rows].astype(np.int64)
        some = np.flatnonzero(off)
        if not some.size:
            return off
        mine = rows[some]
        way, own = table["trimmed_way"][mine], table["way"][mine]
        taken = self.strands.wholes(way, off[some], table["trimmed_times"][mine])
        same = self.strands.number[way] == self.strands.number[own]
        off[some] = np.where(same, np.minimum(taken, np.maximum(whole[some], 0)), 0)
        return off

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
    def equivalents(self) -> list[tuple[Array, Array]]:
        """Where else a strand's price may be found, the likeliest first (rule 13).

        Each is the strand of its shop equivalent (-1: none) and what one whole unit is worth in
        that: in the strand's own measure, in the equivalent's, in mass.
        """
        several = [(np.full(len(self), -1, np.int64), np.full(len(self), np.nan)) for _ in range(3)]
        for number, facts in enumerate(self.facts):
            item = None if facts.shop_equivalent is None else self.find(facts.shop_equivalent)
            if item is None or item == self.item_of[number]:
                continue
            own = self.strands.of(item, self.measure[number])
            mass = self.strands.of(item, "mass")
            for (other, factor), strand in zip(several, (own, item, mass), strict=True):
                scale = None if strand is None else self._scale(number, strand)
                if strand is not None and scale is not None:
                    other[number], factor[number] = strand, scale
        return [pair for pair in several if (pair[0] >= 0).any()]

    def _scale(self, number: int, other: int) -> float | None:
        if self.measure[number] == self.measure[other]:
            return 1.0
        own, its = self.grams_per_whole(number), self.grams_per_whole(other)
        return None if own is None or its is None else own / its

    def _weigh(self, number: int) -> float | None:
        measure = self.measure[number]
        if measure == "mass":
            return 0.001
        found = self.weights(number).per_whole(measure)
        return None if found is None else float(found.grams)

    def kcal_per_gram(self, number: int) -> float | None:
        """Return kcal in a gram as weighed: the item's own figure, else its food-table row's.

        The table's figures are per 100 g of edible portion, so the refuse is taken off what is weighed
        as bought. A piece that weighs what the table says, an egg, is edible portion already.
        """
        if number not in self._kpg:
            self._kpg[number] = self._energy(number)
        return self._kpg[number]

    def _energy(self, number: int) -> float | None:
        facts = self.facts[number]
        edible = 1.0
        if facts.food is not None:
            from ledger.reference import foods

            measure = self.measure[number]
            weight = None if measure == "mass" else self.weights(number).per_whole(measure)
            if weight is None or weight.source != "food table":
                edible = 1 - float(foods.refuse_pct(facts.food) or 0) / 100
        if facts.kcal_per_100g is not None:
            return float(facts.kcal_per_100g) / 100 * edible
        if facts.food is not None:
            kcal = foods.kcal_per_100g(facts.food)
            return None if kcal is None else float(kcal) / 100 * edible
        return None


class Settings(known.Settings[int]):
    """Settings as known at one moment, and as numbers on many days."""

    def numbers(self, name: str, days: Array, read: Callable[[str | None], float | None]) -> Array:
        """Return a setting as a number on each of many days, NaN where `read` makes none of it."""
        from_day, said = self.values(name)
        if not said:
            return np.full(np.size(days), np.nan)
        values = [read(text) for text in said]
        at = np.maximum(np.searchsorted(from_day, days, side="right") - 1, 0)
        return np.array([np.nan if v is None else v for v in values], np.float64)[at]
