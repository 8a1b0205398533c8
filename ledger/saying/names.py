"""Which item words name: the book's own first, then the food table's plain names, else asked."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from ledger.amounts import canonical_jar
from ledger.german import german_form
from ledger.items import item_key, near_misses
from ledger.reference import foods
from ledger.reference.everyday import everyday, pairs
from ledger.reference.everyday import names as everyday_names
from ledger.saying.known import Known
from ledger.saying.language import Language
from ledger.saying.tokens import tokens_of

__all__ = ["Named", "Names"]

_KEEPS_S = frozenset(
    [
        "oats",
        "greens",
        "grits",
        "cracklings",
        "hops",
        "giblets",
        "beans_",
        "sprouts",
        "leftovers",
        "capers",
        "lentils_",
    ]
)


@dataclass(slots=True)
class Named:
    """What words were taken as.

    Attributes
    ----------
    item : str
        The item's name.
    state : str
        ``book``, ``table``, ``sort`` (a supply), ``made`` (of known words), ``slip`` or ``new``.
    options : list of str
        What else may be meant, the likeliest first.
    tail, lead : str
        Words behind and before the name that are no part of it.
    """

    item: str
    state: str
    options: list[str]
    tail: str = ""
    lead: str = ""
    variety: str = ""


class Names:
    """Finds items by the words of one language."""

    def __init__(self, known: Known, words: Language) -> None:
        self.known, self.words = known, words
        self._small = words.stop_words() | {"of", "von"}

    def find(self, text: str, *, makes: bool = False) -> Named:
        """Return what a text names.

        Parameters
        ----------
        makes : bool
            It is what a batch makes: a new name out of known words is no surprise there.
        """
        said = self._bare(text)
        found = self._known(said)
        if found is not None:
            return found
        lead, rest = self._without_adjectives(said)
        first, _, behind = rest.partition(" ")
        if first.lower() == "canned" and self.known.jars(behind):
            return Named(self.known.catalogue.name(behind), "book", [], lead=lead)
        if lead:
            found = self._known(rest)
            if found is not None:
                found.lead = lead
                return found
        if self._is_made(rest, makes=makes):
            return Named(self.singular(rest), "made", [], lead=lead)
        return self._slip(said) or self._part(said, rest, lead) or self._new(said)

    def _bare(self, text: str) -> str:
        words = " ".join(text.split()).strip(" ,.;:!").split(" ")
        while len(words) > 1 and words[0].lower() in self._small:
            words = words[1:]
        return " ".join(words)

    def _known(self, said: str) -> Named | None:
        """Return an item of the book, a plain food or a supply; None where words are neither."""
        item = self.known.item(said)
        if item is not None:
            return Named(item, "book", [])
        own = self.words.names.get(said.lower())
        if own is None and self.words.code == "de":
            form = german_form(said)
            own = _own_names(self.words.code).get(form) or _german_names().get(form)
        if own is not None:
            singular, english = own
            several = (self.known.item(one) for one in english.split("|") if one)
            item = next((one for one in several if one), None)
            return Named(item, "book", []) if item else Named(singular, "table", [])
        if is_plain(said) and (_is_everyday(said) or not self._adds_to_own(said)):
            return Named(self.singular(said), "table", [])
        jar = _jar_named(said)
        if jar is not None:
            return Named(jar, "book" if self.known.item(jar) else "sort", [])
        if self.words.is_("sorts", said) or self._is_for_something(said):
            return Named(self.singular(said), "sort", [])
        return None

    def _is_for_something(self, said: str) -> bool:
        """Return whether a name is a supply for a thing that is known: ``carrot seed``."""
        words = said.split(" ")
        if len(words) < 2 or not self.words.is_("sorts", words[-1]):
            return False
        rest = " ".join(words[:-1])
        return self.known.item(rest) is not None or is_plain(rest)

    def _adds_to_own(self, said: str) -> bool:
        """Return whether a name only adds words to an item of the book: ``red tomatoes``."""
        words = said.split(" ")
        return any(self.known.item(" ".join(words[k:])) for k in range(1, len(words)))

    def _without_adjectives(self, said: str) -> tuple[str, str]:
        words, lead = said.split(" "), []
        while len(words) > 1 and self.words.is_("adjective", words[0]):
            lead.append(words.pop(0))
        return " ".join(lead), " ".join(words)

    def singular(self, said: str) -> str:
        """Return a name as it is shown: one of it, in small letters (English)."""
        if self.words.code != "en":
            return said
        words = said.lower().replace("’", "'").split(" ")
        last = words[-1]
        if last in _KEEPS_S:
            return " ".join(words)
        one = item_key(last)
        return " ".join([*words[:-1], one if "-" not in last and "'" not in last else last])

    def _is_made(self, said: str, *, makes: bool) -> bool:
        """Return whether a name is put together out of foods: ``plum butter``, ``bread flour``."""
        words = said.split(" ")
        if self.words.code == "de":
            return makes and len(words) == 1 and self._german_made(said)
        if len(words) < 2 and not (makes and self.words.is_("made", said)):
            return False
        if not self.words.is_("made", words[-1]) and not (makes and is_plain(words[-1])):
            return False
        return all(self._is_word(word, makes=makes) for word in words[:-1])

    def _german_made(self, said: str) -> bool:
        endings = self.words.data["made"]["words"].split("|")
        return any(said.lower().endswith(one) for one in endings)

    def _is_word(self, word: str, *, makes: bool) -> bool:
        if self.known.item(word) or is_plain(word) or self.words.is_("made", word):
            return True
        describes = ("verb", "adjective")
        return (makes and any(self.words.is_(tag, word) for tag in describes)) or word.lower() in (
            "and", "with", "red", "green", "yellow", "black", "white", "hot", "sweet", "sour", "spicy",
            "mixed", "whole", "bread", "pizza", "pasta", "dill", "chicken", "layer", "hen",
        )  # fmt: skip

    def sort_of(self, item: str) -> str:
        """Return the sort of a supply by its name; feed of hens, and animals, by their own word."""
        if canonical_jar(item):
            return "jar"
        for text in (item, item.rpartition(" ")[2]):
            found = self.words.find("sorts", tokens_of(text), 0)
            if found is not None and found[1] == len(tokens_of(text)):
                return str(found[0])
        return "supply"

    # -- what is asked -------------------------------------------------------------------

    def _slip(self, said: str) -> Named | None:
        """Return the name that words are a slip of one or two letters of, to be asked."""
        if len(said) < 4 or len(said) > 60:
            return None
        near = [self.known.catalogue.name(one) for one in near_misses(said, self.known.names)]
        near = [one for one in near if _few_letters(said, one)]
        if not near:
            near = [
                one
                for one in near_misses(said, _plain_names(self.words.code))
                if _few_letters(said, one)
            ]
        if not near:
            return None
        return Named(near[0], "slip", [*dict.fromkeys(near[:3]), f"new: {self.singular(said)}"])

    def _part(self, said: str, rest: str, lead: str) -> Named | None:
        """Return a known name with words before or behind that are none."""
        words = rest.split(" ")
        capitals = next((k for k, one in enumerate(words) if not one[:1].isupper()), 0)
        for cut in dict.fromkeys([*([capitals] if capitals else []), *range(1, len(words))]):
            behind = self._known(" ".join(words[cut:]))
            if behind is None:
                continue
            extra = " ".join(words[:cut])
            if (
                extra[:1].isupper()
                and self.words.code == "en"
                and self.words.data["adjectives"]["variety"]
            ):
                behind.variety = extra
                behind.lead = lead
                return behind
            options = [f"new: {self.singular(rest)}", behind.item]
            return Named(self.singular(rest), "new", options, lead=lead)
        for cut in range(len(words) - 1, 0, -1):
            before = self._known(" ".join(words[:cut]))
            if before is not None:
                before.tail, before.lead = " ".join(words[cut:]), lead
                return before
        return None

    def _new(self, said: str) -> Named:
        near = near_misses(said, self.known.names, limit=2) if len(said) >= 4 else []
        name = self.singular(said)
        return Named(name, "new", [f"new: {name}", *near])


def _jar_named(said: str) -> str | None:
    """Return the size of jar that words name: ``quart jars``, ``Quart-Gläser``."""
    german = re.fullmatch(r"(?i)(.+?)[- ]?(?:glas|gläser|gläsern)", said)
    return canonical_jar(f"{german[1]} jar" if german else said)


@cache
def is_plain(name: str) -> bool:
    """Return whether a name is the plain head word of a food: ``plum``, ``green bean``."""
    key = item_key(name)
    return bool(key) and not re.search(r"\d", key) and (_is_everyday(name) or foods.is_named(name))


def _is_everyday(name: str) -> bool:
    """Return whether a name stands on a reviewed list of everyday names."""
    return item_key(name) in _EVERYDAY or everyday(name) is not None


@cache
def _german_names() -> dict[str, tuple[str, str]]:
    """Return German names of the reviewed list by their form: the singular, and the English names."""
    out: dict[str, tuple[str, str]] = {}
    for german, english in pairs():
        singulars: dict[str, str] = {}
        for name in german:
            singulars.setdefault(german_form(name), name)
        out |= {form: (one, "|".join(english)) for form, one in singulars.items()}
    return out


_EVERYDAY = frozenset(
    (
        "egg", "pasta", "bean", "bread", "plum", "tomato", "flour", "sugar", "salt", "cheese",
        "honey", "oats", "oat", "rice", "lettuce", "squash", "pepper", "hot pepper", "milk", "cream",
        "bread flour", "brown sugar", "yeast", "corn", "sweet corn", "pea", "greens", "herb", "ham",
        "bacon", "sausage", "lard", "goat milk", "kraut", "sauerkraut", "wheat", "rye", "currant",
        "black currant", "elderberry", "quince", "gooseberry", "chard", "kale", "beet", "leek",
        "parsnip", "shallot", "scallion", "strawberry", "raspberry", "blackberry", "venison",
        "chicken", "pork", "beef", "fish", "trout", "lamb", "turkey", "duck", "oil", "olive oil",
        "vinegar", "coffee", "tea", "walnut", "hazelnut", "almond", "chestnut", "mushroom",
        "potato", "onion", "garlic", "carrot", "cucumber", "apple", "pear", "peach", "cherry",
        "apricot", "grape", "melon", "pumpkin", "zucchini", "jam", "jelly", "butter", "yogurt",
        "soup", "juice", "popcorn", "lentil", "pectin", "citric acid", "noodle", "cornmeal",
    )
)  # fmt: skip
"""Everyday names that the food table writes otherwise (common practice, no source)."""


@cache
def _plain_names(code: str) -> tuple[str, ...]:
    if code == "de":
        return tuple(singular for singular, _ in _german_names().values())
    return tuple(sorted({*_EVERYDAY, *everyday_names("en")}))


@cache
def _own_names(code: str) -> dict[str, tuple[str, str]]:
    """Return the names of a language's file by their form."""
    from ledger.saying.language import language

    return {german_form(name): own for name, own in language(code).names.items()}


def _few_letters(said: str, name: str) -> bool:
    """Return whether two names are one or two letters apart."""
    from rapidfuzz.distance import DamerauLevenshtein

    one, other = item_key(said), item_key(name)
    most = 1 if len(other) < 5 else 2
    return 0 < DamerauLevenshtein.distance(one, other) <= most
