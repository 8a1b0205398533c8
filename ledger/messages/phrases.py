"""What the ledger still says as English text, in another language: a phrase book, which is being emptied.

Pages and command say such a text by the phrase book of the language, ``de.phrases.toml``: under each
English phrase the same in that language. What becomes a `Message` leaves the book; a test counts the
phrases down. A slot stands for what differs:

* ``{n}``, ``{n2}``: a number, written as the language writes it;
* ``{day}``, ``{day2}``: a day, ``2026-09-02``;
* ``{HOW}``, in capitals: a phrase or fixed word itself; a text whose piece is none is another phrase;
* ``{list}``, ``{list2}``: several with commas between, each as the book says it or as it is;
* ``{names}``: several names as the household wrote them; only ``and 3 more`` behind them is said;
* any other, ``{name}``: left as the household wrote it, but for the number of an amount.

A text may be several sentences. One that the book does not hold stays in English.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from importlib import resources

from ledger.messages.language import language
from ledger.messages.words import word

__all__ = ["Phrases", "phrase_book", "phrases_of"]

_SLOT = re.compile(r"\{(\w+)\}")
_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z0-9`{(])")
_AMOUNT = re.compile(
    r"(?P<sign>[-+<>≥≤]? ?)(?P<number>\d[\d,]*(?:\.\d+)?)(?P<rest>(?:[ %-].*)?)", re.DOTALL
)
_NUMBER = r"[-+<>≥≤]? ?(?:\d[\d,]*(?:\.\d+)?|\.\d+)"
_MORE = re.compile(r"(.+?)(?: (and \d+ more))?", re.DOTALL)
_DAY = r"\d{4}-\d\d-\d\d"

_KEPT = 8192
"""Texts whose wording is kept: those of a few pages."""


@cache
def phrase_book(code: str) -> dict[str, str]:
    """Return a language's phrases by the English ones; empty where it has no phrase book."""
    file = resources.files(__package__).joinpath(f"{code}.phrases.toml")
    if not file.is_file():
        return {}
    groups = tomllib.loads(file.read_text("utf-8"))
    return {english: said for group in groups.values() for english, said in group.items()}


@cache
def phrases_of(code: str) -> Phrases | None:
    """Return how a language says what the ledger says; None where it has no phrase book."""
    book = phrase_book(code)
    if not book:
        return None
    from babel.numbers import get_decimal_symbol, get_group_symbol

    spoken = language(code)
    signs = str.maketrans(
        {",": get_group_symbol(spoken.locale), ".": get_decimal_symbol(spoken.locale)}
    )
    return Phrases(
        book,
        word=lambda text: word(code, text, "name"),
        number=lambda text: text.translate(signs),
        day=spoken.day,
    )


class Phrases:
    """Says English sentences by a phrase book.

    Parameters
    ----------
    book : mapping of str to str
    word : callable
        A fixed word of the answers in the language; anything else as it is.
    number : callable
        ``1,234.5`` as the language writes it.
    day : callable
        ``2026-09-02`` as the language writes it.
    """

    def __init__(
        self,
        book: Mapping[str, str],
        word: Callable[[str], str],
        number: Callable[[str], str],
        day: Callable[[str], str],
    ) -> None:
        self._whole = {key: said for key, said in book.items() if not _SLOT.search(key)}
        slotted = [key for key in book if key not in self._whole]
        slotted.sort(key=lambda key: -len(_SLOT.sub("", key)))  # the one that says most comes first
        self._slotted = [_Slotted(key, book[key]) for key in slotted]
        self._with_clauses = [one for one in self._slotted if "; " in one.english]
        self._with_sentences = [one for one in self._slotted if _SENTENCES.search(one.english)]
        self._by_first: dict[str, list[_Slotted]] = {}
        self._word, self._number, self._day = word, number, day
        self._said = lru_cache(_KEPT)(self._say)

    def say(self, text: str) -> str:
        """Return a text in the language, as far as its sentences are in the book."""
        said = self._said(text)
        if said is None:
            parts = _SENTENCES.split(text)
            said = " ".join(self._said(part) or self._amount(part) for part in parts)
        return said

    def knows(self, text: str) -> bool:
        """Return whether the whole of a text is in the book."""
        return self._said(text) is not None

    def _say(self, text: str) -> str | None:
        """Return a text in the language; None where some of it is in no phrase.

        What holds several sentences or clauses is said one by one first, lest a phrase takes in its
        neighbour; a name may hold a full stop, so a phrase over all of it comes after that.
        """
        parts = _SENTENCES.split(text)
        if len(parts) > 1:
            return (
                self._phrase(text, self._with_sentences)
                or self._each(parts, " ", self._said)
                or self._phrase(text)
            )
        return (
            self._phrase(text, self._with_clauses)
            or self._several(text, "; ")
            or self._phrase(text)
            or self._several(text, ", ")
        )

    def _several(self, text: str, between: str) -> str | None:
        """Return phrases with commas or semicolons between, when each of them is in the book."""
        parts = text.split(between)
        if len(parts) == 1 or any(part.count("(") != part.count(")") for part in parts):
            return None
        return self._each(parts, between, self._phrase)

    @staticmethod
    def _each(parts: list[str], between: str, say: Callable[[str], str | None]) -> str | None:
        """Return parts put together again in the language; None where one of them is not known."""
        several = []
        for part in parts:
            said = say(part)
            if said is None:
                return None
            several.append(said)
        return between.join(several)

    def _phrase(self, text: str, among: list[_Slotted] | None = None) -> str | None:
        """Return one phrase; one that begins a sentence may be in the book in small letters."""
        said = self._found(text, among)
        if said is None and text[:1].isupper():
            said = self._found(text[:1].lower() + text[1:], among)
            said = said and said[:1].upper() + said[1:]
        return said

    def _found(self, text: str, among: list[_Slotted] | None) -> str | None:
        if text in self._whole:
            return self._whole[text]
        for phrase in self._beginning(text[:1]) if among is None else among:
            match = phrase.match(text)
            if match and (slots := self._filled(match)) is not None:
                return _SLOT.sub(lambda slot, slots=slots: slots[slot[1]], phrase.said)  # type: ignore[misc]
        word = self._word(text)
        return word if word != text else None

    def _beginning(self, first: str) -> list[_Slotted]:
        """Return the phrases with slots that can begin with a letter, in their order."""
        if first not in self._by_first:
            self._by_first[first] = [one for one in self._slotted if one.first in ("", first)]
        return self._by_first[first]

    def _filled(self, match: re.Match[str]) -> dict[str, str] | None:
        """Return what stands in each slot, in the language; None where one should be a phrase and is none."""
        out = {}
        for name, text in match.groupdict().items():
            said = self._slot(name, text)
            if said is None:
                return None
            out[name] = said
        return out

    def _slot(self, name: str, text: str) -> str | None:
        if name == "LIST":  # part by part first, lest the first takes in its neighbour
            return self._several(text, ", ") or self._said(text)
        if name.isupper():
            return self._said(text)
        if name.startswith("day"):
            return self._day(text)
        if name.startswith("names"):
            names, more = _MORE.fullmatch(text).groups()  # type: ignore[union-attr]
            return f"{names} {self._phrase(more) or more}" if more else names
        if name.startswith("list"):
            return ", ".join(self._phrase(one) or self._amount(one) for one in text.split(", "))
        return self._amount(text)

    def _amount(self, text: str) -> str:
        """Return an amount with its number as the language writes it; anything else as it is."""
        match = _AMOUNT.fullmatch(text)
        return (
            text if match is None else match["sign"] + self._number(match["number"]) + match["rest"]
        )


class _Slotted:
    """An English phrase with slots, and what it is in the language."""

    def __init__(self, english: str, said: str) -> None:
        self.said = said
        self._pieces = re.split(_SLOT.pattern, english)[::2]
        self.first = self._pieces[0][:1]
        self._pattern: re.Pattern[str] | None = None
        self.english = english

    def match(self, text: str) -> re.Match[str] | None:
        """Return what a text has in the slots; None where it is another phrase.

        The pieces between the slots are looked for first, as that is far quicker than a pattern.
        """
        pieces = self._pieces
        if not (text.startswith(pieces[0]) and text.endswith(pieces[-1])):
            return None
        if not all(piece in text for piece in pieces):
            return None
        if self._pattern is None:
            self._pattern = _pattern(self.english)
        return self._pattern.fullmatch(text)


def _pattern(english: str) -> re.Pattern[str]:
    """Return what an English phrase with its slots filled looks like.

    Examples
    --------
    >>> _pattern("in {n} days").fullmatch("in 30 days")["n"]
    '30'
    """
    pieces = re.split(_SLOT.pattern, english)
    out = [re.escape(pieces[0])]
    for slot, piece in zip(pieces[1::2], pieces[2::2], strict=True):
        some = ".+" if slot == "LIST" else ".+?"  # what follows a list is not part of another
        kind = _NUMBER if re.fullmatch(r"n\d?", slot) else _DAY if slot.startswith("day") else some
        out += [f"(?P<{slot}>{kind})", re.escape(piece)]
    return re.compile("".join(out), re.DOTALL)
