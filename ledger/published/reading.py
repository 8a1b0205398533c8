"""Reading names of food: which foods, in which form, and which words nobody knows.

Case, accents, plurals, German compounds and slips of one or two letters do not hide a food. What a
slip stands for counts towards caution only: it is never a ground for "as published".
"""

from __future__ import annotations

import csv
import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

from ledger.items import item_key
from ledger.reference.kinds import Food, foods, forms

__all__ = ["FoodRead", "Reading", "fold", "read", "stems"]

_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss"})
_ENDINGS = ("en", "er", "es", "e", "n", "s")
_JOINTS = frozenset({"", "e", "n", "s", "en", "er", "es", "ns"})
_LONGEST = 5
_STEM = 4
_COMPOUND = 7
_SLIP, _TWO_SLIPS = 4, 7
_JOINED = 8
_BUTTER = ("butter",)
_NO_COMPOUND = frozenset(
    [
        "wild",
        "salat",
        "rand",
        "seed",
        "heart",
        "chop",
        "sole",
        "char",
        "bass",
        "ling",
        "sauc",
        "soss",
        "sage",
        "mark",
        "ganz",
        "saft",
        "fest",
        "gans",
    ]
)
_GRAVY = frozenset({"sauc", "soss"})
_SHORT = frozenset({"reh", "aal"})
"""Names too short or too common to be looked for inside longer words."""

_TAILS = {
    "mus": "puree", "mark": "puree", "pueree": "puree", "puree": "puree", "butter": "butter", "brei": "puree",
    "wuerfel": "cubed", "scheibe": "cubed", "stueck": "cubed", "stuecke": "cubed", "haelfte": "cubed",
    "scheiben": "cubed", "haelften": "cubed", "streifen": "cubed", "chips": "dried", "pulver": "dried",
    "sosse": "", "sauce": "", "saft": "", "salat": "", "kompott": "", "sirup": "", "relish": "", "filet": "",
    "chutney": "", "oel": "infused oil",
}  # fmt: skip
"""What a German compound may end with beside a food, and the form that it says."""

_LISTED_SLIPS = (
    "gren been lentill carrott carott rutabega celary pumkin punkin zuchini courgete onoin garlick asparagas "
    "brocoli brocolli cauliflour spinich spinnach mushrom beaf porc chiken venisen venson samon mackrel "
    "peech strawbery rasberry rubarb saurkraut"
)
"""Names of the table that are slips of others: they bring the caution, and confirm nothing."""

_GENERIC = {
    "meat": ("pig|cow|hog|ox|Braten|Sauerbraten|Roulade|Kasseler|Eisbein|Ochsenschwanz|Spanferkel|Mettende|"
        "Cabanossi|meat|Fleisch|game meat|game|carcass|bone|Knochen|mince", "low_acid", "meat"),
    "vegetable": ("vegetable|veg|Gemüse|veggie", "low_acid", "vegetable"),
    "bean": ("bean", "low_acid", "pulse"),
    "dry bean": ("dry bean|dried bean|Trockenbohne|getrocknete Bohne|bean or pea", "low_acid", "pulse"),
    "pepper": ("pepper|chile pepper|chili pepper|pimiento pepper", "low_acid", "vegetable"),
    "seafood": ("krill|Matjes|seafood|shellfish|Meeresfrüchte|chowder fish", "low_acid", "fish"),
    "berry": ("berry|Beere|mixed berry|boysenberry", "acid", "fruit"),
    "fruit": ("fruit|Obst|Frucht", "acid", "fruit"),
    "tomato paste": ("tomato paste|tomato puree|Tomatenmark", "borderline", "fruit"),
    "tomato juice": ("tomato juice|Tomatensaft|tomato sauce|passata", "borderline", "fruit"),
    "grape juice": ("grape juice|white grape juice|Traubensaft", "acid", "fruit"),
    "succotash": ("succotash", "low_acid", "mixture"),
    "bread": ("banana bread|breadcrumb|Semmelbrösel", "low_acid", "grain"),
    "raisin": ("raisin|sultana|Rosine|dried fruit|dried apricot|dried cherry", "acid", "fruit"),
}  # fmt: skip
"""Words that stand for many foods, taken for the one of least acid: common practice, no source."""

_ALSO = {
    "chicken": "Hühner|Hühnchen|Geflügel|poultry|fowl",
    "goose": "Gänse|Gänsekeule|Gänsebrust",
    "duck": "Entenbrust|Entenkeule",
    "venison": "Wildfleisch|Wildbret|Wildgulasch",
    "wild mushroom": "wild mushroom|forest mushroom",
    "potato": "Erdäpfel",
    "pasta": "Maultasche|gnocchi|pierogi|couscous|stuffing",
    "mushroom": "Schwammerl",
    "soybean": "tempeh|seitan",
    "lima bean": "adzuki|adzuki bean|lupini",
    "frozen (thawed)": "frozen|tiefgekühlt|gefroren",
    "overripe": "dead vine|killed vine|frost killed|frost damaged|frosted|rotten|diseased|mouldy|moldy",
    "puree": "butter of|mushy",
    "low-sugar": "less sugar|without sugar|no-sugar",
    "strained out": "strained out|taken out|bag taken out|removed",
    "flour": "masa|masa harina|corn flour|breadcrumb|instant starch",
    "bell pepper": "green bell pepper|red bell pepper|paprika",
    "hot pepper": "green chile|long green chile|chile|hot chile|chipotle|poblano|anaheim",
    "leftover": "cooked|roasted|fried|grilled|baked|sauteed",
}
"""More names of foods and forms: common practice, no source."""


@dataclass(frozen=True)
class FoodRead:
    """A food found in a name.

    Attributes
    ----------
    name : str
        Of `ledger.reference.kinds.foods`, or a word for many.
    acidity, group : str
        As in `ledger.reference.kinds.Food`.
    exact : bool
        False where the name was misspelt, or hidden in a longer word.
    """

    name: str
    acidity: str
    group: str
    exact: bool = True


@dataclass(frozen=True)
class Reading:
    """What a name says.

    Attributes
    ----------
    text : str
    foods : tuple of FoodRead
    roles : tuple of str
        What is no food of its own: ``water``, ``salt``, ``vinegar``, ``spice``, ``dish``, ...
    forms : tuple of str
        Names of `ledger.reference.kinds.forms`, or ``butter`` of a fruit or vegetable.
    unknown : tuple of str
        Words that stand in no table.
    """

    text: str
    foods: tuple[FoodRead, ...]
    roles: tuple[str, ...]
    forms: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def low_acid(self) -> tuple[FoodRead, ...]:
        """The foods of little acid."""
        return tuple(one for one in self.foods if one.acidity == "low_acid")

    @property
    def exact(self) -> bool:
        """Whether every word was understood as it stands."""
        return not self.unknown and all(one.exact for one in self.foods)


@lru_cache(8192)
def fold(text: str) -> tuple[str, ...]:
    """Return the words of a name without case, accents and punctuation, in the singular."""
    text = unicodedata.normalize("NFKC", text).casefold().translate(_UMLAUTS)
    text = unicodedata.normalize("NFKD", text)
    text = "".join(c for c in text if not unicodedata.combining(c))
    text = re.sub(r"['’‘`]", "", text)
    return tuple(item_key(word) for word in re.findall(r"[^\W\d_]+", text))


@lru_cache(16384)
def _stem(word: str) -> str:
    for ending in _ENDINGS:
        if word.endswith(ending) and len(word) - len(ending) >= _STEM:
            return word[: -len(ending)]
    return word


@lru_cache(8192)
def stems(text: str) -> tuple[str, ...]:
    """Return the words of a name as they are compared: folded, without endings of the plural."""
    return tuple(_stem(word) for word in fold(text))


@cache
def _roles() -> dict[str, tuple[str, ...]]:
    text = files("ledger.reference").joinpath("kitchen_words.csv").read_text("utf-8")
    return {
        row["role"]: tuple(f"{row['names']}|{row['german']}".split("|"))
        for row in csv.DictReader(text.splitlines())
    }


_Entry = tuple[str, str]


@cache
def _slips() -> frozenset[str]:
    return frozenset(word for text in _LISTED_SLIPS.split() for word in stems(text))


@cache
def _index() -> dict[tuple[str, ...], _Entry]:
    """Return (what, name) by stems: roles, then foods, then forms; the first one said stays."""
    out: dict[tuple[str, ...], _Entry] = {}
    several: list[tuple[str, str, tuple[str, ...]]] = [
        *(("role", role, names) for role, names in _roles().items() if role != "plain"),
        *(("food", one.name, one.names) for one in foods().values()),
        *(("food", name, tuple(said[0].split("|"))) for name, said in _GENERIC.items()),
        *(("form", one.name, one.names) for one in forms().values()),
        *(
            ("food" if name in foods() else "form", name, tuple(said.split("|")))
            for name, said in _ALSO.items()
        ),
        ("role", "plain", _roles()["plain"]),
    ]
    for what, name, names in several:
        for said in names:
            for key in (stems(said), stems(said.partition("(")[0])):
                if key:
                    out.setdefault(key, (what, name))
    return out


@cache
def _singles() -> dict[str, str]:
    """Return the food that each single word stands for, by its stem."""
    return {
        key[0]: name
        for key, (what, name) in _index().items()
        if what == "food" and len(key) == 1 and (len(key[0]) >= _STEM or key[0] in _SHORT)
    }


def _food(name: str, *, exact: bool = True) -> FoodRead:
    known: Food | None = foods().get(name)
    if known is None:
        _, acidity, group = _GENERIC[name]
        return FoodRead(name, acidity, group, exact)
    return FoodRead(name, known.acidity, known.group, exact)


@lru_cache(8192)
def read(text: str) -> Reading:
    """Return what a name says, word by word; the longest known stretch goes first.

    Examples
    --------
    >>> [f.name for f in read("Rinderbrühe").foods]
    ['beef', 'stock']
    >>> read("mashed zuchinni").low_acid[0].name
    'zucchini'
    """
    words, keys = fold(text), stems(text)
    found: list[FoodRead] = []
    roles: list[str] = []
    cuts: list[str] = []
    unknown: list[str] = []
    at = 0
    while at < len(keys):
        size, entry = _longest(keys, at)
        if entry is not None and entry[0] == "food" and words[at : at + size] == _BUTTER and found:
            cuts.append("butter")  # pumpkin butter, plum butter: a spread of what stands before
        elif entry is not None and entry[0] == "food":
            found.append(_food(entry[1], exact=not set(keys[at : at + size]) & _slips()))
        elif entry is not None:
            (roles if entry[0] == "role" else cuts).append(entry[1])
            slipped, more = _low_acid_slip(words, at)
            found += slipped
            size = max(size, more)
            if any(w.startswith("tomat") for w in words[at : at + size]):  # a form, and a food
                found.append(_food("tomato"))
        else:
            hidden, said = _inside(words[at])
            near = _near(words[at])
            if not hidden or (near and all(one.acidity == "acid" for one in hidden)):
                hidden = near or hidden  # of two readings the one of less acid
            if not hidden:
                hidden, size = _near_several(words, at)
            elif near and all(one.acidity == "acid" and not one.exact for one in hidden):
                slipped, more = _low_acid_slip(words, at)  # "horicot vert" is no apricot
                hidden, size = (slipped, more) if slipped else (hidden, size)
            found += hidden
            cuts += said
            if not hidden:
                unknown.append(words[at])
        at += size
    if {"peach", "nectarine"} & {f.name for f in found} and any(map(_is_white, words)):
        found, unknown = (
            [_food("white peach")],
            [w for w in unknown if not _is_white(w)],
        )
    if not found and "dish" in roles and _GRAVY & set(keys):
        found.append(_food("gravy", exact=False))  # a sauce of nothing said
    return Reading(
        text,
        tuple(dict.fromkeys(found)),
        tuple(dict.fromkeys(role for role in roles if role != "plain")),
        tuple(dict.fromkeys(cuts)),
        tuple(dict.fromkeys(unknown)),
    )


def _longest(keys: tuple[str, ...], at: int) -> tuple[int, _Entry | None]:
    for size in range(min(_LONGEST, len(keys) - at), 0, -1):
        entry = _index().get(keys[at : at + size])
        if entry is not None:
            return size, entry
    return 1, None


def _inside(word: str) -> tuple[list[FoodRead], list[str]]:
    """Return the foods, and the form, that a compound is made of: Kürbissuppe, Apfelmus."""
    if len(word) < _COMPOUND:
        return [], []
    heads, tails = _parts(word, at_end=False), _parts(word, at_end=True)
    for head, name in heads:
        rest = word[len(head) :]
        for tail, form in _TAILS.items():
            if rest.endswith(tail) and rest.removesuffix(tail) in _JOINTS:
                return [_food(name)], [form] if form else []
        for tail, other in tails:
            if rest.endswith(tail) and rest.removesuffix(tail) in _JOINTS:
                return list(dict.fromkeys([_food(name), _food(other)])), []
    found = [*heads[:1], *tails[:1]]
    return list(dict.fromkeys(_food(name, exact=False) for _, name in found)), []


def _parts(word: str, *, at_end: bool) -> list[tuple[str, str]]:
    """Return the names that a word begins or ends with, as (letters, food), the longest first."""
    known, out = _singles(), []
    for size in range(len(word) - 1, 2, -1):
        letters = word[-size:] if at_end else word[:size]
        endings = ("", *_ENDINGS) if at_end else ("",)
        for ending in endings:
            stem = letters.removesuffix(ending) if letters.endswith(ending) else ""
            if stem in known and stem not in _NO_COMPOUND:
                out.append((letters, known[stem]))
                break
    return out


def _is_white(word: str) -> bool:
    """Tell whether a word says white, in English or German, with a slip of one letter."""
    from rapidfuzz.distance import OSA

    if word == "wine":
        return False
    head = word.removesuffix("fleischig").removesuffix("fleischiger").removesuffix("fleischige")
    return head.startswith(("whit", "weis")) or any(
        OSA.distance(head, white, score_cutoff=1) <= 1 for white in ("white", "weiss", "weisse")
    )


def _near_several(words: tuple[str, ...], at: int) -> tuple[list[FoodRead], int]:
    """Return the food that several words are a slip of, written as one, and how many they are."""
    for size in (3, 2):
        joined = "".join(words[at : at + size])
        if at + size <= len(words) and len(joined) >= _JOINED:
            found = _near(joined)
            if found:
                return found, size
    return [], 1


def _low_acid_slip(words: tuple[str, ...], at: int) -> tuple[list[FoodRead], int]:
    """Return the food of low acid that words are a slip of only as a whole: "fresh criander"."""
    found, size = _near_several(words, at)
    return (found, size) if found and found[0].acidity == "low_acid" else ([], 1)


@cache
def _words() -> dict[str, str]:
    """Return the food that each name stands for, as it is spelled without spaces, and by its stem."""
    named = [(one.name, one.names) for one in foods().values()]
    named += [(name, tuple(said[0].split("|"))) for name, said in _GENERIC.items()]
    named += [(name, tuple(said.split("|"))) for name, said in _ALSO.items() if name in foods()]
    out: dict[str, str] = {}
    for name, names in named:
        for said in names:
            out.setdefault("".join(fold(said)), name)
            if said.isalpha() and said.endswith("es"):
                out.setdefault(said.casefold(), name)
            if len(fold(said)) == 1:
                out.setdefault(stems(said)[0], name)
    return out


@cache
def _of_size(size: int, allowed: int) -> tuple[tuple[str, ...], Any]:
    """Return the names whose lengths differ by no more than the slips allowed, and their letters."""
    import numpy as np

    names = tuple(word for word in _words() if abs(len(word) - size) <= allowed)
    return names, np.array([_letters(name) for name in names], np.uint64)


def _letters(word: str) -> int:
    """Return the letters of a word as a set of bits, those of other alphabets sharing bits."""
    bits = 0
    for letter in word:
        bits |= 1 << (ord(letter) & 63)
    return bits


def _like(word: str, allowed: int) -> list[str]:
    """Return the names whose letters may be those of a word after so many slips.

    A slip changes at most two letters of the set: one that goes, one that comes. Few names are left
    to be compared letter by letter, which is the larger part of reading a name that is not known.
    """
    import numpy as np

    names, letters = _of_size(len(word), allowed)
    other = np.bitwise_count(letters ^ np.uint64(_letters(word)))
    return [names[at] for at in np.flatnonzero(other <= 2 * allowed)]


@lru_cache(4096)
def _near(word: str) -> list[FoodRead]:
    """Return the food that a word is a slip of: one letter from four on, two from seven on.

    In words of four letters the first is right: a slip there would be another word.
    """
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    if len(word) < _SLIP - word.endswith("y"):  # "chy" was typed as "chies", a slip of chives
        return []
    known_words = _words()
    best: list[tuple[float, bool, str]] = []
    # "chities" and "musses" were read as plurals; a name in the plural may be nearer
    plural = (f"{word[:-1]}ies",) if word.endswith("y") else (f"{word}es", f"{word}s")
    for mine in dict.fromkeys((word, _stem(word), *plural)):
        allowed = 2 if len(mine) >= _TWO_SLIPS - 1 else 1
        near = process.extract(
            mine, _like(mine, allowed), scorer=OSA.distance, score_cutoff=allowed, limit=None
        )
        for known, steps, _ in near:
            shorter = min(len(known), len(mine))
            if shorter < _SLIP or (shorter == _SLIP and known[0] != mine[0]):
                continue
            # of two that are as near, the one of less acid
            name = known_words[known]
            best.append((steps, _food(name).acidity != "low_acid", name))
    return [_food(min(best)[2], exact=False)] if best else []
