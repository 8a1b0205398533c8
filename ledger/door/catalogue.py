"""What the book knows that writing needs: items, settings, recipes, jars and what was struck."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Protocol

from ledger.events import decode_stored
from ledger.items import ItemFacts, item_key, merge

__all__ = ["Catalogue"]

_KINDS = ("item_described", "setting_changed", "recipe_written", "put_up", "struck")

Row = tuple[Any, ...]


class Reader(Protocol):
    """A log, or a writing transaction of one."""

    def read(
        self, after: int = 0, upto: int | None = None, kinds: Any = None, chunk: int = 20_000
    ) -> Iterator[list[Row]]:
        """Give stored rows in chunks."""


class Catalogue:
    """Folded from the few kinds that matter; `refresh` takes in what came since.

    Attributes
    ----------
    seq : int
        How far the log has been read.
    recipes : dict of str to dict
        Recipe bodies by key.
    jars_of : dict of str to set of str
        Which jars an item has been put up in, by the item's key.
    lids_of : dict of str to str
        The lids last used with a jar.
    """

    def __init__(self) -> None:
        self.seq = 0
        self._described: dict[str, tuple[int, dict[str, Any] | None]] = {}
        self._settings: dict[str, tuple[int, str, dict[str, Any] | None]] = {}
        self._root: dict[str, str] = {}
        self._recipe_ids: dict[str, dict[str, Any] | None] = {}
        self.struck: set[str] = set()
        self.jars_of: dict[str, set[str]] = {}
        self.lids_of: dict[str, str] = {}
        self.labels: list[tuple[str, Any, Any]] = []
        self._facts: dict[str, ItemFacts] = {}
        self._names: dict[str, str] = {}
        self._alias: dict[str, str] = {}

    def refresh(self, reader: Reader, upto: int) -> None:
        """Take in the events after `seq`, up to `upto`."""
        if upto <= self.seq:
            return
        for chunk in reader.read(after=self.seq, kinds=_KINDS):
            for row in chunk:
                self.take(row)
        self.seq = upto

    def take(self, row: Row) -> None:
        """Take in one stored row."""
        seq, id_, kind, v, on = row[:5]
        replaces, text = row[9], row[10]
        body = decode_stored(kind, v, text, seq=seq)
        if kind == "struck":
            self._strike(body["id"])
            return
        root = str(self._root.get(replaces, replaces)) if replaces else str(id_)
        self._root[id_] = root
        self.struck.discard(root)
        if kind == "item_described":
            first = self._described.get(root, (seq, None))[0]
            self._described[root] = (first, body)
            self._learn(body) if root == id_ else self._learn_all()
        elif kind == "setting_changed":
            first = self._settings.get(root, (seq, "", None))[0]
            self._settings[root] = (first, on, body)
        elif kind == "recipe_written":
            self._recipe_ids[root] = body
        elif kind == "put_up":
            self._put_up(body)

    def _strike(self, id_: str) -> None:
        root = self._root.get(id_, id_)
        self.struck.add(root)
        if root in self._described:
            self._described[root] = (self._described[root][0], None)
            self._learn_all()
        if root in self._settings:
            self._settings[root] = (self._settings[root][0], "", None)
        if root in self._recipe_ids:
            self._recipe_ids[root] = None

    def _learn(self, body: dict[str, Any]) -> None:
        key = item_key(body["item"])
        for other in body.get("also") or ():
            self._alias[item_key(other)] = key
        end = self.canonical(key)
        self._names.setdefault(end, body["item"])
        self._facts[end] = merge(self._facts.get(end, ItemFacts()), body)

    def _learn_all(self) -> None:
        self._facts, self._alias = {}, {}
        for _, body in sorted(self._described.values(), key=lambda one: one[0]):
            if body is not None:
                self._learn(body)

    def _put_up(self, body: dict[str, Any]) -> None:
        for made in body["made"]:
            if made.get("jars") and made.get("jar"):
                self.jars_of.setdefault(self.key(body["makes"]), set()).add(made["jar"])
                self.lids_of[item_key(made["jar"])] = made.get("lids") or "lid"
                if made.get("labels"):
                    labels = made["labels"]
                    self.labels.append((self.key(body["makes"]), labels["from"], labels["to"]))

    # -- questions ----------------------------------------------------------------------

    def canonical(self, key: str) -> str:
        """Return the key under which a key is kept, following `also`."""
        seen = {key}
        while key in self._alias and self._alias[key] not in seen:
            key = self._alias[key]
            seen.add(key)
        return key

    def key(self, name: str) -> str:
        """Return the key of an item's name."""
        return self.canonical(item_key(name))

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, or None where it was never described."""
        return self._facts.get(self.key(name))

    def name(self, name: str) -> str:
        """Return an item's name as the book first spelled it."""
        return self._names.get(self.key(name), " ".join(name.split()))

    def names(self) -> list[str]:
        """Return every item's name."""
        return [self._names[key] for key in self._facts]

    def is_item(self, words: str) -> bool:
        """Return whether words name a known item."""
        return self.key(words) in self._facts

    def setting(self, name: str, on: str | None = None, default: str | None = None) -> str | None:
        """Return a setting as it holds on a day (default: the newest)."""
        known = sorted(
            (day, first, body["value"])
            for first, day, body in self._settings.values()
            if body is not None and body["name"] == name
        )
        if not known:
            return default
        held = [value for day, _, value in known if on is None or day <= on]
        return str(held[-1] if held else known[0][2])

    @property
    def recipes(self) -> dict[str, dict[str, Any]]:
        """Recipes by key, the newest word on each."""
        return {item_key(b["recipe"]): b for b in self._recipe_ids.values() if b is not None}

    def root(self, id_: str) -> str:
        """Return the entry that an event of the kinds read here belongs to."""
        return self._root.get(id_, id_)
