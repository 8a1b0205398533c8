"""Amounts and lengths of time in options and boxes are read as `say` reads them."""

from __future__ import annotations

import pytest

from ledger import InputError
from ledger.amounts import parse_measure
from ledger.door.filling import fill
from ledger.door.texts import Texts
from ledger.kinds.describing import fields_of
from ledger.kinds.reading import KINDS


@pytest.fixture
def german(book, fixed_day):
    book.write("setting_changed", {"name": "language", "value": "de"})
    book.write("setting_changed", {"name": "measures", "value": "metric"})
    return Texts(book.catalogue())


@pytest.mark.parametrize(
    "said",
    ["7 500-ml-Gläser", "sieben 500-ml-Gläser", "7 500ml-Gläser", "7 Gläser à 500 ml", "7 500 ml jars"],
)  # fmt: skip
def test_jars_of_a_size_are_read_in_german(german, said):
    assert german.made(said) == {"jars": 7, "jar": "500 ml jar"}
    assert german.made(f"{said} Keller")["kept"] == "cellar"
    line = german.line(f"{said} Apfelmus")
    assert (line["item"], line["amount"]) == ("Apfelmus", "7 500 ml jars")


@pytest.mark.parametrize(
    ("said", "amount", "item"),
    [
        ("3 Pfund Äpfel", "1500 g", "Äpfel"),
        ("3 Bund Möhren", "3 bunch", "Möhren"),
        ("2 EL Zitronensaft", "2 tbsp", "Zitronensaft"),
        ("2 Stück Seife", "2", "Seife"),
        ("ein Glas Apfelmus", "1 jar", "Apfelmus"),
        ("1 500-ml-Glas Brühe", "1 500 ml jar", "Brühe"),
        ("1,5 kg Pflaumen", "1,5 kg", "Pflaumen"),
    ],
)
def test_a_german_unit_is_no_part_of_the_name(german, said, amount, item):
    line = german.line(said)
    assert (line["amount"], line["item"]) == (amount, item)


def test_an_item_of_the_book_keeps_its_name(german, book):
    book.write("item_described", {"item": "Bund Möhren", "sort": "food"})
    assert Texts(book.catalogue()).line("3 Bund Möhren")["item"] == "Bund Möhren"


def test_the_door_reads_a_german_amount_alone(german, book):
    done = book.write("harvested", {"item": "Äpfel", "amount": "drei Pfund"})
    assert done.body["lines"][0]["whole"] == 1_500_000
    with pytest.raises(InputError, match="drei Fuder"):
        book.write("harvested", {"item": "Äpfel", "amount": "drei Fuder"})


@pytest.mark.parametrize("said", ["seven pint jars", "7 16-oz jars", "7 pint jars"])
def test_jars_in_words_are_read_in_english(book, said):
    assert Texts(book.catalogue()).made(said) == {"jars": 7, "jar": "pint jar"}


def test_packs_without_a_jar_are_refused(book):
    with pytest.raises(InputError, match="neither a jar nor a place"):
        Texts(book.catalogue()).made("7 x 500 ml")


@pytest.mark.parametrize(
    ("said", "place", "span"),
    [
        ("Kühlschrank 4 Tage", "fridge", "4 days"),
        ("4 Tage Kühlschrank", "fridge", "4 days"),
        ("Keller zwei Wochen", "cellar", "2 weeks"),
        ("Gefrierschrank 1 Jahr", "freezer", "1 year"),
    ],
)
def test_how_long_it_keeps_is_said_in_german(german, book, said, place, span):
    assert german.keeps(said) == (place, span)
    book.write("item_described", {"item": "Brühe", "sort": "food", "keeps": {place: span}})


@pytest.mark.parametrize(
    ("said", "minutes"), [("Ada 90", "90"), ("Ada 1,5 h", "90"), ("Ada zwei Stunden", "120"), ("Ada 1 h 30 min", "90")]
)  # fmt: skip
def test_work_is_timed_in_german(german, said, minutes):
    assert german.work(said) == {"person": "Ada", "minutes": minutes}


@pytest.mark.parametrize("share", ["0,25", "25 %", "1/4"])
def test_a_share_that_is_left(german, share):
    assert german.left(f"1 l Eintopf Kühlschrank {share}")["share"] == "0.25"


@pytest.mark.parametrize(
    ("kind", "name", "said", "meant"),
    [
        ("person_described", "age", "39 Jahre", 39),
        ("person_described", "age", "39 years", 39),
        ("practised", "minutes", "eine Stunde", "60"),
        ("item_described", "years", "10 Jahre", "10"),
        ("seed_checked", "days", "65 Tage", 65),
    ],
)
def test_a_number_may_have_its_unit(german, kind, name, said, meant):
    body: dict = {}
    fill(body, fields_of(KINDS[kind]), {name: said}, german)
    assert body == {name: meant}


@pytest.mark.parametrize(
    ("said", "why"), [("x", "refusal-not-whole"), ("9" * 16, "refusal-number-too-large")]
)
def test_what_is_no_whole_number_is_called_that(book, said, why):
    with pytest.raises(InputError) as refused:
        fill({}, fields_of(KINDS["person_described"]), {"age": said}, Texts(book.catalogue()))
    assert (refused.value.field, refused.value.says(why)) == ("age", True)


def test_examples_of_a_refusal_are_joined_in_the_language(german):
    with pytest.raises(InputError) as refused:
        parse_measure("40", "area", "area")
    assert refused.value.parts("de")[1] == "Schreibt es wie 40 sq ft oder 4 m2"
