"""German names in either number: which of them are one noun, by the forms that are known for certain.

A German plural is not regular. What is read here is what may be read without a dictionary: endings
that go one way only (Bohne, Bohnen; Zwiebel, Zwiebeln; Kürbis, Kürbisse), the nouns of a kitchen and
garden whose plural is their own, listed below with what is compounded from them (Holzäpfel), and the
endings of adjectives that are listed. Kohl and Kohle, Kraut and Kräuter, Kirsch and Kirsche stay apart.
The forms are those of any German grammar (common practice, no source).
"""

from __future__ import annotations

import re
from functools import cache, lru_cache

from ledger.items import item_key

__all__ = ["german_form"]

_PLURALS = """
Ananas:Ananasse Apfel:Äpfel Art:Arten Baum:Bäume Bier:Biere Blatt:Blätter
Block:Blöcke Brot:Brote Chili:Chilis Ei:Eier Fasan:Fasane Fass:Fässer Fisch:Fische Gans:Gänse Glas:Gläser
Gewürz:Gewürze Hahn:Hähne Halm:Halme Hecht:Hechte Hirsch:Hirsche Huhn:Hühner Kaki:Kakis Kalb:Kälber
Keim:Keime Keks:Kekse Kern:Kerne Kiwi:Kiwis Knopf:Knöpfe Kohlrabi:Kohlrabis Kopf:Köpfe Korb:Körbe
Korn:Körner Krebs:Krebse Kuh:Kühe Lachs:Lachse Laib:Laibe Lamm:Lämmer Likör:Liköre Nuss:Nüsse Öl:Öle
Peperoni:Peperonis Pfirsich:Pfirsiche Pilz:Pilze Reh:Rehe Rettich:Rettiche Rind:Rinder Saat:Saaten
Saft:Säfte Salat:Salate Schaf:Schafe Schnaps:Schnäpse Schwamm:Schwämme Schwein:Schweine
Sellerie:Selleries Spargel:Spargeln Stern:Sterne Stiel:Stiele Strauch:Sträucher Strunk:Strünke Trieb:Triebe
Wein:Weine Wurst:Würste Zopf:Zöpfe Zucchini:Zucchinis
"""
"""Singular and plural; the dative is the plural and n."""
_ENDINGS = (
    ("ionen", "ion"), ("innen", "in"), ("ungen", "ung"), ("issen", "is"), ("isse", "is"),
    ("ingen", "ing"), ("inge", "ing"), ("eln", "el"), ("ern", "er"), ("en", "e"),
)  # fmt: skip
_OF_ONE = ("leinen", "laken")
"""Nouns that are no plural of what they look like: Leine, Lake."""
_ADJECTIVE = re.compile(
    r"(alt|bitter|blau|braun|bunt|dick|dunkl|fein|fest|festkochend|frisch|früh|gelb|grob|gross|grün"
    r"|halb|hart|hell|jung|klein|lang|mager|mehlig|mehligkochend|mild|reif|roh|rot|rund|saur|scharf"
    r"|schwarz|spät|spitz|süss|trocken|unreif|violett|weich|weiss|wild|zart"
    r"|\w*ge\w{3,}(?:t|en)|\w{3,}iert)e[mnrs]?"
)
"""An adjective or participle of food as it stands before its noun."""
_SHORTEST = 5
"""Letters that a noun has before an ending is taken for one."""
_BEFORE = 3
"""Letters that stand at least before the noun of a compound."""


@lru_cache(maxsize=65536)
def german_form(name: str) -> str:
    """Return a key that is the same for the forms of one German name, in either number.

    For comparing only, never shown; a name of another language keeps a key of its own.

    Examples
    --------
    >>> german_form("Äpfel") == german_form("Apfel"), german_form("Kohle") == german_form("Kohl")
    (True, False)
    >>> german_form("grünen Bohnen") == german_form("grüne Bohne")
    True
    """
    *before, last = item_key(name).split() or [""]
    return " ".join([*map(_bare, before), _singular(last)])


def _bare(word: str) -> str:
    """Return a listed adjective by its stem, marked as one; any other word as it is."""
    found = _ADJECTIVE.fullmatch(word)
    return f"{found[1]}~" if found else word


def _singular(word: str) -> str:
    for at in (0, *range(_BEFORE, len(word) - 1)):
        if (listed := _listed().get(word[at:])) is not None:
            return word[:at] + listed
    if len(word) < _SHORTEST or word.endswith(_OF_ONE):
        return word
    for several, one in _ENDINGS:
        if word.endswith(several):
            return word.removesuffix(several) + one
    return word


@cache
def _listed() -> dict[str, str]:
    """Return the key of each form of the nouns listed with that of its singular."""
    out: dict[str, str] = {}
    for pair in _PLURALS.split():
        one, _, several = pair.partition(":")
        dative = several if several[-1] in "ns" else f"{several}n"
        out |= dict.fromkeys(map(item_key, (one, several, dative)), item_key(one))
    return out
