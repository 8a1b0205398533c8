"""German as one hand wrote it: one form of address, one word for one thing, no English left between.

The choices stand in docs/decisions.md, "German". What is typed as it stands (between backticks or in
quotes, options, names of files and settings) is not German and is not looked at.
"""

from __future__ import annotations

import re
import tomllib

import pytest
from message_tools import ROOT

from ledger.messages.catalogue import HERE

ADDRESS = r"""
    [Dd]u | [Dd]ich | [Dd]ir | [Dd]ein(?:e[mnrs]?)? | Sie\ (?:können|müssen|sollten|haben|sind) | Ihnen | Ihre[mnrs]?
"""
"""A household is addressed as `ihr`; nobody is `du` or the formal `Sie`."""
SINGULAR = r"""
    schreib | nenne? | nimm | gib | lass | sieh | prüfe? | setze? | speichere | öffne | frag
  | sage?(?=\ (?:es|sie|mit|dazu|neu|in|was|wie)) | trag | lies | bring | stell | leg | zieh | bewahr | warte | zähle? | wechsle
  | tippe | kläre | wirf | berichtige | beschreib | ergänze | behandle | schlag(?=\ (?:es|sie)) | vergleiche? (?=\ (?:mit|ihn))
  | hol | wähle | schalte | richte | melde | füge | heb | mische | bleib | importiere | installiere | starte | sortiere | benenne
  | schließ | verlang | ruf | schaff | hör | wasch | halte(?=\ dich) | koste(?=\ (?:nie|nichts)) | mach | druckst? | findest | bist
  | hast | kannst | meinst
"""
"""Forms of the second person singular that are nothing else where they stand in these texts."""
WORDS = {
    r"Gefriertruhen?|Gefrierfach|Tiefkühl\w*": "Gefrierschrank",
    r"(?<!Lohn einer )Helfer\w*": "Arbeitsprozess (of a circle's reckoning), Hilfe (who is paid)",
    r"Pass(?:wort|wörter|worts)": "Kennwort",
    r"Handys?": "Telefon",
    r"Charge\w*|CHARGE": "Ansatz",
    r"Druckmesser\w*": "Manometer",
    r"(?:Druck|Schnell)?[Kk]ocher\w*|Druckeinkocher": "Einkochtopf, Druckeinkochtopf, Topf",
    r"Tafeln?": "Tabelle",
    r"Kassenbons?|Bons?": "Kassenzettel",
    r"Artikel\w*": "Ding",
    r"geprüfte[sn]? Verfahren|veröffentlichte[sn]? Verfahren": "Vorschrift",
    r"aufgeschrieben\w*": "eingetragen",
    r"Vermerke?": "Zeichen",
    r"Herden?": "Schar",
    r"Doppeltsehen|schleppende": "Doppelbilder, verwaschene Sprache",
    r"½-Pint-\w+|Halbgallonen-\w+": "Halbpint-Glas, ½-Gallonen-Glas",
    r"Chancen?": "Aussicht",
}
"""Words that are not used, and what is said instead."""
ENGLISH = r"the|and|of|is|are|not|no|with|what|loads|full|yet|there|from|middle|which|days|for|by"
AS_TYPED = re.compile(r'`[^`]*`|"[^"\n]*"|\'[^\'\n]*\'|--[\w-]+|„[^“]*“|USDA Complete Guide to Home Canning|National Center for Home Food Preservation')  # fmt: skip
BY_NAME = {
    "cli-no": "answers as they are typed",
    "refusal-like-made-of": "an answer as it is typed",
    "refusal-like-rice": "an answer as it is typed",
    "refusal-not-a-time": "a time as it is typed",
    "refusal-setting-flour-enriched": "yes and no as they are typed",
    "refusal-setting-salt-iodised": "yes and no as they are typed",
}
"""Texts with English as it is typed or called."""


def texts():
    """Yield every German text, by its id or key."""
    for path in sorted((HERE / "de").glob("*.ftl")):
        id_ = ""
        for line in path.read_text("utf-8").splitlines():
            if line.startswith("#"):
                continue
            found = re.match(r"([a-z][\w-]*) = ", line)
            id_ = found[1] if found else id_
            text = (
                line[found.end() :]
                if found
                else re.sub(r"^\s*\*?\[[\w-]+\] |^\s*\.\w+ = ", "", line)
            )
            yield id_, re.sub(r"\{[^{}]*?(?:->|\})", " ", text)
    pages = tomllib.loads((ROOT / "dashboard/words/de.toml").read_text("utf-8"))
    yield from flat(pages, "")


def flat(part, prefix):
    """Yield the texts of a table of the pages' words, by dotted key."""
    for key, value in part.items():
        if isinstance(value, dict):
            yield from flat(value, f"{prefix}{key}.")
        else:
            yield f"{prefix}{key}", re.sub(r"\{\w+\}", " ", value)


TEXTS = [(key, AS_TYPED.sub(" ", text)) for key, text in texts()]


def met(pattern, flags=0):
    """Return the texts in which a pattern is met as words of their own."""
    whole = re.compile(rf"(?<![\w-])(?:{pattern})(?![\w-])", flags)
    return {key: text for key, text in TEXTS if whole.search(text)}


def test_a_household_is_addressed_as_ihr():
    assert met(ADDRESS, re.VERBOSE) == {}
    assert met(SINGULAR, re.VERBOSE | re.IGNORECASE) == {}
    assert len(met("ihr|euch|eure?[mnrs]?|Euer|Eure")) > 30


@pytest.mark.parametrize("pattern", WORDS)
def test_one_thing_has_one_name(pattern):
    assert met(pattern) == {}, f"say {WORDS[pattern]}"


def test_no_english_stands_between():
    found = met(ENGLISH)
    assert {key: text for key, text in found.items() if key not in BY_NAME} == {}
    assert set(BY_NAME) - set(found) == set()
