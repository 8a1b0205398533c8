"""Rule 13: what a line comes to, by the weights known now; lines of one measure are a strand."""

from __future__ import annotations

from fractions import Fraction as F
from typing import NamedTuple

from oracle.units import CONTAINERS, GRAMS, ML, PIECES, POUND_G, measure_of_text, unit_of_text

MEASURES = ("mass", "volume", "count", "energy")


class Strand(NamedTuple):
    """The lines of an item that come to one measure, or to one counted unit."""

    item: str
    measure: str


class Weights:
    """The weights of one item: its own, else the container table's (there is no food table here)."""

    def __init__(self, name, facts):
        self.name, self.facts = name, facts
        self.own = {unit: F(grams) for unit, grams in facts.get("g_per", {}).items()}
        per_ml = facts.get("g_per_ml")
        self.per_ml = None if per_ml is None else F(per_ml)

    def _container(self, unit):
        pounds = CONTAINERS.get((self.name, unit))
        return None if pounds is None else F(pounds) * POUND_G

    def counted(self, unit):
        """Return the grams of one piece, or of one of a counted unit."""
        return self.own.get(unit) or self._container(unit)

    def density(self):
        """Return grams per ml: as said, else of the largest volume unit that has a weight."""
        if self.per_ml is not None:
            return self.per_ml
        own = [unit for unit in self.own if unit in ML]
        if own:
            largest = max(own, key=ML.get)
            return self.own[largest] / ML[largest]
        there = [unit for unit in ML if self._container(unit)]
        if not there:
            return None
        largest = max(there, key=ML.get)
        return self._container(largest) / ML[largest]

    def volume(self, unit):
        """Return the grams of one volume unit."""
        if unit in self.own:
            return self.own[unit]
        if self.per_ml is not None:
            return self.per_ml * ML[unit]
        if self._container(unit):
            return self._container(unit)
        each = self.density()
        return None if each is None else each * ML[unit]


class Said(NamedTuple):
    """An amount as said: in whole units of a measure, or `many` of a unit."""

    measure: str
    whole: int
    unit: str | None = None
    many: F | None = None


def grams(weights, said):
    """Return what an amount weighs, or None."""
    if said.measure == "mass":
        return F(said.whole, 1000)
    if said.measure == "energy":
        return None
    if said.measure == "volume" and said.unit is not None:
        each = weights.volume(said.unit)
        return None if each is None else said.many * each
    if said.measure == "volume":
        each = weights.density()
        return None if each is None else F(said.whole, 1000) * each
    each = weights.counted("piece" if said.measure == "count" else said.measure)
    return None if each is None else F(said.whole, 1000) * each


def comes_to(weights, said, target):
    """Return (measure, whole) of an amount of an item that is reckoned in `target`."""
    pieces = weights.facts.get("pieces_per", {}).get(said.measure)
    exact = F(said.whole)
    if pieces is not None and said.measure not in MEASURES:
        exact = said.whole * F(pieces)
        said = Said("count", exact)
    if said.measure == target:
        return target, round(exact)
    weight = grams(weights, said)
    if weight is None:
        return said.measure, round(exact)
    if target == "volume" and weights.density():
        return target, round(weight / weights.density() * 1000)
    if target == "count" and weights.counted("piece"):
        return target, round(weight / weights.counted("piece") * 1000)
    return "mass", round(weight * 1000)


def read(line, prefix=""):
    """Return a line of today as it was said; None for one of the first version."""
    measure, per = line.get(f"{prefix}measure"), line.get(f"{prefix}per")
    if measure is None:
        return None
    whole = line[f"{prefix}whole"]
    if measure == "volume" and per is not None:
        return Said(measure, whole, per, F(line[f"{prefix}times"], 1000))
    if measure == "count" and per is not None and per not in PIECES:
        measure = per
    return Said(measure, whole)


def read_first(weights, line, then):
    """Return a line of the first version, kept in the measure `then`, at the household's own weights."""
    whole, per = line["whole"], line.get("per")
    if line.get("basis", "exact") != "exact" and per is not None:
        each = _own_grams(weights, per)
        one = _own_grams_of_whole(weights, then)
        if each and one:
            whole = round(F(line["times"], 1000) * each / one)
    elif then == "count" and line.get("amount"):
        unit = unit_of_text(line["amount"])
        if unit in weights.facts.get("pieces_per", {}):
            return Said("count", round(whole * F(weights.facts["pieces_per"][unit])))
    return Said(then, whole)


def _own_grams(weights, unit):
    if unit in GRAMS:
        return GRAMS[unit]
    if unit in weights.own:
        return weights.own[unit]
    if unit in ML and weights.per_ml is not None:
        return weights.per_ml * ML[unit]
    if unit in PIECES and "piece" in weights.own:
        return weights.own["piece"] * PIECES[unit]
    return None


def _own_grams_of_whole(weights, measure):
    if measure == "mass":
        return F(1, 1000)
    each = None
    if measure == "count":
        each = weights.own.get("piece")
    elif measure == "volume" and (weights.per_ml or any(unit in ML for unit in weights.own)):
        each = weights.density()
    return None if each is None else each / 1000


def first_measure(line, then):
    """Return the measure of an item that was first said so: mass, where in a counted unit."""
    said = read(line)
    if said is None:
        return then or measure_of_text(line.get("amount") or "1 pint jar")
    return said.measure if said.measure in MEASURES else "mass"
