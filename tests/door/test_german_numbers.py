"""A German name in the other number is the book's own item, wherever it is written or asked for."""

from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from ledger import Answers, Book
from ledger.cli._root import root
from ledger.door.texts import Texts
from ledger.items import near_misses
from ledger.kinds import KINDS
from ledger.messages import speaker

PAIRS = [
    ("grüne Bohnen", "grüne Bohne"), ("Apfel", "Äpfel"), ("Tomaten", "Tomate"), ("Pflaume", "Pflaumen"),
    ("Möhren", "Möhre"), ("Gurke", "Gurken"), ("Kirschen", "Kirsche"), ("Ei", "Eier"),
]  # fmt: skip


@pytest.fixture
def book(tmp_path, fixed_day):
    with Book.open(str(tmp_path / "book.sqlite")) as book:
        book.write("setting_changed", name="language", value="de", on="2026-01-01")
        yield book


def bodies(book, kind):
    return [json.loads(row[10]) for chunk in book.log.read(kinds=(kind,)) for row in chunk]


@pytest.mark.parametrize(("first", "then"), PAIRS)
def test_the_first_spelling_holds_for_both_numbers(book, first, then):
    for name in (first, then):
        book.write("harvested", lines=[{"item": name, "amount": "2"}], on="2026-09-02")
    book.write("eaten", ate=[{"item": then, "amount": "3"}], on="2026-09-03")
    assert {line["item"] for body in bodies(book, "harvested") for line in body["lines"]} == {first}
    assert [row["item"] for row in book.show("shelf", items=True).records()] == [first]
    assert [body["item"] for body in bodies(book, "item_described")] == [first]


def test_both_numbers_in_one_entry_are_one_item(book):
    lines = [{"item": "Birnen", "amount": "2"}, {"item": "Birne", "amount": "1"}]
    book.write("harvested", lines=lines, on="2026-09-02")
    assert [body["item"] for body in bodies(book, "item_described")] == ["Birnen"]


def test_what_is_said_of_one_number_holds_for_the_other(book):
    book.write("harvested", lines=[{"item": "Äpfel", "amount": "2 kg"}], on="2026-09-02")
    book.write(
        "item_described", item="Apfel", sort="food", keeps={"cellar": "60 days"}, on="2026-09-02"
    )
    assert bodies(book, "item_described")[-1]["item"] == "Äpfel"


def test_other_names_are_found_in_both_numbers_too(book):
    book.write("item_described", item="Karotte", sort="food", also=["Möhre"], on="2026-09-01")
    book.write("harvested", lines=[{"item": "Möhren", "amount": "2 kg"}], on="2026-09-02")
    assert bodies(book, "harvested")[0]["lines"][0]["item"] == "Karotte"


def test_names_that_were_kept_apart_stay_apart(book):
    for name in ("Kohl", "Kohle", "Kraut", "Kräuter"):
        lines = [{"item": name, "amount": "2 kg"}]
        book.write("harvested", answers=Answers(ask=lambda _: False), lines=lines, on="2026-09-02")
    assert len(bodies(book, "item_described")) == 4


def test_said_and_typed_come_to_one_item(book, tmp_path):
    place = str(tmp_path / "book.sqlite")
    for words in (["harvest", "1 kg Buschbohne"], ["say", "3 kg Buschbohnen geerntet"]):
        done = CliRunner().invoke(root, [*words, "--book", place])
        assert done.exit_code == 0, done.output
    assert {line["item"] for body in bodies(book, "harvested") for line in body["lines"]} == {
        "Buschbohne"
    }


def test_lids_that_nobody_named_have_a_german_name(book):
    batch = {
        "makes": "Apfelmus", "used": [{"item": "Äpfel", "amount": "3 kg"}], "method": "boiling water",
        "made": [{"jars": 3, "jar": "500 ml jar"}],
    }  # fmt: skip
    book.write("put_up", batch, on="2026-09-02")
    assert bodies(book, "put_up")[0]["made"][0]["lids"] == "Deckel"
    assert {body["sort"] for body in bodies(book, "item_described")} == {"food", "jar", "lid"}


def test_what_a_german_container_weighs_counts_for_it(book):
    texts = Texts(book.catalogue())
    assert texts.pair("Eimer 8 kg") == ("bucket", "8000")
    assert texts.pair("Dose 400") == ("can", "400")
    assert texts.pair("Butte 12") == ("Butte", "12")


@pytest.mark.parametrize(
    ("text", "jar"),
    [
        ("5 Quart Gläser", "quart jar"), ("5 Quart-Gläser", "quart jar"), ("5 Gläser zu 1 l", "1 l jar"),
        ("5 500-ml-Gläser", "500 ml jar"), ("5 Halblitergläser Keller", "500 ml jar"),
    ],
)  # fmt: skip
def test_german_jars_are_read(book, text, jar):
    made = Texts(book.catalogue()).made(text)
    assert (made["jars"], made["jar"]) == (5, jar)


def test_a_compound_is_no_slip_of_what_it_is_made_of(book):
    book.write("harvested", lines=[{"item": "Pflaumen", "amount": "2 kg"}], on="2026-09-02")
    assert near_misses("Pflaumenmus", ["Pflaumen"]) == []
    assert near_misses("Pflaumem", ["Pflaumen"]) == ["Pflaumen"]
    lines = [{"item": "Pflaumenmus", "amount": "200 g"}]
    book.write("received", how="gift", lines=lines, on="2026-09-02")
    assert bodies(book, "received")[0]["lines"][0]["item"] == "Pflaumenmus"


@pytest.mark.parametrize(
    ("typed", "shown"),
    [("1,5 kg", "1,5 kg"), ("1,250 kg", "1,250 kg"), ("0,25 kg", "0,25 kg"), ("1.5 kg", "1,5 kg")],
)
def test_a_decimal_comma_is_shown_as_it_was_typed(book, typed, shown):
    written = book.write("harvested", lines=[{"item": "Birnen", "amount": typed}], on="2026-09-02")
    assert speaker("de").text(KINDS["harvested"].says(written.body)) == f"geerntet: {shown} Birnen"
