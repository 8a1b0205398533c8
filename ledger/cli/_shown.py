"""The rows of the table shown last of a book, so that `croftbook why 3` opens the third of them.

Kept in the user's cache folder, a file a book and household; it may be deleted at any time.
"""

from __future__ import annotations

import contextlib
import hashlib
import os
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from ledger.errors import NotFound
from ledger.files import whole_file
from ledger.messages import Code, Day, Message

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ledger.projections import Answer

__all__ = ["Row", "Table", "keep", "row_of"]


class Table(msgspec.Struct):
    """What was shown: the question, its moment, and the address of each row."""

    question: str
    as_of: str
    known_at: str | None
    addresses: list[str]


class Row(msgspec.Struct):
    """A row that was shown: its address, and the moment it was shown of."""

    address: str
    as_of: str
    known_at: str | None
    told: Message


def keep(where: str | None, household: str, answer: Answer) -> bool:
    """Keep which rows are shown; tell whether they can be asked for by number.

    Parameters
    ----------
    where : str or None
        The book as it was named; None: the user's own.
    """
    addresses: Sequence[Any] = answer.cells.get("why", ())
    path = _file(where, household)
    if not addresses or not all(isinstance(one, str) for one in addresses):
        with contextlib.suppress(OSError):
            path.unlink(missing_ok=True)  # else a number would open a row of an older table
        return False
    table = Table(answer.name, answer.as_of, answer.known_at, list(addresses))
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with whole_file(path) as file:
            file.write(msgspec.json.encode(table))
    except OSError:
        return False  # a cache folder that cannot be written to: no numbers then
    return True


def row_of(where: str | None, household: str, number: str) -> Row:
    """Return the row of a number in the table shown last of a book.

    Raises
    ------
    NotFound
        When no table was shown yet, or it has no such row.
    """
    try:
        table = msgspec.json.decode(_file(where, household).read_bytes(), type=Table)
    except (OSError, msgspec.DecodeError):
        raise NotFound(
            "address",
            Message.of("refusal-no-table", n=int(number)),
        ) from None
    count = len(table.addresses)
    if not 1 <= int(number) <= count:
        raise NotFound(
            "address",
            Message.of("refusal-no-row", question=Code(table.question), n=int(number), count=count),
        )
    address = table.addresses[int(number) - 1]
    told = Message.of("cli-row", n=int(number), question=Code(table.question), day=Day(table.as_of))
    return Row(address, table.as_of, table.known_at, told)


def _file(where: str | None, household: str) -> Path:
    """Return the file of a book: named by where the book is, which may hold a password."""
    from platformdirs import user_cache_path

    from ledger.book import default_path

    place = str(where or default_path())
    if "://" not in place:
        place = os.path.realpath(place)
    name = hashlib.sha256(f"{place}\n{household}".encode()).hexdigest()[:16]
    return user_cache_path("croftbook", appauthor=False) / "shown" / f"{name}.json"
