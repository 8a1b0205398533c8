"""Numbers of open questions: each keeps its own while any of them is open, so an answer meets no other question."""

from __future__ import annotations

import hashlib
import json
from typing import TYPE_CHECKING

from ledger.cache import folder, write_whole
from ledger.errors import InputError
from ledger.messages import Message

if TYPE_CHECKING:
    from pathlib import Path

    from ledger.book import Book
    from ledger.saying.waiting import Waiting

__all__ = ["numbered", "question_of"]

_OF_THINGS, _OF_LINES = ("weight", "jar", "opening"), ("price", "who")
_HINT = "See `croftbook questions`"


def numbered(book: Book, found: list[Waiting]) -> list[tuple[int, Waiting]]:
    """Return open questions with their numbers, and keep them: a new question takes the next one."""
    kept = _kept(book)
    keys = [_key(book, one) for one in found]
    if not any(key in kept for key in keys):
        kept = {}
    for key in keys:
        kept.setdefault(key, max(kept.values(), default=0) + 1)
    write_whole(_place(book), [json.dumps(kept).encode()])
    return sorted(((kept[key], one) for key, one in zip(keys, found, strict=True)), key=_first)


def question_of(book: Book, found: list[Waiting], number: int) -> Waiting:
    """Return the open question that bore a number when the questions were listed.

    Raises
    ------
    InputError
        When it is answered, or no question has borne it.
    """
    kept = _kept(book)
    if not kept:
        kept = {_key(book, one): n for n, one in numbered(book, found)}
    named = {n: key for key, n in kept.items()}
    if number not in named:
        raise InputError("number", Message.of("refusal-no-open-question", n=number))
    one = next((one for one in found if _key(book, one) == named[number]), None)
    if one is None:
        raise InputError("number", Message.of("refusal-question-closed", n=number))
    return one


def _first(one: tuple[int, Waiting]) -> int:
    return one[0]


def _key(book: Book, one: Waiting) -> str:
    """Return what tells a question from all others, also after its entry was corrected by an answer."""
    about = [one.code, one.item.lower(), one.unit]
    if one.code not in _OF_THINGS:
        entries = book.catalogue().entries(book.log)
        about += [entries.root(one.entries[0][1]) if one.entries else one.text]
    if one.code in _OF_LINES:
        about.append(str(one.line))
    return "\x1f".join(about)


def _place(book: Book) -> Path:
    mark = hashlib.sha256(book.log.name.encode("utf-8", "surrogateescape")).hexdigest()[:32]
    return folder("questions") / f"{mark}.json"


def _kept(book: Book) -> dict[str, int]:
    try:
        said = json.loads(_place(book).read_text("utf-8"))
        return {str(key): int(n) for key, n in said.items()}
    except (OSError, ValueError, AttributeError, TypeError):
        return {}
