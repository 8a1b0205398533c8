"""An item's measure stays once a line of it is stored: descriptions, mergers, strikes."""

from __future__ import annotations

from typing import Any

from ledger.door.catalogue import Catalogue
from ledger.door.replacing import lists_of
from ledger.errors import InputError
from ledger.events import KINDS, decode_stored
from ledger.items import item_key
from ledger.log import Writing

__all__ = ["check_description", "check_undescribed"]

Body = dict[str, Any]
_WITH_LINES = [
    name
    for name, kind in KINDS.items()
    if kind.supplies
    or kind.draws
    or name in ("counted", "price_seen", "target_set", "recipe_written")
]


def check_description(tx: Writing, catalogue: Catalogue, body: Body, root: str | None) -> None:
    """Refuse a description that changes the measure of stored lines, and such a merger.

    Parameters
    ----------
    root : str or None
        The entry that it corrects.

    Raises
    ------
    InputError
    """
    known = catalogue.facts(body["item"])
    if root is None and not body.get("also"):
        if known is None or known.measure in (None, body.get("measure", known.measure)):
            return
        changed = {item_key(body["item"]): (str(known.measure), body["measure"])}
    else:
        _check_names(catalogue, body)
        changed = catalogue.measures_if(root or "", body)
    for key in _with_lines(tx, changed):
        was, will = changed[key]
        if body.get("also") and will is not None and body.get("measure") in (None, will):
            raise InputError(
                "also",
                f"lines of {key} are stored by {was}, and {body['item']} is kept by {will}",
                "They cannot be one item",
            )
        raise InputError(
            "measure" if will else "item",
            f"lines of {key} are stored by {was}",
            f"Leave its measure, or describe another item kept by {will}"
            if will
            else 'Keep its description; another spelling goes into "also"',
        )


def check_undescribed(tx: Writing, catalogue: Catalogue, root: str) -> None:
    """Refuse to strike the description that says how stored lines are measured.

    Raises
    ------
    InputError
    """
    changed = catalogue.measures_if(root, None)
    for key in _with_lines(tx, changed):
        raise InputError(
            "id",
            f"it says that {key} is kept by {changed[key][0]}, and lines of it are stored",
            "Correct the description instead; its measure stays",
        )


def _check_names(catalogue: Catalogue, body: Body) -> None:
    own = item_key(body["item"])
    for other in body.get("also") or ():
        key = item_key(other)
        if key != own and catalogue.canonical(own) == key:
            raise InputError(
                "also",
                f"{body['item']} is another name of {other} already",
                f"Describe {other}, with also {body['item']}",
            )


def _with_lines(tx: Writing, changed: dict[str, Any]) -> list[str]:
    """Return which of some items, by raw key, stand in a stored line (one struck may come back)."""
    return sorted(set(changed) & _keys_in_lines(tx)) if changed else []


def _keys_in_lines(tx: Writing) -> set[str]:
    found: set[str] = set()
    for chunk in tx.read(kinds=_WITH_LINES):
        for row in chunk:
            body = decode_stored(row[2], row[3], row[10])
            found.update(_names(body))
    return {item_key(name) for name in found}


def _names(body: Body) -> list[str]:
    lines = [line for several in lists_of(body).values() for line in several]
    seed = body.get("seed")
    names = [line.get("item") for line in (*lines, *([seed] if seed else ()), body)]
    return [name for name in (*names, body.get("makes")) if name]
