"""What a program hands over, as if it had been typed."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from typing import Any

__all__ = ["as_typed"]


def as_typed(value: Any) -> Any:
    """Return Python's numbers and days as the texts that a file would hold.

    Examples
    --------
    >>> as_typed({"paid": 3.4, "people": 6.0, "by": dt.date(2026, 9, 2)})
    {'paid': '3.4', 'people': 6, 'by': '2026-09-02'}
    """
    if isinstance(value, dict):
        return {name: as_typed(part) for name, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [as_typed(part) for part in value]
    if isinstance(value, float):
        return int(value) if value.is_integer() else format(Decimal(repr(value)), "f")
    if isinstance(value, Decimal):
        return format(value, "f")
    return value.isoformat() if isinstance(value, dt.date) else value
