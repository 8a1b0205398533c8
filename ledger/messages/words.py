"""Fixed words and headings of answers, by what the ledger calls them: families of ids."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ledger.messages.catalogue import speaker
from ledger.messages.message import Code, Message

__all__ = ["as_typed", "column", "column_ids", "ids_of", "key_of", "word"]

_FIXED = re.compile(r"[a-z0-9][a-z0-9 ,_-]*")
_UNIT = re.compile(r"-(?:text|whole|share|g|kg|lb|m2|m|ft|ml|kcal|days|weeks|years)$")
_IN_WORDS = re.compile(r"^(?:in-words|value)-")
"""What the name of a column says of how its figure is written."""
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
    found = next((spoken.text(id_) for id_ in ids_of(value, of) if spoken.own(id_)), None)
    return spoken.jar(value) if found is None else found


def as_typed(values: Sequence[str], of: str = "") -> tuple[Message | Code, ...]:
    """Return fixed words as they are typed in the language spoken; as they are stored in English.

    Where English has another name for one of them (a setting's ``time_zone``), all stay as stored.
    """
    spoken = speaker("en")
    found = [
        [id_ for id_ in ids_of(one, of) if spoken.own(id_) and spoken.text(id_) == one]
        for one in values
    ]
    return tuple(Message(one[0]) for one in found) if all(found) else tuple(map(Code, values))


def ids_of(value: str, of: str = "") -> tuple[str, ...]:
    """Return the ids by which a fixed word may be said; none where it is a name."""
    if not (_FIXED.fullmatch(value) or value in _CAPITALS):
        return ()
    key = key_of(value)
    return (f"sense-{key_of(of)}-{key}", f"word-{key}") if of else (f"word-{key}",)


def column(language: str, question: str, name: str) -> str | None:
    """Return a column's heading in a language; None where it has none."""
    spoken = speaker(language)
    return next((spoken.text(id_) for id_ in column_ids(question, name) if spoken.own(id_)), None)


def column_ids(question: str, name: str) -> tuple[str, ...]:
    """Return the ids by which a column's heading may be said, the column's own first.

    What a column is has one heading, in whatever unit or in words: ``target_g`` and ``target_text``
    are said by ``column-any-target``, where neither has a heading of its own.
    """
    key = key_of(name)
    plain = _IN_WORDS.sub("", _UNIT.sub("", key))
    several = (f"column-{question}-{key}", f"column-any-{key}", f"column-any-{plain}")
    return several if plain != key else several[:2]


def key_of(name: str) -> str:
    """Return a word as an id has it: ``to_check yourself`` is ``to-check-yourself``."""
    return re.sub(r"[._, ]+", "-", name).lower()
