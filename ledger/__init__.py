"""Croftbook's ledger: an event-sourced book of household self-sufficiency.

The road, from left to right; a room imports nothing to its right:

    write down -> log -> journal -> flows -> matching -> tracing -> projections -> page, command

`Book` is the public face. See docs/reckoning.md for what the figures mean.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.book import Book
    from ledger.door import Answers
    from ledger.errors import InputError, LedgerError, NeedsAnswer

__all__ = ["Answers", "Book", "InputError", "LedgerError", "NeedsAnswer"]

_WHERE = {
    "Answers": "ledger.door",
    "Book": "ledger.book",
    "InputError": "ledger.errors",
    "LedgerError": "ledger.errors",
    "NeedsAnswer": "ledger.errors",
}


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for, so that the command starts fast."""
    if name not in _WHERE:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(_WHERE[name]), name)
