"""Fixed words and headings of answers, by what the ledger calls them: families of ids."""

from __future__ import annotations

import re

from ledger.messages.catalogue import speaker
from ledger.messages.message import Message
from ledger.messages.texts import Sentence

__all__ = ["column", "fixed", "word"]

_FIXED = re.compile(r"[a-z0-9][a-z0-9 _-]*")
_CAPITALS = frozenset({"vitamin A", "vitamin C"})
"""Fixed words with capitals; any other that has some is a name."""


def word(language: str, value: str, of: str = "") -> str:
    """Return a fixed word of an answer in a language; anything else as it is.

    Parameters
    ----------
    of : str
        The column or field: a word may have a sense of its own there.
    """
    if not (_FIXED.fullmatch(value) or value in _CAPITALS):
        return value
    key, spoken = _key(value), speaker(language)
    for id_ in (f"sense-{_key(of)}-{key}", f"word-{key}") if of else (f"word-{key}",):
        if spoken.own(id_):
            return spoken.text(id_)
    return value


def fixed(value: str, of: str = "") -> str:
    """Return a fixed word of an answer as a text that can be said in any language; a name as it is.

    Parameters
    ----------
    of : str
        As for `word`.
    """
    if not (_FIXED.fullmatch(value) or value in _CAPITALS):
        return value
    key, spoken = _key(value), speaker("en")
    for id_ in (f"sense-{_key(of)}-{key}", f"word-{key}") if of else (f"word-{key}",):
        if spoken.own(id_):
            return Sentence(value, Message(id_))
    return value


def column(language: str, question: str, name: str) -> str | None:
    """Return a column's heading in a language; None where it has none."""
    spoken = speaker(language)
    for id_ in (f"column-{question}-{_key(name)}", f"column-any-{_key(name)}"):
        if spoken.own(id_):
            return spoken.text(id_)
    return None


def _key(name: str) -> str:
    return re.sub(r"[._ ]+", "-", name).lower()
