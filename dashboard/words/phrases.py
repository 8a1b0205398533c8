"""What the ledger says, in another language: a phrase book.

The ledger says its sentences in English; the pages say them in a language that has a phrase book,
``de.phrases.toml``: under each English phrase the same in that language. A slot stands for what differs:

* ``{n}``, ``{n2}``: a number, written as the language writes it;
* ``{day}``, ``{day2}``: a day, ``2026-09-02``;
* ``{LIST}``, in capitals: a phrase or a fixed word itself, or several with commas or semicolons between;
* any other, ``{name}``: left as the household wrote it, but for the number of an amount.

What stands between backticks is a command and stays. A phrase that the book does not hold stays in English.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable, Mapping
from functools import cache
from importlib import resources

__all__ = ["Phrases", "phrase_book"]

_SLOT = re.compile(r"\{(\w+)\}")
_SENTENCES = re.compile(r"(?<=[.?!]) (?=[A-Z0-9`])")
_AMOUNT = re.compile(
    r"(?P<sign>[-+<>≥≤]? ?)(?P<number>\d[\d,]*(?:\.\d+)?)(?P<rest>(?:[ %-].*)?)", re.DOTALL
)
_NUMBER = r"[-+<>≥≤]? ?(?:\d[\d,]*(?:\.\d+)?|\.\d+)"
_DAY = r"\d{4}-\d\d-\d\d"


@cache
def phrase_book(language: str) -> dict[str, str]:
    """Return a language's phrases by the English ones; empty where it has no phrase book."""
    file = resources.files(__package__).joinpath(f"{language}.phrases.toml")
    if not file.is_file():
        return {}
    groups = tomllib.loads(file.read_text("utf-8"))
    return {english: said for group in groups.values() for english, said in group.items()}


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
        self._slotted = [(_anchor(key), _pattern(key), book[key]) for key in slotted]
        self._word, self._number, self._day = word, number, day
        self._kept: dict[str, str | None] = {}

    def say(self, text: str) -> str:
        """Return a text in the language, as far as its sentences are in the book."""
        if text not in self._kept:
            self._kept[text] = self._say(text)
        return self._kept[text] or text

    def knows(self, text: str) -> bool:
        """Return whether the whole of a text is in the book."""
        return self._say(text) is not None

    def _say(self, text: str) -> str | None:
        """Return a text in the language; None where no phrase fits any of it."""
        said = self._phrase(text)
        if said is not None:
            return said
        parts = _SENTENCES.split(text)
        if len(parts) > 1:
            several = [self._say(part) for part in parts]
            if any(several):
                return " ".join(one or part for one, part in zip(several, parts, strict=True))
        return self._several(text)

    def _several(self, text: str) -> str | None:
        """Return phrases with semicolons or commas between, when each of them is in the book."""
        for between in ("; ", ", "):
            parts = text.split(between)
            if len(parts) > 1:
                several = [self._phrase(part) for part in parts]
                if all(one is not None for one in several):
                    return between.join(one for one in several if one is not None)
        return None

    def _phrase(self, text: str) -> str | None:
        """Return one phrase; one that begins a sentence may be in the book in small letters."""
        said = self._found(text)
        if said is None and text[:1].isupper():
            said = self._found(text[:1].lower() + text[1:])
            said = said and said[:1].upper() + said[1:]
        return said

    def _found(self, text: str) -> str | None:
        if text in self._whole:
            return self._whole[text]
        for anchor, pattern, said in self._slotted:
            if anchor in text and (match := pattern.fullmatch(text)):
                return _SLOT.sub(
                    lambda slot, match=match: self._slot(slot[1], match[slot[1]]), said
                )  # type: ignore[misc]
        word = self._word(text)
        return word if word != text else None

    def _slot(self, name: str, text: str) -> str:
        if name.isupper():
            said = self._say(text)
            if said is not None:
                return said
            return ", ".join(self._found(part) or self._amount(part) for part in text.split(", "))
        if name.startswith("day"):
            return self._day(text)
        return self._amount(text)

    def _amount(self, text: str) -> str:
        """Return an amount with its number as the language writes it; anything else as it is."""
        match = _AMOUNT.fullmatch(text)
        return (
            text if match is None else match["sign"] + self._number(match["number"]) + match["rest"]
        )


def _anchor(english: str) -> str:
    """Return the longest piece between slots: a text without it need not be looked at further."""
    return max(re.split(_SLOT.pattern, english)[::2], key=len)


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
        kind = _NUMBER if re.fullmatch(r"n\d?", slot) else _DAY if slot.startswith("day") else ".+?"
        out += [f"(?P<{slot}>{kind})", re.escape(piece)]
    return re.compile("".join(out), re.DOTALL)
