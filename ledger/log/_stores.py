"""Which of the two files keeps a place."""

from __future__ import annotations

from ledger.log._place import Place
from ledger.log._protocol import Store

__all__ = ["open_store"]


def open_store(place: Place, *, mode: str, wait: float) -> Store:
    """Return the store at a place; nothing is connected yet.

    Parameters
    ----------
    place : Place
        Where the book is.
    mode : str
        For a file: ``rwc``, ``rw``, ``ro``, or ``immutable`` for one that nobody can write to.
    wait : float
        Seconds to wait for another writer.
    """
    if place.path is not None:
        from ledger.log._sqlite import SqliteStore

        return SqliteStore(place, mode=mode, wait=wait)
    from ledger.log._postgres import PostgresStore

    return PostgresStore(place, wait=wait)
