"""Corrections and strikes: what may replace what, and how lines keep their numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ledger.door.catalogue import Catalogue
from ledger.errors import InputError, NotFound
from ledger.events import KINDS, decode_stored
from ledger.items import item_key
from ledger.log import Writing

if TYPE_CHECKING:
    from ledger.door.writing import Entry

__all__ = ["check_measure", "check_replaces", "check_strike", "keep_numbers"]

_LISTS = ("lines", "used", "made", "ate", "left", "fuel", "uses")


def check_replaces(tx: Writing, entry: Entry) -> dict[str, Any]:
    """Return the body that an entry replaces.

    Raises
    ------
    NotFound, InputError
    """
    assert entry.replaces is not None
    old = tx.get(entry.replaces)
    if old is None:
        raise NotFound(
            "replaces",
            f"there is no entry {entry.replaces!r}",
            "Take an id from `croftbook history`",
        )
    if old.kind == "struck" or entry.kind == "struck":
        raise InputError(
            "replaces",
            "a strike is neither corrected nor a correction",
            "Write the entry again with `replaces` naming it, or strike it",
        )
    if old.kind != entry.kind:
        raise InputError(
            "replaces",
            f"{entry.replaces[:8]} is {old.kind}, not {entry.kind}",
            "Strike it, and write the other down",
        )
    return decode_stored(old.kind, old.v, old.body, seq=old.seq)


def check_strike(tx: Writing, catalogue: Catalogue, target: str) -> str:
    """Return the id that a strike names.

    Raises
    ------
    NotFound, InputError
        When there is none, it is a strike, or it is struck already.
    """
    old = tx.get(target)
    if old is None:
        raise NotFound("id", f"there is no entry {target!r}", "Take an id from `croftbook history`")
    if old.kind == "struck":
        raise InputError(
            "id", "that is a strike", "To restore what was struck, write it again with --replaces"
        )
    root = _root(tx, old.id, old.replaces)
    if root in _struck_roots(tx, catalogue, root):
        raise InputError(
            "id",
            f"{target[:8]} was taken back already",
            "To restore it, write it again with --replaces",
        )
    return old.id


def _root(tx: Writing, id_: str, replaces: str | None) -> str:
    while replaces is not None:
        before = tx.get(replaces)
        if before is None:
            break
        id_, replaces = before.id, before.replaces
    return id_


def _struck_roots(tx: Writing, catalogue: Catalogue, root: str) -> set[str]:
    """Return `root` where the newest word on its entry is a strike."""
    if not catalogue.struck:
        return set()
    newest_strike, newest_word, of = 0, 0, {root}
    for chunk in tx.read(kinds=None) if root in _maybe_struck(tx, catalogue, root) else ():
        for row in chunk:
            if row[1] == root or row[9] in of:
                of.add(row[1])
                newest_word = row[0]
            elif row[2] == "struck" and decode_stored("struck", row[3], row[10])["id"] in of:
                newest_strike = row[0]
    return {root} if newest_strike > newest_word else set()


def _maybe_struck(tx: Writing, catalogue: Catalogue, root: str) -> set[str]:
    """Return `root` where some strike names an event of its entry (most entries never are)."""
    for named in catalogue.struck:
        event = tx.get(named)
        if event is not None and _root(tx, event.id, event.replaces) == root:
            return {root}
    return set()


def keep_numbers(body: dict[str, Any], old: dict[str, Any]) -> dict[str, Any]:
    """Return a replacement's body in which lines keep the numbers that they had.

    A line of the same item at the same place keeps its number, then any line of that item;
    new lines get higher ones, so that a lot's id never means another thing.
    """
    out = dict(body)
    for name in _LISTS:
        if isinstance(body.get(name), list):
            out[name] = _numbered(body[name], old.get(name) or [])
    return out


def _numbered(lines: list[dict[str, Any]], old: list[dict[str, Any]]) -> list[dict[str, Any]]:
    free = dict(enumerate(old))
    numbers: dict[int, int] = {}
    for i, line in enumerate(lines):
        if i in free and _what(free[i]) == _what(line):
            numbers[i] = free.pop(i)["n"]
    for i, line in enumerate(lines):
        match = next(
            (at for at, one in free.items() if i not in numbers and _what(one) == _what(line)), None
        )
        if match is not None:
            numbers[i] = free.pop(match)["n"]
    highest = max((one["n"] for one in old), default=0)
    for i in range(len(lines)):
        if i not in numbers:
            highest += 1
            numbers[i] = highest
    return [{**line, "n": numbers[i]} for i, line in enumerate(lines)]


def _what(line: dict[str, Any]) -> str:
    return item_key(line.get("item") or line.get("jar") or line.get("metered") or "")


def check_measure(tx: Writing, catalogue: Catalogue, body: dict[str, Any]) -> None:
    """Refuse another measure for an item once a line of it is stored, and such a merger.

    Raises
    ------
    InputError
    """
    facts = catalogue.facts(body["item"])
    wanted = body.get("measure")
    if (
        facts is not None
        and facts.measure
        and wanted
        and wanted != facts.measure
        and _has_lines(tx, catalogue, body["item"])
    ):
        raise InputError(
            "measure",
            f"{body['item']} is kept by {facts.measure}, and lines of it are stored",
            f"Leave the measure, or describe another item kept by {wanted}",
        )
    measure = wanted or (facts.measure if facts else None)
    for other in body.get("also") or ():
        known = catalogue.facts(other)
        if (
            known is not None
            and known.measure
            and measure
            and known.measure != measure
            and _has_lines(tx, catalogue, other)
        ):
            raise InputError(
                "also",
                f"{other} is kept by {known.measure} and {body['item']} by {measure}",
                "They cannot be one item",
            )


def _has_lines(tx: Writing, catalogue: Catalogue, item: str) -> bool:
    """Return whether any stored line is of an item (looked up only when it matters)."""
    key = catalogue.key(item)
    kinds = [
        name
        for name, kind in KINDS.items()
        if kind.supplies or kind.draws or name in ("counted", "price_seen")
    ]
    for chunk in tx.read(kinds=kinds):
        for row in chunk:
            body = decode_stored(row[2], row[3], row[10])
            several = [
                line for name in _LISTS for line in (body.get(name) or []) if isinstance(line, dict)
            ]
            names = [line.get("item") or body.get("makes") for line in several] + [body.get("item")]
            if any(name and catalogue.key(name) == key for name in names):
                return True
    return False
