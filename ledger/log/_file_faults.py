"""What a database says of itself: pages, indexes, ids and triggers."""

from __future__ import annotations

from typing import Any

from ledger.errors import BookDamaged
from ledger.log._layout import wrong_triggers
from ledger.log._protocol import Store
from ledger.log._store import Log
from ledger.messages import Code, sentence

__all__ = ["file_faults"]

_MOST = 5
"""Faults told of each sort: a damaged page makes thousands of them."""


def file_faults(log: Log) -> list[str]:
    """Return what is wrong with the whole database, every household of it, a sentence each.

    Looked at: SQLite's own check of the file (pages, and indexes against rows), that each household
    has each id once and each is found by it, the key that sees to that, and the triggers. Reads the
    file once or twice from end to end.
    """
    found: list[str] = []
    looks = (_pages, _keys, _twice, _unfound, wrong_triggers)
    for look in looks:
        try:
            with log._connected() as raw:
                found += look(log.store, raw)
        except BookDamaged as error:
            found.append(str(error))
            break  # the other looks would stumble over the same page
    return list(dict.fromkeys(found))


def _pages(store: Store, raw: Any) -> list[str]:
    found = store.damage(raw, _MOST)
    return [sentence("refusal-file-damaged", why=Code("; ".join(found)))] if found else []


def _keys(store: Store, raw: Any) -> list[str]:
    there = store.unique_keys(raw)
    wanted = (["household", "seq"], ["household", "id"])
    gone = [" and ".join(key) for key in wanted if key not in there]
    return [f"The key on {key} is missing, which keeps it unique" for key in gone]


def _twice(store: Store, raw: Any) -> list[str]:
    """Look for ids that stand twice, by the rows themselves and not by the key."""
    rows = store.sql.twice.run(raw, most=_MOST).fetchall()
    return [f"The id {row[1]} of {row[0]} stands {row[2]} times" for row in rows]


def _unfound(store: Store, raw: Any) -> list[str]:
    """Look each event up by its id, as an arriving event is."""
    rows = store.sql.unfound.run(raw, most=_MOST).fetchall()
    return [
        f"Event {row[1]} of {row[0]} is not found by its id: an index is damaged" for row in rows
    ]
