"""Rules 3 and 4: every entry as lots that come in, draws that go out, and counts, in order."""

from __future__ import annotations

from fractions import Fraction as F

from oracle.measures import Said
from oracle.model import Count, Draw, Lot, Made

CAUSES = {"given_away": "given", "discarded": "discarded"}
KEPT_BY = {
    "boiling water": "shelf",
    "pressure": "shelf",
    "dry": "shelf",
    "freeze": "freezer",
    "cellar": "cellar",
}


def numbered(lines):
    """Yield (n, line): the stored number within the list, else its place."""
    for place, line in enumerate(lines or [], 1):
        yield line.get("n", place), line


class Steps:
    """The steps of a book, with the made entries of its batches."""

    def __init__(self, entries, items):
        self.items = items
        self._met = set()  # every strand so far
        self.steps = []
        self.made = []
        self._labels = []  # (first, last, lot ids, item), newest last
        self._last_lids = {}  # jar -> the lids last used with it
        for entry in entries:
            walk = getattr(self, f"_{entry.kind}", None)
            if walk is not None:
                walk(entry)

    def _lot(self, entry, mark, strand, whole, origin, kept, **jars):
        item = strand.item
        if whole <= 0 or not self.items.is_matched(item):
            return None
        lot = Lot(
            id=f"{entry.id}:{mark}",
            item=item,
            strand=strand,
            whole=whole,
            on=entry.on,
            kept=kept,
            origin=origin,
            entry=entry.id,
            step=len(self.steps),
            **jars,
        )
        self.steps.append(lot)
        self._met.add(strand)
        return lot

    def _draws(self, entry, wanted):
        """Append draws, numbered through the entry, matched items only."""
        n = 0
        for strand, whole, cause, line in wanted:
            item = strand.item
            if not self.items.is_matched(item):
                continue
            n += 1
            self._met.add(strand)
            self.steps.append(
                Draw(
                    entry=entry.id,
                    n=n,
                    item=item,
                    strand=strand,
                    whole=whole,
                    cause=cause,
                    on=entry.on,
                    step=len(self.steps),
                    lot=self._named(line.get("lot"), strand),
                    why=entry.body.get("why"),
                    made=line.get("made"),
                )
            )

    def _line(self, line, cause):
        strand, whole = self.items.line(self.items.name(line["item"]), line)
        return strand, whole, cause, line

    def _lines(self, entry, origin):
        for n, line in numbered(entry.body["lines"]):
            item = self.items.name(line["item"])
            strand, whole = self.items.line(item, line)
            whole -= self.items.trimmed(item, line, strand)
            self._lot(entry, n, strand, whole, origin, line.get("kept"))

    def _planted(self, entry):
        if entry.body.get("seed"):
            self._draws(entry, [self._line(entry.body["seed"], "seed")])

    def _harvested(self, entry):
        self._lines(entry, "grown")

    def _bought(self, entry):
        self._lines(entry, "bought")

    def _received(self, entry):
        self._lines(entry, "foraged" if entry.body["how"] == "forage" else "given")

    def _given_away(self, entry):
        cause = CAUSES[entry.kind]
        self._draws(entry, [self._line(line, cause) for line in entry.body["lines"]])

    _discarded = _given_away

    def _counted(self, entry):
        """Append one count for each strand: lines added up, noughts for all that no line counts."""
        counted, noughts = {}, {}
        for n, line in sorted(numbered(entry.body["lines"]), key=lambda one: one[0]):
            item = self.items.name(line["item"])
            if not self.items.is_matched(item):
                continue
            strand, whole = self.items.line(item, line)
            first, so_far = counted.get(strand, (n, 0))
            counted[strand] = first, so_far + whole
            if line["whole"] == 0:
                noughts.setdefault(item, n)
        for item, n in noughts.items():
            for strand in self._met:
                if strand.item == item:
                    counted.setdefault(strand, (n, 0))
        for strand, (n, whole) in counted.items():
            self._met.add(strand)
            self.steps.append(
                Count(
                    entry=entry.id,
                    n=n,
                    item=strand.item,
                    strand=strand,
                    whole=whole,
                    on=entry.on,
                    step=len(self.steps),
                    as_eaten=entry.body.get("missing") == "eaten",
                )
            )

    def _eaten(self, entry):
        self._draws(entry, [self._line(line, "eaten") for line in entry.body["ate"]])
        for n, line in numbered(entry.body.get("left")):
            item = self.items.name(line["item"])
            strand, whole = self.items.line(item, line)
            self._lot(entry, n, strand, whole, "left", line.get("kept", "fridge"))

    def _put_up(self, entry):
        body = entry.body
        wanted = [self._line(line, "used") for line in body["used"]]
        wanted += [self._line(line, "fuel") for line in body.get("fuel") or [] if "item" in line]
        wanted += [
            (
                *self.items.comes(self._lids(body, made), Said("count", made["jars"] * 1000)),
                "lids",
                {"made": n},
            )
            for n, made in numbered(body["made"])
            if made.get("jars")
        ]
        self._draws(entry, wanted)
        item = self.items.name(body["makes"])
        for n, line in numbered(body["made"]):
            self._made(entry, n, item, line)

    def _lids(self, body, made):
        lids = made.get("lids") or body.get("lids") or self._last_lids.get(made.get("jar"), "lid")
        self._last_lids[made.get("jar")] = lids
        return self.items.name(lids)

    def _made(self, entry, n, item, line):
        """Supply one made entry; jars that did not seal are a lot of their own in the fridge."""
        strand, whole = self.items.line(item, line)
        kept = line.get("kept") or KEPT_BY.get(entry.body["method"], "fridge")
        jars = line.get("jars") or None
        jar = self.items.name(line["jar"]) if line.get("jar") else None
        unsealed = min(line.get("unsealed", 0), jars or 0)
        apart = round(F(whole * unsealed, jars)) if unsealed else 0
        more = {"jar": jar, "labels": line.get("labels")}
        lots = [
            self._lot(
                entry, n, strand, whole - apart, "made", kept, jars=jars and jars - unsealed, **more
            ),
            self._lot(
                entry, f"{n}f", strand, apart, "made", "fridge", jars=unsealed or None, **more
            ),
        ]
        ids = [lot.id for lot in lots if lot]
        self.made.append(
            Made(
                entry=entry.id,
                n=n,
                item=item,
                on=entry.on,
                whole=whole,
                strand=strand,
                lots=ids,
                kept=kept,
                jars=jars,
                jar=jar,
            )
        )
        if ids and line.get("labels"):
            ends = line["labels"]["from"], line["labels"]["to"]
            self._labels.append((*map(_label, ends), ids[0], strand))

    def _named(self, text, strand):
        """Return the lot that a line names: by its id, else by the label of one of its jars."""
        if text is None:
            return None
        wanted = _label(text)
        for first, last, lot, of in reversed(self._labels):
            if (
                of == strand
                and first[0] == wanted[0] == last[0]
                and first[1] <= wanted[1] <= last[1]
            ):
                return lot
        return text


def _label(text):
    """Split a label into what stands before its number, and the number."""
    text = str(text)
    head = text.rstrip("0123456789")
    return head, int(text[len(head) :] or -1)
