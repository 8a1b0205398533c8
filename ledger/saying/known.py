"""What the book knows that reading needs: names, jars, labels, shops, beds and people.

Items, jars and labels come from the door's catalogue; the rest is read from the log only where a
text asks for it. Nothing is replayed.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator
from functools import cached_property
from typing import TYPE_CHECKING, Any, Protocol

import msgspec

from ledger.amounts import canonical_jar, parse_amount
from ledger.errors import LedgerError
from ledger.items import item_key
from ledger.known.catalogue import Catalogue
from ledger.labels import split_label
from ledger.reference.everyday import everyday

if TYPE_CHECKING:
    from ledger.known.entries import Row

__all__ = ["CAME", "Known", "Past"]

CAME = ("harvested", "bought", "received", "counted")
"""Kinds that bring something into the house, or find it there."""
_WHERE = {"bought": "shop", "price_seen": "shop", "received": "giver", "given_away": "to"}


class _Bed(msgspec.Struct):
    bed: str | None = None


class _Where(msgspec.Struct):
    shop: str | None = None
    giver: str | None = msgspec.field(default=None, name="from")
    to: str | None = None
    bed: str | None = None
    lines: list[_Bed] = msgspec.field(default_factory=list)


class Past(Protocol):
    """The part of a log that reading asks of."""

    def read(self, *, kinds: tuple[str, ...] | None = None) -> Iterator[list[Row]]:
        """Yield rows of these kinds, oldest first."""


class Known:
    """What a household's book knows.

    Parameters
    ----------
    catalogue : Catalogue
    today : date
    past : object, optional
        A log (its ``read``); without one nothing was ever written.
    """

    def __init__(self, catalogue: Catalogue, today: dt.date, past: Any = None) -> None:
        self.catalogue, self.today, self.past = catalogue, today, past
        self._rows: dict[str, list[tuple[str, str, dict[str, Any], str]]] = {}
        self._about: dict[tuple[str, str, str], list[tuple[Any, ...]]] = {}

    @property
    def language(self) -> str:
        """Return the book's language."""
        return (self.catalogue.setting("language") or "en")[:2].lower()

    @property
    def measures(self) -> str:
        """Return the setting `measures`."""
        return self.catalogue.setting("measures") or "us"

    # -- items ---------------------------------------------------------------------------

    def is_name(self, text: str) -> bool:
        """Return whether words are a name of the book's, in either number."""
        return self.item(text) is not None

    def item(self, text: str) -> str | None:
        """Return the book's item that words name, or None."""
        return self.catalogue.name(text) if self.catalogue.is_item(text) else None

    @cached_property
    def names(self) -> list[str]:
        """Return every name of the book's items, other names too."""
        return [*self.catalogue.names(), *self.catalogue.other_names()]

    @cached_property
    def longest(self) -> int:
        """Return how many words the longest name has."""
        return max((len(item_key(name).split()) for name in self.names), default=1)

    def sort(self, item: str) -> str | None:
        """Return an item's sort, or None where it is new."""
        facts = self.catalogue.facts(item)
        return facts.sort if facts else None

    def weighs(self, item: str, unit: str) -> bool:
        """Return whether the book knows what one of a counted unit of an item is."""
        facts = self.catalogue.facts(item)
        if facts is None:
            plain = everyday(item, self.language)
            return plain is not None and (unit in plain.g_per or unit in plain.pieces_per)
        pieces = getattr(facts, "pieces_per", None) or {}
        return unit in (facts.g_per or {}) or unit in pieces

    # -- jars ----------------------------------------------------------------------------

    def jars(self, item: str) -> list[str]:
        """Return the jars an item was put up in, the commonest first; else those in which it came or was counted."""
        wanted = self.catalogue.key(item)
        many: Counter[str] = Counter()
        for _, makes, made in (one for _, one in self.catalogue.batches.every()):
            if self.catalogue.key(makes) == wanted:
                for one in made:
                    many[one["jar"]] += 1
        if not many:
            many.update(self._came_in_jars(item))
        return [jar for jar, _ in many.most_common()]

    def _came_in_jars(self, item: str) -> Iterator[str]:
        key = self.catalogue.key
        for kind in ("counted", "bought", "received"):
            for _, _, body, _ in self.about(kind, item, "-"):
                for line in body["lines"]:
                    jar = canonical_jar(line.get("per") or "")
                    if jar is not None and key(line["item"]) == key(item):
                        yield jar

    def is_jarred(self, item: str) -> bool:
        """Return whether an item stands in jars, and pieces of it are no measure that the book knows."""
        facts = self.catalogue.facts(item)
        measure = facts.measure if facts else None
        by_piece = measure == "count" or (measure == "mass" and self.weighs(item, "piece"))
        return not by_piece and bool(self.jars(item))

    def in_jars(self, jar: str | None, many: int = 5) -> list[str]:
        """Return what was put up in such jars, the newest first."""
        made: dict[str, str] = {}
        for _, makes, jars in reversed([one for _, one in self.catalogue.batches.every()]):
            if any(one["jar"] == jar for one in jars):
                made.setdefault(self.catalogue.key(makes), self.catalogue.name(makes) or makes)
        return list(made.values())[:many]

    def methods(self, item: str) -> list[str]:
        """Return by which methods an item was put up, the newest first."""
        wanted, out = self.catalogue.key(item), []
        for _, _, body, _ in reversed(self.rows("put_up")):
            if self.catalogue.key(body["makes"]) == wanted and body["method"] not in out:
                out.append(body["method"])
        return out

    def labelled(self, label: str) -> list[tuple[str, str]]:
        """Return (item, jar) of the batches with a jar of that label."""
        prefix, number = split_label(label)
        if number is None:
            return []
        found = []
        for _, makes, made in (one for _, one in self.catalogue.batches.every()):
            for one in made:
                labels = one.get("labels")
                if not labels:
                    continue
                first, low = split_label(labels["from"])
                _, high = split_label(labels["to"])
                if first.lower() == prefix.lower() and (low or 0) <= number <= (high or -1):
                    found.append((makes, one["jar"]))
        return found

    # -- places and people ---------------------------------------------------------------

    def rows(self, kind: str) -> list[tuple[str, str, dict[str, Any], str]]:
        """Return (id, day, body, replaced id) of a kind's events, oldest first; struck ones not."""
        if kind not in self._rows:
            found: dict[str, tuple[str, str, dict[str, Any], str]] = {}
            struck = self._struck
            if self.past is not None:
                for chunk in self.past.read(kinds=(kind,)):
                    for row in chunk:
                        body = msgspec.json.decode(row[10])
                        found.pop(row[9] or "", None)
                        if row[1] not in struck:
                            found[row[1]] = (row[1], row[4], body, row[9] or "")
            self._rows[kind] = list(found.values())
        return self._rows[kind]

    def about(self, kind: str, item: str, on: str) -> list[tuple[str, str, dict[str, Any], str]]:
        """Return a kind's events that name an item, or happened on a day; struck ones not."""
        if self.past is None:
            return []
        found: dict[str, tuple[str, str, dict[str, Any], str]] = {}
        for name in self.catalogue.spellings(item) or [item]:
            key = (kind, name, on)
            if key not in self._about:
                self._about[key] = self.past.mentioning(kind, f'"{name}"', on)
            for row in self._about[key]:
                found.pop(row[9] or "", None)
                if row[1] not in self._struck:
                    found[row[1]] = (row[1], row[4], msgspec.json.decode(row[10]), row[9] or "")
        return list(found.values())

    def came(self, item: str, on: str, kinds: tuple[str, ...] = CAME) -> bool:
        """Return whether an item ever came into the house: picked, bought, given or counted."""
        key = self.catalogue.key
        return any(
            key(line["item"]) == key(item)
            for kind in kinds
            for _, _, body, _ in self.about(kind, item, on)
            for line in body["lines"]
            if line.get("item")
        )

    def newest(self, item: str, on: str, least: str) -> str | None:
        """Return the lot of an item that came in last, and as much as an amount; None without one."""
        key, wanted = self.catalogue.key, _whole(least, self.measures)
        found = [
            (day, f"{id_}:{line['n']}")
            for kind in CAME[:3]
            for id_, day, body, _ in self.about(kind, item, on)
            for line in body["lines"]
            if day <= on and key(line.get("item", "")) == key(item)
            if wanted is not None and _holds(_whole(line["amount"], self.measures), wanted)
        ]
        return max(found)[1] if found else None

    def is_made(self, item: str) -> bool:
        """Return whether a batch ever made an item."""
        key = self.catalogue.key(item)
        return any(self.catalogue.canonical(one) == key for one in self.catalogue.batches.makes)

    @cached_property
    def _struck(self) -> set[str]:
        if self.past is None:
            return set()
        chunks = self.past.read(kinds=("struck",))
        return {msgspec.json.decode(row[10])["id"] for chunk in chunks for row in chunk}

    @cached_property
    def shops(self) -> dict[str, str]:
        """Return the shops of the book by their bare names."""
        return self._places(("bought", "price_seen"))

    @cached_property
    def people(self) -> dict[str, str]:
        """Return who gave or got something, by bare names."""
        return self._places(("received", "given_away"))

    @cached_property
    def beds(self) -> dict[str, str]:
        """Return the beds of the book by their bare names."""
        out: dict[str, str] = {}
        for kind in ("harvested", "planted"):
            for body in self._bodies(kind):
                for said in (body.bed, *(line.bed for line in body.lines)):
                    if said:
                        out[bare(said)] = said
        return out

    def _bodies(self, kind: str) -> Iterator[_Where]:
        """Yield the places that a kind's bodies name, and nothing else of them."""
        decode = msgspec.json.Decoder(_Where).decode
        for chunk in self.past.read(kinds=(kind,)) if self.past is not None else ():
            for row in chunk:
                yield decode(row[10])

    def _places(self, kinds: tuple[str, ...]) -> dict[str, str]:
        out: dict[str, str] = {}
        for kind in kinds:
            for body in self._bodies(kind):
                said = getattr(body, _WHERE[kind])
                if said:
                    out[bare(said)] = said
        return out


def bare(text: str) -> str:
    """Return a place's or person's name for comparing: without case and article."""
    words = text.casefold().replace("ß", "ss").split()
    small = ("the", "our", "my", "der", "die", "das", "dem", "den", "unser", "unserem", "unserer")
    while len(words) > 1 and words[0] in small:
        words = words[1:]
    return " ".join(words)


def _whole(text: str, measures: str) -> tuple[str, int] | None:
    """Return what an amount measures and how much it is, in whole units; None where it is none."""
    try:
        said = parse_amount(text, measures=measures)
    except LedgerError:
        return None
    return said.dimension, said.whole


def _holds(one: tuple[str, int] | None, other: tuple[str, int]) -> bool:
    return one is not None and one[0] == other[0] and one[1] >= other[1]
