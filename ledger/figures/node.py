"""A figure of one row as a tree: what it is, and the parts that give it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

__all__ = ["Node"]


@dataclass
class Node:
    """A figure with its arithmetic.

    `how` says how the parts give the value: ``sum``, ``product``, ``quotient`` (first / second),
    ``difference`` (first - second), ``power`` (first to the second), ``lowest``, ``middle``,
    ``highest``, ``mean``, ``rounded down``, ``rounded up``, ``same``, ``method`` (what a procedure gave of
    them, named by its `assumption`), or ``as written`` for a leaf.

    A leaf names the `event` that it was written down in (its id, then a readable line), the published
    `source`, or the `assumption` that it rests on, each by its id. A line that is folded has an
    `address` and a `figure` to ask for. `mark` is ``≥`` or ``≤`` where the value is a bound.
    """

    label: str
    value: float | str | None
    unit: str = ""
    how: str = "as written"
    parts: list[Node] = field(default_factory=list)
    event: str | None = None
    source: str | None = None
    assumption: str | None = None
    address: str | None = None
    figure: str | None = None
    mark: str = ""

    def of(self, before: str) -> Node:
        """Return the tree with `before` in front of each address: what it folds is of that moment too."""
        address = self.address and f"{before}/{self.address}"
        return replace(self, address=address, parts=[part.of(before) for part in self.parts])

    def to_dict(self) -> dict[str, Any]:
        """Return the tree as plain values."""
        out: dict[str, Any] = {
            "label": self.label,
            "value": self.value,
            "unit": self.unit,
            "how": self.how,
            "parts": [part.to_dict() for part in self.parts],
        }
        for name in ("event", "source", "assumption", "address", "figure"):
            said = getattr(self, name)
            if said is not None:
                out[name] = said
        if self.mark:
            out["mark"] = self.mark
        return out
