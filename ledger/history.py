"""The history: every event with its entry, what became of it, and one readable line."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import msgspec

from ledger.errors import NewerEvent, UnknownKind
from ledger.kinds import read_stored, tell_stored
from ledger.known import Catalogue
from ledger.known.entries import Entries
from ledger.log import Log
from ledger.messages import Code, sentence

__all__ = ["HistoryRow", "newer_rows", "rows"]


@dataclass(frozen=True)
class HistoryRow:
    """An event in the history: `state` is ``holds``, ``corrected`` or ``struck``.

    A strike ``holds`` until what it took back is written again.
    """

    seq: int
    id: str
    entry: str
    kind: str
    on: str
    recorded_at: str
    by: str | None
    state: str
    line: str
    note: str | None = None


def rows(
    log: Log, catalogue: Catalogue, *, kind: str | None = None, item: str | None = None
) -> Iterator[HistoryRow]:
    """Yield the events in their order, of one kind or about one item where that is said."""
    entries = Entries()
    entries.read(log)
    wanted = catalogue.key(item) if item else None
    for chunk in log.read(kinds=[kind] if kind else None):
        for row in chunk:
            body = _body(row)
            if wanted is None or _names(body, wanted, catalogue):
                named = (body or {}).get("id", row[1]) if row[2] == "struck" else row[1]
                yield _told(row, entries.root(named), _state(entries, row, named), body)


def newer_rows(log: Log, after: int) -> list[HistoryRow] | None:
    """Return the events behind a number in the log; None where one of them changes what became of others.

    Telling 45,000 events anew after each entry took a third of the time of a page's drawing.
    """
    new = [row for chunk in log.read(after=after) for row in chunk]
    if any(row[9] or row[2] == "struck" for row in new):
        return None
    return [_told(row, row[1], "holds", _body(row)) for row in new]


def _body(row: tuple[Any, ...]) -> dict[str, Any] | None:
    """Return an event's body; None where this program cannot read it."""
    try:
        return read_stored(row[2], row[3], row[10], seq=row[0])
    except (UnknownKind, NewerEvent, msgspec.DecodeError):
        return None


def _told(row: tuple[Any, ...], entry: str, state: str, body: dict[str, Any] | None) -> HistoryRow:
    if body is None:
        line: str = sentence("told-not-read", kind=Code(row[2]))
    else:
        line = tell_stored(row[2], row[3], row[10], body, seq=row[0])
    note = (body or {}).get("note") or None
    return HistoryRow(row[0], row[1], entry, row[2], row[4], row[6], row[8], state, line, note)


def _state(entries: Entries, row: tuple[Any, ...], named: str) -> str:
    if row[2] == "struck":
        return "holds" if entries.is_struck(named) else "corrected"
    if entries.is_struck(named):
        return "struck"
    return "holds" if entries.newest(named) == row[1] else "corrected"


def _names(value: Any, key: str, catalogue: Catalogue) -> bool:
    """Return whether a body names an item, under any of its names."""
    if isinstance(value, dict):
        return any(
            (
                name in ("item", "makes", "crop", "jar", "lids", "for_crop")
                and isinstance(part, str)
                and catalogue.key(part) == key
            )
            or _names(part, key, catalogue)
            for name, part in value.items()
        )
    return isinstance(value, list) and any(_names(part, key, catalogue) for part in value)
