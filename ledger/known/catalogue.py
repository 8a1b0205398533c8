"""The catalogue: what of a book writing needs to know, kept up to date with the log."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Any

import msgspec

from ledger.days import day_number, minute_of
from ledger.errors import NewerBook, NewerEvent
from ledger.items import ItemFacts, item_key
from ledger.kinds import newer_than_this, read_stored
from ledger.known.entries import Entries, Reader, Row
from ledger.known.items import Items
from ledger.known.jars import Batches, Label
from ledger.known.settings import Settings
from ledger.messages import Code, sentence

__all__ = ["KINDS_READ", "OF_SETTINGS", "Catalogue"]

KINDS_READ = ("item_described", "setting_changed", "recipe_written", "put_up", "struck")
"""The few kinds that writing has to know of."""
OF_SETTINGS = ("setting_changed", "struck")
"""The fewer that say how a setting stands: a few dozen events in forty years."""

Body = dict[str, Any]


class Catalogue:
    """Folded from the few kinds that matter; `refresh` takes in what came since.

    Items and settings are folded by what replay folds them with, so that both know the same.

    Attributes
    ----------
    seq : int
        How far the log has been read.
    newer : list of str
        What of the log this program does not know: kinds and versions of a newer one.
    batches : Batches
        What was put up in which jars, with which lids and labels.

    Parameters
    ----------
    kinds : sequence of str
        The kinds that are read; of others it knows nothing.
    """

    def __init__(self, kinds: Sequence[str] = KINDS_READ) -> None:
        self.kinds = kinds
        self.seq = 0
        self.newer: list[str] = []
        self.batches = Batches()
        self._entries: Entries | None = None
        self._is_tried = False
        self._root: dict[str, str] = {}
        self._items: Items[str] = Items()
        self._settings: Settings[str] = Settings()
        self._recipes: dict[str, Body | None] = {}

    def refresh(self, reader: Reader, upto: int) -> None:
        """Take in the events after `seq`, up to `upto`."""
        if upto <= self.seq:
            return
        if self._entries is not None:
            self._entries.read(reader, self.seq)
        for chunk in reader.read(after=self.seq, upto=upto, kinds=self.kinds):
            for row in chunk:
                self._take(row)
        if self.kinds is KINDS_READ:
            self.newer += newer_than_this(reader.kinds(after=self.seq))
        self.seq = upto

    def refuse_newer(self) -> None:
        """Refuse to write into a book that a newer program wrote into: this one knows but a part.

        Raises
        ------
        NewerBook
        """
        if self.newer:
            raise NewerBook(sentence("refusal-newer-content", what=Code(self.newer[0])))

    def learn(self, row: Row) -> None:
        """Take in one event that was just appended."""
        if self._is_tried:
            return
        if self._entries is not None:
            self._entries.take(row)
        if row[2] in self.kinds:
            self._take(row)
        self.seq = row[0]

    @contextmanager
    def tried(self) -> Iterator[None]:
        """Learn nothing meanwhile: what is appended will be undone."""
        self._is_tried = True
        try:
            yield
        finally:
            self._is_tried = False

    def entries(self, reader: Reader) -> Entries:
        """Return which events belong together; read from the log when first asked for."""
        if self._entries is None:
            self._entries = Entries()
            self._entries.read(reader)
        return self._entries

    def _take(self, row: Row) -> None:
        kind: str = row[2]
        try:
            body = read_stored(kind, row[3], row[10], seq=row[0])
        except (NewerEvent, msgspec.DecodeError):
            return  # set aside, and told of
        if kind == "struck":
            self._strike(self._root.get(body["id"], body["id"]))
            return
        id_: str = row[1]
        replaces: str | None = row[9]
        root = self._root.get(replaces, replaces) if replaces else id_
        if root != id_:
            self._root[id_] = root
        if kind == "item_described":
            self._items.take(root, body)
        elif kind == "setting_changed":
            when = day_number(row[4]), minute_of(row[5])
            self._settings.take(root, when, body["name"], body["value"])
        elif kind == "recipe_written":
            self._recipes[root] = body
        elif kind == "put_up":
            self.batches.take(root, row[4], body)

    def _strike(self, root: str) -> None:
        self._items.strike(root)
        self._settings.strike(root)
        if root in self._recipes:
            self._recipes[root] = None
        self.batches.strike(root)

    # -- items --------------------------------------------------------------------------

    def canonical(self, key: str) -> str:
        """Return the key under which a key is kept, following `also`."""
        return self._items.canonical(key)

    def key(self, name: str) -> str:
        """Return the key of an item's name."""
        return self._items.key(name)

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, or None where it was never described."""
        return self._items.facts(self.key(name))

    def name(self, name: str) -> str:
        """Return an item's name as the book first spelled it."""
        return self._items.spelled(self.key(name)) or " ".join(name.split())

    def names(self) -> list[str]:
        """Return every item's name."""
        return [self._items.spelled(key) or key for key in self._items.described()]

    def other_names(self) -> list[str]:
        """Return the key of every other name of an item."""
        return self._items.other_names()

    def spellings(self, name: str) -> list[str]:
        """Return every name under which an item was ever described."""
        return self._items.spellings(self.key(name))

    def is_item(self, words: str) -> bool:
        """Return whether words name a known item."""
        return self.facts(words) is not None

    def root(self, id_: str) -> str:
        """Return the entry that an event of the kinds read here belongs to."""
        return self._root.get(id_, id_)

    # -- settings, recipes and jars -----------------------------------------------------

    def setting(self, name: str, on: str | None = None, default: str | None = None) -> str | None:
        """Return a setting as it holds on a day (default: the newest)."""
        if on is None:
            return self._settings.newest(name, default)
        return self._settings.on(name, day_number(on), default)

    @property
    def recipes(self) -> dict[str, Body]:
        """Recipes by key, the newest word on each."""
        return {item_key(b["recipe"]): b for b in self._recipes.values() if b is not None}

    @property
    def lids_of(self) -> dict[str, str]:
        """The lids last used with a jar, by the jar's key."""
        return self.batches.lids_of

    def jars_of(self, name: str) -> set[str]:
        """Return which jars an item has been put up in, under any of its names."""
        wanted, batches = self.key(name), self.batches.jars_of.items()
        return {jar for key, jars in batches if self.canonical(key) == wanted for jar in jars}

    def labels(self, name: str) -> list[Label]:
        """Return the labels on the jars of an item."""
        wanted, batches = self.key(name), self.batches.labels_of.items()
        return [one for key, labels in batches if self.canonical(key) == wanted for one in labels]
