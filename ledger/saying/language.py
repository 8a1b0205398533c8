"""The words of a language, from its file, ready to be found in a text: the longest phrase wins."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

from ledger.saying.tokens import Token, tokens_of

__all__ = ["CODES", "Language", "Verb", "currency_of", "language", "of_text"]

CODES = ("en", "de")
"""Languages that are read; each is one file in ``words/``."""

_PLAIN = ("small", "days", "weekdays", "months", "people", "time", "process", "receipt", "sheet")


@dataclass(frozen=True, slots=True)
class Verb:
    """What a verb says: the kind, and what else it settles."""

    kind: str
    method: str | None = None
    how: str | None = None
    why: str | None = None


class Language:
    """One language's words.

    Attributes
    ----------
    code : str
    comma : bool
        Whether a comma parts decimals, and a point thousands.
    day_first : bool
    names : dict of str to (str, str)
        By a name in lower case: the singular as written, and its English head word.
    """

    def __init__(self, code: str) -> None:
        text = files("ledger.saying").joinpath("words", f"{code}.toml").read_text("utf-8")
        self.data: dict[str, Any] = tomllib.loads(text)
        self.code, self.comma = code, bool(self.data["decimal_comma"])
        self.day_first = bool(self.data["day_first"])
        self._books: dict[str, dict[str, list[tuple[tuple[str, ...], Any]]]] = {}
        self._singles: set[str] = set()
        self.numbers = _numbers(self.data, code)
        self._fill()
        self.names = dict(_named(self.data.get("names", {})))

    def _fill(self) -> None:
        data = self.data
        for name, value in data["sums"].items():
            self._add("sum", name, Fraction(value))
        for name, value in data["parts"].items():
            self._add("part", name, Fraction(value))
        for tag in (
            "units",
            "counted",
            "unknown",
            "jars",
            "process",
            "why",
            "places",
            "sorts",
            "currency",
        ):
            for name, phrases in data[tag].items():
                self._add(tag, phrases, name)
        for section in _PLAIN:
            for name, phrases in data[section].items():
                self._add(f"{section}.{name}", phrases, name)
        for section in ("beds", "shops", "wild", "made", "meal"):
            self._add(section, data[section]["words"], section)
        for name, phrases in data["money"].items():
            self._add(f"money.{name}", phrases, name)
        self._add("adjective", data["adjectives"]["skip"], "adjective")
        for name, phrases in data["meaning"].items():
            self._add("meaning", phrases, name)
        self._fill_rest()
        for book in self._books.values():
            for several in book.values():
                several.sort(key=lambda one: -len(one[0]))

    def _fill_rest(self) -> None:
        data = self.data
        for tag, section in (("weekday", "weekdays"), ("month", "months")):
            for i, one in enumerate(data[section]["names"].split("|")):
                self._add(tag, one.replace(",", "|"), i)
        for role, phrases in data["prepositions"].items():
            for phrase in phrases.split("|"):
                self._add("prep", phrase, role)
        for verb in data["verb"]:
            made = Verb(verb["kind"], verb.get("method"), verb.get("how"), verb.get("why"))
            self._add("verb", verb["words"], made)

    def _add(self, tag: str, phrases: str, value: Any) -> None:
        book = self._books.setdefault(tag, {})
        for phrase in phrases.split("|"):
            words = tuple(phrase.replace("-", " ").split())
            if words:
                book.setdefault(words[0], []).append((words, value))
                self._singles.update(words)

    def find(self, tag: str, tokens: Sequence[Token], i: int) -> tuple[Any, int] | None:
        """Return the value and the number of tokens of the longest phrase at a place, or None."""
        if i >= len(tokens):
            return None
        for words, value in self._books[tag].get(tokens[i].low, ()):
            if len(words) <= len(tokens) - i and all(
                tokens[i + k].low == word for k, word in enumerate(words)
            ):
                return value, len(words)
        return None

    def all_of(self, tag: str, tokens: Sequence[Token], i: int) -> tuple[set[Any], int] | None:
        """Return every value of the longest phrase at a place, and its length."""
        found = self.find(tag, tokens, i)
        if found is None:
            return None
        words = tuple(token.low for token in tokens[i : i + found[1]])
        several = self._books[tag][tokens[i].low]
        return {value for one, value in several if one == words}, found[1]

    def is_(self, tag: str, text: str) -> bool:
        """Return whether a text as a whole is a phrase of a tag."""
        tokens = tokens_of(text)
        found = self.find(tag, tokens, 0)
        return found is not None and found[1] == len(tokens)

    @property
    def minutes(self) -> str:
        """Return the word for minutes."""
        several: str = self.data["time"]["minute"].split("|")[1]
        return several.capitalize() if self.code == "de" else several

    def knows(self, word: str) -> bool:
        """Return whether a word stands anywhere in the file."""
        return word in self._singles or word in self.numbers or word in self.names

    def stop_words(self) -> frozenset[str]:
        """Return little words that stand before a name and are no part of it."""
        several = self.data["small"]["article_known"] + "|" + self.data["small"]["article"]
        return frozenset(several.split("|"))


def _numbers(data: dict[str, Any], code: str) -> dict[str, Fraction]:
    """Return number words; German ones also as they are written together."""
    plain = {word: Fraction(value) for word, value in data["numbers"].items()}
    if code != "de":
        return plain
    ones = {word: value for word, value in plain.items() if value < 10 and word != "eins"}
    below = dict(plain)
    for ten, tens in plain.items():
        if tens >= 20:
            below |= {f"{one}und{ten}": tens + value for one, value in ones.items()}
    out = dict(below)
    for one, value in {**ones, "": Fraction(1)}.items():
        hundred = f"{one}hundert"
        out[hundred] = value * 100
        out |= {hundred + word: value * 100 + more for word, more in below.items()}
        out[f"{one}tausend"] = value * 1000
    out |= {f"{word}einhalb": value + Fraction(1, 2) for word, value in ones.items()}
    out.pop("hundert"), out.pop("tausend")  # these stand among the sums
    return out


def _named(names: dict[str, str]) -> Iterator[tuple[str, tuple[str, str]]]:
    for singular, said in names.items():
        plurals, _, english = said.partition("=")
        for name in (singular, *plurals.split(",")):
            if name:
                yield name.lower(), (singular, english)


@cache
def language(code: str) -> Language:
    """Return a language's words, read once."""
    return Language(code)


def currency_of(sign: str, code: str) -> str | None:
    """Return the currency of a sign or word, in a language or any other: ``EUR`` of ``euros``.

    Returns
    -------
    str or None
        ISO 4217; ``$`` for that sign, which several have; None for no currency.
    """
    tokens = tokens_of(sign)
    books = (language(one) for one in dict.fromkeys((code if code in CODES else "en", *CODES)))
    found = (one.find("currency", tokens, 0) for one in books)
    return next((one[0] for one in found if one is not None and one[1] == len(tokens)), None)


def of_text(tokens: Sequence[Token], preferred: str) -> Language:
    """Return the language whose words a text holds most of; where both do alike, the book's.

    A verb of a language counts for more than its small words. Where the book's language has a verb of
    the text and most of its words, no other is loaded.
    """
    first = preferred if preferred in CODES else "en"
    own = language(first)
    said = [i for i, one in enumerate(tokens) if one.sort == "word" and len(one.low) > 1]
    known = [i for i in said if own.knows(tokens[i].low)]
    if 2 * len(known) >= len(said) and any(own.find("verb", tokens, i) for i in known):
        return own
    best, most = language(first), -1.0
    for code in (first, *(code for code in CODES if code != first)):
        words = language(code)
        score = sum(_weight(words, tokens, i) for i in range(len(tokens)))
        if score > most:
            best, most = words, score
    return best


def _weight(words: Language, tokens: Sequence[Token], i: int) -> float:
    token = tokens[i]
    if token.sort != "word" or len(token.low) < 2:
        return 0.0
    if words.find("verb", tokens, i) is not None:
        return 3.0
    return 1.0 if words.knows(token.low) else 0.0
