"""Amounts and spans that the units do not know, read in the words of the book's language."""

from __future__ import annotations

from ledger.amounts import parse_measure
from ledger.errors import InputError
from ledger.known.catalogue import Catalogue

__all__ = ["hear", "hear_length", "hear_method", "hear_minutes", "hear_span"]

_UNREAD = ("refusal-no-number-first", "refusal-second-number", "refusal-unit-unknown")
"""Refusals of what may be right in another language; any other says what is wrong with the number."""


def hear(text: str, catalogue: Catalogue, refused: InputError | None = None) -> str | None:
    """Return ``7 500 ml jars`` for ``sieben 500-ml-Gläser``: an amount in plain figures and units.

    Parameters
    ----------
    refused : InputError, optional
        Why the units could not read it.

    Returns
    -------
    str or None
        None where it is no amount in any language.
    """
    if refused is not None and not any(map(refused.says, _UNREAD)):
        return None
    from ledger.saying.phrase import heard

    plain = heard(text, catalogue.setting("language") or "en")
    return None if plain == text else plain


def hear_span(text: str, catalogue: Catalogue) -> str:
    """Return ``4 days`` for ``vier Tage``; what is no span stays as it is, for the door to refuse."""
    from ledger.saying.phrase import span

    return span(text, catalogue.setting("language") or "en") or text


def hear_minutes(text: str, catalogue: Catalogue) -> tuple[str, str] | None:
    """Return what stands before a length of time, and its minutes: ``Ada zwei Stunden``."""
    from ledger.saying.phrase import minutes

    return minutes(text, catalogue.setting("language") or "en")


def hear_length(text: str, catalogue: Catalogue, field: str) -> str:
    """Return ``1/2 in`` for ``1/2 Zoll``; what is no length stays as it is, for the door to refuse."""
    from ledger.saying.phrase import length

    try:
        parse_measure(text, "area" if field == "area" else "length", field)
    except InputError:
        return length(text, catalogue.setting("language") or "en") or text
    return text


def hear_method(text: str) -> str | None:
    """Return the method that words name; "canning" where that may be either way; None: no method."""
    from ledger.saying.phrase import method

    return method(text, "en")
