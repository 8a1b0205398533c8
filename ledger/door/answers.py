"""What to do about a doubt: ask, take the answer offered, report it, or refuse."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass, field

from ledger.errors import DANGER, NeedsAnswer
from ledger.messages import Code, sentence

__all__ = ["Answers"]

_TAKEN_BY_IMPORTS = frozenset({"lot", "mass-balance", "count-contradicted", "clock"})
"""Doubts about what happened: a file has nobody to ask, and its word stands, with a report."""

MOST_NOTES = 1000
"""Notes kept: a file of a million lines must not fill the memory with them."""


@dataclass
class Answers:
    """How doubts are settled.

    Parameters
    ----------
    ask : callable, optional
        ``ask(doubt) -> bool``: whether a person takes the answer offered.
    yes : bool or collection of str
        Take the answer offered: always, or to the doubts of these codes.
    knowingly : bool
        Take what stands in danger, on purpose: no other answer given in advance does.
    importing : bool
        A file is being read: what it says of lots, balances and counts is taken and noted.

    spoken : bool
        It was said, not filled in: a price that was not said may wait.

    Attributes
    ----------
    notes : list of str
        What was taken or assumed; at most a thousand are kept, `more_notes` counts the others.
    """

    ask: Callable[[NeedsAnswer], bool] | None = None
    yes: bool | Collection[str] = False
    importing: bool = False
    knowingly: bool = False
    spoken: bool = False
    notes: list[str] = field(default_factory=list)
    more_notes: int = 0
    line: int | None = None

    def note(self, text: str) -> None:
        """Note what was assumed, with the line of the file where there is one."""
        if len(self.notes) < MOST_NOTES:
            self.notes.append(
                text if self.line is None else sentence("doubt-on-line", n=self.line, text=text)
            )
        else:
            self.more_notes += 1

    def settle(self, doubt: NeedsAnswer) -> None:
        """Return when the doubt may pass; raise it otherwise."""
        if self.importing and doubt.code in _TAKEN_BY_IMPORTS:
            self.note(sentence("doubt-noted", field=Code(doubt.field), question=doubt.question))
        elif not self.choose(doubt):
            raise doubt

    def _is_given(self, code: str) -> bool:
        """Return whether the answer to such a doubt was given in advance."""
        if code == DANGER:
            return self.knowingly
        if code == "open-standing" and self.knowingly:
            return True
        return self.yes is True or bool(self.yes and code in self.yes)

    def choose(self, doubt: NeedsAnswer) -> bool:
        """Return whether the answer offered is taken; with nobody to ask, raise the doubt."""
        if self._is_given(doubt.code):
            taken = sentence(
                "doubt-taken",
                field=Code(doubt.field),
                question=doubt.question,
                answer=doubt.offered,
            )
            self.note(taken)
            return True
        if self.ask is None:
            raise doubt
        return self.ask(doubt)
