"""Reading names of food: which foods, in which form, and which words nobody knows.

Case, accents, plurals, German compounds and slips of one or two letters do not hide a food. What a
slip stands for counts towards caution only: it is never a ground for "as published".
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import files

from ledger.published.names import ALSO, ENDINGS, GENERIC, STEM, fold, stems
from ledger.published.near import near_food
from ledger.reference.kinds import Food, foods, forms

__all__ = ["FoodRead", "Reading", "read"]

_JOINTS = frozenset({"", "e", "n", "s", "en", "er", "es", "ns"})
_LONGEST = 5
_COMPOUND = 7
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
        *(("food", name, tuple(said[0].split("|"))) for name, said in GENERIC.items()),
        *(("form", one.name, one.names) for one in forms().values()),
        *(
            ("food" if name in foods() else "form", name, tuple(said.split("|")))
            for name, said in ALSO.items()
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
        if what == "food" and len(key) == 1 and (len(key[0]) >= STEM or key[0] in _SHORT)
    }


def _food(name: str, *, exact: bool = True) -> FoodRead:
    known: Food | None = foods().get(name)
    if known is None:
        _, acidity, group = GENERIC[name]
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
        endings = ("", *ENDINGS) if at_end else ("",)
        for ending in endings:
            own = letters.removesuffix(ending) if letters.endswith(ending) else ""
            if own in known and own not in _NO_COMPOUND:
                out.append((letters, known[own]))
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


def _near(word: str) -> list[FoodRead]:
    found = near_food(word)
    return [] if found is None else [_food(found, exact=False)]


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
