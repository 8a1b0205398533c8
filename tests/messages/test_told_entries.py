"""Entries told back: the English line and its message say the same, in every kind."""

from __future__ import annotations

import copy
import pickle
import re

import pytest

from ledger.kinds import KINDS, tell
from ledger.messages import Message, Row, SaidLater, speaker, worded

PLUM = {"item": "plum", "amount": "31 lb 8 oz"}
JARS = {"item": "plum butter", "amount": "3 half-pint jars"}
BODIES = [
    ("harvested", {"lines": [PLUM]}),
    ("harvested", {"lines": [PLUM, JARS, PLUM, PLUM, PLUM, JARS]}),
    ("bought", {"lines": [{**PLUM, "paid": "3.40"}, {"item": "pint jar", "amount": "12", "paid": "2"}]}),
    ("bought", {"lines": [{**PLUM, "paid": "3.40"}], "shop": "mill lane store"}),
    ("bought", {"lines": [], "other": [{"words": "a ribbon", "paid": "1.50"}]}),
    ("received", {"lines": [PLUM], "how": "gift"}),
    ("received", {"lines": [PLUM], "how": "barter", "from": "the neighbours"}),
    ("given_away", {"lines": [JARS], "how": "sold"}),
    ("given_away", {"lines": [JARS], "how": "gift", "to": "the school"}),
    ("eaten", {"ate": [PLUM]}),
    ("eaten", {"ate": [JARS], "people": 6}),
    ("eaten", {"ate": [PLUM], "dish": "plum dumplings"}),
    ("eaten", {"ate": [PLUM], "dish": "plum dumplings", "people": 4}),
    ("put_up", {"made": [{"jar": "half-pint jar", "jars": 11}, {"amount": "1 cup", "kept": "fridge"}],
                "makes": "plum butter", "method": "boiling water", "used": [PLUM]}),
    ("put_up", {"made": [{"jar": "500 ml jar", "jars": 1}, {"jar": "jam jar", "jars": 2}],
                "makes": "pickle", "method": "pickle cold", "used": []}),
    ("put_up", {"made": [{"jar": "quart jar", "jars": 7}], "makes": "stock", "method": "pressure",
                "used": [{"item": "beef bone", "amount": "4 lb", "strained": True}]}),
    ("counted", {"lines": [JARS, {"item": "jar", "amount": "1 jar"}]}),
    ("discarded", {"lines": [JARS], "why": "seal failed"}),
    ("practised", {"skill": "grafting", "people": ["Ann", "Ben"]}),
    ("price_seen", {**PLUM, "price": "31.50"}),
    ("price_seen", {**PLUM, "price": "31.50", "shop": "mill lane store"}),
    *(("planted", {"crop": "carrot", **more, **bed, **plants, **sort})
      for more in ({}, {"how": "sown"}, {"how": "set out"})
      for bed in ({}, {"bed": "bed 3"})
      for plants in ({}, {"plants": 12})
      for sort in ({}, {"variety": "Early"})),
    ("recipe_written", {"recipe": "butter", "uses": [PLUM], "yields": "11 half-pint jars"}),
    ("setting_changed", {"name": "bed_plan", "value": "a 0 0;b 1 1"}),
    ("struck", {"id": "0123456789abcdef", "why": "typed twice"}),
    *(("target_set", {**of, **per, **by})
      for of in ({"skill": "grafting", "times": 3}, {"item": "plum butter", "amount": "24 half-pint jars"})
      for per in ({}, {"per": "year"}, {"per": "week"}, {"per": "person year"})
      for by in ({}, {"by": "2026-09-30"})),
    *(("item_described", {"item": "thing", "sort": sort})
      for sort in ("food", "jar", "lid", "equipment", "garden input", "fuel", "supply")),
    *(("item_described", {"item": "thing", "sort": "food", "measure": measure})
      for measure in ("mass", "volume", "count", "energy")),
    ("item_described", {
        "item": "thing", "sort": "supply", "measure": "mass", "kcal_per_100g": "149", "g_per_ml": "1.03",
        "holds": "1 qt", "shop_equivalent": "store spread", "uses": "20", "years": "10", "feeds": "egg",
        "g_per": {"clove": "5"}, "pieces_per": {"packet": "12"}, "also": ["knoblauch"],
        "keeps": {"shelf": "1 year", "fridge": "4 days", "freezer": "8 to 12 months", "cellar": "a while"},
    }),
    *(("person_described", {"person": "Ann", "sex": "female", **old, **more})
      for old in ({"age": 34}, {"born": "1992-03-04"})
      for more in ({}, {"state": "nursing", "activity": "hard"}, {"activity": "light", "table": "away"})),
    ("frost_seen", {"frost": "last of spring", "seen": "2026-05-12"}),
    ("frost_seen", {"frost": "first of fall", "seen": "2026-10-02"}),
    *(("flock_counted", {"hens": 12, **name, **hatched})
      for name in ({}, {"flock": "brown ones"}) for hatched in ({}, {"hatched": "2025-04-01"})),
    ("seed_checked", {"crop": "carrot", "variety": "Early", "year": 2024, "seeds": 300, "days": 75,
                      "sown": 20, "sprouted": 13}),
    *(("meter_read", {"meter": "main", "reads": "1,204.5 kWh", **before, **batch})
      for before in ({}, {"before": "1,200 kWh"}) for batch in ({}, {"batch": "0123456789"})),
    *(("gauge_tested", {"gauge": "dial", "reads": reads, **by})
      for reads in ("0 psi", "+1 psi", "-2 psi") for by in ({}, {"by": "the extension"})),
    ("checked", {"batch": "0123456789", "publication": "bulletin 4"}),
    ("checked", {"batch": "0123456789", "publication": "bulletin 4", "says": "as printed"}),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "body"), BODIES)
def test_line_and_message_say_the_same(kind, body):
    line = tell(kind, body)
    assert speaker("en").value(line.says) == line
    german = worded(line, "de")
    assert german != line
    digits = re.sub(r"\d{4}-\d\d-(\d\d)", r"\1", re.sub(r"(?<=\d)[.,](?=\d)", "", line))
    said = re.sub(r"(?<=\d)[.,](?=\d)", "", german)
    assert [n for n in re.findall(r"\d+", digits) if n.lstrip("0") not in said] == []


@pytest.mark.parametrize(
    ("name", "value", "german"),
    [
        ("price_of_electricity", "0.169 per kWh", "eingestellt: Strompreis auf 0,169 je kWh"),
        (
            "jars_per_load",
            "quart jar: 7, pint jar: 9",
            "Gläser je Füllung auf Quart-Glas: 7, Pint-Glas: 9",
        ),
        ("season_starts", "1 October", "Beginn der Saison auf 1. Okt."),
        ("flour_enriched", "no", "Mehl angereichert auf nein"),
        ("labour_rate", "3.50 per hour", "Stundenlohn auf 3,50 je Stunde"),
    ],
)
def test_settings_are_told_by_what_they_are_called(name, value, german):
    assert german in worded(tell("setting_changed", {"name": name, "value": value}), "de")


def test_every_kind_is_told():
    assert {kind for kind, _ in BODIES} == set(KINDS)


def test_the_message_of_a_line_is_made_when_it_is_said():
    made = []

    def of():
        made.append(1)
        return Row((Message.of("told-away"), "Ann"), " ")

    line = SaidLater("away from the table Ann", of)
    assert (line, made) == ("away from the table Ann", [])
    assert worded(line, "en") == line
    assert made == []
    assert worded(line, "de") == "nicht am Tisch Ann"
    again = copy.deepcopy(tell("harvested", {"lines": [PLUM]}))
    assert worded(pickle.loads(pickle.dumps(again)), "de") == "geerntet: 31 lb 8 oz plum"


@pytest.mark.parametrize(
    ("kind", "body", "told"),
    [
        ("flock_counted", {"hens": 1}, "1 hen"),
        ("planted", {"crop": "fig", "how": "set out", "plants": 1}, "set out 1 plant of fig"),
        ("target_set", {"skill": "grafting", "times": 1, "per": "year"}, "target: grafting 1 time per year"),
        ("person_described", {"person": "Ada", "sex": "female", "age": 1}, "Ada at the table (female, 1 year)"),
    ],
)  # fmt: skip
def test_one_of_a_thing_is_told_as_one(kind, body, told):
    assert KINDS[kind].tell(body) == told
    assert speaker("en").text(KINDS[kind].says(body)) == told
