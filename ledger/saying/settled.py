"""Answers given to the questions of a reading: the same text is read again with them."""

from __future__ import annotations

from dataclasses import dataclass, field

__all__ = ["Settled"]

Key = tuple[str, str, int]


@dataclass
class Settled:
    """Answers by question, and which questions a reading has asked so far.

    A question is known by what it asks (its code), what it is about, and the how manieth of that
    kind it is in the text; so the answer finds it again when the text is read once more.

    Attributes
    ----------
    answers : dict of (str, str, int) to str
    """

    answers: dict[Key, str] = field(default_factory=dict)
    _seen: dict[tuple[str, str], int] = field(default_factory=dict)

    def begin(self) -> None:
        """Begin a reading: count the questions anew."""
        self._seen = {}

    def key(self, code: str, about: str) -> Key:
        """Return the key of the next question of a kind, and count it."""
        n = self._seen.get((code, about), 0)
        self._seen[code, about] = n + 1
        return code, about, n
