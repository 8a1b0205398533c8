"""Amounts and spans that the units do not know, read in the words of the book's language."""

from __future__ import annotations

from ledger.errors import InputError
from ledger.known.catalogue import Catalogue

__all__ = ["hear", "hear_minutes", "hear_span"]

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
