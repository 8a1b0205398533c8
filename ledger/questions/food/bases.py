"""The bases by which food is counted, and the origins that it is counted under."""

from __future__ import annotations

from ledger.replay import ORIGINS

__all__ = ["BASES", "CARRIED", "SIX", "UNITS"]

BASES = ("energy", "weight", "value")
UNITS = {"energy": "kcal", "weight": "g", "value": "money"}
"""Unit of each basis; value is at the shop's price of the day of use."""
SIX = ORIGINS[:6]
"""Origins of raw lots; a batch is what went into it."""
CARRIED = {"weight": 8, "energy": 14, "value": 20}
"""The first of six columns, by origin, in which `Costs.lot` carries each basis of made lots."""
