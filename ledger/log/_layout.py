"""Whether a database is laid out as a book is: its tables, and the triggers that guard them."""

from __future__ import annotations

import re
from typing import Any

from ledger.log._protocol import Store
from ledger.log._schema import EVENTS, TRIGGERS, TYPES

__all__ = ["has_tables_of_a_book", "mend", "wrong_triggers"]

_NAME = re.compile(r"CREATE TRIGGER (\w+)")
_MENT = "They keep events from being changed or deleted. "


def has_tables_of_a_book(store: Store, raw: Any) -> bool:
    """Return whether the tables have the columns of a book, those of events in their order."""
    wanted = [(one.name, TYPES[store.dialect][one.type]) for one in EVENTS]
    if store.columns(raw, "events") != wanted:
        return False
    return "step" in {name for name, _ in store.columns(raw, "book_layout")}


def wrong_triggers(store: Store, raw: Any) -> list[str]:
    """Return what is wrong with the triggers of the table of events, a sentence each."""
    there = store.guards(raw)
    wanted = _wanted(store.dialect)
    gone = [name for name in wanted if name not in there]
    other = [name for name in wanted if name in there and there[name] not in ("", wanted[name])]
    more = [name for name in there if name not in wanted]
    wrong = []
    if gone:
        wrong.append(f"The book's guards are missing: {', '.join(gone)}. {_MENT}{_mended()}")
    if other:
        wrong.append(f"The book's guards were changed: {', '.join(other)}. {_MENT}{_mended()}")
    if more:
        wrong.append(
            f"The table of events has triggers that are no part of a book: {', '.join(more)}. "
            "Put a backup in the book's place with `croftbook restore FILE`"
        )
    return wrong


def _mended() -> str:
    return (
        "Where `croftbook check` finds the events whole, `croftbook check --accept` sets them anew"
    )


def _plain(sql: str) -> str:
    return " ".join(sql.split())


def _wanted(dialect: str) -> dict[str, str]:
    found = {}
    for statement in TRIGGERS[dialect]:
        match = _NAME.match(statement)
        if match:
            found[match[1]] = _plain(statement)
    return found


def mend(store: Store, raw: Any) -> None:
    """Set missing or changed triggers anew, within a transaction."""
    there = store.guards(raw)
    for statement in TRIGGERS[store.dialect]:
        match = _NAME.match(statement)
        name = match[1] if match is not None else ""
        if name not in there or there[name] != _plain(statement):
            store.set_guard(raw, statement, name if name in there else None)
