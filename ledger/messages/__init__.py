"""What Croftbook says, in every language: ids with parameters, and one folder of texts a language.

A sentence is a `Message`: an id and what it is about. `speaker` gives what says it in a language, from
the Project Fluent files of ``en/``, ``de/`` and so on; the first word of an id names its file. An answer
keeps its texts in English, each a `Sentence` that carries its message; a plain text is what the
household wrote, or a fixed word (`fixed`).

Everything is imported when it is first asked for: ``croftbook --help`` says messages without parameters,
and for those neither msgspec nor Babel is read.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from ledger.messages.catalogue import Part, Speaker, speaker
    from ledger.messages.message import (
        Amount,
        Choice,
        Code,
        Day,
        Link,
        Measured,
        Message,
        Money,
        Names,
        Price,
        Row,
        Typed,
    )
    from ledger.messages.texts import (
        SaidLater,
        Sentence,
        fixed,
        joined,
        measured,
        opening,
        priced,
        says,
        sentence,
        worded,
    )

__all__ = [
    "LANGUAGES",
    "Amount",
    "Choice",
    "Code",
    "Day",
    "Link",
    "Measured",
    "Message",
    "Money",
    "Names",
    "Part",
    "Price",
    "Row",
    "SaidLater",
    "Sentence",
    "Speaker",
    "Typed",
    "fixed",
    "joined",
    "known_language",
    "measured",
    "opening",
    "priced",
    "says",
    "sentence",
    "speaker",
    "worded",
]

LANGUAGES = ("en", "de")
"""Languages that have a folder here; the first one speaks where another lacks a text."""

_ROOMS = {
    **dict.fromkeys(("Part", "Speaker", "speaker"), "catalogue"),
    **dict.fromkeys(
        (
            "SaidLater",
            "Sentence",
            "fixed",
            "joined",
            "measured",
            "opening",
            "priced",
            "says",
            "sentence",
            "worded",
        ),
        "texts",
    ),
}
"""Where a public name stands, if not in `message`."""


def known_language(code: str | None) -> str | None:
    """Return the language that a code names, ``de`` for ``de_AT.UTF-8``; None where it has no folder.

    Examples
    --------
    >>> known_language("de_AT.UTF-8"), known_language("fr"), known_language("C.UTF-8")
    ('de', None, None)
    """
    short = (code or "").replace("_", "-").partition("-")[0].partition(".")[0].lower()
    return short if short in LANGUAGES else None


def __getattr__(name: str) -> Any:
    """Import a public name when it is first asked for."""
    if name not in __all__:
        raise AttributeError(name)
    from importlib import import_module

    return getattr(import_module(f"ledger.messages.{_ROOMS.get(name, 'message')}"), name)
