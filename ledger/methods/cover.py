"""Days that a store lasts: by nutrient, by water, and through a power cut.

Days = supply / need a day, for each nutrient; the shortest comes first. Needs are recommended
allowances; for a group the average requirement is the fairer yardstick (Institute of Medicine,
Dietary Reference Intakes): below it a store is likely short, up to the allowance it may be.
"""

from __future__ import annotations

from collections.abc import Mapping

__all__ = ["freezer_hours", "shortest", "standing"]

US_GALLON_L = 3.785411784
"""Litres in a US gallon (NIST SP 811)."""
FRIDGE_HOURS = 4.0
"""A refrigerator left shut (USDA FSIS, second hand)."""
_FULL, _HALF = 48.0, 24.0
"""A freezer left shut, full and half full (USDA FSIS, second hand)."""


def shortest(days: Mapping[str, float]) -> str | None:
    """Return the nutrient that is short first; None of none."""
    return min(days, key=lambda name: (days[name], name)) if days else None


def standing(supply: float, need: float, average: float | None) -> str:
    """Return ``covered``, ``may be short`` or ``likely short`` of a supply for the same days.

    Parameters
    ----------
    supply, need : float
        The need by allowance or adequate intake.
    average : float or None
        By the estimated average requirement; None where there is none.
    """
    if supply >= need:
        return "covered"
    return "may be short" if average is None or supply >= average else "likely short"


def freezer_hours(full: float | None) -> float | None:
    """Return the hours that a shut freezer keeps: 24 half full, 48 full, linear between.

    The line between is our own. Below half full nothing is published, and it is less than 24: None.

    Parameters
    ----------
    full : float or None
        The part of its room that is filled, 0 to 1; None where it is not known.
    """
    if full is None or full < 0.5:
        return None
    return _HALF + (_FULL - _HALF) * (min(full, 1.0) - 0.5) * 2
