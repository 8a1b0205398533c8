"""Many households: a class or a canning group compares, and no household is laid bare.

A household's own program makes one sheet of whole numbers for a season (`sheet_of`); a `Circle` gathers
sheets and tells of them, to the class with thresholds or to the public with noise. Events never leave
the household. See docs/circle.md.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.circle.call import Call
    from ledger.circle.keep import Circle
    from ledger.circle.reckon import sheet_of
    from ledger.circle.release import Release
    from ledger.circle.sheet import Sheet

__all__ = ["Call", "Circle", "Release", "Sheet", "sheet_of"]

_WHERE = {
    "Call": "call",
    "Circle": "keep",
    "Release": "release",
    "Sheet": "sheet",
    "sheet_of": "reckon",
}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for."""
    if name not in _WHERE:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f"ledger.circle.{_WHERE[name]}"), name)
