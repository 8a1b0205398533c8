"""What the shop asks on a day (rule 8), and what durables and stocks were paid for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F


@dataclass(frozen=True)
class Price:
    """A price per whole unit, the event it comes from, and whether that is of a later day."""

    each: F
    event: str
    is_later: bool


class Prices:
    """Every price in the book, per item in rule 2's order."""

    def __init__(self, entries, items):
        self._items = items
        self._seen = {}  # item -> [(on, price per whole unit, event)]
        self._paid = {}  # item -> [(on, paid, whole)]
        for entry in entries:
            if entry.kind == "price_seen":
                self._add(entry, entry.body, entry.body["price"])
            elif entry.kind == "bought":
                for line in entry.body["lines"]:
                    item, whole = self._add(entry, line, line["paid"])
                    self._paid.setdefault(item, []).append((entry.on, F(line["paid"]), whole))

    def _add(self, entry, line, money):
        item = self._items.name(line["item"])
        whole = self._items.whole(item, line)
        if whole:
            self._seen.setdefault(item, []).append((entry.on, F(money) / whole, entry.event))
        return item, whole

    def of(self, item, when):
        """Return the shop price of an item on a day, or None (order: CHOICES, lead's b)."""
        sources = [(item, F(1)), self._equivalent(item)]
        for is_later in (False, True):
            for source, factor in sources:
                found = self._newest(source, when, is_later)
                if found:
                    return Price(found[1] * factor, found[2], is_later)
        return None

    def _newest(self, item, when, is_later):
        seen = self._seen.get(item, [])
        if not is_later:
            before = [one for one in seen if one[0] <= when]
            return before[-1] if before else None
        after = [one for one in seen if one[0] > when]
        on_first_day = [one for one in after if one[0] == after[0][0]]
        return on_first_day[-1] if after else None

    def _equivalent(self, item):
        """Return the shop equivalent and how many of its whole units one of the item is."""
        text = self._items.of(item, "shop_equivalent")
        if text is None:
            return None, None
        other = self._items.name(text)
        if self._items.measure(other) == self._items.measure(item):
            return other, F(1)
        grams, each = self._items.grams_per_whole(item), self._items.grams_per_whole(other)
        return (other, grams / each) if grams and each else (None, None)

    def bought(self, item, when):
        """Return (paid, pieces) of an item up to a day, that day included."""
        lines = [one for one in self._paid.get(item, []) if one[0] <= when]
        paid = sum((one[1] for one in lines), F(0))
        return paid, F(sum(one[2] for one in lines), 1000)
