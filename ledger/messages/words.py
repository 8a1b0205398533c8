"""Fixed words and headings of answers, by what the ledger calls them: families of ids."""

from __future__ import annotations

import re

from ledger.messages.catalogue import speaker

__all__ = ["column", "ids_of", "key_of", "word"]

_FIXED = re.compile(r"[a-z0-9][a-z0-9 ,_-]*")
_CAPITALS = frozenset({"vitamin A", "vitamin C"})
"""Fixed words with capitals; any other that has some is a name."""


def word(language: str, value: str, of: str = "") -> str:
    """Return a fixed word of an answer in a language; anything else as it is.

    Parameters
    ----------
    of : str
        The column or field: a word may have a sense of its own there.
    """
    spoken = speaker(language)
    return next((spoken.text(id_) for id_ in ids_of(value, of) if spoken.own(id_)), value)


def ids_of(value: str, of: str = "") -> tuple[str, ...]:
    """Return the ids by which a fixed word may be said; none where it is a name."""
    if not (_FIXED.fullmatch(value) or value in _CAPITALS):
        return ()
    key = key_of(value)
    return (f"sense-{key_of(of)}-{key}", f"word-{key}") if of else (f"word-{key}",)


def column(language: str, question: str, name: str) -> str | None:
    """Return a column's heading in a language; None where it has none."""
    spoken = speaker(language)
    for id_ in (f"column-{question}-{key_of(name)}", f"column-any-{key_of(name)}"):
        if spoken.own(id_):
            return spoken.text(id_)
    return None


def key_of(name: str) -> str:
    """Return a word as an id has it: ``to_check yourself`` is ``to-check-yourself``."""
    return re.sub(r"[._, ]+", "-", name).lower()
