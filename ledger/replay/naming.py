"""Which lot a draw means that names one: by the lot's id, else by a jar's label (rule 4)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from ledger.labels import split_label
from ledger.replay.columns import Array

if TYPE_CHECKING:
    from ledger.replay.flows import Moment
    from ledger.replay.journal import Journal

__all__ = ["find_named", "lots_named"]


def find_named(
    journal: Journal,
    moment: Moment,
    lots: dict[str, Array],
    draws: dict[str, Array],
    rows: Array,
    label_prefix: str | None,
) -> Array:
    """Return the lot that each of some draws means, -1 where there is no such lot before it.

    Parameters
    ----------
    lots, draws : dict of ndarray
        See `Flows`.
    rows : ndarray of int64, shape (naming draws,)
        Draws with a text that names a lot.
    label_prefix : str or None
        What the household writes before the number of a label, and often leaves out when it
        writes down which labels a batch got.

    Returns
    -------
    ndarray of int64, shape (naming draws,)
    """
    out = np.full(rows.size, -1, np.int64)
    if not rows.size:
        return out
    names = _Names(journal, moment, lots, label_prefix)
    texts = [journal.lots.texts[code] for code in draws["lot_text"][rows].tolist()]
    journal.places_of(text.rpartition(":")[0] for text in texts)  # all together, not one by one
    for i, (text, row) in enumerate(zip(texts, rows.tolist(), strict=True)):
        for lot in names.meant(text):
            if lots["item"][lot] == draws["item"][row] and lots["pos"][lot] < draws["pos"][row]:
                out[i] = lot
                break
    return out


def lots_named(
    journal: Journal,
    moment: Moment,
    lots: dict[str, Array],
    label_prefix: str | None,
    text: str,
) -> list[int]:
    """Return the lots that a text can mean, by a lot's id or a jar's label; empty where there is none."""
    supplied = lots["suffix"] <= 1
    rows = np.flatnonzero(supplied)
    some = {name: lots[name][rows] for name in ("ev", "n", "suffix")}
    return [int(rows[one]) for one in _Names(journal, moment, some, label_prefix).meant(text)]


class _Names:
    """The lots of one moment by entry and number, and by label."""

    def __init__(
        self, journal: Journal, moment: Moment, lots: dict[str, Array], label_prefix: str | None
    ) -> None:
        self._journal, self._moment, self._prefix = journal, moment, label_prefix
        root = moment.root[lots["ev"]].astype(np.int64)
        key = root << 25 | lots["n"].astype(np.int64) << 1 | lots["suffix"]
        self._order = np.argsort(key)
        self._keys = key[self._order]

    def _lot(self, root: int, n: int, suffix: int) -> int | None:
        key = root << 25 | n << 1 | suffix
        at = int(np.searchsorted(self._keys, key))
        return int(self._order[at]) if at < self._keys.size and self._keys[at] == key else None

    def meant(self, text: str) -> list[int]:
        """Return the lots that a text can mean, the likeliest first."""
        entry, _, tail = text.rpartition(":")
        place = self._journal.place_of(entry)
        number = tail.removesuffix("f")
        if (
            place is not None
            and place < self._moment.root.size
            and number.isdecimal()
            and len(number) < 10
        ):
            lot = self._lot(int(self._moment.root[place]), int(number), int(tail.endswith("f")))
            return [] if lot is None else [lot]
        head, digits = split_label(text)
        if digits is None or ":" in text:
            return []
        bare = self._labelled("", digits) if self._prefix and head == self._prefix else []
        return bare + self._labelled(head, digits)

    def _labelled(self, head: str, digits: int) -> list[int]:
        """Return the lots with a label, the newest first."""
        known = self._journal.label_ranges().get(head)
        if known is None:
            return []
        low, high, ev, n = known
        found = set()
        for i in np.flatnonzero((low <= digits) & (digits <= high)).tolist():
            if ev[i] >= self._moment.rank.size or self._moment.rank[ev[i]] < 0:
                continue
            root = int(self._moment.root[ev[i]])
            sealed = self._lot(root, int(n[i]), 0)
            lot = self._lot(root, int(n[i]), 1) if sealed is None else sealed
            if lot is not None:
                found.add(lot)
        return sorted(found, reverse=True)
