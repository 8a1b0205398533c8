"""The registry: the kinds of the vocabulary, read."""

from __future__ import annotations

from importlib import import_module

from ledger.kinds.kind import Kind
from ledger.vocabulary import VOCABULARY

__all__ = ["IN_HOUSE", "KINDS"]


def _kind(command: str, module: str) -> Kind:
    """Return the kind that a file describes.

    Raises
    ------
    TypeError
        When it lacks a part, or its name or command is not that of the vocabulary.
    """
    kind: Kind = import_module(f"ledger.kinds.{module}").KIND
    if (kind.name, kind.command) != (module, command):
        raise TypeError(
            f"ledger/kinds/{module}.py describes {kind.name!r}, written by {kind.command!r}; "
            f"the vocabulary has {module!r}, written by {command!r}"
        )
    return kind


KINDS: dict[str, Kind] = {module: _kind(one, module) for one, module in VOCABULARY.items()}
"""Every kind by its stored name."""

_OUTSIDE = ("harvested", "planted", "recipe_written")
"""By these something is picked, sown or planned."""
IN_HOUSE = {name: kind.row for name, kind in KINDS.items() if kind.row and name not in _OUTSIDE}
"""Kinds by which what stands in the house comes in, is used, counted or goes, each with its list."""
