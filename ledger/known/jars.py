"""Batches as the door remembers them: which jars, which lids, which labels."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ledger.items import item_key
from ledger.labels import split_label

__all__ = ["Batches", "Label"]


@dataclass(frozen=True)
class Label:
    """The labels of one made entry: `prefix` and the numbers from `low` to `high`."""

    prefix: str
    low: int
    high: int
    on: str
    entry: str


class Batches:
    """The newest body of each batch, as far as jars go.

    Attributes
    ----------
    jars_of : dict of str to set of str
        Which jars an item has been put up in, by the item's key.
    lids_of : dict of str to str
        The lids last used with a jar, by the jar's key.
    labels_of : dict of str to list of Label
        By the item's key.
    makes : set of str
        The key of everything that a batch ever made, in jars or not.
    """

    def __init__(self) -> None:
        self._by_root: dict[str, tuple[str, str, list[dict[str, Any]]]] = {}
        self.makes: set[str] = set()
        self._clear()

    def _clear(self) -> None:
        self.jars_of: dict[str, set[str]] = {}
        self.lids_of: dict[str, str] = {}
        self.labels_of: dict[str, list[Label]] = {}

    def take(self, root: str, on: str, body: dict[str, Any]) -> None:
        """Take in a batch, or what a correction now says of it."""
        self.makes.add(item_key(body["makes"]))
        jarred = [made for made in body["made"] if made.get("jars") and made.get("jar")]
        is_new = root not in self._by_root
        if not jarred and is_new:
            return
        self._by_root[root] = (on, body["makes"], jarred)
        self._note(root) if is_new else self._note_all()

    def strike(self, root: str) -> None:
        """Forget a batch that was taken back."""
        if self._by_root.pop(root, None):
            self._note_all()

    def _note_all(self) -> None:
        self._clear()
        for root in self._by_root:
            self._note(root)

    def _note(self, root: str) -> None:
        on, makes, jarred = self._by_root[root]
        key = item_key(makes)
        for made in jarred:
            self.jars_of.setdefault(key, set()).add(made["jar"])
            self.lids_of[item_key(made["jar"])] = made.get("lids") or "lid"
            labels = made.get("labels")
            if labels:
                prefix, low = split_label(labels["from"])
                _, high = split_label(labels["to"])
                if low is not None and high is not None:
                    self.labels_of.setdefault(key, []).append(Label(prefix, low, high, on, root))

    def every(self) -> Iterator[tuple[str, tuple[str, str, list[dict[str, Any]]]]]:
        """Yield each batch in jars: its id, and (day, what it makes, made entries with jars)."""
        yield from self._by_root.items()
