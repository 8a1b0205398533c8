"""Crossing from one measure to another by a known weight, exactly."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ledger.amounts._units import NAMED_PIECES, factor

__all__ = ["weight_factor"]


def grams_of_unit(per: str, g_per: Mapping[str, str], g_per_ml: str | None) -> Fraction | None:
    """Return the grams of one unit of an item: its own weight, else density times volume."""
    known = factor(per)
    if known is not None and known[0] == "mass":
        return known[1] / 1000
    if per in g_per:
        return Fraction(g_per[per])
    if known is not None and known[0] == "volume" and g_per_ml is not None:
        return Fraction(g_per_ml) * known[1] / 1000
    if known is not None and known[0] == "count" and "piece" in g_per:
        return Fraction(g_per["piece"]) * known[1] / 1000
    return None


def _grams_of_whole(
    measure: str, g_per: Mapping[str, str], g_per_ml: str | None
) -> Fraction | None:
    """Return the grams of one whole unit of an item kept by `measure`."""
    if measure == "mass":
        return Fraction(1, 1000)
    if measure == "count":
        return Fraction(g_per["piece"]) / 1000 if "piece" in g_per else None
    if measure != "volume":
        return None
    if g_per_ml is not None:
        return Fraction(g_per_ml) / 1000
    known = {unit: one for unit in g_per if (one := factor(unit)) and one[0] == "volume"}
    if not known:
        return None
    largest = max(known, key=lambda unit: known[unit][1])
    return Fraction(g_per[largest]) / known[largest][1]


def weight_factor(
    per: str, target_measure: str, g_per: Mapping[str, str], g_per_ml: str | None
) -> Fraction | None:
    """Return whole units of an item in one thousandth of a unit, or None where no weight is known.

    Parameters
    ----------
    per : str
        The canonical unit typed.
    target_measure : str
        What the item is kept by.
    g_per : mapping of str to str
        Grams of one of each unit, as the household says.
    g_per_ml : str or None
        Grams of one millilitre.
    """
    grams = grams_of_unit(per, g_per, g_per_ml)
    each = _grams_of_whole(target_measure, g_per, g_per_ml)
    if target_measure == "count" and per in NAMED_PIECES and (grams is None or each is None):
        return None
    if grams is None or not each:
        return None
    return grams / each / 1000
