"""A reading that nothing stands in the way of, as entries for the door."""

from __future__ import annotations

import uuid

from ledger.door import Entry
from ledger.door.catalogue import Catalogue
from ledger.saying.asking import Reading

__all__ = ["entries_of"]


def entries_of(
    catalogue: Catalogue, reading: Reading, *, by: str | None = None, id: str | None = None
) -> list[Entry]:
    """Return what a reading writes: other names and sorts first, then what happened.

    Parameters
    ----------
    catalogue : Catalogue
    reading : Reading
    by : str, optional
        Who writes it down.
    id : str, optional
        A name of this one writing: written a second time under it, nothing is written twice.
    """
    entries = [*_described(catalogue, reading)]
    entries += [Entry(one.kind, one.body, on=one.on, by=by) for one in reading.entries]
    for n, entry in enumerate(entries) if id else ():
        entry.id = str(uuid.uuid5(uuid.UUID(id), str(n)))
    return entries


def _described(catalogue: Catalogue, reading: Reading) -> list[Entry]:
    """Return descriptions: other names that were agreed to, and sorts of new supplies."""
    out = []
    for said, item in dict.fromkeys(reading.aliases):
        facts = catalogue.facts(item)
        also = [*((facts.also if facts else None) or []), said]
        sort = (facts.sort if facts else None) or "food"
        out.append(Entry("item_described", {"item": item, "sort": sort, "also": also}))
    for item, sort in reading.sorts.items():
        if catalogue.facts(item) is None:
            out.append(Entry("item_described", {"item": item, "sort": sort}))
    return out
