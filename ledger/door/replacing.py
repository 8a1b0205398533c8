"""Corrections and strikes: what may replace what, and how lines keep their numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.errors import InputError, NotFound
from ledger.items import item_key
from ledger.kinds import KINDS, decode_stored
from ledger.known.catalogue import Catalogue
from ledger.log import StoredEvent, Writing
from ledger.messages import Code, Message, Typed, fixed, sentence

if TYPE_CHECKING:
    from ledger.door.writing import Entry

__all__ = ["check_batch", "check_replaces", "check_strike", "keep_numbers", "lists_of", "numbered"]

_LISTS = tuple(dict.fromkeys(name for kind in KINDS.values() for name in kind.lists))
"""The lists of every kind whose lines carry numbers."""

Body = dict[str, Any]


def lists_of(body: Body) -> dict[str, list[Body]]:
    """Return the lists of a body whose lines carry numbers, by name.

    A recipe's ``uses`` is such a list; an item's ``uses`` is a number.
    """
    return {name: body[name] for name in _LISTS if isinstance(body.get(name), list)}


def check_replaces(tx: Writing, entry: Entry) -> StoredEvent:
    """Return the event that an entry corrects.

    Raises
    ------
    NotFound, InputError
    """
    assert entry.replaces is not None
    old = tx.get(entry.replaces)
    if old is None:
        raise NotFound(
            "replaces",
            Message.of("refusal-no-entry", id=Typed(entry.replaces)),
            Message.of("refusal-id-from-history"),
        )
    if old.kind == "struck" or entry.kind == "struck":
        raise InputError(
            "replaces",
            Message.of("refusal-strike-not-corrected"),
        )
    if old.kind != entry.kind:
        raise InputError(
            "replaces",
            sentence(
                "refusal-other-kind",
                id=Code(entry.replaces[:8]),
                kind=fixed(old.kind),
                kind2=fixed(entry.kind),
            ),
        )
    return old


def check_strike(tx: Writing, catalogue: Catalogue, target: str) -> str:
    """Return the id that a strike names.

    Raises
    ------
    NotFound, InputError
        When there is none, it is a strike, or it is struck already.
    """
    old = tx.get(target)
    if old is None:
        raise NotFound(
            "id",
            Message.of("refusal-no-entry", id=Typed(target)),
            Message.of("refusal-id-from-history"),
        )
    if old.kind == "struck":
        raise InputError("id", Message.of("refusal-a-strike"))
    if catalogue.entries(tx).is_struck(target):
        raise InputError(
            "id",
            Message.of("refusal-struck-already", id=Code(target[:8])),
        )
    return old.id


def check_batch(tx: Writing, catalogue: Catalogue, id: str) -> str:
    """Return the entry of the batch that was looked up.

    Raises
    ------
    NotFound, InputError
        When there is none, it is no batch, or it was taken back.
    """
    event = tx.get(id)
    if event is None:
        raise NotFound(
            "batch",
            Message.of("refusal-no-entry", id=Typed(id[:60])),
            Message.of("refusal-id-from-published"),
        )
    if event.kind != "put_up":
        raise InputError(
            "batch",
            sentence("refusal-not-a-batch", id=Code(id[:8]), kind=fixed(event.kind)),
            Message.of("refusal-id-from-published"),
        )
    entries = catalogue.entries(tx)
    if entries.is_struck(id):
        raise InputError("batch", Message.of("refusal-batch-struck", id=Code(id[:8])))
    return entries.root(id)


def keep_numbers(tx: Writing, catalogue: Catalogue, body: Body, old: StoredEvent) -> Body:
    """Return a correction's body in which lines keep the numbers that they had in `old`.

    New lines get numbers that no version of the entry has used, so that a lot's id never comes to
    mean another thing.
    """
    before = decode_stored(old.kind, old.v, old.body, seq=old.seq)
    highest: dict[str, int] = {}
    for id_ in catalogue.entries(tx).words(old.id):
        event = tx.get(id_)
        said = decode_stored(event.kind, event.v, event.body) if event is not None else {}
        for name, lines in lists_of(said).items():
            highest[name] = max(highest.get(name, 0), *(line.get("n") or 0 for line in lines), 0)
    known = lists_of(before)
    return body | {
        name: _matched(lines, known.get(name, []), highest.get(name, 0))
        for name, lines in lists_of(body).items()
    }


def numbered(lines: list[Body], field: str) -> list[Body]:
    """Return the lines of a new entry with numbers from 1; those that bring one keep it.

    Raises
    ------
    InputError
        When two bring the same.
    """
    given = [line["n"] for line in lines if line.get("n")]
    if not given:
        return [{**line, "n": n} for n, line in enumerate(lines, 1)]
    if len(set(given)) < len(given) or min(given) < 1 or max(given) > 1_000_000:
        raise InputError(f"{field}.n", Message.of("refusal-line-numbers"))
    free = iter(n for n in range(1, len(lines) + len(given) + 1) if n not in set(given))
    return [line if line.get("n") else {**line, "n": next(free)} for line in lines]


def _matched(lines: list[Body], old: list[Body], highest: int) -> list[Body]:
    """Give each line the number of its like: at the same place first, then anywhere."""
    numbers = {i: line["n"] for i, line in enumerate(lines) if line.get("n")}
    taken = set(numbers.values())
    free = {i: line for i, line in enumerate(old) if line.get("n") not in taken}
    for anywhere in (False, True):
        for i, line in enumerate(lines):
            like = [at for at, one in free.items() if _what(one) == _what(line)]
            if i not in numbers and like and (anywhere or i in like):
                numbers[i] = free.pop(i if i in like else like[0])["n"]
    for i in range(len(lines)):
        if i not in numbers:
            highest = numbers[i] = max(highest, *numbers.values(), 0) + 1
    return [{**line, "n": numbers[i]} for i, line in enumerate(lines)]


def _what(line: Body) -> str:
    return item_key(line.get("item") or line.get("jar") or line.get("metered") or "")
