"""Fixed words (a method, a place) as they are typed, in the words of any language."""

from __future__ import annotations

from collections.abc import Sequence

from ledger.door.hearing import hear_method
from ledger.errors import InputError
from ledger.messages import LANGUAGES, Message, Names, Typed
from ledger.messages.words import as_typed, word

__all__ = ["choice", "chosen"]


def choice(text: str, choices: Sequence[str], field: str) -> str:
    """Return which of several fixed words a text is, as they are stored or said; else the text."""
    said = text.strip().casefold()
    for code in ("", *LANGUAGES):
        for one in choices:
            if said == (word(code, one, field).casefold() if code else one):
                return one
    heard = hear_method(text) if field == "method" else None
    return heard if heard is not None and heard in choices else text


def chosen(text: str, choices: Sequence[str], field: str) -> str:
    """Return which of several fixed words a text is.

    Raises
    ------
    InputError
        Naming them as the language spoken has them.
    """
    found = choice(text, choices, field)
    if found in choices:
        return found
    if field == "method" and hear_method(text) is not None:
        raise InputError(field, Message.of("refusal-either-canning", text=Typed(text)))
    known = "refusal-one-of-methods" if field == "method" else "refusal-one-of"
    raise InputError(
        field,
        Message.of("refusal-no-word", text=Typed(text)),
        Message.of(known, known=Names(as_typed(choices, field))),
    )
