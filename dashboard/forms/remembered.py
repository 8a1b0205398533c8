"""What was written in a field before: offered as one types, newest first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from dashboard.data import Data
from dashboard.forms.understanding import newest_bodies, recent_items
from ledger.kinds.describing import Field

__all__ = ["remembered"]

_FREE = ("bed", "variety", "shop", "from", "to", "skill", "people", "dish", "equipment", "schedule")
"""Fields of free words in which people write the same again and again."""
_MOST = 40


def remembered(data: Data, kind: str, field: Field) -> list[str]:
    """Return what may be meant in a field; empty where nothing was written there, or numbers are."""
    if field.name == "recipe":
        recipes = data.book.catalogue().recipes.values()
        return sorted(str(recipe["recipe"]) for recipe in recipes) if kind == "put_up" else []
    if field.kind == "item":
        return recent_items(data, kind)[:_MOST]
    if field.name not in _FREE:
        return []
    return data.kept(("remembered", kind, field.name), lambda: _written(data, kind, field.name))


def _written(data: Data, kind: str, name: str) -> list[str]:
    found: dict[str, None] = {}
    for one, body in newest_bodies(data):
        if one == kind or name in ("bed", "shop", "people"):
            for text in _texts(body, name):
                found.setdefault(text)
    return list(found)[:_MOST]


def _texts(body: dict[str, Any], name: str) -> Iterator[str]:
    for part in (body, *body.get("lines", ())):
        value = part.get(name) if isinstance(part, dict) else None
        if isinstance(value, str):
            yield value
        elif isinstance(value, list):
            yield from (one for one in value if isinstance(one, str))
    if name == "people":
        yield from (one["person"] for one in body.get("work", ()) if isinstance(one, dict))
