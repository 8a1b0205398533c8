"""Columns of a sheet that are fields: shop, bed, person, variety, place and note of a row."""

from __future__ import annotations

from typing import Any

from ledger.saying.language import Language
from ledger.saying.tokens import tokens_of

__all__ = ["place_cells"]

_WHERE = {"bought": "shop", "price_seen": "shop", "received": "from", "given_away": "to"}
_WHO = {"received": "from", "given_away": "to"}


def place_cells(body: dict[str, Any], kind: str, said: dict[str, str], words: Language) -> None:
    """Put the cells that are fields into the body; what the kind has no field for is a note.

    Parameters
    ----------
    body : dict
        Of an entry of this kind; changed.
    said : dict of str to str
        The cells of the row by their role.
    """
    notes = [body["note"]] if body.get("note") else []
    shop, bed, person = said.get("shop"), said.get("bed"), said.get("person")
    if shop and kind in _WHERE:
        body.setdefault(_WHERE[kind], shop)
    elif shop and kind == "harvested":
        bed = bed or shop
    elif shop:
        notes.append(shop)
    _bed(body, kind, bed, notes)
    if person and kind in _WHO and _WHO[kind] not in body:
        body[_WHO[kind]] = person
    elif person:
        notes.append(person)
    for role in ("variety", "kept"):
        _line_field(body, kind, role, said.get(role), notes, words)
    if said.get("note") and said.get("item"):
        notes.append(said["note"])
    if notes:
        body["note"] = "; ".join(dict.fromkeys(notes))


def _bed(body: dict[str, Any], kind: str, bed: str | None, notes: list[str]) -> None:
    if not bed:
        return
    if kind == "harvested":
        for line in body.get("lines") or ():
            line.setdefault("bed", bed)
    elif kind == "planted":
        body.setdefault("bed", bed)
    else:
        notes.append(bed)


def _line_field(
    body: dict[str, Any], kind: str, role: str, text: str | None, notes: list[str], words: Language
) -> None:
    if not text:
        return
    value: str | None = text
    if role == "kept":
        found = words.find("places", tokens_of(text), 0)
        value = found[0] if found else None
    fits = value is not None and (
        kind in ("harvested",) or (role == "kept" and kind in ("bought", "received"))
    )
    if fits:
        for line in body.get("lines") or ():
            line.setdefault(role, value)
    elif role == "variety" and kind == "planted":
        body.setdefault(role, text)
    else:
        notes.append(text)
