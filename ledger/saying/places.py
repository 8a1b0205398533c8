"""What a phrase names: a bed, a shop, a person, a place to keep things, the wild, or animals."""

from __future__ import annotations

from dataclasses import dataclass

from ledger.saying.known import Known, bare
from ledger.saying.language import Language
from ledger.saying.pieces import Scanner
from ledger.saying.things import Phrase
from ledger.saying.tokens import Token

__all__ = ["Place", "Places"]


@dataclass(frozen=True, slots=True)
class Place:
    """What a phrase was taken for.

    Attributes
    ----------
    sort : str
        ``bed``, ``shop``, ``person``, ``kept``, ``wild``, ``animals``, ``pests``, ``pets``, or "" .
    text : str
        As a body has it: a shop and a person as said, a bed without its article.
    """

    sort: str
    text: str


class Places:
    """Sorts phrases by the words of a language and by what the book knows."""

    def __init__(self, known: Known, words: Language, scanner: Scanner) -> None:
        self.known, self.words, self.scanner = known, words, scanner

    def of(self, phrase: Phrase) -> Place:
        """Return what a phrase names."""
        return self.of_span(phrase.words)

    def of_span(self, span: tuple[int, int]) -> Place:
        """Return what some words name."""
        tokens = list(self.scanner.tokens[span[0] : span[1]])
        text = self._with_article(span)
        said = self.scanner.said(*span)
        kept = self.words.find("places", tokens, 0)
        if kept is not None and kept[1] == len(tokens):
            return Place("kept", kept[0])
        for tag, sort in (
            ("pests", "pests"),
            ("pets", "pets"),
            ("animals", "animals"),
            ("fed", "animals"),
        ):
            if self._holds(f"people.{tag}", tokens):
                return Place(sort, said)
        for tag, sort in (
            ("people.kin", "person"),
            ("shops", "shop"),
            ("beds", "bed"),
            ("wild", "wild"),
        ):
            if self._holds(tag, tokens):
                return Place(
                    sort, self._spelled(sort, said) or (text if sort in ("shop", "wild") else said)
                )
        for sort in ("shop", "person", "bed"):
            known = self._spelled(sort, said)
            if known is not None:
                return Place(sort, known)
        if self._is_name(tokens):
            return Place("person", said)
        return Place("", said)

    def _spelled(self, sort: str, said: str) -> str | None:
        """Return a place or person as the book spells it; looked up only where it is asked for."""
        several = {"shop": "shops", "person": "people", "bed": "beds"}.get(sort)
        found: dict[str, str] = getattr(self.known, several) if several else {}
        return found.get(bare(said))

    def _holds(self, tag: str, tokens: list[Token]) -> bool:
        """Return whether a word of a list ends the phrase, or begins it (``bed 2``)."""
        if any(self.words.find(tag, tokens, k) is not None for k in range(len(tokens))):
            return True
        if self.words.code != "de" or tag not in ("beds", "shops", "wild") or not tokens:
            return False
        several = self.words.data[tag]["words"].split("|")
        return any(tokens[-1].low.endswith(one) for one in several if len(one) > 3)

    def _is_name(self, tokens: list[Token]) -> bool:
        """Return whether words are a person's name: capitals, and nothing that the book has."""
        if not tokens or any(one.sort != "word" for one in tokens):
            return False
        names = [one for one in tokens if one.low not in ("and", "und", "&")]
        if not all(one.text[:1].isupper() for one in names):
            return False
        text = " ".join(one.text for one in tokens)
        return self.known.item(text) is None and text.lower() not in self.words.names

    def _with_article(self, span: tuple[int, int]) -> str:
        """Return the words with a `the` before them: ``the mill``."""
        start = span[0]
        before = self.scanner.tokens[start - 1].low if start else ""
        if before in ("the", "our"):
            start -= 1
        return self.scanner.said(start, span[1])
