"""What the shop asks on a day (rule 8), and what durables and stocks were paid for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction as F

from oracle.measures import Strand


@dataclass(frozen=True)
class Price:
    """A price per whole unit, the event it comes from, and whether that is of a later day."""

    each: F
    event: str
    is_later: bool


class Prices:
    """Every price in the book, per strand in rule 2's order."""

    def __init__(self, entries, items):
        self._items = items
        self._seen = {}  # strand -> [(on, price per whole unit, event)]
        self._paid = {}  # item -> [(on, paid, pieces in thousandths)]
        for entry in entries:
            if entry.kind == "price_seen":
                self._add(entry, entry.body, entry.body["price"])
            elif entry.kind == "bought":
                for line in entry.body["lines"]:
                    item, pieces = self._add(entry, line, line["paid"])
                    if pieces is not None:
                        self._paid.setdefault(item, []).append((entry.on, F(line["paid"]), pieces))

    def _add(self, entry, line, money):
        item = self._items.name(line["item"])
        strand, whole = self._items.line(item, line)
        if whole:
            self._seen.setdefault(strand, []).append((entry.on, F(money) / whole, entry.event))
        pieces = self._items.pieces(item, line)
        return item, pieces

    def of(self, strand, when):
        """Return the shop price of a strand on a day, or None (order: CHOICES, lead's b, and 50)."""
        sources = [(strand, F(1)), *self._equivalents(strand)]
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

    def _equivalents(self, strand):
        """Return where else a price may be found: (strand of the equivalent, its whole units)."""
        text = self._items.of(strand.item, "shop_equivalent")
        if text is None or self._items.name(text) == strand.item:
            return []
        other = self._items.name(text)
        found = [(Strand(other, strand.measure), F(1))]
        for measure in (self._items.measure(other), "mass"):
            if measure == strand.measure:
                continue
            own = self._items.grams(strand, 1)
            each = self._items.grams(Strand(other, measure), 1)
            if own and each:
                found.append((Strand(other, measure), own / each))
        return found

    def bought(self, item, when):
        """Return (paid, pieces) of an item up to a day, that day included."""
        lines = [one for one in self._paid.get(item, []) if one[0] <= when]
        paid = sum((one[1] for one in lines), F(0))
        return paid, F(sum(one[2] for one in lines), 1000)
