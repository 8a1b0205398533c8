"""Where the preserving figures were read."""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files

from ledger.reference._read import rows
from ledger.reference.planting import Source

__all__ = ["source", "sources"]


@cache
def sources() -> dict[str, Source]:
    """Return every document by its key."""
    more = files("ledger.reference").joinpath("storage_more_sources.csv").read_text("utf-8")
    return {
        row["source_id"]: Source(
            row["title"], row["publisher"], row["year"], row["address"], row["read"]
        )
        for row in [*rows("preserving_sources"), *csv.DictReader(more.splitlines())]
    }


def source(key: str) -> Source:
    """Return the document of a key.

    Raises
    ------
    KeyError
        When no document has that key.
    """
    return sources()[key]
