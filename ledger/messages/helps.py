"""Helps of fields and options, by whose they are: a family of ids."""

from __future__ import annotations

from ledger.messages.catalogue import speaker
from ledger.messages.texts import sentence
from ledger.messages.words import key_of

__all__ = ["example_of", "help_of"]


def help_of(of: str, name: str, text: str) -> str:
    """Return what a field or an option is for, as a sentence that can be said in any language.

    Parameters
    ----------
    of : str
        The kind or the question whose it is.
    name : str
    text : str
        The same in English, for what has no message.
    """
    for id_ in (f"help-{key_of(of)}-{key_of(name)}", f"help-any-{key_of(name)}"):
        if speaker("en").has(id_):
            return sentence(id_)
    return text


def example_of(kind: str, name: str, text: str, language: str) -> str:
    """Return how a field is typed in a language; `text` is how it is in English."""
    spoken = speaker(language)
    for id_ in (f"example-field-{key_of(kind)}-{key_of(name)}", f"example-field-{key_of(name)}"):
        if speaker("en").has(id_) and speaker("en").text(id_) == text:
            return spoken.text(id_)
    return text
