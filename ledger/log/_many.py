"""The heads of many households' books at once: which of them moved, without opening each."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Sequence

from ledger.errors import NotABook
from ledger.log._chain import Head
from ledger.log._place import check_file, find_place
from ledger.log._private import why_not
from ledger.log._stores import open_store
from ledger.log._translate import translated
from ledger.messages import Code, sentence

__all__ = ["heads_of"]

_OF_FILE = "SELECT seq, hash FROM events WHERE household = ? ORDER BY seq DESC LIMIT 1"
_OF_SERVER = (
    "SELECT h.household, e.seq, e.hash FROM unnest(%s::text[]) AS h(household) CROSS JOIN LATERAL "
    "(SELECT seq, hash FROM events WHERE household = h.household ORDER BY seq DESC LIMIT 1) AS e"
)


def heads_of(where: str | os.PathLike[str], households: Sequence[str]) -> dict[str, Head]:
    """Return the head of each household's book in a place; one without an event is left out.

    On a server with row-level security a household that the user may not read has none.

    Raises
    ------
    BookError
        The place cannot be read, or holds no book.
    """
    place = find_place(where)
    if place.path is not None:
        try:
            if not place.path.exists():
                raise NotABook(sentence("refusal-no-book-at", place=Code(str(place))))
            if not check_file(place.path):
                raise NotABook(sentence("refusal-no-book-yet", place=Code(str(place))))
        except OSError as error:
            raise NotABook(
                sentence("refusal-cannot-be-read", name=Code(str(place)), why=Code(why_not(error)))
            ) from error
        from ledger.log._sqlite import file_uri

        uri = file_uri(place.path, "mode=ro")
        with translated(str(place)), contextlib.closing(sqlite3.connect(uri, uri=True)) as raw:
            found = {name: raw.execute(_OF_FILE, [name]).fetchone() for name in households}
        return {name: Head(*row) for name, row in found.items() if row}
    store = open_store(place, mode="ro", wait=10.0)
    with translated(str(place)), contextlib.closing(store), store.reading() as raw:
        rows = raw.execute(_OF_SERVER, [list(households)]).fetchall()
    return {row[0]: Head(row[1], row[2]) for row in rows}
