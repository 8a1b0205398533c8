"""Items as a book describes them: names merged by `also`, facts folded in the order of their entries.

Item facts hold for all days, the newest by `seq` winning, field by field (the reckoning, rule 2).
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any, Generic, TypeVar

from ledger.german import german_form
from ledger.items import ItemFacts, item_key, merge

__all__ = ["Items"]

Body = dict[str, Any]
Root = TypeVar("Root", bound=Hashable)

_LIFE = ("uses", "years")


class Items(Generic[Root]):
    """Descriptions by entry, and what they come to together.

    An entry keeps the place in which it was first taken; what is known is folded when it is asked for.
    `Root` is what tells entries apart: an id at the door, a place in the log in replay.
    """

    def __init__(self) -> None:
        self._described: dict[Root, Body | None] = {}
        self._facts: dict[str, ItemFacts] = {}
        self._names: dict[str, str] = {}
        self._alias: dict[str, str] = {}
        self._forms: dict[str, str] = {}
        self._life: dict[str, dict[str, tuple[Root, float]]] = {}
        self._is_stale = False

    def __contains__(self, root: Root) -> bool:
        """Return whether an entry describes an item, or did before it was struck."""
        return root in self._described

    def take(self, root: Root, body: Body) -> None:
        """Take in a description, or what a correction now says."""
        is_new = root not in self._described
        self._described[root] = body
        if self._is_stale or not is_new or "also" in body:
            self._is_stale = True
        else:
            self._fold(root, body)

    def strike(self, root: Root) -> None:
        """Forget a description that was taken back; its place stays its own."""
        if root in self._described:
            self._described[root] = None
            self._is_stale = True

    def _fold(self, root: Root, body: Body) -> None:
        own = item_key(body["item"])
        key = self._end(own)
        for name in (own, *map(item_key, body.get("also") or ())):
            self._forms.setdefault(german_form(name), key)
        if key == own:
            self._names.setdefault(key, body["item"])
        self._facts[key] = merge(self._facts.get(key, ItemFacts()), body)
        for name in _LIFE:
            if name in body:
                self._life.setdefault(key, {})[name] = (root, float(body[name]))

    def _fresh(self) -> None:
        """Fold all descriptions anew, where one of them changed what others mean."""
        if not self._is_stale:
            return
        self._is_stale = False
        self._facts, self._names, self._alias, self._forms, self._life = {}, {}, {}, {}, {}
        holding = [(root, body) for root, body in self._described.items() if body is not None]
        for _, body in holding:
            for other in body.get("also") or ():
                self._alias[item_key(other)] = item_key(body["item"])
        for root, body in holding:
            self._fold(root, body)

    def _end(self, key: str) -> str:
        seen = {key}
        while key in self._alias and self._alias[key] not in seen:
            key = self._alias[key]
            seen.add(key)
        return key

    # -- asking -------------------------------------------------------------------------

    def canonical(self, key: str) -> str:
        """Return the key under which a key is kept, following `also`.

        A key that was never described is kept under that of the same German noun in its other number.
        """
        self._fresh()
        end = self._end(key)
        return end if end in self._facts else self._forms.get(german_form(end), end)

    def key(self, name: str) -> str:
        """Return the key of an item's name."""
        return self.canonical(item_key(name))

    def facts(self, key: str) -> ItemFacts | None:
        """Return what is known of a key, or None where it was never described."""
        self._fresh()
        return self._facts.get(key)

    def spelled(self, key: str) -> str | None:
        """Return how a key was first spelled by a description, or None."""
        self._fresh()
        return self._names.get(key)

    def described(self) -> list[str]:
        """Return the key of every item described, in the order of first sight."""
        self._fresh()
        return list(self._facts)

    def life(self, key: str) -> dict[str, tuple[Root, float]]:
        """Return ``uses`` and ``years`` of a key: (entry, value) of the newest description of each."""
        self._fresh()
        return self._life.get(key, {})

    def other_names(self) -> list[str]:
        """Return the key of every other name, as `also` gives them."""
        self._fresh()
        return list(self._alias)

    def spellings(self, key: str) -> list[str]:
        """Return every name under which a key was ever described."""
        said = (body["item"] for body in self._described.values() if body is not None)
        return list(dict.fromkeys(one for one in said if self.key(one) == key))
