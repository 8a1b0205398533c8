"""What to do about a doubt: ask, take the answer offered, report it, or refuse."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from ledger.errors import NeedsAnswer

__all__ = ["Answers"]

_TAKEN_BY_IMPORTS = frozenset({"lot", "mass-balance", "count-contradicted"})
"""Doubts about what happened: a file has nobody to ask, and its word stands, with a report."""


@dataclass
class Answers:
    """How doubts are settled.

    Parameters
    ----------
    ask : callable, optional
        ``ask(doubt) -> bool``: whether a person takes the answer offered.
    yes : bool
        Take the answer offered, always.
    importing : bool
        A file is being read: what it says of lots, balances and counts is taken and noted.
    """

    ask: Callable[[NeedsAnswer], bool] | None = None
    yes: bool = False
    importing: bool = False
    notes: list[str] = field(default_factory=list)

    def settle(self, doubt: NeedsAnswer) -> None:
        """Return when the doubt may pass; raise it otherwise."""
        if self.importing and doubt.code in _TAKEN_BY_IMPORTS:
            self.notes.append(f"{doubt.field}: {doubt.question}")
        elif self.yes:
            self.notes.append(f"{doubt.field}: {doubt.question} Taken: {doubt.offered}")
        elif self.ask is None or not self.ask(doubt):
            raise doubt

    def choose(self, doubt: NeedsAnswer) -> bool:
        """Return whether the answer offered is taken; with nobody to ask, raise the doubt."""
        if self.yes:
            self.notes.append(f"{doubt.field}: {doubt.question} Taken: {doubt.offered}")
            return True
        if self.ask is None:
            raise doubt
        return self.ask(doubt)
