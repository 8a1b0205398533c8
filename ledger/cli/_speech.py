"""In which language the command speaks, and how it says a thing in it.

The language is that of ``--language``, else of CROFTBOOK_LANGUAGE, else the book's setting, else that
of the locale, else English. Help opens no book: it goes by the setting that the book had when it was
opened last, which is kept in the user's cache folder.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from ledger.messages import LANGUAGES, known_language
from ledger.messages.texts import worded

if TYPE_CHECKING:
    from pathlib import Path

    from ledger.book import Book
    from ledger.errors import LedgerError
    from ledger.messages import Message, Part

__all__ = [
    "VARIABLE",
    "ask",
    "begin",
    "confirm",
    "echo",
    "for_book",
    "knows",
    "language",
    "parts",
    "refused",
    "say",
    "set_language",
    "told",
]

VARIABLE = "CROFTBOOK_LANGUAGE"
_LOCALES = ("LC_ALL", "LC_MESSAGES", "LANG")


class _Speech:
    """The language that is spoken, and whether somebody chose it for this command."""

    language = LANGUAGES[0]
    is_chosen = False


def language() -> str:
    """Return the language that is spoken: ``en``, ``de``."""
    return _Speech.language


def set_language(code: str, *, chosen: bool) -> None:
    """Speak a language from now on; a chosen one holds whatever the book says."""
    _Speech.language, _Speech.is_chosen = code, chosen


def begin(args: Sequence[str]) -> str | None:
    """Choose the language before anything is said; return a name that is no language of ours, if given.

    Parameters
    ----------
    args : sequence of str
        The command's words: a help may be asked for in a language that is named behind it.
    """
    named = _option(args, "--language")
    given = named if named is not None else os.environ.get(VARIABLE) or None
    code = known_language(given)
    if code is not None:
        set_language(code, chosen=True)
        return None
    of_book = _remembered(_option(args, "--book"), _option(args, "--household") or "home")
    set_language(of_book or _of_locale(), chosen=False)
    return given


def _of_locale() -> str:
    """Return the locale's language, by the first of its variables that is set."""
    said = next((one for name in _LOCALES if (one := os.environ.get(name))), None)
    return known_language(said) or LANGUAGES[0]


def _option(args: Sequence[str], name: str) -> str | None:
    """Return the value of an option among a command's words, before ``--``."""
    for at, word in enumerate(args):
        if word == "--":
            break
        if word == name and at + 1 < len(args):
            return args[at + 1]
        if word.startswith(f"{name}="):
            return word.partition("=")[2]
    return None


# -- the book's setting ------------------------------------------------------------------


def for_book(book: Book, where: str | None, household: str) -> None:
    """Speak a book's language, where nobody chose another; keep it for the next help."""
    said = known_language(book.setting("language"))
    if said != _remembered(where, household):
        _remember(where, household, said)
    if not _Speech.is_chosen:
        set_language(said or _of_locale(), chosen=False)


def _file(where: str | None, household: str) -> Path:
    """Return the file of a book: named by where the book is, which may hold a password."""
    import hashlib

    from ledger.cache import default_path, folder

    place = str(where or os.environ.get("CROFTBOOK") or default_path())
    if "://" not in place:
        place = os.path.realpath(place)
    name = hashlib.sha256(f"{place}\n{household}".encode("utf-8", "replace")).hexdigest()[:16]
    return folder("language") / name


def _remembered(where: str | None, household: str) -> str | None:
    try:
        return known_language(_file(where, household).read_text("utf-8"))
    except (OSError, ValueError):
        return None


def _remember(where: str | None, household: str, code: str | None) -> None:
    from ledger.cache import write_whole

    file = _file(where, household)
    if code is not None:
        write_whole(file, [code.encode()])
        return
    try:
        file.unlink(missing_ok=True)
    except OSError:
        return  # a cache folder that cannot be written to: help goes by the locale


# -- saying ------------------------------------------------------------------------------


def say(message: Message | str, attribute: str = "", **parameters: Any) -> str:
    """Return a message, or the one of an id, as plain text."""
    from ledger.messages.catalogue import speaker

    return speaker(_Speech.language).text(message, attribute, **parameters)


def knows(id_: str) -> bool:
    """Return whether there is a message of that id."""
    from ledger.messages.catalogue import speaker

    return speaker(_Speech.language).has(id_)


def parts(message: Message | str, attribute: str = "", **parameters: Any) -> list[Part]:
    """Return a message as parts with a style each."""
    from ledger.messages.catalogue import speaker

    return speaker(_Speech.language).parts(message, attribute, **parameters)


def echo(message: Message | str, *, err: bool = False, **parameters: Any) -> None:
    """Print a message on a line of its own."""
    import click

    click.echo(say(message, **parameters), err=err)


def told(text: str) -> str:
    """Return what the ledger says, in the language that is spoken; a name as it is."""
    return worded(text, _Speech.language)


def confirm(text: str, *, default: bool = False) -> bool:
    """Ask a question that is answered with yes or no, in the words of the language.

    Raises
    ------
    click.Abort
        When the input ends.
    """
    import click

    if language() == LANGUAGES[0]:
        return click.confirm(text, default=default, err=True)
    from ledger.messages import Choice

    shown = say("cli-yes-no", default=Choice("yes" if default else "no"))
    while True:
        said = click.prompt(f"{text} [{shown}]", default="", show_default=False, err=True)
        said = said.strip().casefold()
        if not said:
            return default
        for answer, id_ in ((True, "cli-yes"), (False, "cli-no")):
            if said in say(id_).split():
                return answer
        echo("cli-yes-or-no", err=True)


def ask(text: str, *, choices: Sequence[str] = ()) -> str:
    """Ask for a text, or for one of several words, until there is one."""
    import click

    if language() == LANGUAGES[0]:
        kind = click.Choice(choices) if choices else None
        return str(click.prompt(text, type=kind, err=True))
    shown = f"{text} ({', '.join(choices)})" if choices else text
    while True:
        said = str(click.prompt(shown, err=True)).strip()
        if not choices or said in choices:
            return said
        echo("cli-one-of", err=True, known=", ".join(choices))


def refused(error: LedgerError) -> str:
    """Return why something was refused and what would be right, or a question and its offer."""
    from ledger import errors
    from ledger.messages import Code

    if language() == LANGUAGES[0]:
        return str(error)
    if isinstance(error, errors.NeedsAnswer):
        text = _with_field(error.field, told(error.question))
        if not error.offered:
            return text
        by = Code("--knowingly" if error.code == errors.DANGER else "--yes")
        return say("cli-takes", text=text, by=by, offered=told(error.offered))
    if not isinstance(error, errors.InputError):
        return told(str(error))
    problem, wanted = error.parts(language(), told)
    text = _with_field(error.field, problem)
    return f"{text}{'' if text.endswith(('?', '.')) else '.'} {wanted}" if wanted else text


def _with_field(field: str, text: str) -> str:
    return f"{field}: {text}" if field else text
