"""Whether a typed body says the same as a stored one, which the door has filled in."""

from __future__ import annotations

from typing import Any

from ledger.amounts import canonical_jar
from ledger.known.catalogue import Catalogue

__all__ = ["same_content"]

_ITEMS = frozenset(
    {"item", "crop", "makes", "lids", "jar", "for_crop", "shop_equivalent", "feeds", "equipment"}
)
_MEASURED = frozenset({"n", "whole", "basis", "measure", "per", "times"})
_ADDED = {
    "": _MEASURED,
    "lines": _MEASURED | {f"trimmed_{name}" for name in ("whole", "measure", "per", "times")},
    "made": _MEASURED | {"kept", "lids", "jar"},
    "left": _MEASURED | {"kept"},
    "acid": frozenset({"per"}),
}
"""What the door adds to a body or a line; it may stand in what is stored without being typed."""


def same_content(typed: Any, stored: Any, catalogue: Catalogue, name: str = "") -> bool:
    """Return whether what was typed and what is stored are the same, but for what the door adds."""
    if isinstance(typed, dict):
        return (
            isinstance(stored, dict)
            and all(key in typed or key in _ADDED.get(name, _MEASURED) for key in stored)
            and all(
                key in stored and same_content(value, stored[key], catalogue, key)
                for key, value in typed.items()
            )
        )
    if isinstance(typed, list):
        return (
            isinstance(stored, list)
            and len(typed) == len(stored)
            and all(same_content(a, b, catalogue, name) for a, b in zip(typed, stored, strict=True))
        )
    if name in _ITEMS and isinstance(typed, str) and isinstance(stored, str):
        return _key(typed, catalogue) == _key(stored, catalogue)
    return bool(typed == stored)


def _key(name: str, catalogue: Catalogue) -> str:
    return catalogue.key(canonical_jar(name) or name)
