"""Item facts (rule 2), names that are one thing, and amounts by the weights known now."""

from __future__ import annotations

from fractions import Fraction as F

from oracle.measures import Said, Strand, Weights, comes_to, first_measure, grams, read, read_first
from oracle.units import measure_of_text

UNMATCHED = ("jar", "equipment", "garden input")
MERGED_FIELDS = ("item", "also")


def _key(name):
    return " ".join(name.casefold().split())


class Items:
    """What is known of each item, for all days."""

    def __init__(self, entries, events):
        described = [e for e in entries if e.kind == "item_described"]
        described.sort(key=lambda e: e.seq)
        self._parent = self._merge(described)
        self._spelled = {}
        self.facts = {}
        for entry in described:
            body = entry.body
            self._spelled.setdefault(_key(body["item"]), body["item"])
            facts = self.facts.setdefault(self._root(_key(body["item"])), {"g_per": {}})
            for field, value in body.items():
                if field == "g_per":
                    facts["g_per"].update(value)
                elif field not in MERGED_FIELDS:
                    facts[field] = value
        self._events = sorted(events, key=lambda e: e["seq"])
        self._first = {}  # root -> (seq, line) of the first amount
        for event in self._events:
            for name, line in amounts_of(event):
                self._first.setdefault(self._root(_key(name)), (event["seq"], line))
        self._then = {}

    @staticmethod
    def _merge(described):
        """Return alias -> the name that claims it: the newest `also` of each name holds."""
        also = {}
        for entry in described:
            if "also" in entry.body:
                also[_key(entry.body["item"])] = (entry.seq, entry.body["also"])
        parent = {}
        for name, (_, aliases) in sorted(also.items(), key=lambda one: one[1][0]):
            for alias in map(_key, aliases):
                root = name
                while root in parent and root != alias:
                    root = parent[root]
                if root != alias:  # a claim in a circle is passed over
                    parent[alias] = name
        return parent

    def _root(self, key):
        while key in self._parent:
            key = self._parent[key]
        return key

    def name(self, text):
        """Return the one name of an item, whatever it was called."""
        root = self._root(_key(text))
        return self._spelled.setdefault(root, text if root == _key(text) else root)

    def of(self, item, field, default=None):
        """Return one fact of an item."""
        return self.facts.get(self._root(_key(item)), {}).get(field, default)

    def measure(self, item):
        """Return the measure in which an item is reckoned: as described, else as first said."""
        described = self.of(item, "measure")
        if described is not None:
            return described
        root = self._root(_key(item))
        if root not in self._first:
            return "mass"
        return first_measure(self._first[root][1], self.measure_then(item))

    def measure_then(self, item):
        """Return the measure in which lines of the first version are kept: that of their first day."""
        root = self._root(_key(item))
        if root not in self._then:
            seq, line = self._first[root]
            said = self._described_before(root, seq)
            self._then[root] = said or measure_of_text(line.get("amount") or "1 pint jar")
        return self._then[root]

    def _described_before(self, root, seq):
        """Return the newest measure described of an item before an event, as it was known then."""
        held = {}  # first event of an entry -> its measure
        first_of = {}
        for event in self._events:
            if event["seq"] >= seq:
                break
            if event["kind"] == "struck":
                held.pop(first_of.get(event["body"]["id"]), None)
            elif event["kind"] == "item_described":
                first = first_of[event["id"]] = first_of.get(event.get("replaces"), event["id"])
                if self._root(_key(event["body"]["item"])) == root:
                    kept = held.get(first, (event["seq"], None))[0]
                    held[first] = kept, event["body"].get("measure")
        said = [one for one in held.values() if one[1] is not None]
        return max(said)[1] if said else None

    def sort(self, item):
        return self.of(item, "sort", "food")

    def is_matched(self, item):
        return self.sort(item) not in UNMATCHED

    def weights(self, item):
        return Weights(item, self.facts.get(self._root(_key(item)), {}))

    def line(self, item, line, prefix=""):
        """Return the strand that a line comes to, and its amount there."""
        said = read(line, prefix)
        if said is None:
            said = read_first(self.weights(item), line, self.measure_then(item))
        return self.comes(item, said)

    def comes(self, item, said):
        """Return the strand that an amount comes to, and how much it is there."""
        measure, whole = comes_to(self.weights(item), said, self.measure(item))
        return Strand(item, measure), whole

    def trimmed(self, item, line, strand):
        """Return what was trimmed off a line, where that comes to the line's own strand."""
        if not line.get("trimmed_whole"):
            return 0
        said = read(line, "trimmed_")
        if said is None:
            own = read(line)
            said = Said(own.measure if own else self.measure_then(item), line["trimmed_whole"])
        other, whole = self.comes(item, said)
        return whole if other == strand else 0

    def pieces(self, item, line):
        """Return the pieces of a line in thousandths; None where it was said otherwise."""
        said = read(line)
        if said is None:
            said = read_first(self.weights(item), line, self.measure_then(item))
        many = self.of(item, "pieces_per", {}).get(said.measure)
        if said.measure == "count":
            return said.whole
        return None if many is None else round(said.whole * F(many))

    def grams(self, strand, whole):
        """Return the grams of an amount, or None."""
        return grams(self.weights(strand.item), Said(strand.measure, whole))

    def durable(self, item, when, entries):
        """Return (uses, years) that hold for an item on a day (CHOICES, lead's a)."""
        found = {}
        for entry in sorted(entries, key=lambda e: e.seq):
            if entry.kind == "item_described":
                bodies = [entry.body]
            elif entry.kind == "bought" and entry.on <= when:
                bodies = entry.body["lines"]
            else:
                continue
            for body in bodies:
                if self.name(body["item"]) == item:
                    found.update({f: F(body[f]) for f in ("uses", "years") if f in body})
        return found.get("uses"), found.get("years")


def amounts_of(event):
    """Yield (item, line) of every amount in an event, in rule 4's order, what was made last."""
    body, kind = event["body"], event["kind"]
    if kind == "price_seen":
        yield body["item"], body
    for name in ("seed", "used", "fuel"):
        lines = body.get(name) or []
        for line in [lines] if isinstance(lines, dict) else lines:
            if "item" in line:
                yield line["item"], line
    if kind == "put_up":
        for made in body["made"]:
            if made.get("jars"):
                lids = made.get("lids") or body.get("lids") or "lid"
                yield lids, {"amount": "1", "measure": "count", "whole": made["jars"] * 1000}
    for name in ("ate", "lines", "left"):
        for line in body.get(name) or []:
            yield line["item"], line
    if kind == "put_up":
        for made in body["made"]:
            yield body["makes"], made
