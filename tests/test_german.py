"""Which German names are one noun in two numbers, and which only look alike.

The pairs are those of a German dictionary (common practice, no source).
"""

from __future__ import annotations

import csv
import io
from collections import defaultdict
from importlib.resources import files

import pytest

from ledger.german import german_form
from ledger.items import item_key

ONE_NOUN = (
    "grüne Bohne = grüne Bohnen = grüner Bohnen", "Apfel = Äpfel = Äpfeln", "Tomate = Tomaten",
    "Pflaume = Pflaumen", "Möhre = Möhren", "Gurke = Gurken", "Kirsche = Kirschen", "Ei = Eier = Eiern",
    "Nuss = Nüsse", "Walnuss = Walnüssen", "Huhn = Hühner", "Zwiebel = Zwiebeln", "Auster = Austern",
    "Kürbis = Kürbisse", "Speisekürbis = Speisekürbissen", "Kürbiskern = Kürbiskerne = Kürbiskernen",
    "Essiggurke = Essiggurken", "Pfifferling = Pfifferlinge", "Bratwurst = Bratwürste", "Chili = Chilis",
    "roter Rettich = rote Rettiche", "Kopfsalat = Kopfsalate", "Bio-Ei = Bio-Eier", "Keks = Kekse",
    "getrocknete Tomate = getrockneten Tomaten", "Marmelade = Marmeladen", "Portion = Portionen",
)  # fmt: skip
APART = (
    "Kohl = Kohle", "Kraut = Kräuter", "Kirsch = Kirsche", "Reis = Reiser", "Mais = Mai", "Ei = Eis",
    "Lake = Laken", "Leine = Leinen", "Butter = Butt", "Kohlrabi = Kohlrübe", "Bohne = Buschbohne",
    "grüne Bohne = Bohne", "grüne Bohne = weiße Bohne", "Apfel = Apfelmus", "Wein = Weinessig",
    "Tomate = getrocknete Tomate", "Kuchen = Küche", "Rind = Rinde", "Hafer = Hafen", "Stern = Ster",
    "larger egg = large egg", "corner salad = corn salad",
)  # fmt: skip


@pytest.mark.parametrize("names", ONE_NOUN)
def test_forms_of_one_noun_have_one_key(names):
    assert len({german_form(name) for name in names.split(" = ")}) == 1


@pytest.mark.parametrize("names", APART)
def test_what_only_looks_alike_stays_apart(names):
    assert len({german_form(name) for name in names.split(" = ")}) == 2


def test_no_two_foods_of_the_reviewed_list_share_a_form():
    text = files("ledger.reference").joinpath("everyday_names.csv").read_text("utf-8")
    german, english = defaultdict(set), defaultdict(set)
    for row in csv.DictReader(io.StringIO(text)):
        for name in filter(None, row["german"].split("|")):
            german[german_form(name)].add(row["food"])
        for name in filter(None, row["english"].split("|")):
            english[german_form(name)].add(item_key(name))
    assert [form for form, foods in german.items() if len(foods) > 1] == []
    assert [form for form, keys in english.items() if len(keys) > 1] == []
