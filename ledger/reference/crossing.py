"""What an amount of an item weighs, and what it comes to in another measure (rule 13).

An item's own weights come first, then the food table's household measures, then the published
weights of containers. All factors are exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from ledger.amounts import is_counted, unit_factor
from ledger.items import ItemFacts
from ledger.reference import containers, foods

__all__ = ["MEASURES", "Come", "Weight", "Weights"]

MEASURES = ("mass", "volume", "count", "energy")
"""What an item may be reckoned in; every other measure is the name of a counted unit."""

_OWN = "by the item's own weight"
_LARGEST_FIRST = ("bushel", "peck", "gal", "qt", "pt", "cup", "fl oz", "tbsp", "tsp")
"""Volume units that the published tables have weights of."""


@dataclass(frozen=True)
class Weight:
    """Grams of one of a unit, and where that is from: ``item``, ``food table``, ``container table``.

    `document` is the id of what is published, as in docs/sources.md.
    """

    grams: Fraction
    source: str
    note: str = _OWN
    document: str = ""


@dataclass(frozen=True)
class Come:
    """What a line comes to.

    Attributes
    ----------
    measure : str
        One of `MEASURES`, or a counted unit.
    factor : Fraction or None
        Whole units of `measure` in one of what it is taken of; None: the line's `whole` as it is.
    of_times : bool
        Whether the factor is for a thousandth of the unit typed, else for a whole unit.
    weight : Weight or None
        The weight that led there.
    """

    measure: str
    factor: Fraction | None = None
    of_times: bool = False
    weight: Weight | None = None


class Weights:
    """The weights of one item.

    Parameters
    ----------
    name : str
        Under which the container table is asked.
    facts : ItemFacts
    """

    def __init__(self, name: str, facts: ItemFacts) -> None:
        self.name, self.facts = name, facts
        self._own = facts.g_per or {}

    # -- weights ------------------------------------------------------------------------

    def of_unit(self, unit: str) -> Weight | None:
        """Return what one of a unit weighs: a mass, a piece, a counted unit or a volume."""
        known = unit_factor(unit)
        if known is not None and known[0] == "mass":
            return Weight(known[1] / 1000, "item")
        if unit in self._own:
            return Weight(Fraction(self._own[unit]), "item")
        if known is None:
            return self._published(unit)
        if known[0] == "count":
            piece = self.of_unit("piece") if unit != "piece" else self._published(unit)
            return None if piece is None else _times(piece, known[1] / 1000)
        if known[0] != "volume":
            return None
        if self.facts.g_per_ml is not None:
            return Weight(Fraction(self.facts.g_per_ml) * known[1] / 1000, "item")
        return self._published(unit) or self._by_largest(known[1])

    def _published(self, unit: str) -> Weight | None:
        """Return what the food table, else the container table says of a unit."""
        if self.facts.food is not None:
            measure = foods.household_measure(self.facts.food, unit)
            if measure is not None:
                note = f"one {measure.label} weighs {float(measure.grams):g} g ({measure.source})"
                return Weight(measure.grams, "food table", note, "A1")
        container = containers.weight(self.name, unit)
        if container is None:
            return None
        pounds = float(container.grams) / 453.59237
        note = f"a {unit} weighs {pounds:g} lb ({container.basis}, {container.source})"
        return Weight(container.grams, "container table", note, container.source)

    def _by_largest(self, ul: Fraction) -> Weight | None:
        found = self._largest()
        return None if found is None else _times(found, ul)

    def _largest(self) -> Weight | None:
        """Return the weight of one ul by the largest volume unit that has one."""
        own = [(known[1], unit) for unit in self._own if (known := _volume(unit)) is not None]
        if own:
            ul, unit = max(own)
            return Weight(Fraction(self._own[unit]) / ul, "item")
        for unit in _LARGEST_FIRST:
            weight, known = self._published(unit), unit_factor(unit)
            if weight is not None and known is not None:
                return _times(weight, 1 / known[1])
        return None

    def per_whole(self, measure: str) -> Weight | None:
        """Return the grams of one whole unit of a measure: a mg, a ul, a thousandth of a piece or unit."""
        if measure == "mass":
            return Weight(Fraction(1, 1000), "item")
        if measure == "volume":
            if self.facts.g_per_ml is not None:
                return Weight(Fraction(self.facts.g_per_ml) / 1000, "item")
            return self._largest()
        if measure == "energy":
            return None
        found = self.of_unit("piece" if measure == "count" else measure)
        return None if found is None else _times(found, Fraction(1, 1000))

    # -- crossing -----------------------------------------------------------------------

    def come(self, measure: str, unit: str | None, target: str) -> Come:
        """Return what an amount comes to of an item that is reckoned in `target`.

        Parameters
        ----------
        measure : str
            The dimension typed: one of `MEASURES`, or a counted unit.
        unit : str or None
            The unit typed, of a volume; None where it is not known.
        target : str
            One of `MEASURES`.
        """
        many = (self.facts.pieces_per or {}).get(measure)
        pieces = Fraction(many) if many is not None and measure not in MEASURES else None
        said = "count" if pieces is not None else measure
        if said == target:
            return Come(said, pieces)
        of_times = measure == "volume" and unit is not None
        weight = self.of_unit(unit) if of_times and unit is not None else self.per_whole(said)
        if weight is None:
            return Come(said, pieces)
        if of_times:
            weight = _times(weight, Fraction(1, 1000))
        grams = weight.grams * (1 if pieces is None else pieces)
        each = self.per_whole(target)
        if each is not None and each.grams:
            return Come(target, grams / each.grams, of_times, weight)
        return Come("mass", None if said == "mass" else grams * 1000, of_times, weight)


def _times(weight: Weight, many: Fraction) -> Weight:
    return Weight(weight.grams * many, weight.source, weight.note, weight.document)


@cache
def _volume(unit: str) -> tuple[str, Fraction] | None:
    known = None if is_counted(unit) else unit_factor(unit)
    return known if known is not None and known[0] == "volume" else None
