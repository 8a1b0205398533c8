"""What a store keeps to: append, read, head, backup, restore and check, of one database.

Two files keep it: `_sqlite.py`, with Python's own driver and nothing more, and `_postgres.py`, which
alone loads SQLAlchemy and psycopg. A log is one household of a store; tests/contract holds both to
the same behaviour. A restore is in `_install.py`: it may have to replace what no store can open.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Any, Protocol

import msgspec

from ledger.log._place import Place
from ledger.log._statements import Statements

__all__ = ["Row", "Store", "listed"]

Row = tuple[Any, ...]
"""A row of the table of events: the household, then :data:`ledger.log.COLUMNS`."""


class Store(Protocol):
    """One database of events.

    Whatever a method calls `raw` is a connection of the database's own driver, as `reading` or
    `transaction` gave it; `sql` holds the statements of reading that it runs. The driver's errors
    come through as they are: `translated` makes them the package's own.

    Attributes
    ----------
    place : Place
    dialect : {'sqlite', 'postgresql'}
    sql : Statements
        Reads, of a page, a head, an id and so on, by name.
    streams : bool
        Rows can be sent on while later ones are being made, see `take_in`.
    """

    place: Place
    dialect: str
    sql: Statements
    streams: bool

    # A moment of the book, and a change of it

    def reading(self) -> AbstractContextManager[Any]:
        """Give a connection on which each statement sees one moment, and none holds anything."""

    def transaction(self) -> AbstractContextManager[Any]:
        """Give a connection in a writing transaction: all of it is kept, or after an error nothing."""

    def hold(self, raw: Any, household: str, what: str) -> AbstractContextManager[None]:
        """Hold the lock of a household within a transaction, with this process noted as holder."""

    def held_by(self, household: str) -> str:
        """Return who holds the lock of a household, in words; "" where nobody is known to."""

    def ready(self) -> None:
        """Do what has to be done once before a first transaction."""

    def settle(self) -> None:
        """Bring what was committed to where it rests; it is safe already."""

    def close(self) -> None:
        """Close the connections; the store can still be used, and opens them anew."""

    # Append

    def append(self, raw: Any, rows: Sequence[Row]) -> None:
        """Append rows that are all new, within a transaction."""

    def take_in(self, raw: Any, parts: Iterable[Sequence[Row]]) -> bool:
        """Append rows as they are made; where one is there already undo all of them, return False."""

    # The layout and its guards

    def lock_layout(self, raw: Any) -> None:
        """Hold off, within a transaction, whoever else lays the same place out."""

    def tables(self, raw: Any) -> set[str]:
        """Return the names of what is in the database: tables and views."""

    def columns(self, raw: Any, table: str) -> list[tuple[str, str]]:
        """Return the columns of a plain table, name and type in capitals; none of anything else."""

    def guards(self, raw: Any) -> dict[str, str]:
        """Return the triggers of the table of events by name; "" stands for one that is as it should be."""

    def set_guard(self, raw: Any, statement: str, there: str | None) -> None:
        """Run a statement that sets a guard, first dropping the one `there` is by this name."""

    def may_open(self, household: str) -> None:
        """See that whoever is signed in to the database may ask for a household.

        Raises
        ------
        LedgerError
            It may not.
        """

    # Check and backup

    def damage(self, raw: Any, most: int) -> list[str]:
        """Return what the database says is wrong with its own pages, `most` of it."""

    def unique_keys(self, raw: Any) -> list[list[str]]:
        """Return the columns of each key that keeps rows unique."""

    def copy_to(self, target: Path, progress: Callable[[int, int], None] | None) -> bool:
        """Copy one moment of all of it to an empty file; return False where rows have to be copied."""


def listed(store: Store, values: Sequence[str] | Sequence[int]) -> Any:
    """Return a list of texts or numbers as the one parameter that a statement takes."""
    return list(values) if store.dialect == "postgresql" else _json(list(values)).decode()


_json = msgspec.json.Encoder().encode
