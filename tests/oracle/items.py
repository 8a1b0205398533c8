"""Item facts (rule 2), names that are one thing, and amounts by the weights known now."""

from __future__ import annotations

from fractions import Fraction as F

from oracle.units import GRAMS, ML, PIECES, measure_of_text

UNMATCHED = ("jar", "equipment", "garden input")
MERGED_FIELDS = ("item", "also")


def _key(name):
    return " ".join(name.casefold().split())


class Items:
    """What is known of each item, for all days."""

    def __init__(self, entries):
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
        self._first_lines(entries)

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

    def _first_lines(self, entries):
        """Take an unknown measure from the item's first line."""
        for entry in sorted(entries, key=lambda e: e.seq):
            for name in ("lines", "used", "fuel", "ate", "left", "seed", "uses"):
                lines = entry.body.get(name) or []
                for line in [lines] if isinstance(lines, dict) else lines:
                    if isinstance(line, dict) and line.get("item") and "amount" in line:
                        facts = self.facts.setdefault(self._root(_key(line["item"])), {"g_per": {}})
                        facts.setdefault("measure", measure_of_text(line["amount"]))
            if entry.kind == "price_seen":
                self._measure_of(entry.body["item"], entry.body["amount"])
            for line in entry.body.get("made") or []:
                self._measure_of(entry.body["makes"], line.get("amount") or "1 pint jar")

    def _measure_of(self, item, amount):
        facts = self.facts.setdefault(self._root(_key(item)), {"g_per": {}})
        facts.setdefault("measure", measure_of_text(amount))

    def name(self, text):
        """Return the one name of an item, whatever it was called."""
        root = self._root(_key(text))
        return self._spelled.setdefault(root, text if root == _key(text) else root)

    def of(self, item, field, default=None):
        """Return one fact of an item."""
        return self.facts.get(self._root(_key(item)), {}).get(field, default)

    def measure(self, item):
        return self.of(item, "measure", "count" if self.sort(item) in ("jar", "lid") else "mass")

    def sort(self, item):
        return self.of(item, "sort", "food")

    def is_matched(self, item):
        return self.sort(item) not in UNMATCHED

    def grams_of(self, item, unit):
        """Return the grams of one `unit` of an item, by the weights known now, or None."""
        if unit in GRAMS:
            return GRAMS[unit]
        g_per = self.of(item, "g_per", {})
        if unit in g_per:
            return F(g_per[unit])
        if unit in ML and self.of(item, "g_per_ml") is not None:
            return F(self.of(item, "g_per_ml")) * ML[unit]
        if unit in PIECES and "piece" in g_per:
            return F(g_per["piece"]) * PIECES[unit]
        return None

    def grams_per_whole(self, item):
        """Return the grams of one whole unit of an item, or None."""
        measure = self.measure(item)
        if measure == "mass":
            return F(1, 1000)
        unit = {"volume": "ml", "count": "piece"}.get(measure)
        grams = self.grams_of(item, unit) if unit else None
        return None if grams is None else grams / 1000

    def grams(self, item, whole):
        """Return the grams of an amount, or None."""
        each = self.grams_per_whole(item)
        return None if each is None else each * whole

    def whole(self, item, line):
        """Return a line's amount: `times` x the present weight of its unit, else as stored."""
        if line.get("basis", "exact") == "exact" or "per" not in line:
            return line["whole"]
        grams, each = self.grams_of(item, line["per"]), self.grams_per_whole(item)
        if not grams or not each:
            return line["whole"]
        return round(F(line["times"], 1000) * grams / each)

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
