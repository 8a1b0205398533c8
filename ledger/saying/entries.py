"""A reading that nothing stands in the way of, as entries for the door."""

from __future__ import annotations

import uuid
from typing import Any

from ledger.door import Entry
from ledger.known.catalogue import Catalogue
from ledger.saying.asking import HERE, Reading

__all__ = ["entries_of"]


_SORTS = {
    "animal": {"sort": "garden input"},
    "layer": {"sort": "garden input", "feeds": "egg"},
    "hen feed": {"sort": "garden input", "feeds": "egg"},
}
"""Animals that were bought, and feed of hens, are what goes into what they give, and no food on a shelf."""


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
    said = [Entry(one.kind, one.body, on=one.on, by=by) for one in reading.entries]
    entries += said
    for n, entry in enumerate(entries) if id else ():
        entry.id = str(uuid.uuid5(uuid.UUID(id), str(n)))
    for entry in said:
        if entry.kind == "put_up":
            entry.body = {**entry.body, "used": [_named(one, said) for one in entry.body["used"]]}
    return entries


def _named(line: dict[str, Any], said: list[Entry]) -> dict[str, Any]:
    """Return a line with the id of the lot that an entry beside it brings in."""
    lot = str(line.get("lot", ""))
    if not lot.startswith(HERE):
        return line
    place, n = lot.removeprefix(HERE).split(":")
    entry = said[int(place)]
    entry.id = entry.id or str(uuid.uuid4())
    return {**line, "lot": f"{entry.id}:{n}"}


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
            out.append(Entry("item_described", {"item": item, **_SORTS.get(sort, {"sort": sort})}))
    return out
