"""Stored bodies as they were said, to be said again."""

from __future__ import annotations

from typing import Any

__all__ = ["typed"]

_STORED = ("n", "whole", "basis", "measure", "per", "times", "trimmed_whole")


def typed(body: dict[str, Any]) -> dict[str, Any]:
    """Return a stored body without what the door adds."""
    out: dict[str, Any] = {}
    for name, value in body.items():
        if name in _STORED:
            continue
        if isinstance(value, list):
            out[name] = [
                {k: v for k, v in one.items() if k not in _STORED} if isinstance(one, dict) else one
                for one in value
            ]
        elif isinstance(value, dict) and name == "seed":
            out[name] = {k: v for k, v in value.items() if k not in _STORED}
        else:
            out[name] = value
    return out
