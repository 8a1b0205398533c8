"""Whether a typed body says the same as a stored one, which the door has filled in."""

from __future__ import annotations

from typing import Any

from ledger.door.catalogue import Catalogue

__all__ = ["same_content"]

_ITEMS = {
    "item",
    "crop",
    "makes",
    "lids",
    "jar",
    "for_crop",
    "shop_equivalent",
    "feeds",
    "equipment",
    "also",
}


def same_content(typed: Any, stored: Any, catalogue: Catalogue, name: str = "") -> bool:
    """Return whether everything typed stands in what is stored.

    What the door adds (numbers, whole amounts, lids, places) may stand there besides.
    """
    if isinstance(typed, dict):
        return isinstance(stored, dict) and all(
            key in stored and same_content(value, stored[key], catalogue, key)
            for key, value in typed.items()
        )
    if isinstance(typed, list):
        return (
            isinstance(stored, list)
            and len(typed) == len(stored)
            and all(same_content(a, b, catalogue, name) for a, b in zip(typed, stored, strict=True))
        )
    if name in _ITEMS and isinstance(typed, str) and isinstance(stored, str):
        return catalogue.key(typed) == catalogue.key(stored)
    return bool(typed == stored)
