"""Ways of putting food up, and where each keeps it unless told otherwise."""

from __future__ import annotations

from typing import Literal

__all__ = ["CANNING", "METHODS", "Method", "kept_by"]

Method = Literal[
    "boiling water",
    "pressure",
    "freeze",
    "dry",
    "ferment",
    "pickle cold",
    "jam uncooked",
    "cellar",
    "cook",
]

METHODS: tuple[str, ...] = Method.__args__  # type: ignore[attr-defined]

CANNING = frozenset({"boiling water", "pressure"})
"""The methods whose fuel and equipment are borne by the jars, not by the pot."""

_KEPT = {
    "boiling water": "shelf",
    "pressure": "shelf",
    "dry": "shelf",
    "freeze": "freezer",
    "cellar": "cellar",
}


def kept_by(method: str) -> str:
    """Return where something put up by `method` is kept when nobody says."""
    return _KEPT.get(method, "fridge")
