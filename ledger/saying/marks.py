"""Marks of a text: ends of sentences, commas, dashes, brackets, and a note behind its word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from ledger.saying.language import Language
from ledger.saying.tokens import Token

__all__ = ["Marks", "Piece"]

_ENDS = {";": "semi", "!": "stop", ".": "stop", "?": "ask"}


@dataclass(slots=True)
class Piece:
    """What a few tokens are.

    Attributes
    ----------
    tag : str
        ``amount``, ``day``, ``money``, ``verb``, ``word``, ``name``, ``prep``, ``end`` and so on.
    value : object
        What was read, by tag.
    start, end : int
        Tokens, from and to.
    """

    tag: str
    value: Any
    start: int
    end: int


class Marks:
    """The part of scanning that reads signs; `Scanner` reads the words."""

    words: Language
    tokens: Sequence[Token]
    text: str
    pieces: list[Piece]

    def said(self, start: int, end: int) -> str:
        """Return the text of some tokens, as it was typed."""
        if start >= end:
            return ""
        return self.text[self.tokens[start].start : self.tokens[end - 1].end]

    def _is_start(self) -> bool:
        return not self.pieces or self.pieces[-1].tag in ("end", "then")

    def _mark(self, i: int) -> Piece | None:
        token = self.tokens[i]
        if token.sort == "nl":
            return Piece("end", "line", i, i + 1)
        if token.sort != "sym":
            return None
        if token.low in _ENDS and not self._is_short_form(i):
            return Piece("end", _ENDS[token.low], i, i + 1)
        if token.low in ",/|":
            is_with = token.low == "/" and i > 0 and self.tokens[i - 1].low == "w"
            return Piece("mark" if is_with else "comma", None, i, i + 1)  # "w/ lemon juice"
        if token.low in "-–—" and not self._is_start():
            return Piece("dash", None, i, i + 1)
        if token.low in "([":
            return self._bracket(i)
        if token.low in ":\"'„“”»«*•·…" or (token.low in "-–—" and self._is_start()):
            return Piece("mark", token.low, i, i + 1)
        return None

    def _is_short_form(self, i: int) -> bool:
        """Return whether a point ends a short form (``St. Ann``) and no sentence."""
        if self.tokens[i].low != "." or i == 0 or not self.tokens[i].tight:
            return False
        before = self.tokens[i - 1].low
        after = self.tokens[i + 1] if i + 1 < len(self.tokens) else None
        if before in ("mr", "mrs", "ms", "dr", "st", "fr", "hr", "no", "nr", "approx", "ca"):
            return after is not None
        tags = ("units", "counted", "unknown", "sum", "month", "weekday", "jars")
        if not any(self.words.find(tag, self.tokens, i - 1) for tag in tags):
            return False
        return (
            after is not None
            and after.sort == "word"
            and after.text[:1].islower()
            and len(before) < 5
        )

    def _bracket(self, i: int) -> Piece | None:
        close = {"(": ")", "[": "]"}[self.tokens[i].low]
        for k in range(i + 1, len(self.tokens)):
            if self.tokens[k].sort == "nl":
                break
            if self.tokens[k].low == close:
                return Piece("bracket", (i + 1, k), i, k + 1)
        return Piece("mark", "(", i, i + 1)

    def _note(self, i: int) -> Piece | None:
        found = self.words.find("small.note", self.tokens, i)
        at = i + found[1] if found else 0
        if found is None or at >= len(self.tokens) or self.tokens[at].low != ":":
            return None
        end = at + 1
        while end < len(self.tokens) and self.tokens[end].sort != "nl":
            end += 1
        return Piece("note", self.said(at + 1, end).strip(), i, end)
