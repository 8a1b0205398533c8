"""What raises stored bodies to a newer version."""

from __future__ import annotations

from typing import Any

__all__ = ["LINES", "name_basis"]

Body = dict[str, Any]


def name_basis(body: Body) -> Body:
    """Return a body of the first version as one of the second: each stored amount says its `basis`.

    In the second version a line says the dimension that was typed (`measure`); one of the first
    cannot, as its amount is in the measure that the item had when it was written down. It keeps
    its `basis`, by which the two are told apart, and replay reads both.

    Examples
    --------
    >>> name_basis({"lines": [{"item": "plum", "amount": "1 g", "whole": 1000}]})
    {'lines': [{'item': 'plum', 'amount': '1 g', 'whole': 1000, 'basis': 'exact'}]}
    """
    out = {name: _raised(value) for name, value in body.items()}
    return _named(out)


def _raised(value: Any) -> Any:
    if isinstance(value, list):
        return [_raised(one) for one in value]
    return _named(value) if isinstance(value, dict) else value


def _named(line: Body) -> Body:
    if line.get("whole") is None or "basis" in line or "measure" in line:
        return line
    return {**line, "basis": "exact"}


LINES = {1: name_basis}
"""The upcasters of every kind whose body holds amounts of items."""
