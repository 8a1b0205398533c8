"""What the journal keeps of each event and of each of its lines, column by column."""

from __future__ import annotations

from typing import Any

import numpy as np

from ledger.kinds import ROLES, SUPPLIED

__all__ = ["CAUSES", "FIELDS", "GAUGES", "ROLES", "TABLES"]

FIELDS = SUPPLIED
"""Which list a supply stands in."""

CAUSES = (
    "",
    "gift",
    "barter",
    "forage",
    "sold",
    "spoiled",
    "seal failed",
    "broken",
    "too old",
    "pests",
    "fed to animals",
    "composted",
    "lost",
    "other",
    "eaten",
)
"""How something was received or given, why it was discarded, what became of what was missing."""

GAUGES = (None, "dial", "weighted")
"""Which gauge a batch was under, by code."""

_I4, _I8, _F8, _I1, _I2 = np.int32, np.int64, np.float64, np.int8, np.int16

_AMOUNT: dict[str, Any] = {"ev": _I4, "n": _I4, "item": _I4, "whole": _I8, "way": _I4, "times": _I8}

TABLES: dict[str, dict[str, Any]] = {
    "events": {
        "kind": _I1,
        "on": _I4,
        "phase": _I1,
        "at": _I2,
        "root": _I4,
        "cause": _I1,
        "people": _F8,
        "guests": _F8,
        "liked": _F8,
        "got": _F8,
        "whom": _I4,
        "by": _I4,
    },
    "supplies": {
        **_AMOUNT,
        "field": _I1,
        "kept": _I1,
        "money": _F8,
        "trimmed": _I8,
        "trimmed_way": _I4,
        "trimmed_times": _I8,
        "jars": _I4,
        "jar": _I4,
        "lids": _I4,
        "unsealed": _I4,
        "share": _F8,
        "uses": _F8,
        "years": _F8,
        "for_crop": _I4,
    },
    "draws": {**_AMOUNT, "role": _I1, "lot": _I4},
    "counts": {**_AMOUNT, "own": _I1},
    "prices": {**_AMOUNT, "money": _F8},
    "batches": {
        "ev": _I4,
        "makes": _I4,
        "method": _I1,
        "loads": _I4,
        "gauge": _I1,
        "went": _I1,
    },
    "planted": {
        "ev": _I4,
        "crop": _I4,
        "variety": _I4,
        "bed": _I4,
        "plants": _I4,
        "area": _I4,
        "length": _I4,
    },
    "picked": {"row": _I4, "variety": _I4, "bed": _I4, "plants": _I4},
    "metered": {"ev": _I4, "gas": _I1, "joules": _I8},
    "equipment": {"ev": _I4, "item": _I4},
    "work": {"ev": _I4, "person": _I4, "minutes": _F8},
}
