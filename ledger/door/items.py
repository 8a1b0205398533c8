"""Item names, from what was typed to what the book knows: a new item is described, a near miss asked about."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from ledger.amounts import canonical_jar, format_whole, has_decimal_comma
from ledger.door.answers import Answers
from ledger.errors import NeedsAnswer
from ledger.german import german_form
from ledger.items import ItemFacts, item_key, merge, near_misses
from ledger.known.catalogue import Catalogue
from ledger.messages import Typed, fixed, measured, sentence

if TYPE_CHECKING:
    from ledger.reference.everyday import Everyday

__all__ = ["ItemNames"]

_SORT_OF_USE = {
    "lids": "lid",
    "jar": "jar",
    "equipment": "equipment",
    "fuel": "fuel",
    "seed": "supply",
    "garden": "garden input",
    "durable": "equipment",
}
_BARE = ItemFacts(sort="food")
"""What is known of a food at first sight."""
_NO_FOOD = (" seed", " seedling", " feed", "futter")
_HEN_FEED = re.compile(
    r"^(?:layer|laying|hen|chicken|poultry) (?:feed|mash|pellet|crumble)$"
    r"|^(?:hühner|legehennen|geflügel)futter$|^legemehl$"
)
"""Feed of hens goes into their eggs, as hens that were bought do."""
_COUNTED = frozenset({"jar", "lid", "equipment"})


class ItemNames:
    """Resolves the item names of one event; new items are described in `described`.

    Parameters
    ----------
    catalogue : Catalogue
    answers : Answers
    on : str
        The event's day: the settings of that day hold.
    """

    def __init__(self, catalogue: Catalogue, answers: Answers, on: str) -> None:
        self.catalogue, self.answers, self.on = catalogue, answers, on
        self.described: list[dict[str, Any]] = []
        self._new: dict[str, ItemFacts] = {}
        self._spelled: dict[str, str] = {}
        self.measures = catalogue.setting("measures", on, "us") or "us"
        self.language = catalogue.setting("language", on) or "en"
        self.comma = has_decimal_comma(self.language)
        self.proposals: dict[str, str] = {}

    def facts(self, name: str) -> ItemFacts | None:
        """Return what is known of an item, counting what this event describes."""
        return self._new.get(self._key(name)) or self.catalogue.facts(name)

    def item(
        self,
        name: str,
        use: str,
        field: str,
        measure: str | None = None,
        *,
        jarred: bool = False,
    ) -> tuple[str, ItemFacts]:
        """Return an item's name as the book spells it and what is known of it.

        A name that was never seen is described, after a near miss has been asked about; one that
        is `jarred` at first is kept by volume.
        """
        name = canonical_jar(name) or name
        facts = self.facts(name)
        if facts is None:
            plain = self.plain(name) is not None
            known = () if plain or canonical_jar(name) else self._names()
            for near in near_misses(name, known)[:1]:
                doubt = NeedsAnswer(
                    "near-miss",
                    field,
                    sentence("doubt-name-near", name=Typed(name), near=Typed(near)),
                    near,
                )
                if self.answers.choose(doubt):
                    return self.item(near, use, field, measure, jarred=jarred)
            sort = self._sort(name, use, measure)
            own = "count" if sort in _COUNTED else measure
            new = ItemFacts(sort=sort)
            if use == "food" and _HEN_FEED.search(item_key(name)):
                new = ItemFacts(sort="garden input", feeds="egg")
            facts = self._describe(name, new, own, jarred=jarred)
        elif facts.measure is None and measure is not None:
            facts = self._describe(self.catalogue.name(name), facts, measure)
        return self.name(name), facts

    def name(self, name: str) -> str:
        """Return an item's name as the book, or this event, first spelled it."""
        return self._spelled.get(self._key(name)) or self.catalogue.name(name)

    def _key(self, name: str) -> str:
        """Return the key of a name; of what this event describes it need not be in the same number."""
        key = self.catalogue.key(name)
        if key in self._new or self.catalogue.facts(name) is not None:
            return key
        form = german_form(key)
        return next((one for one in self._new if german_form(one) == form), key)

    def _names(self) -> list[str]:
        return [*self.catalogue.names(), *self._spelled.values()]

    def _sort(self, name: str, use: str, measure: str | None) -> str:
        key = item_key(name)
        if canonical_jar(name) or use == "jar":
            return "jar"
        if key.split()[-1] == "lid":
            return "lid"
        if measure == "energy":
            return "fuel"
        if use == "food" and f" {key}".endswith(_NO_FOOD):
            return "supply"
        return _SORT_OF_USE.get(use, "food")

    def _describe(
        self, name: str, facts: ItemFacts, measure: str | None, *, jarred: bool = False
    ) -> ItemFacts:
        name = " ".join(name.split())
        body: dict[str, Any] = {"item": name, "sort": facts.sort or "food"}
        body |= {"feeds": facts.feeds} if facts.feeds else {}
        plain = self.plain(name) if body["sort"] == "food" and facts == _BARE else None
        if plain is not None:
            measure = measure if jarred else plain.measure
            body |= {"food": plain.food}
            body |= {"g_per": plain.g_per} if plain.g_per else {}
            body |= {"pieces_per": plain.pieces_per} if plain.pieces_per else {}
            self._tell_adopted(name, plain, measure)
        elif facts.sort == "food" and facts.food is None:
            self._propose(name)
        if measure is not None:
            body["measure"] = measure
        new = merge(facts, body)
        self._new[self._key(name)] = new
        self._spelled.setdefault(self._key(name), name)
        self.described.append(body)
        return new

    def plain(self, name: str) -> Everyday | None:
        """Return the food-table row that a name plainly says, by the reviewed list."""
        from ledger.reference.everyday import everyday

        return everyday(name, self.language)

    def _tell_adopted(self, name: str, plain: Everyday, measure: str | None) -> None:
        if self.answers.importing:
            return
        grams = plain.g_per.get("piece")
        each = None if grams is None else round(float(grams) * 1000)
        self.answers.note(
            sentence(
                "doubt-adopted",
                name=name,
                row=Typed(plain.description),
                measure=fixed(measure) if measure else "",
                piece=None
                if each is None
                else measured(format_whole(each, "mass", measures=self.measures)),
            )
        )

    def _propose(self, name: str) -> None:
        if self.answers.importing:
            return
        from ledger.reference import foods

        best = foods.hint(name)
        if best:
            self.proposals[name] = best.description
