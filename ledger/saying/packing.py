"""What was put away in bags or jars, its weight said beside them: ``froze 5 lb strawberries in 5 bags``."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ledger.amounts import unit_factor
from ledger.saying.beside import counted
from ledger.saying.numbers import figure
from ledger.saying.quantities import Quantity
from ledger.saying.things import Thing

__all__ = ["packed_up"]


def packed_up(batch: list[Thing]) -> list[Thing]:
    """Settle in place what weight and containers of one thing say together; return what went in.

    Bags alone are a note beside the weight. Of bags with a size that come to another weight it is asked which
    is meant; a weight beside jars, or beside bags of a volume, is what went in.
    """
    said = [(thing, one) for thing in batch for one in thing.amounts]
    weighed = [pair for pair in said if _is_weighed(pair[1])]
    packs = [pair for pair in said if pair not in weighed and _is_pack(pair[1])]
    if len(weighed) != 1 or not packs or len(packs) + 1 != len(said):
        return []
    (thing, weight), others = weighed[0], [one for _, one in packs]
    filled = [one.sort in ("jar", "measure") and not _is_like(weight, one) for one in others]
    if any(filled):
        return _parted(batch, thing) if all(filled) else []
    for other, one in packs:
        thing.note = "; ".join(filter(None, (thing.note, _noted(weight, one))))
        if _is_like(weight, one) and _ratio(weight, one) != 1 and not _is_size(weight, one):
            options = (weight.text(), one.text())
            thing.amounts = [replace(weight, doubt="cuts", options=options)]
        else:
            thing.amounts = [weight]
        if other is not thing:
            thing.words = thing.words or other.words
            batch.remove(other)
    return []


def _parted(batch: list[Thing], thing: Thing) -> list[Thing]:
    """Take the weighed thing out of a batch of jars that bear its name."""
    if len(thing.amounts) > 1:
        return []
    batch.remove(thing)
    for one in batch:
        one.words = one.words or thing.words
    return [thing]


def _is_weighed(said: Quantity) -> bool:
    """Return whether an amount is a weight or a volume, and of no containers."""
    return said.sort == "measure" and said.packs is None and not said.doubt


def _is_like(weight: Quantity, one: Quantity) -> bool:
    """Return whether bags have a size in the measure of what they hold."""
    return one.sort == "measure" and one.dimension == weight.dimension


def _is_pack(said: Quantity) -> bool:
    return not said.doubt and (said.sort in ("unknown", "counted", "jar") or said.packs is not None)


def _ratio(weight: Quantity, one: Quantity) -> Fraction:
    """Return how many times an amount goes into a weight."""
    first, second = unit_factor(weight.unit or ""), unit_factor(one.unit or "")
    assert first is not None
    assert second is not None
    return Fraction(weight.many * first[1]) / (one.many * second[1])


def _is_size(weight: Quantity, one: Quantity) -> bool:
    """Return whether an amount is the size of each bag alone: ``5 lb in 1-lb bags``."""
    times = _ratio(weight, one)
    return one.packs == 1 and times.denominator == 1


def _noted(weight: Quantity, one: Quantity) -> str:
    """Return the containers as a note: ``5 bags``, ``5 x 1 lb``."""
    if one.packs is None or not _is_like(weight, one):
        return counted(one)
    if _is_size(weight, one):
        return f"{figure(_ratio(weight, one))} x {one.text()}"
    return f"{figure(one.packs)} x {replace(one, many=one.many / one.packs).text()}"
