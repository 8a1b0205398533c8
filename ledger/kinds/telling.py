"""Saying lines in words, for the one readable line of each event."""

from __future__ import annotations

from typing import Any

__all__ = ["lines", "made"]


def lines(several: list[dict[str, Any]] | None, most: int = 4) -> str:
    """Return ``31 lb plum, 3 lb sugar``; what exceeds `most` is counted."""
    several = several or []
    shown = [
        f"{one.get('amount', '')} {one.get('item') or one.get('metered') or ''}".strip()
        for one in several[:most]
    ]
    rest = len(several) - most
    return ", ".join(shown) + (f" and {rest} more" if rest > 0 else "")


def made(several: list[dict[str, Any]]) -> str:
    """Return ``11 half-pint jars, 1 cup (fridge)``."""
    out = []
    for one in several:
        if one.get("jars"):
            s = "" if one["jars"] == 1 else "s"
            out.append(f"{one['jars']} {one.get('jar', 'jar')}{s}")
        else:
            out.append(f"{one.get('amount', '')} ({one.get('kept', 'shelf')})")
    return ", ".join(out)
