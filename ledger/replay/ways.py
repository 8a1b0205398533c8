"""Ways in which amounts were said: of which item, in which dimension and unit, each numbered once.

A book has millions of lines and a few hundred such ways; what a line comes to follows from its way
alone, so replay works it out once for each (`strands`).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ledger.reference.crossing import MEASURES
from ledger.replay.columns import Array

__all__ = ["COUNTED", "FIRST_VERSION", "OF_PIECES", "Ways"]

COUNTED = len(MEASURES)
"""The code of a counted unit, which `unit` names; the codes before it are places in `MEASURES`."""

FIRST_VERSION = -1
"""The code of a line of the first version: in the measure that its item then had."""

OF_PIECES = -2
"""The same, of a line in a counted unit, which was stored as pieces; `unit` names it."""

_UNIT_BITS, _MEASURES = 24, 8


class Ways:
    """Ways of saying an amount, numbered in the order of first sight.

    Attributes
    ----------
    item, measure, unit : list of int
        Code of the item's raw name; code of the measure; code of the unit, -1 for none.
    """

    def __init__(self) -> None:
        self.item: list[int] = []
        self.measure: list[int] = []
        self.unit: list[int] = []
        self._codes: dict[int, int] = {}
        self._plain = np.full(64, -1, np.int32)

    def __len__(self) -> int:
        return len(self.item)

    def copy(self) -> Ways:
        """Return ways that grow on their own from here."""
        other = Ways()
        other.item, other.measure, other.unit = (
            self.item.copy(),
            self.measure.copy(),
            self.unit.copy(),
        )
        other._codes, other._plain = self._codes.copy(), self._plain.copy()
        return other

    def code(self, item: int, measure: int, unit: int = -1) -> int:
        """Return the number of a way."""
        return self._code(item << 28 | (measure + 2) << _UNIT_BITS | (unit + 1))

    def codes(
        self, items: Sequence[int], measures: Sequence[int] | int, units: Sequence[int] | int
    ) -> Array:
        """Return the numbers of many, shape (lines,)."""
        flat = np.asarray(items, np.int64) * _MEASURES + (np.asarray(measures, np.int64) + 2)
        if isinstance(units, int):
            return self._of_no_unit(flat)
        unit = np.asarray(units, np.int64)
        typed = np.flatnonzero(unit >= 0)
        plain = np.flatnonzero(unit < 0)
        out = np.empty(unit.size, np.int32)
        out[plain] = self._of_no_unit(flat[plain])
        item, measure = np.divmod(flat[typed], _MEASURES)
        key = item << 28 | measure << _UNIT_BITS | (unit[typed] + 1)
        found, which = np.unique(key, return_inverse=True)
        out[typed] = np.array([self._code(one) for one in found.tolist()], np.int32)[which]
        return out

    def _of_no_unit(self, flat: Array) -> Array:
        """Return the numbers of ways without a unit, by item and measure: looked up, not sorted."""
        most = int(flat.max(initial=0)) + 1
        if most > self._plain.size:
            more = np.full(most + most // 2, -1, np.int32)
            more[: self._plain.size] = self._plain
            self._plain = more
        new = flat[self._plain[flat] < 0]
        for one in dict.fromkeys(new.tolist()):
            item, measure = divmod(one, _MEASURES)
            self._plain[one] = self._code(item << 28 | measure << _UNIT_BITS)
        return self._plain[flat]

    def find(self, item: int, measure: int, unit: int = -1) -> int | None:
        """Return the number of a way, or None where nobody said anything so."""
        return self._codes.get(item << 28 | (measure + 2) << _UNIT_BITS | (unit + 1))

    def _code(self, key: int) -> int:
        code = self._codes.get(key)
        if code is None:
            code = self._codes[key] = len(self.item)
            self.item.append(key >> 28)
            self.measure.append((key >> _UNIT_BITS & 15) - 2)
            self.unit.append((key & ((1 << _UNIT_BITS) - 1)) - 1)
        return code
