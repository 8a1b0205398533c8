"""Strands: the lines of an item that come to one measure (the reckoning, rule 13).

A strand has a number like an item, and rules 3 to 12 hold for it as for an item. The strand in the
item's own measure has the item's number; others follow behind the items.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Any

import numpy as np

from ledger.amounts import weight_factor
from ledger.reference.crossing import MEASURES, Weights
from ledger.replay.columns import Array
from ledger.replay.ways import COUNTED, OF_PIECES

if TYPE_CHECKING:
    from ledger.replay.columns import Table
    from ledger.replay.facts import Facts
    from ledger.replay.journal import Journal

__all__ = ["Strands"]


@dataclass(frozen=True)
class _Step:
    """One multiplication, rounded half to even: of a line's `times`, else of its whole units."""

    factor: Fraction
    of_times: bool = False


class Strands:
    """What each way of saying an amount comes to, at the weights of one moment.

    Attributes
    ----------
    number : ndarray of int64, shape (ways,)
        The strand that lines said so come to.
    item_of, measure : list
        Of the strands behind the items: the item's number and the measure.
    """

    def __init__(self, journal: Journal, facts: Facts) -> None:
        self._journal, self._facts = journal, facts
        ways = journal.ways
        count = len(ways)
        self.item_of: list[int] = []
        self.measure: list[str] = []
        self._of: dict[tuple[int, str], int] = {}
        self.number = np.zeros(count, np.int64)
        self._steps: list[tuple[_Step, ...]] = []
        self._pieces: list[tuple[_Step, ...] | None] = []
        items = facts.canon.tolist()
        for code in range(count):
            self._add(code, items[ways.item[code]], ways.measure[code], ways.unit[code])
        self._crosses = np.array([bool(steps) for steps in self._steps], bool)
        self._any = bool(self._crosses.any())

    def of(self, item: int, measure: str) -> int | None:
        """Return the strand of an item in a measure, or None where no line comes to it."""
        return item if self._facts.measure[item] == measure else self._of.get((item, measure))

    def several(self, item: int) -> list[int]:
        """Return every strand of an item, that in its own measure first."""
        return [item, *(number for (one, _), number in self._of.items() if one == item)]

    def _add(self, code: int, item: int, measure: int, unit: int) -> None:
        facts = self._facts
        target, said = facts.measure[item], MEASURES[measure] if 0 <= measure < COUNTED else None
        typed = self._journal.units.texts[unit] if unit >= 0 else None
        steps: tuple[_Step, ...] = ()
        if said is None and measure != COUNTED:
            said, steps = self._stored(item, measure, typed)
            typed = None
        name = said or typed or "piece"
        if name == target and name in MEASURES:
            come, more = target, None
        else:
            found = self._weights(item).come(name, typed if name == "volume" else None, target)
            come = found.measure
            more = None if found.factor is None else _Step(found.factor, found.of_times)
        self._steps.append(steps if more is None else (*steps, more))
        self.number[code] = self._number(item, come)
        many = (facts.facts[item].pieces_per or {}).get(name)
        pieces = (_Step(Fraction(many)),) if many is not None and name not in MEASURES else None
        self._pieces.append(steps if name == "count" else pieces)

    def _stored(self, item: int, measure: int, typed: str | None) -> tuple[str, tuple[_Step, ...]]:
        """Return the measure of a line of the first version and how it is weighed anew in it."""
        facts, then = self._facts.facts[item], self._facts.measure_then(item)
        if measure == OF_PIECES:
            many = (facts.pieces_per or {}).get(typed or "")
            return then, () if many is None or then != "count" else (_Step(Fraction(many)),)
        if typed is None or (not facts.g_per and facts.g_per_ml is None):
            return then, ()
        factor = weight_factor(typed, then, facts.g_per or {}, facts.g_per_ml)
        return then, () if factor is None else (_Step(factor, of_times=True),)

    def stored(self, item: int, line: Mapping[str, Any]) -> tuple[str, int]:
        """Return the measure of a line of the first version and its amount there, weighed anew."""
        known = item in self._facts.said_first
        then = self._facts.measure_then(item) if known else self._facts.measure[item]
        whole, unit = int(line["whole"]), line.get("per")
        if unit is None:
            return then, whole
        facts = self._facts.facts[item]
        factor = weight_factor(unit, then, facts.g_per or {}, facts.g_per_ml)
        return then, whole if factor is None else round(int(line["times"]) * factor)

    def _weights(self, item: int) -> Weights:
        return self._facts.weights(item)

    def _number(self, item: int, measure: str) -> int:
        if self._facts.measure[item] == measure:
            return item
        number = self._of.get((item, measure))
        if number is None:
            number = self._of[item, measure] = len(self._facts.keys) + len(self.item_of)
            self.item_of.append(item)
            self.measure.append(measure)
        return number

    # -- lines --------------------------------------------------------------------------

    def wholes(self, ways: Array, whole: Array, times: Array) -> Array:
        """Return the amounts of lines in whole units of the strands they come to, exactly.

        Parameters
        ----------
        ways, whole, times : ndarray of int, shape (lines,)
            Number of each line's way, its whole units as stored, thousandths of the unit typed.

        Returns
        -------
        ndarray of int64, shape (lines,)
        """
        return self._worked(ways, whole, times, self._crosses, self._steps) if self._any else whole

    def _worked(
        self,
        ways: Array,
        whole: Array,
        times: Array,
        crosses: Array,
        steps: list[tuple[_Step, ...]],
    ) -> Array:
        crossed = np.flatnonzero(crosses[ways])
        if not crossed.size:
            return whole
        out = whole.astype(np.int64)
        order = crossed[np.argsort(ways[crossed], kind="stable")]
        found, starts = np.unique(ways[order], return_index=True)
        for way, rows in zip(found.tolist(), np.split(order, starts[1:]), strict=True):
            for step in steps[way]:
                out[rows] = _rounded(times[rows] if step.of_times else out[rows], step.factor)
        return out

    def pieces(self, table: Table, rows: Array) -> Array:
        """Return the pieces of lines in thousandths, -1 where they were said otherwise.

        Jars and equipment count in pieces, whatever else is known of them.
        """
        ways = table["way"][rows]
        if not ways.size:
            return np.zeros(0, np.int64)
        steps = [one or () for one in self._pieces]
        crosses = np.array([bool(one) for one in steps], bool)
        out = self._worked(ways, table["whole"][rows], table["times"][rows], crosses, steps)
        return np.where(np.array([p is not None for p in self._pieces], bool)[ways], out, -1)


_LIMIT = 1 << 62


def _rounded(many: Array, factor: Fraction) -> Array:
    """Return round-half-even(many x factor), exactly; beyond what can be held, the limit."""
    num, den = factor.numerator, factor.denominator
    if many.size and int(many.max()) * num * 2 < _LIMIT and den < 1 << 61:
        product = many * num
        quotient, rest = np.divmod(product, den)
        up = (2 * rest > den) | ((2 * rest == den) & (quotient % 2 == 1))
        return np.asarray(quotient + up)
    return np.array([min(round(int(one) * factor), _LIMIT) for one in many.tolist()], np.int64)
