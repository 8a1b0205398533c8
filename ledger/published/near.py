"""Which food a word is a slip of."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Any

from ledger.published.names import ALSO, GENERIC, fold, stem, stems
from ledger.reference.kinds import foods

__all__ = ["near_food"]

_SLIP, _TWO_SLIPS = 4, 7


@cache
def _words() -> dict[str, str]:
    """Return the food that each name stands for, as it is spelled without spaces, and by its stem."""
    named = [(one.name, one.names) for one in foods().values()]
    named += [(name, tuple(said[0].split("|"))) for name, said in GENERIC.items()]
    named += [(name, tuple(said.split("|"))) for name, said in ALSO.items() if name in foods()]
    out: dict[str, str] = {}
    for name, names in named:
        for said in names:
            out.setdefault("".join(fold(said)), name)
            if said.isalpha() and said.endswith("es"):
                out.setdefault(said.casefold(), name)
            if len(fold(said)) == 1:
                out.setdefault(stems(said)[0], name)
    return out


@cache
def _of_size(size: int, allowed: int) -> tuple[tuple[str, ...], Any]:
    """Return the names whose lengths differ by no more than the slips allowed, and their letters."""
    import numpy as np

    names = tuple(word for word in _words() if abs(len(word) - size) <= allowed)
    return names, np.array([_letters(name) for name in names], np.uint64)


def _letters(word: str) -> int:
    """Return the letters of a word as a set of bits, those of other alphabets sharing bits."""
    bits = 0
    for letter in word:
        bits |= 1 << (ord(letter) & 63)
    return bits


def _like(word: str, allowed: int) -> list[str]:
    """Return the names whose letters may be those of a word after so many slips.

    A slip changes at most two letters of the set: one that goes, one that comes. Few names are left
    to be compared letter by letter, which is the larger part of reading a name that is not known.
    """
    import numpy as np

    names, letters = _of_size(len(word), allowed)
    other = np.bitwise_count(letters ^ np.uint64(_letters(word)))
    return [names[at] for at in np.flatnonzero(other <= 2 * allowed)]


def _acidity(name: str) -> str:
    return foods()[name].acidity if name in foods() else GENERIC[name][1]


@lru_cache(4096)
def near_food(word: str) -> str | None:
    """Return the name of the food that a word is a slip of, None where of none.

    One letter may differ from four on, two from seven on.
    In words of four letters the first is right: a slip there would be another word.
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    if len(word) < _SLIP - word.endswith("y"):  # "chy" was typed as "chies", a slip of chives
        return None
    known_words = _words()
    best: list[tuple[float, bool, str]] = []
    # "chities" and "musses" were read as plurals; a name in the plural may be nearer
    plural = (f"{word[:-1]}ies",) if word.endswith("y") else (f"{word}es", f"{word}s")
    for mine in dict.fromkeys((word, stem(word), *plural)):
        allowed = 2 if len(mine) >= _TWO_SLIPS - 1 else 1
        near = process.extract(
            mine, _like(mine, allowed), scorer=OSA.distance, score_cutoff=allowed, limit=None
        )
        for known, steps, _ in near:
            shorter = min(len(known), len(mine))
            if shorter < _SLIP or (shorter == _SLIP and known[0] != mine[0]):
                continue
            # of two that are as near, the one of less acid
            name = known_words[known]
            best.append((steps, _acidity(name) != "low_acid", name))
    return min(best)[2] if best else None
